"""What a cut plan comes to: the outlay by its parts, and where the wood goes."""

from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction

from service.domain.resolving import ResolvedBuild
from service.domain.solid import Rod, Solid
from service.planning.whole import CutPlan

CENT = Decimal("0.01")


@dataclass(frozen=True, slots=True)
class Outlay:
    """Money for a plan, to the cent: wood and its proven bound, spare boards, store cuts, tax."""

    cost: Decimal
    bound: Decimal
    spare: Decimal
    store_cuts: Decimal
    tax: Decimal

    @property
    def total(self) -> Decimal:
        """Everything together."""
        return self.cost + self.spare + self.store_cuts + self.tax

    @property
    def gap_percent(self) -> float:
        """By how much, in percent, the wood might be bought cheaper."""
        return round(float(100 * (self.cost - self.bound) / self.cost), 2) if self.cost else 0.0


@dataclass(frozen=True, slots=True)
class WoodShares:
    """Of all wood taken in hand, by volume in percent: in the parts, kept, and waste."""

    used: float
    kept: float
    waste: float


def outlay_of(build: ResolvedBuild, plan: CutPlan) -> Outlay:
    """What a plan costs; stocks without a price add nothing."""
    fee = store_fee(build, plan)
    percent = build.build.buying.tax_percent or Decimal(0)
    taxed = (plan.cost + plan.spare_cost + fee) * percent / 100
    amounts = (plan.cost, plan.bound, plan.spare_cost, fee, taxed)
    return Outlay(*(amount.quantize(CENT, ROUND_HALF_UP) for amount in amounts))


def store_fee(build: ResolvedBuild, plan: CutPlan) -> Decimal:
    """What the store asks for its cuts, after the free ones."""
    store = build.build.buying.store_cuts
    if store is None or store.each is None:
        return Decimal(0)
    return store.each * max(0, counted_store_cuts(plan) - store.free)


def counted_store_cuts(plan: CutPlan) -> int:
    """Cuts that the store makes; squaring a raw edge is not counted."""
    return sum(
        cut.by == "store" and not cut.trim
        for one in plan.sheets
        for sheet in one.plan.sheets
        for cut in sheet.cuts
    )


def shares_of(build: ResolvedBuild, plan: CutPlan) -> WoodShares:
    """Where the wood of a plan goes."""
    whole = used = kept = Fraction(0)
    each = {id: volume(build, id) for id in build.by_id}
    for one in plan.boards:
        section = one.asked.job.width * one.asked.job.thickness
        for board in one.plan.boards:
            whole += section * board.length
            for (start, end), keep in zip(board.rests, board.keep, strict=True):
                kept += section * (end - start) * keep
            used += sum((each[piece.part] for piece in board.pieces), Fraction(0))
    for two in plan.sheets:
        thick = two.asked.panel.thickness.listed
        for sheet in two.plan.sheets:
            whole += thick * sheet.sheet.length * sheet.sheet.width
            kept += thick * sum((rest.area.size for rest in sheet.rests if rest.keep), Fraction(0))
            used += sum((each[placed.panel] for placed in sheet.panels), Fraction(0))
    if not whole:
        return WoodShares(0.0, 0.0, 0.0)
    in_parts, put_by = (round(float(100 * part / whole), 1) for part in (used, kept))
    return WoodShares(in_parts, put_by, round(100 - in_parts - put_by, 1))


def volume(build: ResolvedBuild, part: str) -> Fraction:
    """Cubic inches of one piece: the part, or one of the strips it is glued up from."""
    resolved = build.by_id[part]
    solid, glue_up = resolved.solid, resolved.part.glued_from
    if not isinstance(solid, Solid | Rod):
        return Fraction(0)
    return solid.volume / (glue_up.boards if glue_up else 1)
