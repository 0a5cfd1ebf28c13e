"""Settling a leaf: whether decided numbers of boards hold all items, by ever stronger means."""

from collections.abc import Sequence

from service.planning.choosing import choose
from service.planning.completing import Completion, Packing
from service.planning.effort import Clock, Effort
from service.planning.listing import near_best
from service.planning.marks import solve_by_marks
from service.planning.problem import Cuts, Problem
from service.planning.proof import Box
from service.planning.relaxing import Relaxation


class Leaves:
    """The means, from cheap to dear; tables are kept from leaf to leaf."""

    def __init__(self, problem: Problem, clock: Clock, effort: Effort) -> None:
        self.problem, self.clock, self.effort = problem, clock, effort
        self._completion: Completion | None = None

    def settle(
        self, vector: Sequence[int], box: Box, relaxation: Relaxation, ceiling: int | None
    ) -> Packing:
        """Cuts from at most these boards; "none" only when that is certain."""
        if self.problem.plain:
            if self._completion is None:
                self._completion = Completion(self.problem)
            packing = self._completion.pack(vector, self.effort.leaf_steps)
            if packing.status != "open":
                return packing
        columns = list(relaxation.master.columns)
        packing = choose(self.problem, columns, vector, nodes=self.effort.leaf_nodes[0],
                         seconds=self.clock.left())  # fmt: skip
        if packing.status == "found" or not self.problem.plain:
            return packing if packing.status == "found" else Packing("open")
        return self._choose_from_all(vector, box, relaxation)

    def _choose_from_all(
        self, vector: Sequence[int], box: Box, relaxation: Relaxation
    ) -> Packing:
        """The same with every pattern that could be part of such a plan."""
        if self.clock.out():
            return Packing("open")
        problem, scale = self.problem, relaxation.scale
        target = sum(s.price * n for s, n in zip(problem.supplies, vector, strict=True))
        seen = relaxation.bound(box, lambda bound: False)
        if not seen.settled or seen.priced is None:
            return Packing("open")
        worth, scale = seen.priced.worth, seen.priced.scale
        values = [v * (scale // relaxation.scale) for v in relaxation.pricing.values(
            [w // (scale // relaxation.scale) for w in worth])]  # fmt: skip
        gap = scale * target - sum(a * b for a, b in zip(worth, problem.demands, strict=True))
        for k, supply in enumerate(problem.supplies):
            short, most = scale * supply.price - values[k], box.high[k]
            gap -= short * (box.low[k] if short >= 0 else vector[k] if most is None else most)
        columns = near_best(problem, worth, values, gap, self.effort.listed,
                            self.effort.listing_steps)  # fmt: skip
        if columns is None:
            return Packing("open")
        return choose(problem, columns, vector, nodes=self.effort.leaf_nodes[1],
                      seconds=self.clock.left())  # fmt: skip

    def by_marks(self, problem: Problem, ceiling: int | None) -> tuple[Cuts | None, int]:
        """The last resort: (cuts or None, a floor under the cost of every plan)."""
        if not problem.plain or self.clock.out():
            return None, 0
        return solve_by_marks(problem, self.effort.flow_nodes, self.clock.left(), ceiling)
