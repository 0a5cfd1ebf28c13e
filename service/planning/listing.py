"""Every pattern that a plan no dearer than a target can still use: priced out, or on the list.

With whole worths of the items no board of a supply holds more than its `value`. What all boards
of a plan fall short of that, added up, is at most the gap between the target and the bound: so a
pattern that falls short by more alone is out, exactly.
"""

from collections.abc import Sequence

import numpy as np

from service.planning.completing import is_full
from service.planning.problem import Column, Problem


class _TooMany(Exception):
    """The list would be longer, or take longer, than allowed."""


def near_best(
    problem: Problem, worth: Sequence[int], values: Sequence[int], gap: int,
    *, most: int, steps: int,
) -> list[Column] | None:  # fmt: skip
    """All full patterns that fall short by no more than the gap; None if too many.

    `values` are the largest worths by supply. Not for boards that are ripped. `steps` bounds the
    search.
    """
    lister = _Lister(problem, worth, most, steps)
    try:
        for place, supply in enumerate(problem.supplies):
            if supply.single:
                singles = (Column(place, ((item, 1),)) for item in range(len(worth)))
                lister.found.extend(singles)
            elif supply.limit != 0:
                lister.list_supply(place, supply.capacity, values[place] - gap)
    except (_TooMany, RecursionError):
        return None
    return lister.found


class _Lister:
    def __init__(self, problem: Problem, worth: Sequence[int], most: int, steps: int) -> None:
        self.found: list[Column] = []
        self._problem, self._relief = problem, problem.relief
        self._lengths, self._demands = problem.lengths, problem.demands
        self._worth = [max(0, each) for each in worth]
        self._most, self._steps = most, steps
        capacity = max((s.capacity for s in problem.supplies if not s.single), default=0)
        self._rest = self._tables(capacity + self._relief)
        self._taken: list[tuple[int, int]] = []

    def _tables(self, capacity: int) -> list[memoryview]:
        best = np.zeros(capacity + 1, dtype=np.int64)
        tables = [best.copy().data]
        for item in range(len(self._lengths) - 1, -1, -1):
            length, each = self._lengths[item], self._worth[item]
            left, lot = min(self._demands[item], capacity // length), 1
            while left > 0:
                taken = min(lot, left)
                step = length * taken
                np.maximum(best[step:], best[:-step] + each * taken, out=best[step:])
                left -= taken
                lot *= 2
            tables.append(best.copy().data)
        return tables[::-1]

    def list_supply(self, supply: int, capacity: int, need: int) -> None:
        """Add the patterns of one supply that are worth at least `need`."""
        self._supply, self._capacity = supply, capacity
        if self._rest[0][capacity + self._relief] >= need:
            self._go(0, capacity + self._relief, need)

    def _go(self, item: int, room: int, need: int) -> None:
        lengths, tables = self._lengths, self._rest
        while item < len(lengths) and lengths[item] > room:
            item += 1
        if item == len(lengths):
            self._keep(room)
            return
        length, each, rest = lengths[item], self._worth[item], tables[item + 1]
        most = min(self._demands[item], room // length)
        self._steps -= most + 1
        if self._steps < 0:
            raise _TooMany
        for count in range(most, -1, -1):
            left, wanted = room - count * length, need - count * each
            if rest[left] >= wanted:
                self._taken.append((item, count))
                self._go(item + 1, left, wanted)
                self._taken.pop()

    def _keep(self, room: int) -> None:
        pattern = tuple(lot for lot in self._taken if lot[1])
        if pattern and is_full(self._problem, pattern, self._demands, self._capacity, room):
            self.found.append(Column(self._supply, pattern))
            if len(self.found) > self._most:
                raise _TooMany
