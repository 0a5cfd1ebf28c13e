"""What boards to buy and how to cut them: the whole answer for one stock."""

from collections.abc import Sequence
from dataclasses import replace
from decimal import Decimal
from fractions import Fraction
from typing import Final

from service.domain.deadline import within
from service.domain.errors import OutOfTime
from service.planning.effort import Clock, Effort
from service.planning.filling import first_fit
from service.planning.goals import Goals, reach
from service.planning.job import SQUARE, CutBoard, Job, Plan, Purchase, Unplaced
from service.planning.laying_out import boards_bought, lay_out
from service.planning.nesting import tip_to_tip
from service.planning.problem import Cuts, Problem, cost_of
from service.planning.proof import check_proof
from service.planning.scaling import Scaled, scaled, wood_of

NOT_ENOUGH: Final = "not-enough-boards"
EFFORT = Effort()
OVERTIME, LEEWAY = 1.1, 0.1  # of its seconds, and more seconds, until a search is broken off


def plan_boards(
    job: Job, *, seconds: float | None = 20.0, effort: Effort = EFFORT, recheck: bool = False
) -> Plan:
    """The least money, then the fewest boards bought, then the longest single rest.

    `seconds` is the wall clock as the last resort; the counted `effort` ends the search first,
    and then the same job has the same plan everywhere. With `recheck` the proof is followed
    again in plain whole numbers, and `Plan.rechecked` says whether it holds. A search that does
    not end soon after its clock rang, because one step of it takes long, gives the plain plan.
    """
    if seconds is None:
        return _searched(job, Clock(None), effort, recheck)
    try:
        with within(seconds * OVERTIME + LEEWAY):
            return _searched(job, Clock(seconds), effort, recheck)
    except OutOfTime:
        return replace(plan_longest_first(job), deadline_met=True)


def _searched(job: Job, clock: Clock, effort: Effort, recheck: bool) -> Plan:
    whole = scaled(job)
    if not whole.problem.lengths or not whole.sources:
        return _empty(whole)
    goals = _reach(whole, clock, effort)
    bound = goals.cost_bound
    if whole.rounded:
        rosy = _reach(scaled(job, rosy=True), clock, effort, rest=False)
        bound = min(goals.cost, rosy.cost_bound)
    plan = _plan(whole, goals, bound)
    if recheck and goals.proof is not None and not whole.rounded:
        holds = check_proof(goals.problem, goals.proof, goals.proof_cost)
        plan = replace(plan, rechecked=holds)
    return plan


def plan_tip_to_tip(job: Job, *, seconds: float | None = 20.0, effort: Effort = EFFORT) -> Plan:
    """The same with a square blank for every slanted part: what nesting is compared with."""
    wood = wood_of(job)
    blanks = tuple(replace(part, length=tip_to_tip(part, wood), first=SQUARE, second=SQUARE)
                   for part in job.parts)  # fmt: skip
    return plan_boards(replace(job, parts=blanks), seconds=seconds, effort=effort)


def plan_longest_first(job: Job) -> Plan:
    """The plain plan: one length for sale, the cheapest an inch that holds the longest part.

    Every board is filled with the longest piece that still fits. Boards on hand come first.
    """
    whole = scaled(job, nested=False)
    if not whole.problem.lengths or not whole.sources:
        return _empty(whole)
    cuts = _longest_first(whole.problem)
    if cuts is None:
        return replace(_empty(whole), unplaced=tuple(
            Unplaced(part.id, part.quantity, NOT_ENOUGH) for part in job.parts))  # fmt: skip
    cost = cost_of(whole.problem, cuts)
    boards = lay_out(whole, cuts)
    return Plan("feasible", _money(cost, whole), Decimal(0), boards,
                _purchases(whole, cuts), whole.unplaced)  # fmt: skip


def _longest_first(problem: Problem) -> Cuts | None:
    supplies = problem.supplies
    own = [k for k, s in enumerate(supplies) if s.price == 0]
    sold = [k for k, s in enumerate(supplies) if s.price > 0 and s.capacity >= problem.lengths[0]]
    sold.sort(key=lambda k: (Fraction(supplies[k].price, supplies[k].capacity), k))
    own.sort(key=lambda k: (-supplies[k].capacity, k))
    return first_fit(problem, [*own, *sold])


def _reach(whole: Scaled, clock: Clock, effort: Effort, *, rest: bool = True) -> Goals:
    bought = [not source.on_hand for source in whole.sources]
    return reach(whole.problem, bought, clock, effort, hidden=whole.hidden, rest=rest)


def _plan(whole: Scaled, goals: Goals, bound: int) -> Plan:
    own = tuple(cut for cut in goals.cuts if cut.supply < len(whole.sources))
    boards = lay_out(whole, own)
    least = goals.short_proved and goals.cost <= bound
    return Plan(
        status="optimal" if least and not whole.notes else "feasible",
        cost=_money(goals.cost, whole),
        bound=_money(bound, whole) if goals.short_proved else Decimal(0),
        boards=boards,
        buy=_purchases(whole, own),
        unplaced=(*whole.unplaced, *_left_out(whole, boards)),
        fewest=least and goals.fewest,
        largest_rest=least and goals.rest_proved,
        deadline_met=goals.deadline_met,
        notes=whole.notes,
    )


def _left_out(whole: Scaled, boards: Sequence[CutBoard]) -> list[Unplaced]:
    cut: dict[str, int] = {}
    for board in boards:
        for piece in board.pieces:
            cut[piece.part] = cut.get(piece.part, 0) + 1
    named = {part.part for part in whole.unplaced}
    return [
        Unplaced(part.id, part.quantity - cut.get(part.id, 0), NOT_ENOUGH)
        for part in whole.job.parts
        if part.id not in named and part.quantity > cut.get(part.id, 0)
    ]


def _money(whole_money: int, whole: Scaled) -> Decimal:
    return Decimal(whole_money) / whole.money


def _purchases(whole: Scaled, cuts: Cuts) -> tuple[Purchase, ...]:
    """Boards to buy, longest first; spare ones of the cheapest length that holds every part."""
    job, counts = whole.job, boards_bought(cuts, whole)
    spare = _spare_entry(whole) if job.spare else None
    rows = []
    for entry, board in enumerate(job.for_sale):
        extra = job.spare if entry == spare else 0
        if counts.get(entry, 0) or extra:
            rows.append(Purchase(board.length, board.price, counts.get(entry, 0), extra))
    return tuple(sorted(rows, key=lambda row: -row.length))


def _spare_entry(whole: Scaled) -> int | None:
    problem = whole.problem
    longest = max(problem.steps(((item, 1),)) for item in range(len(problem.lengths)))
    fit = [(s.price, k) for k, s in enumerate(problem.supplies)
           if not whole.sources[k].on_hand and s.capacity >= longest]  # fmt: skip
    return whole.sources[min(fit)[1]].entry if fit else None


def _empty(whole: Scaled) -> Plan:
    """Nothing can be cut."""
    named = {part.part for part in whole.unplaced}
    rest = tuple(
        Unplaced(part.id, part.quantity, "no-boards")
        for part in whole.job.parts
        if part.id not in named
    )
    return Plan("optimal", Decimal(0), Decimal(0), (), (), (*whole.unplaced, *rest),
                True, True, notes=whole.notes)  # fmt: skip
