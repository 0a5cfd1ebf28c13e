"""The cut plan of a whole build: every stock planned, and what the plans come to together."""

from dataclasses import dataclass, replace
from decimal import Decimal
from fractions import Fraction
from time import monotonic
from typing import Literal

from service.domain.deadline import seconds_for_a_search
from service.domain.resolving import ResolvedBuild
from service.planning.engines import (
    plan_boards,
    plan_longest_first,
    plan_sheets,
    plan_tip_to_tip,
)
from service.planning.job import CutBoard, ForSale, Plan
from service.planning.offers import Choice
from service.planning.panels.planned import SheetPlan
from service.planning.wanted import BoardJob, Left, SheetJob, wanted_of

Enough = Literal["yes", "no", "unknown"]


@dataclass(frozen=True, slots=True)
class Alone:
    """What the same parts cost when only one length is bought (None: they can't be cut)."""

    length: Fraction
    cost: Decimal | None


@dataclass(frozen=True, slots=True)
class Comparison:
    """What a plan is held against.

    `longest_first` fills boards of one length with the longest piece that still fits;
    `tip_to_tip` cuts every slanted part from a square blank. None where a plan is not made.
    `alone` lacks lengths where it is `out_of_time`.
    """

    longest_first: Plan | None
    tip_to_tip: Plan | None
    alone: tuple[Alone, ...]
    out_of_time: bool = False


@dataclass(frozen=True, slots=True)
class PlannedBoards:
    """Boards of one stock: what was asked, the plan, and what it is compared with."""

    asked: BoardJob
    plan: Plan
    comparison: Comparison | None = None


@dataclass(frozen=True, slots=True)
class PlannedSheets:
    """Sheets of one stock: what was asked, and the plan."""

    asked: SheetJob
    plan: SheetPlan


@dataclass(frozen=True, slots=True)
class CutPlan:
    """The plans of all stocks. Money is the caller's; stocks without a price add nothing to it."""

    boards: tuple[PlannedBoards, ...]
    sheets: tuple[PlannedSheets, ...]
    left: tuple[Left, ...]

    @property
    def all(self) -> tuple[PlannedBoards | PlannedSheets, ...]:
        """Every stock's plan."""
        return (*self.boards, *self.sheets)

    @property
    def status(self) -> Literal["optimal", "feasible"]:
        """Optimal only if every stock's plan is proved to be."""
        return "optimal" if all(one.plan.status == "optimal" for one in self.all) else "feasible"

    @property
    def cost(self) -> Decimal:
        """What the boards and sheets cost that the parts need."""
        return sum((one.plan.cost for one in self.all if one.asked.priced), Decimal(0))

    @property
    def bound(self) -> Decimal:
        """No plan costs less."""
        return sum((one.plan.bound for one in self.all if one.asked.priced), Decimal(0))

    @property
    def spare_cost(self) -> Decimal:
        """What boards bought to spare cost on top."""
        return sum((one.plan.spare_cost for one in self.boards if one.asked.priced), Decimal(0))

    @property
    def enough(self) -> Enough:
        """Whether everything can be cut from what there is."""
        found = {enough(one.plan) for one in self.all} | ({"no"} if self.left else set())
        return "no" if "no" in found else "unknown" if "unknown" in found else "yes"

    @property
    def deadline_met(self) -> bool:
        """Whether a clock, not the counted work, ended a search."""
        return any(one.plan.deadline_met for one in self.all)


def enough(plan: Plan | SheetPlan) -> Enough:
    """Whether a plan places every piece; an unproved shortfall is unknown."""
    if not plan.unplaced:
        return "yes"
    if isinstance(plan, SheetPlan):
        return plan.enough
    return "no" if plan.status == "optimal" else "unknown"


def plan_build(
    build: ResolvedBuild, *, seconds: float, compare: bool = False, choice: Choice | None = None
) -> CutPlan:
    """Plan every stock of a build within a deadline that they share."""
    wanted = wanted_of(build, choice or Choice())
    shares = len(wanted.boards) * (1 + compare) + len(wanted.sheets)
    clock = Shares(seconds_for_a_search(seconds), shares)
    boards = []
    for job in wanted.boards:
        plan = plan_boards(job.job, seconds=clock.next())
        held = comparison(job, clock.next()) if compare else None
        boards.append(PlannedBoards(job, safe_order(plan, job), held))
    sheets = [
        PlannedSheets(
            job, plan_sheets(job.panels, job.sheets, job.cutting, deadline_s=clock.next())
        )
        for job in wanted.sheets
    ]
    return CutPlan(tuple(boards), tuple(sheets), wanted.left)


class Shares:
    """A deadline shared out: each stock gets an equal part of what is left."""

    def __init__(self, seconds: float, shares: int) -> None:
        self._end, self._shares = monotonic() + seconds, shares

    def left(self) -> float:
        """Seconds to the deadline."""
        return max(0.05, self._end - monotonic())

    def rang(self) -> bool:
        """Whether no time is left."""
        return monotonic() >= self._end

    def next(self) -> float:
        """Seconds for the next stock."""
        share = self.left() / max(1, self._shares)
        self._shares -= 1
        return share


def comparison(asked: BoardJob, seconds: float) -> Comparison:
    """The plain plan, the plan without nesting, and each length bought alone."""
    job = asked.job
    slanted = any(not part.square for part in job.parts)
    lengths = job.for_sale if len(job.for_sale) > 1 else ()
    clock = Shares(seconds, slanted + len(lengths))
    tips = plan_tip_to_tip(job, seconds=clock.next()) if slanted else None
    alone = []
    for sale in lengths:
        if clock.rang():
            break
        alone.append(bought_alone(asked, sale, clock.next()))
    return Comparison(plan_longest_first(job), tips, tuple(alone), len(alone) < len(lengths))


def bought_alone(asked: BoardJob, sale: ForSale, seconds: float) -> Alone:
    """The cost with one length for sale only."""
    plan = plan_boards(replace(asked.job, for_sale=(sale,)), seconds=seconds)
    return Alone(sale.length, None if plan.unplaced else plan.cost)


def safe_order(plan: Plan, asked: BoardJob) -> Plan:
    """Short pieces first, so that the last cut leaves a long piece to hold.

    Only boards of square pieces without defects or rips are reordered: there the order is free.
    """
    return replace(plan, boards=tuple(shortest_first(board, asked) for board in plan.boards))


def shortest_first(board: CutBoard, asked: BoardJob) -> CutBoard:
    """The same pieces on the same board, from the shortest to the longest."""
    free = not board.strips and len(board.rests) <= 1 and not defects(board, asked)
    if not free or any(any(piece.left) or any(piece.right) for piece in board.pieces):
        return board
    at, pieces = asked.job.end_trim, []
    for piece in sorted(board.pieces, key=lambda piece: piece.end - piece.start):
        length = piece.end - piece.start
        pieces.append(replace(piece, start=at, end=at + length))
        at += length + asked.job.kerf
    return replace(board, pieces=tuple(pieces))


def defects(board: CutBoard, asked: BoardJob) -> bool:
    """Whether a board on hand has wood that no part may span."""
    return board.source == "on-hand" and bool(asked.job.on_hand[board.entry].defects)
