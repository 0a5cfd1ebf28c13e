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
SMOOTH = 0.5
FIRST_WORTHS = 3


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
        self.first_worths: list[tuple[int, ...]] = []
        longest = max(supply.capacity for supply in problem.supplies)
        fit = max(1, min(problem.pieces, longest // min(problem.lengths)))
        bits = WORTH_BITS - (self.missing_price * fit).bit_length()
        self.more = MORE if len(problem.lengths) > MANY_LENGTHS else 0
        self.smooth = len(problem.lengths) > MANY_LENGTHS
        self.scale = 1 << max(0, min(MOST_SCALE_BITS, bits))

    def know(self, columns: Iterable[Column]) -> None:
        """Add patterns that are known to be good."""
        self.master.add(columns)

    def bound(self, box: Box, enough: Callable[[int], bool]) -> Seen:
        """Price patterns in under the bounds of a box, until settled or the bound is enough."""
        self.master.count_boards(box.low, box.high)
        best = _Best(box, self.problem, self.scale)
        while True:
            relaxed = self.master.solve(self.clock.left())
            self.rounds += 1
            if not relaxed.solved:
                self.clock.out()
                return Seen(best.bound, self._counts(relaxed), (), False, False, best.priced)
            worth = self.whole(relaxed)
            fresh = self._price_round(relaxed, worth, best)
            done = enough(best.bound)
            if done or not fresh:
                bound = best.bound
                if len(self.first_worths) < FIRST_WORTHS:
                    self.first_worths.append(tuple(worth))
                lost = not done and relaxed.missing > 1e-6 and bound >= self.missing_price // 2
                counts, amounts = self._counts(relaxed), tuple(relaxed.amounts.tolist())
                return Seen(bound, counts, amounts, not done, lost, best.priced, tuple(worth))
            if self.clock.out():
                return Seen(best.bound, self._counts(relaxed), (), False, False, best.priced)

    def _price_round(self, relaxed: Relaxed, worth: Sequence[int], best: "_Best") -> bool:
        """Price at the worths, or first between them and the best so far; whether any is new."""
        if self.smooth and best.worth:
            near, far = round(8 * SMOOTH), 8 - round(8 * SMOOTH)
            mixed = [(near * a + far * b) // 8 for a, b in zip(best.worth, worth, strict=True)]
            best.take(mixed, self.pricing.values(mixed))
            if self.price_in(relaxed, worth, self.pricing):
                return True
        best.take(worth, self.pricing.values(worth))
        return self.price_in(relaxed, worth, self.pricing)

    def whole(self, relaxed: Relaxed) -> list[int]:
        """Worths of the items as whole numbers, rounded down."""
        worth: list[int] = np.floor(relaxed.worth * self.scale).astype(np.int64).tolist()
        return worth

    def price_in(self, relaxed: Relaxed, worth: Sequence[int], pricing: Pricing) -> bool:
        """Add the patterns just priced that would save something; whether any is new."""
        fresh: list[Column] = []
        for k, supply in enumerate(self.problem.supplies):
            due = self.scale * (supply.price - float(relaxed.charges[k]))
            due += self.scale * 1e-7 * max(1, supply.price)
            patterns = [pricing.best(k), *(pricing.more(k, self.more) if self.more else ())]
            fresh.extend(
                Column(k, pattern)
                for pattern in patterns
                if sum(worth[item] * count for item, count in pattern) > due
            )
        return self.master.add(fresh) > 0

    def _counts(self, relaxed: Relaxed) -> tuple[float, ...]:
        counts = [0.0] * len(self.problem.supplies)
        for column, amount in zip(self.master.columns, relaxed.amounts.tolist(), strict=False):
            if amount > 1e-9:
                counts[column.supply] += amount
        return tuple(counts)


class _Best:
    """The best bound of a box so far, and the worths that bear it."""

    def __init__(self, box: Box, problem: Problem, scale: int) -> None:
        self._box, self._problem, self._scale = box, problem, scale
        self.bound = 0
        self.priced: Priced | None = None
        self.worth: Sequence[int] = ()

    def take(self, worth: Sequence[int], values: Sequence[int]) -> None:
        """Look at other worths; they count if they bound better."""
        bound, top, under = floor_under(self._problem, worth, values, self._scale, self._box)
        if self.priced is None or bound > self.bound:
            self.bound, self.worth = max(self.bound, bound), worth
            self.priced = Priced(self._box, tuple(w * top for w in worth), self._scale * under)
