"""Settling a leaf: whether decided numbers of boards hold all items, by ever stronger means."""

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import replace
from functools import partial

from service.planning.choosing import choose
from service.planning.completing import Completion, Packing
from service.planning.diving import FEW_PIECES, dive
from service.planning.effort import Clock, Effort
from service.planning.listing import near_best
from service.planning.marks import solve_by_marks
from service.planning.pricing import RippedPricing
from service.planning.problem import Column, Cuts, Problem
from service.planning.proof import Box
from service.planning.relaxing import Relaxation
from service.planning.strips import choose_strips, strips_near_best

MANY_LENGTHS = 30
SHARES = (2, 4, 10, 20, 50, 200)


class Leaves:
    """The means, from cheap to dear; tables are kept from leaf to leaf."""

    def __init__(self, problem: Problem, clock: Clock, effort: Effort) -> None:
        self.problem, self.clock, self.effort = problem, clock, effort
        self._completion: Completion | None = None

    def settle(self, vector: Sequence[int], box: Box, relaxation: Relaxation) -> Packing:
        """Cuts from at most these boards; "none" only when that is certain."""
        if not self.problem.ripped:
            if self._completion is None:
                self._completion = Completion(self.problem)
            packing = self._completion.pack(vector, self.effort.leaf_steps)
            if packing.status != "open":
                return packing
        for mean in self._means(relaxation, vector, box):
            packing = mean()
            if packing.status != "open":
                return packing
        return Packing("open")

    def _means(
        self, relaxation: Relaxation, vector: Sequence[int], box: Box
    ) -> Iterator[Callable[[], Packing]]:
        """Means in turn; each finds a packing, or is sure that there is none, or leaves it open."""
        leaf = _Leaf(relaxation, vector, box)
        few, many = self.effort.leaf_nodes
        if len(self.problem.lengths) <= MANY_LENGTHS:
            yield partial(leaf.from_columns, few)
            yield partial(leaf.by_diving, range(1))
        else:
            yield partial(leaf.by_diving, range(4))
            yield partial(leaf.from_all, few)
            yield partial(leaf.by_diving, range(4, self.effort.turns))
        yield partial(leaf.from_all, many)

    def by_marks(self, problem: Problem, ceiling: int | None) -> tuple[Cuts | None, int]:
        """The last resort: (cuts or None, a floor under the cost of every plan)."""
        if not problem.plain or self.clock.out():
            return None, 0
        return solve_by_marks(problem, self.effort.flow_nodes, self.clock.left(), ceiling)


class _Leaf:
    """One purchase: do its boards hold all items?"""

    def __init__(self, relaxation: Relaxation, vector: Sequence[int], box: Box) -> None:
        self.problem, self.clock = relaxation.problem, relaxation.clock
        self.effort = relaxation.effort
        self.relaxation, self.vector, self.box = relaxation, tuple(vector), box
        self._listed: tuple[list[Column], bool] | None = None

    def from_columns(self, nodes: int) -> Packing:
        """From the patterns that the relaxed problem has met so far."""
        found = self._choose(self.relaxation.master.columns, nodes)
        return found if found.status == "found" else Packing("open")

    def _choose(self, columns: Sequence[Column], nodes: int) -> Packing:
        seconds = self.clock.left()
        return choose(self.problem, columns, self.vector, nodes=nodes, seconds=seconds)

    def by_diving(self, turns: Iterable[int]) -> Packing:
        """Board after board out of the relaxed optimum, a little otherwise every turn."""
        finish = self._finish if self.problem.pieces > 2 * FEW_PIECES else None
        for turn in turns:
            seen = self.relaxation.bound(self.box, lambda bound: False)
            if not seen.settled or self.clock.out():
                break
            patience = self.effort.patience
            cuts = dive(
                self.relaxation, seen.amounts, self.vector,
                ceiling=None, patience=patience, turn=turn, finish=finish,
            )  # fmt: skip
            if cuts is not None:
                return Packing("found", cuts)
        return Packing("open")

    def _finish(self, left: Sequence[int], stock: Sequence[int | None]) -> Cuts | None:
        """The last pieces, from the patterns that the relaxed problem has met so far."""
        rest = replace(self.problem, demands=tuple(left))
        counts = [self.problem.pieces if limit is None else limit for limit in stock]
        columns, nodes = self.relaxation.master.columns, self.effort.leaf_nodes[0] // 2
        packing = choose(rest, columns, counts, nodes=nodes, seconds=self.clock.left())
        return packing.cuts if packing.status == "found" else None

    def from_all(self, nodes: int) -> Packing:
        """From every pattern that can be part of such a plan; from the best if that is too many."""
        if self.clock.out():
            return Packing("open")
        if isinstance(self.relaxation.pricing, RippedPricing):
            return self._from_strips(self.relaxation.pricing, nodes)
        if self._listed is None:
            self._listed = self._list()
        columns, complete = self._listed
        if not columns:
            return Packing("none" if complete else "open")
        packing = self._choose(columns, nodes)
        return packing if complete or packing.status == "found" else Packing("open")

    def _from_strips(self, pricing: RippedPricing, nodes: int) -> Packing:
        """The same for boards that are ripped: from every strip pattern that can matter."""
        gap, values, worth = self._worths(_at_most(self.vector))
        if not values:
            return Packing("open")
        strips = strips_near_best(
            self.problem, worth, pricing, gap,
            most=self.effort.listed, steps=self.effort.listing_steps,
        )  # fmt: skip
        if strips is None:
            return Packing("open")
        seconds = self.clock.left()
        return choose_strips(self.problem, strips, self.vector, nodes=nodes, seconds=seconds)

    def _list(self) -> tuple[list[Column], bool]:
        """Near-best patterns, and whether they are all that matter."""
        worths = [self._worths(box) for box in (_at_most(self.vector), self.box)]
        if not all(worth for _, _, worth in worths):
            return [], False
        gap, values, worth = min(worths, key=lambda w: w[0] / max(1, *w[1]))
        effort = self.effort
        for share, most in ((1, effort.listed), *((n, effort.listed // 6) for n in SHARES)):
            columns = near_best(
                self.problem, worth, values, gap // share,
                most=most, steps=effort.listing_steps // share,
            )  # fmt: skip
            if columns is not None and share == 1:
                return columns, True
            if columns is not None:
                return list(dict.fromkeys((*columns, *self.relaxation.master.columns))), False
        return [], False

    def _worths(self, box: Box) -> tuple[int, list[int], tuple[int, ...]]:
        """Worths of the items, what boards hold of them, and what all may fall short in all."""
        seen = self.relaxation.bound(box, lambda bound: False)
        if not seen.worth:
            return 0, [], ()
        values = self.relaxation.pricing.values(seen.worth)
        held = sum(value * count for value, count in zip(values, self.vector, strict=True))
        wanted = sum(a * b for a, b in zip(seen.worth, self.problem.demands, strict=True))
        return held - wanted if any(values) else held + 1, values, seen.worth


def _at_most(vector: Sequence[int]) -> Box:
    return Box((0,) * len(vector), tuple(vector))
