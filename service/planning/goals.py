"""The goals in order: most pieces, least money, fewest boards bought, longest single rest.

Money and boards are one exact search: a board costs its price times more than there can be boards,
and one more if it is bought. The longest single rest is the longest imaginary piece that comes out
of the same purchase as well; untouched boards on hand count, since they are left, too.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import NamedTuple

from service.planning.completing import Completion
from service.planning.effort import Clock, Effort
from service.planning.problem import Cuts, Problem, Supply, trimmed
from service.planning.proof import Proof
from service.planning.search import Outcome, solve

MOST_PIECES_FOR_REST = 150
MOST_VECTORS = 60


@dataclass(frozen=True, slots=True)
class Goals:
    """What the search found, goal by goal.

    `short`: pieces that had to be left out (their place is the last supply, if any had to).
    `problem`: what the proof speaks about: `factor` times the price, and one for a bought board.
    `cost_bound`: in whole money. `rest`: the longest rest in steps, a kerf more.
    """

    problem: Problem
    cuts: Cuts
    short: int
    short_proved: bool
    cost: int
    cost_bound: int
    fewest: bool
    rest: int
    rest_proved: bool
    proof: Proof | None
    proof_cost: int
    deadline_met: bool

    @property
    def optimal(self) -> bool:
        """Whether no plan costs less, or places more pieces."""
        return self.short_proved and self.cost <= self.cost_bound


def reach(
    problem: Problem, bought: Sequence[bool], clock: Clock, effort: Effort,
    *, hidden: Sequence[Fraction] = (), rest: bool = True,
) -> Goals:  # fmt: skip
    """The best cuts by all goals in order. `bought` says which supplies come from the store.

    `hidden`: for each supply, what its true length has beyond whole steps; it decides between
    rests of as many steps.
    """
    work, short, short_proved, known = _placed(problem, clock, effort)
    factor = work.pieces + 1
    prices = [
        supply.price * factor + (1 if own else 0)
        for supply, own in zip(work.supplies, [*bought, False], strict=False)
    ]
    priced = work.priced(prices)
    outcome = solve(priced, clock, effort, start=known)
    assert outcome.cuts is not None and outcome.cost is not None
    cuts, longest, proved = trimmed(priced, outcome.cuts), 0, False
    if rest and outcome.optimal and work.pieces <= MOST_PIECES_FOR_REST:
        seeker = _LongestRest(priced, outcome, clock, effort)
        cuts, longest, proved = seeker.seek(cuts)
        if hidden:
            cuts, fine = seeker.finer(cuts, longest, hidden)
            proved = proved and fine
    return Goals(
        problem=priced, cuts=cuts, short=short, short_proved=short_proved,
        cost=outcome.cost // factor, cost_bound=max(0, outcome.bound) // factor,
        fewest=outcome.optimal, rest=longest, rest_proved=proved, proof=outcome.proof,
        proof_cost=outcome.cost, deadline_met=clock.rang,
    )  # fmt: skip


class _Placed(NamedTuple):
    """The problem with a place for the pieces that must be left out: how many, whether proved.

    `known` are cuts that leave out no more; None where boards never run out.
    """

    problem: Problem
    short: int
    proved: bool
    known: Cuts | None


def _placed(problem: Problem, clock: Clock, effort: Effort) -> _Placed:
    endless = [s for s in problem.supplies if s.limit is None]
    if all(any(_holds(problem, s, item) for s in endless) for item in range(len(problem.lengths))):
        return _Placed(problem, 0, True, None)
    longest = max(problem.lengths)
    out = Supply(longest, 1, None, single=True)
    free = tuple(replace(supply, price=0) for supply in problem.supplies)
    outcome = solve(replace(problem, supplies=(*free, out)), clock, effort)
    assert outcome.cost is not None
    short = outcome.cost
    if not short:
        return _Placed(problem, 0, True, outcome.cuts)
    place = replace(out, price=0, limit=short)
    widened = replace(problem, supplies=(*problem.supplies, place))
    return _Placed(widened, short, outcome.optimal, outcome.cuts)


def _holds(problem: Problem, supply: Supply, item: int) -> bool:
    if supply.ways and not any(problem.widths[item] <= max(way) for way in supply.ways):
        return False
    return problem.steps(((item, 1),)) <= supply.capacity


class _LongestRest:
    """The longest piece that the same purchase yields on top: halving, each step proved."""

    def __init__(self, problem: Problem, outcome: Outcome, clock: Clock, effort: Effort) -> None:
        assert outcome.cost is not None
        self.problem, self.clock, self.effort = problem, clock, effort
        self.cost = outcome.cost
        self.proved = True
        self.length = -problem.pieces * problem.relief + sum(
            a * b for a, b in zip(problem.lengths, problem.demands, strict=True)
        )
        self.vectors = _purchases(problem, self.cost, self.length) if not problem.ripped else None

    def seek(self, cuts: Cuts) -> tuple[Cuts, int, bool]:
        """(the cuts, the longest rest, whether it is proved to be the longest)."""
        low, high = _longest_rest(self.problem, cuts), self._highest()
        while low < high and not self.clock.out():
            middle = (low + high + 1) // 2
            found = self._with_piece(middle)
            if found is None:
                high = middle - 1
            else:
                cuts, low = found, max(middle, _longest_rest(self.problem, found))
        return cuts, low, self.proved and low >= high

    def finer(self, cuts: Cuts, rest: int, hidden: Sequence[Fraction]) -> tuple[Cuts, bool]:
        """The same rest on the board that hides the most beyond whole steps; whether it is sure."""
        supplies, proved = self.problem.supplies, True
        now = max(
            (hidden[k] for k, left in _rests(self.problem, cuts) if left == rest),
            default=Fraction(0),
        )
        if max(hidden) == now:
            return cuts, True
        for k in sorted(range(len(hidden)), key=lambda k: -hidden[k]):
            if hidden[k] <= now or supplies[k].capacity < rest:
                continue
            found, sure = self._with_rest_on(k, rest)
            if found is not None:
                return found, proved
            proved = proved and sure
        return cuts, proved

    def _with_rest_on(self, k: int, rest: int) -> tuple[Cuts | None, bool]:
        """Cuts of the same cost that leave a rest on a board of one supply."""
        if self.vectors is None:
            return None, False
        supplies, sure = self.problem.supplies, True
        short = replace(supplies[k], capacity=supplies[k].capacity - rest)
        completion = Completion(replace(self.problem, supplies=(*supplies, short)))
        for vector in self.vectors:
            if vector[k]:
                counts = (*vector[:k], vector[k] - 1, *vector[k + 1 :], 1)
                packing = completion.pack(counts, self.effort.leaf_steps)
                if packing.status == "found":
                    cuts = (c._replace(supply=k) if c.supply == len(supplies) else c
                            for c in packing.cuts)  # fmt: skip
                    return tuple(cuts), True
                sure = sure and packing.status == "none"
        return None, sure

    def _highest(self) -> int:
        rooms = [s.capacity for s in self.problem.supplies]
        if self.vectors is None:
            return max(rooms)
        spare = [
            min(
                sum(a * b for a, b in zip(rooms, v, strict=True)) - self.length,
                max(room for room, count in zip(rooms, v, strict=True) if count),
            )
            for v in self.vectors
        ]
        return max(spare, default=0)

    def _with_piece(self, length: int) -> Cuts | None:
        """Cuts of the same cost that leave a rest of this length; None if there are none."""
        problem, place = _with_item(self.problem, length)
        if self.vectors is not None:
            completion, undecided = Completion(problem), False
            for vector in self.vectors:
                packing = completion.pack(vector, self.effort.leaf_steps)
                if packing.status == "found":
                    return _without_item(packing.cuts, place)
                undecided = undecided or packing.status == "open"
            if not undecided:
                return None
        outcome = solve(problem, self.clock, self.effort, ceiling=self.cost + 1)
        if outcome.cuts is not None:
            return _without_item(trimmed(problem, outcome.cuts), place)
        if outcome.bound <= self.cost:
            self.proved = False
        return None


def _purchases(problem: Problem, cost: int, length: int) -> list[tuple[int, ...]] | None:
    """All numbers of boards that cost just this and are long enough; None if there are many."""
    supplies = problem.supplies
    priced = sorted(
        (k for k, s in enumerate(supplies) if s.price), key=lambda k: -supplies[k].price
    )
    counts = [0 if s.price else (s.limit or 0) for s in supplies]
    found: list[tuple[int, ...]] = []
    budget = [200_000]

    def go(at: int, left: int) -> bool:
        budget[0] -= 1
        if budget[0] < 0 or len(found) > MOST_VECTORS:
            return False
        if left == 0:
            if sum(s.capacity * n for s, n in zip(supplies, counts, strict=True)) >= length:
                found.append(tuple(counts))
            return True
        if at == len(priced):
            return True
        k = priced[at]
        limit = supplies[k].limit
        most = left // supplies[k].price
        going = True
        for count in range(most if limit is None else min(most, limit), -1, -1):
            counts[k] = count
            going = going and go(at + 1, left - count * supplies[k].price)
        counts[k] = 0
        return going

    return found if go(0, cost) and len(found) <= MOST_VECTORS else None


def _rests(problem: Problem, cuts: Cuts) -> Iterator[tuple[int, int]]:
    """(supply, rest in steps, a kerf more): of boards cut, and of boards on hand untouched."""
    used = [0] * len(problem.supplies)
    for cut in cuts:
        used[cut.supply] += cut.times
        supply = problem.supplies[cut.supply]
        if not supply.single and not supply.ways:
            yield cut.supply, supply.capacity - problem.steps(cut.pattern)
    for k, supply in enumerate(problem.supplies):
        if supply.price == 0 and not supply.single and (supply.limit or 0) > used[k]:
            yield k, supply.capacity


def _longest_rest(problem: Problem, cuts: Cuts) -> int:
    return max((left for _, left in _rests(problem, cuts)), default=0)


def _with_item(problem: Problem, length: int) -> tuple[Problem, int]:
    """The problem with one more piece (square, of the narrowest width), and its place."""
    place = next((i for i, own in enumerate(problem.lengths) if own < length), len(problem.lengths))
    nest = problem.nest
    if nest is not None:
        groups = (*nest.groups[:place], 0, *nest.groups[place:])
        nest = replace(nest, groups=groups)
    return replace(
        problem,
        lengths=(*problem.lengths[:place], length, *problem.lengths[place:]),
        demands=(*problem.demands[:place], 1, *problem.demands[place:]),
        widths=(*problem.widths[:place], 0, *problem.widths[place:]) if problem.widths else (),
        nest=nest,
    ), place


def _without_item(cuts: Cuts, place: int) -> Cuts:
    left = []
    for cut in cuts:
        pattern = tuple((i - (i > place), n) for i, n in cut.pattern if i != place)
        if pattern:
            left.append(cut._replace(pattern=pattern))
    return tuple(left)
