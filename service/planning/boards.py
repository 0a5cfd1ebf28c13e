"""What boards to buy and how to cut them: the whole answer for one stock."""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import replace
from decimal import Decimal
from fractions import Fraction
from typing import NamedTuple

from service.domain.deadline import within
from service.domain.errors import OutOfTime
from service.planning.effort import Clock, Effort
from service.planning.filling import first_fit
from service.planning.goals import Goals, reach
from service.planning.job import SQUARE, CutBoard, Job, Plan, Purchase, Unplaced, WhyNot
from service.planning.laying_out import boards_bought, lay_out
from service.planning.nesting import tip_to_tip
from service.planning.problem import Cuts, Problem, cost_of
from service.planning.proof import check_proof
from service.planning.scaling import Scaled, in_easier_wood, scaled, wood_of

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
    plan = _plan(whole, goals, _floor(whole, goals, clock, effort))
    if recheck and goals.proof is not None and whole.exact:
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
    cuts = _longest_first(whole.problem) or ()
    boards = lay_out(whole, cuts)
    return Plan("feasible", _money(cost_of(whole.problem, cuts), whole), Decimal(0), boards,
                _purchases(whole, cuts), _unplaced(whole, boards))  # fmt: skip


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


class _Floor(NamedTuple):
    """What no plan costs less than, in whole money, and whether none places more pieces."""

    cost: int
    fewest_out: bool


def _floor(whole: Scaled, goals: Goals, clock: Clock, effort: Effort) -> _Floor:
    """The floor under every plan of the job, not only under those in whole numbers."""
    if whole.exact:
        return _Floor(goals.cost_bound if goals.short_proved else 0, goals.short_proved)
    job = in_easier_wood(whole) if whole.narrowed else whole.job
    rosy = _reach(scaled(job, rosy=True), clock, effort, rest=False)
    sure = rosy.short_proved and rosy.short == goals.short
    return _Floor(min(goals.cost, rosy.cost_bound) if sure else 0, sure)


def _plan(whole: Scaled, goals: Goals, floor: _Floor) -> Plan:
    own = tuple(cut for cut in goals.cuts if cut.supply < len(whole.sources))
    boards = lay_out(whole, own)
    least = floor.fewest_out and goals.cost <= floor.cost
    return Plan(
        status="optimal" if least else "feasible",
        cost=_money(goals.cost, whole),
        bound=_money(floor.cost, whole),
        boards=boards,
        buy=_purchases(whole, own),
        unplaced=_unplaced(whole, boards),
        fewest=least and whole.exact and goals.fewest,
        largest_rest=least and whole.exact and goals.rest_proved,
        deadline_met=goals.deadline_met,
    )


def _unplaced(
    whole: Scaled, boards: Sequence[CutBoard], why: WhyNot = "not-enough-boards"
) -> tuple[Unplaced, ...]:
    """What fits nothing, and what was left out: by id, which mirror images of a part share."""
    left = Counter[str]()
    for part in whole.job.parts:
        left[part.id] += part.quantity
    for one in whole.unplaced:
        left[one.part] -= one.quantity
    left.subtract(piece.part for board in boards for piece in board.pieces)
    return (*whole.unplaced, *(Unplaced(id, n, why) for id, n in left.items() if n > 0))


def _money(whole_money: int, whole: Scaled) -> Decimal:
    return Decimal(whole_money) / whole.money


def _purchases(whole: Scaled, cuts: Cuts) -> tuple[Purchase, ...]:
    """Boards to buy, longest first, with those to spare."""
    counts = boards_bought(cuts, whole)
    spare = _spares(whole, counts)
    rows = [
        Purchase(board.length, board.price, counts.get(entry, 0), spare.get(entry, 0))
        for entry, board in enumerate(whole.job.for_sale)
        if counts.get(entry, 0) or spare.get(entry, 0)
    ]
    return tuple(sorted(rows, key=lambda row: -row.length))


def _spares(whole: Scaled, counts: Mapping[int, int]) -> dict[int, int]:
    """Spare boards by entry for sale: of the cheapest that hold every part, as far as they go."""
    problem, wanted = whole.problem, whole.job.spare
    longest = max(problem.steps(((item, 1),)) for item in range(len(problem.lengths)))
    fit = sorted((s.price, k) for k, s in enumerate(problem.supplies)
                 if not whole.sources[k].on_hand and s.capacity >= longest)  # fmt: skip
    spare: dict[int, int] = {}
    for _, k in fit:
        entry, limit = whole.sources[k].entry, problem.supplies[k].limit
        there = wanted if limit is None else limit - counts.get(entry, 0)
        spare[entry] = min(wanted, there)
        wanted -= spare[entry]
    return spare


def _empty(whole: Scaled) -> Plan:
    """Nothing can be cut."""
    unplaced = _unplaced(whole, (), "no-boards")
    return Plan("optimal", Decimal(0), Decimal(0), (), (), unplaced, True, True)
