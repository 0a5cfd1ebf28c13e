"""A cut plan as a purchase: what is bought and on hand, and where its wood ends up."""

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from typing import Literal

from service.domain.purchase import Bought, Purchase
from service.domain.resolving import ResolvedBuild
from service.domain.solid import Rod, Solid
from service.planning.adding_up import counted_store_cuts
from service.planning.job import CutBoard
from service.planning.panels.planned import CutSheet
from service.planning.shortfall import missing_from
from service.planning.whole import CutPlan, PlannedBoards, PlannedSheets

Source = Literal["store", "on-hand"]


@dataclass(frozen=True, slots=True)
class WoodShares:
    """Of all wood taken in hand, by volume in percent: in the parts, kept, and waste."""

    used: float
    kept: float
    waste: float


def shares_of(build: ResolvedBuild, plan: CutPlan) -> WoodShares:
    """Where the wood of a plan goes; boards bought to spare are not taken in hand."""
    lines = [*boards_of(build, plan), *sheets_of(build, plan)]
    whole = sum((line.volume or Fraction(0) for line in lines), Fraction(0))
    if not whole:
        return WoodShares(0.0, 0.0, 0.0)
    used = sum((line.in_parts or Fraction(0) for line in lines), Fraction(0))
    kept = sum((line.kept or Fraction(0) for line in lines), Fraction(0))
    in_parts, put_by = (round(float(100 * share / whole), 1) for share in (used, kept))
    return WoodShares(in_parts, put_by, round(100 - in_parts - put_by, 1))


def purchase_of(build: ResolvedBuild, plan: CutPlan) -> Purchase:
    """Every board and sheet of a plan, those alike in one line."""
    lines: dict[tuple[str, Fraction, Fraction | None, Source, Decimal | None], Bought] = {}
    for one in (*boards_of(build, plan), *sheets_of(build, plan), *spares_of(plan)):
        key = (one.stock, one.length, one.width, one.source, one.price)
        lines[key] = together(lines[key], one) if key in lines else one
    lacking = tuple(missing_from(plan))
    return Purchase(tuple(lines.values()), store_cuts=counted_store_cuts(plan), lacking=lacking)


def together(one: Bought, other: Bought) -> Bought:
    """Two lines of boards alike as one."""

    def added(first: Fraction | None, second: Fraction | None) -> Fraction:
        return (first or Fraction(0)) + (second or Fraction(0))

    return Bought(
        one.stock, one.length, one.width, one.count + other.count, one.price, one.source,
        added(one.volume, other.volume), added(one.in_parts, other.in_parts),
        added(one.kept, other.kept), added(one.waste, other.waste),
    )  # fmt: skip


def boards_of(build: ResolvedBuild, plan: CutPlan) -> Iterator[Bought]:
    """Each board of a plan."""
    for one in plan.boards:
        section = one.asked.job.width * one.asked.job.thickness
        for board in one.plan.boards:
            used = sum((volume(build, piece.part) for piece in board.pieces), Fraction(0))
            kept = one.asked.job.thickness * board.kept(one.asked.job.width)
            yield bought(
                one, board, length=board.length, width=None, whole=section * board.length,
                used=used, kept=kept,
            )  # fmt: skip


def sheets_of(build: ResolvedBuild, plan: CutPlan) -> Iterator[Bought]:
    """Each sheet of a plan."""
    for one in plan.sheets:
        thick = one.asked.panel.thickness.listed
        for cut in one.plan.sheets:
            whole = thick * cut.sheet.length * cut.sheet.width
            used = sum((volume(build, placed.panel) for placed in cut.panels), Fraction(0))
            kept = thick * sum((rest.area.size for rest in cut.rests if rest.keep), Fraction(0))
            yield bought(
                one, cut, length=cut.sheet.length, width=cut.sheet.width, whole=whole,
                used=used, kept=kept,
            )  # fmt: skip


def volume(build: ResolvedBuild, part: str) -> Fraction:
    """Cubic inches of one piece: the part, or one of the strips it is glued up from."""
    resolved = build.by_id[part]
    solid, glue_up = resolved.solid, resolved.part.glued_from
    if not isinstance(solid, Solid | Rod):
        return Fraction(0)
    return solid.volume / (glue_up.boards if glue_up else 1)


def bought(
    one: PlannedBoards | PlannedSheets,
    cut: CutBoard | CutSheet,
    *,
    length: Fraction,
    width: Fraction | None,
    whole: Fraction,
    used: Fraction,
    kept: Fraction,
) -> Bought:
    """One board or sheet with the cubic inches that end up in parts, are kept, and are waste."""
    on_hand = cut.sheet.on_hand if isinstance(cut, CutSheet) else cut.source == "on-hand"
    price = cut.sheet.price if isinstance(cut, CutSheet) else cut.price
    known = Decimal(0) if on_hand else price if one.asked.priced else None
    source: Source = "on-hand" if on_hand else "store"
    return Bought(
        one.asked.stock.key, length, width, 1, known, source, whole, used, kept,
        whole - used - kept,
    )  # fmt: skip


def spares_of(plan: CutPlan) -> Iterator[Bought]:
    """Boards bought to spare: nothing is cut from them yet."""
    for one in plan.boards:
        section = one.asked.job.width * one.asked.job.thickness
        for row in one.plan.buy:
            if row.spare:
                whole = section * row.length * row.spare
                yield Bought(
                    one.asked.stock.key, row.length, None, row.spare,
                    row.price if one.asked.priced else None, "store", whole, Fraction(0), whole,
                    Fraction(0),
                )  # fmt: skip
