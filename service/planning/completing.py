"""Whether given boards hold all items: a search that fills the longest item's board first.

Not for boards that are ripped. What is remembered as impossible is never tried twice, and a board
may waste no more than all boards together have to spare.
"""

from collections.abc import Iterator, Sequence
from typing import Literal, NamedTuple

import numpy as np

from service.planning.problem import Cut, Cuts, Pattern, Problem


class Packing(NamedTuple):
    """The answer of a search among boards: cuts, that there are none, or that it gave up."""

    status: Literal["found", "none", "open"]
    cuts: Cuts = ()


class _GaveUp(Exception):
    """The search took more steps than it was allowed."""


class Completion:
    """A search in one problem, asked for different numbers of boards; tables are kept."""

    def __init__(self, problem: Problem) -> None:
        self.problem = problem
        self._relief = problem.relief
        self.capacity = max(s.capacity for s in problem.supplies) + self._relief
        self._fullest = _fullest(problem, self.capacity)
        self._left = 0
        self._failed: set[tuple[tuple[int, ...], tuple[int, ...]]] = set()
        self._kinds: list[int] = []

    def pack(self, counts: Sequence[int], steps: int) -> Packing:
        """Cuts from at most `counts` boards of each supply, in at most so many steps of search."""
        problem = self.problem
        self._left = steps
        self._failed.clear()
        self._kinds = [k for k, supply in enumerate(problem.supplies) if counts[k]]
        self._kinds.sort(key=lambda k: (problem.supplies[k].capacity, k))
        boards = tuple(min(counts[k], problem.pieces) for k in self._kinds)
        spare = sum(
            (problem.supplies[k].capacity + self._relief) * count
            for k, count in zip(self._kinds, boards, strict=True)
        ) - sum(a * b for a, b in zip(problem.lengths, problem.demands, strict=True))
        try:
            found = self._place(problem.demands, boards, spare)
        except (_GaveUp, RecursionError):
            return Packing("open")
        if found is None:
            return Packing("none")
        return Packing("found", tuple(Cut(*board, 1) for board in found))

    def _place(
        self, left: tuple[int, ...], boards: tuple[int, ...], spare: int
    ) -> list[tuple[int, Pattern]] | None:
        item = next((i for i, count in enumerate(left) if count), None)
        if item is None:
            return []
        if spare < 0 or (left, boards) in self._failed:
            return None
        for place, kind in enumerate(self._kinds):
            room = self.problem.supplies[kind].capacity + self._relief
            if not boards[place] or room < self.problem.lengths[item]:
                continue
            fewer = (*boards[:place], boards[place] - 1, *boards[place + 1 :])
            for pattern, waste in self._on(kind, left, item, spare):
                rest = list(left)
                for i, count in pattern:
                    rest[i] -= count
                found = self._place(tuple(rest), fewer, spare - waste)
                if found is not None:
                    found.append((kind, pattern))
                    return found
        self._failed.add((left, boards))
        return None

    def _on(
        self, kind: int, left: tuple[int, ...], item: int, spare: int
    ) -> Iterator[tuple[Pattern, int]]:
        supply = self.problem.supplies[kind]
        if supply.single:
            waste = supply.capacity + self._relief - self.problem.lengths[item]
            if waste <= spare:
                yield ((item, 1),), waste
        else:
            yield from self._patterns(left, item, supply.capacity, spare)

    def _patterns(
        self, left: tuple[int, ...], first: int, capacity: int, spare: int
    ) -> Iterator[tuple[Pattern, int]]:
        """Patterns with the first item that leave no room for any other and waste little enough."""
        lengths = self.problem.lengths
        taken: list[tuple[int, int]] = []

        def fill(item: int, room: int) -> Iterator[tuple[Pattern, int]]:
            self._left -= 1
            if self._left < 0:
                raise _GaveUp
            while item < len(lengths) and not (left[item] and lengths[item] <= room):
                item += 1
            if item == len(lengths):
                pattern = tuple(taken)
                if room <= spare and is_full(self.problem, pattern, left, capacity, room):
                    yield pattern, room
                return
            if room - self._fullest[item][room] > spare:
                return
            most = min(left[item], room // lengths[item])
            for count in range(most, 0 if item == first else -1, -1):
                if count:
                    taken.append((item, count))
                yield from fill(item + 1, room - count * lengths[item])
                if count:
                    taken.pop()

        yield from fill(first, capacity + self._relief)


def is_full(
    problem: Problem, pattern: Pattern, left: Sequence[int], capacity: int, room: int
) -> bool:
    """Whether a pattern fits a board, and no further item of those left does.

    `room` is what the items' own steps leave of the board and its relief.
    """
    if problem.nest is not None:
        return _is_full_nested(problem, pattern, left, capacity)
    taken = dict(pattern)
    for item in range(len(problem.lengths) - 1, -1, -1):
        if problem.lengths[item] > room:
            return True
        if left[item] > taken.get(item, 0):
            return False
    return True


def _is_full_nested(problem: Problem, pattern: Pattern, left: Sequence[int], capacity: int) -> bool:
    if problem.steps(pattern) > capacity:
        return False
    taken = dict(pattern)
    return not any(
        problem.steps((*pattern, (item, 1))) <= capacity
        for item, count in enumerate(left)
        if count > taken.get(item, 0)
    )


def _fullest(problem: Problem, capacity: int) -> list[memoryview]:
    """For each item on, the most steps that items from there on can take of every room."""
    reached = np.zeros(capacity + 1, dtype=np.bool_)
    reached[0] = True
    grid = np.arange(capacity + 1, dtype=np.int64)
    tables: list[memoryview] = []
    for length, demand in zip(reversed(problem.lengths), reversed(problem.demands), strict=True):
        left, lot = min(demand, capacity // length), 1
        while left > 0:
            step = min(lot, left) * length
            reached[step:] |= reached[:-step].copy()
            left -= min(lot, left)
            lot *= 2
        tables.append(np.maximum.accumulate(np.where(reached, grid, 0)).data)
    return tables[::-1]
