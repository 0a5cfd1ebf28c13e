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


Worths = tuple[int, list[int], tuple[int, ...]]


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
        seen = self.relaxation.bound(_at_most(self.vector), lambda bound: False)
        if not any(seen.worth):
            return Packing("open")
        gap, _, worth = self._gap(seen.worth)
        strips = strips_near_best(
            self.problem, worth, pricing, gap,
            most=self.effort.listed, steps=self.effort.listing_steps,
        )  # fmt: skip
        if strips is None:
            return Packing("open")
        seconds = self.clock.left()
        return choose_strips(self.problem, strips, self.vector, nodes=nodes, seconds=seconds)

    def _list(self) -> tuple[list[Column], bool]:
        """Near-best patterns, and whether they are all that matter.

        Any worths will do. Those of other boxes, or those met first, may leave far fewer
        patterns, so all are tried with short lists first.
        """
        seen = [self.relaxation.bound(box, lambda bound: False).worth for box in self._boxes()]
        met = dict.fromkeys((*seen, *self.relaxation.first_worths))
        worths = [self._gap(worth) for worth in met if any(worth)]
        worths.sort(key=lambda w: w[0] / max(1, *w[1]))
        listed = self.effort.listed
        for most in (listed // 20, listed):
            for worth in worths:
                columns = self._near(worth, 1, most)
                if columns is not None:
                    return columns, True
        for share in SHARES if worths else ():
            columns = self._near(worths[0], share, listed // 6)
            if columns is not None:
                return list(dict.fromkeys((*columns, *self.relaxation.master.columns))), False
        return [], False

    def _near(self, worths: Worths, share: int, most: int) -> list[Column] | None:
        gap, values, worth = worths
        steps = self.effort.listing_steps * most // self.effort.listed
        return near_best(self.problem, worth, values, gap // share, most=most, steps=steps)

    def _boxes(self) -> list[Box]:
        """Boxes around the purchase, whose worths may tell patterns apart."""
        none, limits = (0,) * len(self.vector), [s.limit for s in self.problem.supplies]
        more = tuple(
            count + 1 if limit is None else min(count + 1, limit)
            for count, limit in zip(self.vector, limits, strict=True)
        )
        return [_at_most(self.vector), self.box, Box(none, tuple(limits)), Box(none, more)]

    def _gap(self, worth: tuple[int, ...]) -> Worths:
        """What all boards may fall short in all, what each holds at most, and the worths."""
        values = self.relaxation.pricing.values(worth)
        held = sum(value * count for value, count in zip(values, self.vector, strict=True))
        wanted = sum(a * b for a, b in zip(worth, self.problem.demands, strict=True))
        return held - wanted, values, worth


def _at_most(vector: Sequence[int]) -> Box:
    return Box((0,) * len(vector), tuple(vector))
