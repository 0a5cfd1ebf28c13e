"""The relaxed problem in a box of numbers of boards: patterns priced in until none is missing."""

from collections.abc import Callable, Iterable, Sequence
from typing import NamedTuple

import numpy as np

from service.planning.effort import Clock, Effort
from service.planning.lp import Master, Relaxed
from service.planning.pricing import Pricing, first_columns, pricing_of
from service.planning.problem import Column, Problem
from service.planning.proof import Box, Priced, floor_under

MOST_SCALE_BITS = 30
WORTH_BITS = 61
MANY_LENGTHS = 30
MORE = 25


class Seen(NamedTuple):
    """What the relaxed problem says of a box.

    `bound`: no plan in the box costs less. `counts`: boards of each supply in the relaxed
    optimum. `settled`: no pattern is missing. `impossible`: proved that the box holds no plan.
    `priced` bears the bound; `worth` are the items' last worths.
    """

    bound: int
    counts: tuple[float, ...]
    amounts: tuple[float, ...]
    settled: bool
    impossible: bool
    priced: Priced | None
    worth: tuple[int, ...] = ()


class Relaxation:
    """One warm relaxed problem for all boxes of a search."""

    def __init__(self, problem: Problem, clock: Clock, effort: Effort) -> None:
        self.problem, self.clock, self.effort = problem, clock, effort
        self.master = Master(problem)
        self.missing_price = self.master.missing_price
        self.pricing: Pricing = pricing_of(problem, problem.demands)
        self.master.add(first_columns(problem))
        self.rounds = 0
        longest = max(supply.capacity for supply in problem.supplies)
        fit = max(1, min(problem.pieces, longest // min(problem.lengths)))
        bits = WORTH_BITS - (self.missing_price * fit).bit_length()
        self.more = MORE if len(problem.lengths) > MANY_LENGTHS else 0
        self.scale = 1 << max(0, min(MOST_SCALE_BITS, bits))

    def know(self, columns: Iterable[Column]) -> None:
        """Add patterns that are known to be good."""
        self.master.add(columns)

    def bound(self, box: Box, enough: Callable[[int], bool]) -> Seen:
        """Price patterns in under the bounds of a box, until settled or the bound is enough."""
        self.master.count_boards(box.low, box.high)
        best, priced = 0, None
        while True:
            relaxed = self.master.solve(self.clock.left())
            self.rounds += 1
            if not relaxed.solved:
                self.clock.out()
                return Seen(best, self._counts(relaxed), (), False, False, priced)
            worth = self.whole(relaxed)
            values = self.pricing.values(worth)
            floor, top, under = floor_under(self.problem, worth, values, self.scale, box)
            if floor > best or priced is None:
                best = max(best, floor)
                priced = Priced(box, tuple(w * top for w in worth), self.scale * under)
            done = enough(best)
            if done or not self.price_in(relaxed, worth, values, self.pricing):
                lost = not done and relaxed.missing > 1e-6 and best >= self.missing_price // 2
                counts, amounts = self._counts(relaxed), tuple(relaxed.amounts.tolist())
                return Seen(best, counts, amounts, not done, lost, priced, tuple(worth))
            if self.clock.out():
                return Seen(best, self._counts(relaxed), (), False, False, priced)

    def whole(self, relaxed: Relaxed) -> list[int]:
        """Worths of the items as whole numbers, rounded down."""
        worth: list[int] = np.floor(relaxed.worth * self.scale).astype(np.int64).tolist()
        return worth

    def price_in(
        self, relaxed: Relaxed, worth: Sequence[int], values: Sequence[int], pricing: Pricing
    ) -> bool:
        """Add the best pattern of every supply that would save something; whether any is new."""
        fresh: list[Column] = []
        for k, supply in enumerate(self.problem.supplies):
            due = self.scale * (supply.price - float(relaxed.charges[k]))
            due += self.scale * 1e-7 * max(1, supply.price)
            if values[k] > due:
                fresh.append(Column(k, pricing.best(k)))
                fresh.extend(
                    Column(k, p)
                    for p in pricing.more(k, self.more)
                    if sum(worth[i] * n for i, n in p) > due
                )
        return self.master.add(fresh) > 0

    def _counts(self, relaxed: Relaxed) -> tuple[float, ...]:
        counts = [0.0] * len(self.problem.supplies)
        for column, amount in zip(self.master.columns, relaxed.amounts.tolist(), strict=False):
            if amount > 1e-9:
                counts[column.supply] += amount
        return tuple(counts)
