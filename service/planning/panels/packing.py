"""How many of each kind, packed into one whole number, so that numpy adds and compares at once."""

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

Places = NDArray[np.int64]
Flags = NDArray[np.bool_]

MOST_BITS = 62


class Packing:
    """A kind wanted once takes one bit; another takes enough bits for its count, and a guard."""

    def __init__(self, counts: tuple[int, ...]) -> None:
        self.counts = counts
        self._shifts: list[int] = []
        self._ones = self._guards = self._offset = 0
        place = 0
        for count in counts:
            self._shifts.append(place)
            bits = count.bit_length()
            if count == 1:
                self._ones |= 1 << place
                place += 1
            elif count > 1:
                self._guards |= 1 << (place + bits)
                self._offset |= ((1 << bits) - 1 - count) << place
                place += bits + 1
        self.possible = place <= MOST_BITS
        self.full = sum(count << shift for count, shift in zip(counts, self._shifts, strict=True))

    def one(self, kind: int) -> int:
        """One of a kind."""
        return 1 << self._shifts[kind]

    def clash(self, one: Places, other: Places) -> Flags:
        """Whether two contents together hold more of a kind than is wanted."""
        over = ((one + other + self._offset) & self._guards) | (one & other & self._ones)
        clash: Flags = over != 0
        return clash

    def unpack(self, content: int) -> tuple[int, ...]:
        """The counts of a content."""
        return tuple(
            (content >> shift) & ((1 << count.bit_length()) - 1)
            for count, shift in zip(self.counts, self._shifts, strict=True)
        )

    def weigh(self, content: Places, weights: Sequence[float]) -> NDArray[np.float64]:
        """The sum of weights of the kinds in every content."""
        total = np.zeros(content.shape)
        for shift, count, weight in zip(self._shifts, self.counts, weights, strict=True):
            total += ((content >> shift) & ((1 << count.bit_length()) - 1)) * weight
        return total
