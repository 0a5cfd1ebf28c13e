"""Pricing: for worths of the items, the best pattern of every supply.

Three kinds of board share one face: plain ones, boards on which slanted ends nest, and boards that
may be ripped into strips.
"""

from collections.abc import Sequence
from typing import Protocol

from service.planning.knapsack import Knapsack, NestedKnapsack
from service.planning.problem import Column, Pattern, Problem


class Pricing(Protocol):
    """What the search asks of a board."""

    def values(self, worth: Sequence[int]) -> list[int]:
        """The largest worth that one board of each supply can hold."""

    def best(self, supply: int) -> Pattern:
        """The pattern with that worth, after `values`."""

    def more(self, supply: int, most: int) -> list[Pattern]:
        """Other good patterns, after `values`; perhaps none."""


def pricing_of(problem: Problem, demands: Sequence[int]) -> Pricing:
    """The right pricing for a problem; `demands` bounds what one board may hold."""
    if any(supply.ways for supply in problem.supplies):
        return RippedPricing(problem, demands)
    if problem.nest is not None:
        return NestedPricing(problem, demands)
    return PlainPricing(problem, demands)


def _largest(problem: Problem) -> int:
    return max((s.capacity for s in problem.supplies if not s.single), default=0)


def _single(worth: Sequence[int]) -> tuple[int, Pattern]:
    best = max(range(len(worth)), key=lambda item: (worth[item], -item))
    return worth[best], ((best, 1),)


class PlainPricing:
    """Boards that hold whatever adds up to their length."""

    def __init__(self, problem: Problem, demands: Sequence[int]) -> None:
        self._supplies = problem.supplies
        self._knapsack = Knapsack(problem.lengths, demands, _largest(problem))
        self._worth: Sequence[int] = ()

    def values(self, worth: Sequence[int]) -> list[int]:
        """The largest worth that one board of each supply can hold."""
        self._worth = worth
        worths = self._knapsack.solve(worth)
        return [
            _single(worth)[0] if supply.single else int(worths[supply.capacity])
            for supply in self._supplies
        ]

    def best(self, supply: int) -> Pattern:
        """The pattern with that worth."""
        if self._supplies[supply].single:
            return _single(self._worth)[1]
        return self._knapsack.pattern(self._supplies[supply].capacity)

    def more(self, supply: int, most: int) -> list[Pattern]:
        """Patterns that end with another item each."""
        if self._supplies[supply].single:
            return []
        return self._knapsack.runners_up(self._supplies[supply].capacity, most)


class NestedPricing:
    """Boards on which pieces with slanted ends share their cuts."""

    def __init__(self, problem: Problem, demands: Sequence[int]) -> None:
        assert problem.nest is not None
        self._supplies = problem.supplies
        self._knapsack = NestedKnapsack(problem.lengths, demands, _largest(problem), problem.nest)
        self._worth: Sequence[int] = ()

    def values(self, worth: Sequence[int]) -> list[int]:
        """The largest worth that one board of each supply can hold."""
        self._worth = worth
        self._knapsack.solve(worth)
        return [
            _single(worth)[0] if supply.single else self._knapsack.value(supply.capacity)
            for supply in self._supplies
        ]

    def best(self, supply: int) -> Pattern:
        """The pattern with that worth."""
        if self._supplies[supply].single:
            return _single(self._worth)[1]
        return self._knapsack.pattern(self._supplies[supply].capacity)

    def more(self, supply: int, most: int) -> list[Pattern]:
        """None: one pattern a round is enough here."""
        del supply, most
        return []


class RippedPricing:
    """Boards that may be ripped first: every strip is a board of its own, narrower or not.

    A strip holds the items of its width class and of narrower ones. The bound on what one board
    holds of an item is kept for each strip alone, which is a relaxation: the proof stays right.
    """

    def __init__(self, problem: Problem, demands: Sequence[int]) -> None:
        self._problem = problem
        largest = _largest(problem)
        self._knapsacks: dict[int, Knapsack] = {}
        for width in sorted({w for s in problem.supplies for way in s.ways for w in way}):
            bounds = [
                demand if own <= width else 0
                for demand, own in zip(demands, problem.widths, strict=True)
            ]
            self._knapsacks[width] = Knapsack(problem.lengths, bounds, largest)
        self._worth: Sequence[int] = ()

    def values(self, worth: Sequence[int]) -> list[int]:
        """The largest worth that one board of each supply can hold, by its best way."""
        self._worth = worth
        for knapsack in self._knapsacks.values():
            knapsack.solve(worth)
        return [
            _single(worth)[0] if supply.single else self._way(place)[0]
            for place, supply in enumerate(self._problem.supplies)
        ]

    def strip_value(self, width: int, capacity: int) -> int:
        """The largest worth of one strip, after `values`."""
        return self._knapsacks[width].value(capacity)

    def _way(self, place: int) -> tuple[int, tuple[int, ...]]:
        supply = self._problem.supplies[place]
        worths = {w: k.value(supply.capacity) for w, k in self._knapsacks.items()}
        return max((sum(worths[width] for width in way), way) for way in supply.ways)

    def best(self, supply: int) -> Pattern:
        """All pieces of the board with that worth, strip by strip taken together."""
        if self._problem.supplies[supply].single:
            return _single(self._worth)[1]
        counts: dict[int, int] = {}
        for width in self._way(supply)[1]:
            pattern = self._knapsacks[width].pattern(self._problem.supplies[supply].capacity)
            for item, count in pattern:
                counts[item] = counts.get(item, 0) + count
        return tuple(sorted(counts.items()))

    def more(self, supply: int, most: int) -> list[Pattern]:
        """None: one pattern a round is enough here."""
        del supply, most
        return []


def first_columns(problem: Problem) -> list[Column]:
    """For every item and every supply that holds it: as many as fit, alone."""
    columns = []
    for place, supply in enumerate(problem.supplies):
        for item, length in enumerate(problem.lengths):
            if supply.single:
                columns.append(Column(place, ((item, 1),)))
                continue
            if supply.ways and not any(problem.widths[item] <= max(w) for w in supply.ways):
                continue
            relief = problem.nest.relief if problem.nest is not None else 0
            most = min(problem.demands[item], (supply.capacity + relief) // length)
            while most and problem.steps(((item, most),)) > supply.capacity:
                most -= 1
            if most:
                columns.append(Column(place, ((item, most),)))
    return columns
