"""Settling a leaf: whether decided numbers of boards hold all items, by ever stronger means."""

from collections.abc import Sequence

from service.planning.choosing import choose
from service.planning.completing import Completion, Packing
from service.planning.diving import dive
from service.planning.effort import Clock, Effort
from service.planning.listing import near_best
from service.planning.marks import solve_by_marks
from service.planning.problem import Cuts, Problem
from service.planning.proof import Box
from service.planning.relaxing import Relaxation

MANY_LENGTHS = 30
SHARES = (2, 4, 10, 20, 50, 200)


class Leaves:
    """The means, from cheap to dear; tables are kept from leaf to leaf."""

    def __init__(self, problem: Problem, clock: Clock, effort: Effort) -> None:
        self.problem, self.clock, self.effort = problem, clock, effort
        self._completion: Completion | None = None

    def settle(
        self, vector: Sequence[int], box: Box, relaxation: Relaxation, ceiling: int | None
    ) -> Packing:
        """Cuts from at most these boards; "none" only when that is certain."""
        if not self.problem.ripped:
            if self._completion is None:
                self._completion = Completion(self.problem)
            packing = self._completion.pack(vector, self.effort.leaf_steps)
            if packing.status != "open":
                return packing
        means = [self._from_columns, self._by_diving]
        if len(self.problem.lengths) > MANY_LENGTHS:
            means.reverse()
        for mean in means:
            packing = mean(vector, box, relaxation)
            if packing.status == "found":
                return packing
        if self.problem.ripped:
            return Packing("open")
        return self._from_all(vector, box, relaxation)

    def _from_columns(self, vector: Sequence[int], box: Box, relaxation: Relaxation) -> Packing:
        """From the patterns that the relaxed problem has met so far."""
        del box
        columns, nodes = list(relaxation.master.columns), self.effort.leaf_nodes[0]
        return choose(self.problem, columns, vector, nodes=nodes, seconds=self.clock.left())

    def _by_diving(self, vector: Sequence[int], box: Box, relaxation: Relaxation) -> Packing:
        """Board after board out of the relaxed optimum."""
        seen = relaxation.bound(box, lambda bound: False)
        if not seen.settled:
            return Packing("open")
        cuts = dive(relaxation, seen.amounts, vector, None, self.effort.patience)
        return Packing("open") if cuts is None else Packing("found", cuts)

    def _from_all(self, vector: Sequence[int], box: Box, relaxation: Relaxation) -> Packing:
        """From every pattern that can be part of such a plan; from the best if that is too many."""
        worths = [self._worths(vector, b, relaxation) for b in (_at_most(vector), box)]
        if self.clock.out() or not all(worth for _, _, worth in worths):
            return Packing("open")
        gap, values, worth = min(worths, key=lambda w: w[0] / max(1, *w[1]))
        effort = self.effort
        for share, most in ((1, effort.listed), *((n, effort.listed // 6) for n in SHARES)):
            columns = near_best(
                self.problem, worth, values, gap // share,
                most=most, steps=effort.listing_steps // share,
            )  # fmt: skip
            if columns is not None:
                if share > 1:
                    columns = list(dict.fromkeys((*columns, *relaxation.master.columns)))
                packing = choose(self.problem, columns, vector, nodes=effort.leaf_nodes[1],
                                 seconds=self.clock.left())  # fmt: skip
                sure = share == 1 or packing.status == "found"
                return packing if sure else Packing("open")
        return Packing("open")

    def _worths(
        self, vector: Sequence[int], box: Box, relaxation: Relaxation
    ) -> tuple[int, list[int], tuple[int, ...]]:
        """Worths of the items, what boards hold of them, and what all may fall short in all."""
        seen = relaxation.bound(box, lambda bound: False)
        if not seen.worth:
            return 0, [], ()
        values = relaxation.pricing.values(seen.worth)
        held = sum(value * count for value, count in zip(values, vector, strict=True))
        wanted = sum(a * b for a, b in zip(seen.worth, self.problem.demands, strict=True))
        return held - wanted if any(values) else held + 1, values, seen.worth

    def by_marks(self, problem: Problem, ceiling: int | None) -> tuple[Cuts | None, int]:
        """The last resort: (cuts or None, a floor under the cost of every plan)."""
        if not problem.plain or self.clock.out():
            return None, 0
        return solve_by_marks(problem, self.effort.flow_nodes, self.clock.left(), ceiling)


def _at_most(vector: Sequence[int]) -> Box:
    return Box((0,) * len(vector), tuple(vector))
