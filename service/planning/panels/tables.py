"""What is known of a lot before any plan: its tables of cuts, and how full a sheet can get."""

from collections.abc import Iterator
from fractions import Fraction
from math import ceil

from service.planning.panels.guillotine import Guillotine, Reals
from service.planning.panels.lots import Lot

EXACT_BITS = 48
MANY = 24
"""Kinds from which a coarser table has to do, for more of them are needed."""


class Tables:
    """Tables of cuts by grain, and the most area that panels can cover of each stock's sheet."""

    def __init__(self, lot: Lot, finest: int) -> None:
        self.lot = lot
        if len(lot.kinds) > MANY:
            finest //= 3
        self.by_grain = {
            grained: Guillotine(lot, grained, finest)
            for grained in sorted({stock.grained for stock in lot.stocks})
        }
        self.thin = {kind for table in self.by_grain.values() for kind in table.thin}
        self.fill = tuple(self._fill())

    def _fill(self) -> Iterator[int]:
        """The areas in units coarse enough that floating point adds them exactly, rounded up."""
        shift = max(0, max(stock.area for stock in self.lot.stocks).bit_length() - EXACT_BITS)
        areas = [float(-(-kind.area >> shift)) for kind in self.lot.kinds]
        for best, stock in zip(self.best(areas), self.lot.stocks, strict=True):
            yield stock.area if self.thin else min(int(best) << shift, stock.area)

    def best(self, worth: list[float] | Reals) -> list[float]:
        """The most that one sheet of each stock can be worth, panels repeated at will."""
        filled = {grained: table.values(worth) for grained, table in self.by_grain.items()}
        return [
            self.by_grain[s.grained].worth_of(filled[s.grained], s.width, s.height)
            for s in self.lot.stocks
        ]

    def ground(self) -> int:
        """What panels' area alone costs: free sheets first, then the most area for the money."""
        priced = [Fraction(s.price, f) for s, f in zip(self.lot.stocks, self.fill, strict=True)
                  if s.price > 0 and f > 0]  # fmt: skip
        bare = self.lot.area
        for stock, fill in zip(self.lot.stocks, self.fill, strict=True):
            if stock.price == 0:
                bare -= fill * (self.lot.pieces if stock.limit is None else stock.limit)
        return ceil(bare * min(priced)) if bare > 0 and priced else 0
