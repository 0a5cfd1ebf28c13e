"""The search for the least cost: patterns priced in, and branching on the number of boards.

Prices that are not in proportion to length leave a wide gap between the relaxed optimum and the
true one; with the numbers of boards of every supply decided, the gap all but closes. So the search
splits on those numbers, best bound first. Every bound is exact: whole worths of the items, and the
most worth that a board can hold.
"""

import heapq
from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil, floor
from typing import NamedTuple

from service.planning.diving import dive, part_of, renumbered
from service.planning.effort import Clock, Effort
from service.planning.filling import by_rules_of_thumb, columns_of
from service.planning.leaves import Leaves
from service.planning.problem import Cuts, Problem, cost_of, serves
from service.planning.proof import Box, Priced, Proof
from service.planning.relaxing import Relaxation, Seen
from service.planning.sums import Totals

CLOSE = 1e-6
MANY_PIECES = 300
SMALL = Effort(nodes=15, turns=1, leaf_nodes=(50, 50), listed=2000, listing_steps=100_000,
              flow_nodes=0)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Outcome:
    """The cheapest cuts found, the bound that no plan undercuts, and the proof where they meet.

    `cuts` is None where no plan (or none below the ceiling) was found.
    """

    cuts: Cuts | None
    cost: int | None
    bound: int
    proof: Proof | None
    deadline_met: bool
    nodes: int

    @property
    def optimal(self) -> bool:
        """Whether the cost is proved to be the least."""
        return self.cost is not None and self.cost <= self.bound


class _Node(NamedTuple):
    """A box still to be split; the heap takes the least bound first, then the latest."""

    bound: int
    order: int
    box: Box
    seen: Seen


def solve(
    problem: Problem,
    clock: Clock,
    effort: Effort,
    *,
    ceiling: int | None = None,
    start: Cuts | None = None,
) -> Outcome:
    """The cheapest cuts, with proof or with a bound.

    With a `ceiling` only plans cheaper than it are wanted, and the first one found is enough.
    `start` is a plan that is known already.
    """
    return _Search(problem, clock, effort, ceiling, start).run()


class _Search:
    def __init__(
        self, problem: Problem, clock: Clock, effort: Effort,
        ceiling: int | None, start: Cuts | None,
    ) -> None:  # fmt: skip
        self.problem, self.clock, self.effort = problem, clock, effort
        self.cuts: Cuts | None = None
        self.ask_only = ceiling is not None
        self.best: int | None = None
        self.ceiling = ceiling
        self.closed: list[Priced] = []
        self.searched: list[Box] = []
        self.undecided: list[_Node] = []
        self.heap: list[_Node] = []
        self.nodes = 0
        thumb = by_rules_of_thumb(problem)
        for cuts in (thumb, start):
            if cuts is not None:
                self.offer(cuts)
        self.relaxation = Relaxation(problem, clock, effort)
        self.leaves = Leaves(problem, clock, effort)
        self.relaxation.know(columns_of(thumb or ()))
        self.relaxation.know(columns_of(start or ()))
        self.priced = [k for k, s in enumerate(problem.supplies) if s.price > 0]
        self.floor = 0

    # -- plans ---------------------------------------------------------------------------------

    def offer(self, cuts: Cuts) -> None:
        """Keep cuts that are cheaper than what is wanted so far, once they are checked."""
        cost = cost_of(self.problem, cuts)
        if (self.ceiling is None or cost < self.ceiling) and serves(self.problem, cuts):
            self.cuts, self.best, self.ceiling = cuts, cost, cost

    def finished(self) -> bool:
        """Whether a plan below the ceiling was all that was asked, and is there."""
        return self.ask_only and self.cuts is not None

    # -- the tree ------------------------------------------------------------------------------

    def run(self) -> Outcome:
        """Search until the bound meets the cost, the work is used up, or the clock rings."""
        if not self.finished():
            self._root()
        while self.heap and not self.finished():
            node = heapq.heappop(self.heap)
            self.floor = max(self.floor, node.bound)
            if self._beaten(node.bound):
                heapq.heappush(self.heap, node)
                break
            if self.clock.out() or self.nodes >= self.effort.nodes:
                heapq.heappush(self.heap, node)
                break
            self.nodes += 1
            self._expand(node)
        if self.undecided and not self.finished():
            self._last_resort()
        return self._outcome()

    def _root(self) -> None:
        problem = self.problem
        highest = self.ceiling if self.ceiling is not None else self.relaxation.missing_price
        self.totals = Totals((s.price for s in problem.supplies), highest)
        box = Box((0,) * len(problem.supplies), tuple(s.limit for s in problem.supplies))
        self._open(box, 0)
        if self.heap and not self.clock.out() and not self.finished():
            limits = [supply.limit for supply in problem.supplies]
            found = dive(
                self.relaxation, self.heap[0].seen.amounts, limits,
                ceiling=self.ceiling, patience=self.effort.patience,
                finish=self._finish if problem.pieces > MANY_PIECES else None,
            )  # fmt: skip
            if found is not None:
                self.offer(found)

    def _finish(self, left: Sequence[int], stock: Sequence[int | None]) -> Cuts | None:
        """The last pieces of a dive as a small problem of its own."""
        rest, wanted = part_of(self.problem, left, stock)
        cuts = solve(rest, self.clock, SMALL).cuts
        return None if cuts is None else renumbered(cuts, wanted)

    def _beaten(self, bound: int) -> bool:
        return self.ceiling is not None and bound >= self.ceiling

    def _open(self, box: Box, least: int) -> None:
        """Bound a box; close it if it is too dear, else keep it to be split."""
        seen = self.relaxation.bound(box, lambda b: self._beaten(self.totals.at_least(b)))
        bound = max(least, self.totals.at_least(seen.bound))
        if seen.impossible or self._beaten(bound):
            if seen.priced is not None:
                self.closed.append(seen.priced)
            return
        heapq.heappush(self.heap, _Node(bound, -self.nodes * 100 - len(self.heap), box, seen))

    def _expand(self, node: _Node) -> None:
        split = self._split_count(node.seen.counts)
        if split is None:
            self._leaf(node)
            return
        k, count = split
        low, high = node.box.low, node.box.high
        self._open(Box(low, (*high[:k], floor(count), *high[k + 1 :])), node.bound)
        self._open(Box((*low[:k], ceil(count), *low[k + 1 :]), high), node.bound)

    def _split_count(self, counts: Sequence[float]) -> tuple[int, float] | None:
        """The priced supply whose number of boards is the farthest from whole."""
        supplies = self.problem.supplies
        off = [(abs(counts[k] - round(counts[k])), supplies[k].price, k) for k in self.priced]
        if not off or max(off)[0] <= CLOSE:
            return None
        k = max(off)[2]
        return k, counts[k]

    def _leaf(self, node: _Node) -> None:
        """Numbers of boards are decided: do these boards hold the items?"""
        vector = tuple(
            round(node.seen.counts[k]) if k in self.priced else self._most(k)
            for k in range(len(self.problem.supplies))
        )
        packing = self.leaves.settle(vector, node.box, self.relaxation)
        if packing.status == "found":
            self.offer(packing.cuts)
            if self.best is not None and self.best <= node.bound:
                heapq.heappush(self.heap, node)
                return
        if packing.status == "open":
            self.undecided.append(node)
            return
        self._split_around(node, vector)

    def _most(self, k: int) -> int:
        limit = self.problem.supplies[k].limit
        return self.problem.pieces if limit is None else limit

    def _split_around(self, node: _Node, vector: tuple[int, ...]) -> None:
        """All of a box but one vector of numbers of boards: that one has been settled."""
        low, high = list(node.box.low), list(node.box.high)
        for k in self.priced:
            top = high[k]
            if vector[k] > low[k]:
                self._open(Box(tuple(low), (*high[:k], vector[k] - 1, *high[k + 1 :])), node.bound)
            if top is None or vector[k] < top:
                self._open(Box((*low[:k], vector[k] + 1, *low[k + 1 :]), tuple(high)), node.bound)
            low[k] = high[k] = vector[k]
        self.searched.append(Box(tuple(low), tuple(high)))

    def _last_resort(self) -> None:
        """Boards that could not be decided: one whole program over all cutting marks."""
        found, floor_ = self.leaves.by_marks(self.problem, self.ceiling)
        if found is not None:
            self.offer(found)
        bound = self.totals.at_least(floor_)
        self.undecided = [n._replace(bound=max(n.bound, bound)) for n in self.undecided]
        if all(self._beaten(n.bound) for n in self.undecided):
            self.searched.extend(n.box for n in self.undecided)
            self.undecided = []

    # -- the answer ----------------------------------------------------------------------------

    def _outcome(self) -> Outcome:
        open_ = [node.bound for node in (*self.heap, *self.undecided)]
        best = self.ceiling
        bound = min([*open_, *([best] if best is not None else [])], default=self.floor)
        proof = None
        if best is not None and bound >= best and not self.finished():
            left = [node.seen.priced for node in self.heap if node.seen.priced is not None]
            proof = Proof((*self.closed, *left), tuple(self.searched))
        return Outcome(self.cuts, self.best, bound, proof, self.clock.rang, self.nodes)
