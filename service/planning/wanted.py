"""From a resolved build to jobs: what is wanted of each stock, and where it may come from."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Literal

from service.domain.build import Offcut, Planned
from service.domain.catalog import BoardSize, PanelSize
from service.domain.ends import Slant
from service.domain.material import GRAINLESS
from service.domain.parts import ResolvedPart
from service.domain.resolving import ResolvedBuild
from service.domain.solid import Rod, Solid
from service.domain.tape import plain
from service.planning.job import Job, Part
from service.planning.offers import (
    Choice,
    Stock,
    boards_for_sale,
    boards_on_hand,
    by_area,
    by_length,
    sheets_to_use,
)
from service.planning.panels.asking import Cutting, Panel, Sheet

Why = Literal["unknown-stock", "stock-without-a-name", "no-size", "points-cross"]

FULL_KERF = "saw_limits/table-saw.kerf.full"
KEEP = Fraction(6)  # in; a smaller rest of a sheet is scrap unless the caller keeps it
RIPPING = frozenset({"table-saw", "band-saw"})


@dataclass(frozen=True, slots=True)
class Left:
    """A part that no plan is made for, and why."""

    part: str
    quantity: int
    why: Why


@dataclass(frozen=True, slots=True)
class BoardJob:
    """Boards of one stock. Without prices every board counts by its length."""

    stock: Stock
    board: BoardSize
    job: Job
    priced: bool

    def without_kerf(self) -> "BoardJob":
        """The same if a saw took no wood."""
        return replace(self, job=replace(self.job, kerf=Fraction(0)))


@dataclass(frozen=True, slots=True)
class SheetJob:
    """Sheets of one stock. Without prices every sheet counts by its area."""

    stock: Stock
    panel: PanelSize
    panels: tuple[Panel, ...]
    sheets: tuple[Sheet, ...]
    cutting: Cutting
    priced: bool

    def without_kerf(self) -> "SheetJob":
        """The same if a saw took no wood."""
        return replace(self, cutting=replace(self.cutting, kerf=Fraction(0)))


@dataclass(frozen=True, slots=True)
class Wanted:
    """Everything to be planned for a build, stock by stock in document order."""

    boards: tuple[BoardJob, ...]
    sheets: tuple[SheetJob, ...]
    left: tuple[Left, ...]


def wanted_of(build: ResolvedBuild, choice: Choice) -> Wanted:
    """The jobs of a build. Parts that can't be planned are named with the reason."""
    grouped: dict[Stock, list[ResolvedPart]] = {}
    left: list[Left] = []
    for part in build.parts:
        if not choice.count(part):
            continue
        why = unplannable(part)
        if why is not None:
            left.append(Left(part.part.id, choice.count(part), why))
            continue
        grouped.setdefault(stock_of(part, build), []).append(part)
    boards, sheets = [], []
    for stock, parts in grouped.items():
        first = parts[0].sized
        if first is not None and first.board is not None:
            boards.append(board_job(build, stock, first.board, parts, choice))
        elif first is not None and first.panel is not None:
            sheets.append(sheet_job(build, stock, first.panel, parts, choice))
    return Wanted(tuple(boards), tuple(sheets), tuple(left))


def unplannable(part: ResolvedPart) -> Why | None:
    """Why a part can't be planned, if it can't."""
    if part.sized is None:
        return "unknown-stock"
    if part.sized.key is None:
        return "stock-without-a-name"
    if part.solid is None:
        return "no-size"
    return None if isinstance(part.solid, Solid | Rod) else "points-cross"


def stock_of(part: ResolvedPart, build: ResolvedBuild) -> Stock:
    """The stock that a part is bought as; by wood only where a price names one."""
    key = (part.sized.key if part.sized else None) or ""
    woods = {
        build.catalog.key("wood", build.build.region, price.wood)
        for price in build.build.buying.prices
        if price.wood and build.sizing.key(price.stock) == key
    }
    wood = part.wood.key if part.wood else None
    return Stock(key, wood if wood in woods else None, reserved_for(part, key, build))


def reserved_for(part: ResolvedPart, key: str, build: ResolvedBuild) -> tuple[str, ...]:
    """The parts that share boards kept for them, if boards are kept for this one."""
    buying = build.build.buying
    kept: list[Planned | Offcut] = [*buying.planned, *buying.offcuts]
    return next(
        (
            entry.reserved
            for entry in kept
            if part.part.id in entry.reserved and build.sizing.key(entry.stock) == key
        ),
        (),
    )


def board_job(
    build: ResolvedBuild, stock: Stock, board: BoardSize, parts: list[ResolvedPart], choice: Choice
) -> BoardJob:
    """What is wanted of one board stock."""
    shop, buying = build.build.shop, build.build.buying
    for_sale = tuple(boards_for_sale(build, stock, board, choice))
    priced = any(sale.price for sale in for_sale)
    width, thickness = section_of(board, parts)
    job = Job(
        parts=tuple(part for resolved in parts for part in strips_of(resolved, choice)),
        for_sale=for_sale if priced else tuple(by_length(for_sale)),
        on_hand=tuple(boards_on_hand(build, stock, width)),
        kerf=kerf_of(build),
        end_trim=shop.end_trim,
        longest=shop.longest_board,
        keep_at_least=buying.keep_at_least,
        spare=0 if choice.planned_only or choice.pieces else buying.spare,
        width=width,
        thickness=thickness,
        rips=can_rip(build),
    )
    return BoardJob(stock, board, job, priced)


def kerf_of(build: ResolvedBuild) -> Fraction:
    """What the saw takes: as the caller says, else as a full-kerf circular blade does."""
    own = build.build.shop.kerf
    if own is not None:
        return own
    return next(limit.high for limit in build.catalog.saws if limit.row == FULL_KERF)


def assumed_kerf(build: ResolvedBuild) -> tuple[str, ...]:
    """What is taken for granted of the saw, in words; nothing where the caller tells its kerf."""
    if build.build.shop.kerf is not None:
        return ()
    return (f"the saw takes {plain(kerf_of(build), build.metric)}, as a full-kerf blade does",)


def section_of(board: BoardSize, parts: list[ResolvedPart]) -> tuple[Fraction, Fraction]:
    """Width and thickness of the boards: as the caller measured them, else as listed."""
    bought = [p.sized for p in parts if p.sized is not None and p.part.glued_from is None]
    widths = [one.stock_width.listed for one in bought if one.stock_width]
    listed = board.width.listed if board.width else Fraction(0)
    thickness = (one.stock_thickness.listed for one in bought)
    return max(widths, default=listed), max(thickness, default=board.thickness.listed)


def can_rip(build: ResolvedBuild) -> bool:
    """Whether the caller owns a saw that rips."""
    region = build.build.region
    return any(
        saw.rips if saw.rips is not None else build.catalog.key("saw", region, saw.kind) in RIPPING
        for saw in build.build.shop.saws
    )


def strips_of(resolved: ResolvedPart, choice: Choice) -> Iterator[Part]:
    """A part as pieces of board: one, or the strips that it is glued up from.

    Mirror images have their ends the other way round.
    """
    part, solid, sized = resolved.part, resolved.solid, resolved.sized
    if not isinstance(solid, Solid | Rod) or sized is None:
        return
    boards = part.glued_from.boards if part.glued_from else 1
    board = None if part.glued_from else sized.stock_width
    fits_as_bought = board is None or board.listed <= solid.blank_width <= board.high
    first, second = solid.slants
    mirrored = min(part.mirrored, choice.count(resolved))
    for quantity, ends in (
        (choice.count(resolved) - mirrored, (first, second)),
        (mirrored, (flipped(first), flipped(second))),
    ):
        if quantity:
            yield Part(
                id=part.id,
                length=solid.center_length,
                quantity=quantity * boards,
                first=ends[0],
                second=ends[1],
                turns_over=not part.shows & {"front", "back"},
                width=None if fits_as_bought else solid.blank_width,
            )


def flipped(slant: Slant) -> Slant:
    """The end of the mirror image, top for bottom."""
    return Slant(-slant.across, slant.through)


def sheet_job(
    build: ResolvedBuild, stock: Stock, panel: PanelSize, parts: list[ResolvedPart], choice: Choice
) -> SheetJob:
    """What is wanted of one panel stock."""
    shop, buying = build.build.shop, build.build.buying
    grainless = panel.material in GRAINLESS
    sheets = tuple(sheets_to_use(build, stock, panel, choice, grained=not grainless))
    priced = any(sheet.price for sheet in sheets)
    store, longest = buying.store_cuts, shop.longest_board
    cutting = Cutting(
        kerf=kerf_of(build),
        trim=shop.end_trim,
        carry=(longest, longest) if longest is not None else None,
        store_cuts=0 if store is None else store.at_most,
        keep_at_least=buying.keep_at_least or KEEP,
    )
    panels = tuple(panel_of(part, choice.count(part), grainless) for part in parts)
    return SheetJob(stock, panel, panels, sheets if priced else by_area(sheets), cutting, priced)


def panel_of(resolved: ResolvedPart, quantity: int, grainless: bool) -> Panel:
    """A part as a rectangle, its grain along the length of the sheet."""
    part, solid = resolved.part, resolved.solid
    assert isinstance(solid, Solid | Rod)
    along, across = solid.blank_length, solid.blank_width
    if part.grain == "width":
        along, across = across, along
    return Panel(part.id, along, across, quantity, turns=grainless or part.grain == "any")
