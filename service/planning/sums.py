"""Which totals a purchase can have: a bound rises to the next total that some boards add up to."""

from bisect import bisect_left
from collections.abc import Iterable
from math import gcd

import numpy as np

MOST_BITS = 4_000_000


class Totals:
    """All totals of prices up to a highest one; free boards add nothing."""

    def __init__(self, prices: Iterable[int], highest: int) -> None:
        own = sorted({price for price in prices if price > 0})
        self.step = max(1, gcd(*own)) if own else 1
        self._own = own
        self._highest = highest
        self._reached: list[int] | None = None
        self._listed = len(own) > 1 and highest // self.step <= MOST_BITS

    def at_least(self, bound: int) -> int:
        """The least total that is no less than a bound (or the bound, where none is known)."""
        if bound <= 0 or not self._own:
            return max(0, bound)
        low = -(-bound // self.step)
        if not self._listed:
            return low * self.step
        reached = self._list()
        place = bisect_left(reached, low)
        return (reached[place] if place < len(reached) else low) * self.step

    def _list(self) -> list[int]:
        if self._reached is None:
            self._reached = _reached([price // self.step for price in self._own],
                                     self._highest // self.step)  # fmt: skip
        return self._reached


def _reached(prices: list[int], highest: int) -> list[int]:
    bits, mask = 1, (1 << (highest + 1)) - 1
    for price in prices:
        shift = price
        while shift <= highest:  # doubling closes under any number of boards
            bits |= (bits << shift) & mask
            shift *= 2
    raw = np.frombuffer(bits.to_bytes(highest // 8 + 1, "little"), dtype=np.uint8)
    found: list[int] = np.nonzero(np.unpackbits(raw, bitorder="little")[: highest + 1])[0].tolist()
    return found
