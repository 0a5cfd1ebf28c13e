"""The best that one board can hold: a knapsack over whole steps, for every board length at once.

Worths are whole numbers, so that what a board can hold at most is exact and can bear a proof.
"""

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from service.domain.deadline import kept_time
from service.planning.problem import Nest, Pattern

Whole = NDArray[np.int64]

UNREACHED = -(2**61)


def chunks_of(
    lengths: Sequence[int], bounds: Sequence[int], capacity: int
) -> list[tuple[int, int, int]]:
    """(item, how many, steps) in doubling lots: any number up to the bound is a choice of lots."""
    chunks = []
    for item, (length, bound) in enumerate(zip(lengths, bounds, strict=True)):
        left, lot = min(bound, capacity // length), 1
        while left > 0:
            taken = min(lot, left)
            chunks.append((item, taken, length * taken))
            left -= taken
            lot *= 2
    return chunks


class Knapsack:
    """Items with bounds, packed into every capacity up to the largest."""

    def __init__(self, lengths: Sequence[int], bounds: Sequence[int], capacity: int) -> None:
        self.chunks = chunks_of(lengths, bounds, capacity)
        self._taken = np.zeros((len(self.chunks), capacity + 1), dtype=np.bool_)
        self._candidate = np.empty(capacity + 1, dtype=np.int64)
        self._active: list[int] = []
        self.worths = np.zeros(capacity + 1, dtype=np.int64)

    def solve(self, worth: Sequence[int]) -> Whole:
        """The largest worth for every capacity; worth by item, nothing below zero is taken."""
        best = self.worths
        best.fill(0)
        self._active.clear()
        for row, (item, count, steps) in kept_time(enumerate(self.chunks)):
            each = worth[item]
            if each <= 0:
                continue
            self._active.append(row)
            tail, taken = best[steps:], self._taken[row]
            candidate = self._candidate[: len(tail)]
            np.add(best[: len(tail)], each * count, out=candidate)
            taken[:steps] = False
            np.greater(candidate, tail, out=taken[steps:])
            np.maximum(tail, candidate, out=tail)
        return best

    def value(self, capacity: int) -> int:
        """The largest worth of one capacity, after `solve`."""
        return int(self.worths[capacity])

    def pattern(self, capacity: int, upto: int | None = None) -> Pattern:
        """What gives the largest worth, after `solve`; from the first `upto` active lots only."""
        counts: dict[int, int] = {}
        for row in reversed(self._active if upto is None else self._active[:upto]):
            if self._taken[row, capacity]:
                item, count, steps = self.chunks[row]
                counts[item] = counts.get(item, 0) + count
                capacity -= steps
        return tuple(sorted(counts.items()))

    def runners_up(self, capacity: int, most: int) -> list[Pattern]:
        """Patterns whose last lot is forced to be another one each: good, and unlike each other."""
        ends = [
            place for place, row in enumerate(self._active, start=1) if self._taken[row, capacity]
        ]
        return [self.pattern(capacity, upto) for upto in reversed(ends[-most:])]


class NestedKnapsack:
    """The same where groups of slanted ends cost a board a setup by its profile (`Nest`).

    Lots are taken group by group, the group with the most lots first: a profile is looked at only
    once its groups can be on the board.
    """

    def __init__(
        self, lengths: Sequence[int], bounds: Sequence[int], capacity: int, nest: Nest
    ) -> None:
        capacity += nest.relief
        self.nest = nest
        chunks = chunks_of(lengths, bounds, capacity)
        often = [
            sum(nest.groups[c[0]] == group for c in chunks) for group in range(len(nest.states))
        ]
        chunks.sort(key=lambda c: (-often[nest.groups[c[0]]], nest.groups[c[0]]))
        self.chunks = chunks
        self._moves = [self._moves_of(item, count) for item, count, _ in chunks]
        self._from = np.zeros((len(chunks), len(nest.setups), capacity + 1), dtype=np.uint8)
        self._best = np.zeros((len(nest.setups), capacity + 1), dtype=np.int64)
        self._before = self._best.copy()

    def _moves_of(self, item: int, count: int) -> list[tuple[int, int]]:
        """(profile, profile with a lot more), for all profiles."""
        group = self.nest.groups[item]
        unit, states = self.nest.unit(group), self.nest.states[group]
        moves = []
        for profile in range(len(self.nest.setups)):
            had = profile // unit % states
            now = self.nest.state(group, had + count)
            moves.append((profile, profile + (now - had) * unit))
        return moves

    def solve(self, worth: Sequence[int]) -> None:
        """Fill the table of largest worths, by profile and capacity."""
        best, before = self._best, self._before
        best.fill(UNREACHED)
        best[0] = 0
        met = {0}
        for row, (item, count, steps) in kept_time(enumerate(self.chunks)):
            moves = [(a, b) for a, b in self._moves[row] if a in met and worth[item] > 0]
            self._from[row].fill(0)
            for profile, _ in moves:
                before[profile] = best[profile]
            for profile, target in moves:
                candidate, tail = (
                    before[profile, :-steps] + worth[item] * count,
                    best[target, steps:],
                )
                better = candidate > tail
                np.maximum(tail, candidate, out=tail)
                np.copyto(self._from[row, target, steps:], profile + 1, where=better)
                met.add(target)

    def _choice(self, capacity: int) -> tuple[int, int]:
        options: list[tuple[int, int]] = [
            (int(self._best[profile, capacity - setup]), -profile)
            for profile, setup in enumerate(self.nest.setups)
            if setup <= capacity
        ]
        best: tuple[int, int] = max(options)
        return best

    def value(self, capacity: int) -> int:
        """The largest worth of one capacity, after `solve`."""
        worth, _ = self._choice(capacity)
        return worth

    def pattern(self, capacity: int) -> Pattern:
        """What gives the largest worth, after `solve`."""
        profile = -self._choice(capacity)[1]
        at = capacity - self.nest.setups[profile]
        counts: dict[int, int] = {}
        for row in range(len(self.chunks) - 1, -1, -1):
            came = int(self._from[row, profile, at])
            if came:
                item, count, steps = self.chunks[row]
                counts[item] = counts.get(item, 0) + count
                profile, at = came - 1, at - steps
        return tuple(sorted(counts.items()))
