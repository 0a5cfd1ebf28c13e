"""A floor under the cost, and the purchases that might do, cheapest first.

The choice of patterns is relaxed to fractions; patterns are priced by exact tables of cuts.
Purchases are split by the number of sheets of each stock, as for boards: a box of counts whose
floor reaches the cost of a known plan is closed. Every floor comes from prices rounded to
binary fractions, so that its sums are exact in floating point.
"""

import heapq
from collections.abc import Iterable, Sequence
from math import ceil, floor, log2
from typing import NamedTuple

import numpy as np

from service.planning.lp import Master, Reals
from service.planning.panels.lots import Layout, Lot, pattern_of
from service.planning.panels.tables import Tables
from service.planning.panels.work import Spent, Work
from service.planning.problem import Column, Problem, Supply
from service.planning.sums import Totals

AREA_UNITS = 10_000
NEARLY = 1e-6

PAIRS_A_KIND = 5000
"""Counted work of one more relaxed choice, for each kind."""


class Box(NamedTuple):
    """Purchases between two counts of each stock; sorted by their floor, newest first.

    `counts` are the relaxed ones; none where the work was spent before they were known.
    """

    floor: int
    order: int
    low: tuple[int, ...]
    high: tuple[int, ...]
    counts: tuple[float, ...]


class Purchases:
    """The purchases that cost less than a known plan, in boxes of counts."""

    def __init__(
        self, lot: Lot, tables: Tables, known: Iterable[Layout], ceiling: int, work: Work
    ) -> None:
        self.lot = lot
        self.work = work
        self._tables = tables
        self._totals = Totals([stock.price for stock in lot.stocks], ceiling)
        self._step = max(1, self._totals.step)
        self._prices = [stock.price for stock in lot.stocks]
        unit = max(1, -(-lot.area // AREA_UNITS))
        self._fills = [-(-fill // unit) for fill in tables.fill]
        self._area = lot.area // unit
        self._master = Master(self._problem())
        self._seed(known)
        self._made = 0
        highest = [_most(stock.limit, stock.price, ceiling, lot.pieces) for stock in lot.stocks]
        ground = self._totals.at_least(tables.ground())
        whole = self._bounded(tuple(0 for _ in highest), tuple(highest), ground, ceiling)
        self._boxes = [whole] if whole else []

    def _problem(self) -> Problem:
        """Kinds as items; one item more stands for area, which every sheet gives its fill of."""
        return Problem(
            lengths=(*(kind.area for kind in self.lot.kinds), 1),
            demands=(*self.lot.counts, self._area),
            supplies=tuple(Supply(s.area, s.price, s.limit) for s in self.lot.stocks),
        )

    def _seed(self, known: Iterable[Layout]) -> None:
        for place, stock in enumerate(self.lot.stocks):
            for pose in self.lot.poses(stock.grained):
                if self.lot.fits(pose, stock):
                    self._offer(place, {pose.kind: 1})
        for layout in known:
            for laid in layout:
                self._offer(laid.stock, pattern_of(laid.root))

    def _offer(self, place: int, pattern: dict[int, int]) -> int:
        entries = dict(pattern)
        if self._fills[place]:
            entries[len(self.lot.kinds)] = self._fills[place]
        return self._master.add([Column(place, tuple(sorted(entries.items())))])

    @property
    def floor(self) -> int | None:
        """The least cost of what is still in a box; None when nothing is."""
        return self._boxes[0].floor if self._boxes else None

    def next(self, ceiling: int) -> tuple[int, ...] | None:
        """The cheapest purchase in a box (free sheets in full), its box split around it.

        None when every box reaches the ceiling. Raises `Spent` where nothing more is known.
        """
        while self._boxes and self._boxes[0].floor < ceiling:
            box = self._boxes[0]
            if not box.counts:
                self._again(ceiling)
                continue
            whole = self._whole(box)
            kids = self._around(box, whole) if whole else self._halves(box)
            self._replace(kids, box.floor, ceiling)
            if whole:
                return whole
        return None

    def _again(self, ceiling: int) -> None:
        """Bound the first box further, whose counts were not known yet."""
        old = heapq.heappop(self._boxes)
        box = self._bounded(old.low, old.high, old.floor, ceiling)
        if box is not None:
            heapq.heappush(self._boxes, box)
            if not box.counts:
                raise Spent

    def _replace(
        self, kids: Sequence[tuple[tuple[int, ...], tuple[int, ...]]], floor_: int, ceiling: int
    ) -> None:
        """Put boxes in the place of the first one."""
        found = [self._bounded(low, high, floor_, ceiling) for low, high in kids]
        heapq.heappop(self._boxes)
        for box in found:
            if box is not None and box.floor < ceiling:
                heapq.heappush(self._boxes, box)

    def _whole(self, box: Box) -> tuple[int, ...] | None:
        """The box's counts where they are whole; free sheets are all taken."""
        if any(abs(n - round(n)) > NEARLY for n, p in zip(box.counts, self._prices, strict=True)
               if p > 0):  # fmt: skip
            return None
        return tuple(
            round(n) if price > 0 else most
            for n, price, most in zip(box.counts, self._prices, box.high, strict=True)
        )

    def _halves(self, box: Box) -> list[tuple[tuple[int, ...], tuple[int, ...]]]:
        """The box in two, at the stock whose count is farthest from whole."""
        off = [abs(n - round(n)) if p > 0 else 0.0
               for n, p in zip(box.counts, self._prices, strict=True)]  # fmt: skip
        place = max(range(len(off)), key=lambda k: (off[k], self._prices[k], -k))
        at = floor(box.counts[place])
        return [
            (box.low, _with(box.high, place, at)),
            (_with(box.low, place, at + 1), box.high),
        ]

    def _around(
        self, box: Box, whole: Sequence[int]
    ) -> list[tuple[tuple[int, ...], tuple[int, ...]]]:
        """The box without one purchase, in boxes that don't overlap."""
        kids, low, high = [], box.low, box.high
        for place, price in enumerate(self._prices):
            if price == 0:
                continue
            if whole[place] > low[place]:
                kids.append((low, _with(high, place, whole[place] - 1)))
            if whole[place] < high[place]:
                kids.append((_with(low, place, whole[place] + 1), high))
            low, high = _with(low, place, whole[place]), _with(high, place, whole[place])
        return kids

    def _bounded(
        self, low: tuple[int, ...], high: tuple[int, ...], known: int, ceiling: int
    ) -> Box | None:
        """The box with its floor; None where it can't be cheaper than the ceiling."""
        if any(least > most for least, most in zip(low, high, strict=True)):
            return None
        bought = sum(least * price for least, price in zip(low, self._prices, strict=True))
        best = max(known, bought)
        counts: tuple[float, ...] = ()
        self._master.count_boards(low, high)
        try:
            while best < ceiling and not counts:
                relaxed = self._master.solve(self.work.clock.left())
                if not relaxed.solved:
                    raise Spent
                bound, fresh = self._price(relaxed.worth, relaxed.charges, low, high)
                best = max(best, self._totals.at_least(bound))
                counts = () if fresh else self._counts(relaxed.amounts)
        except Spent:
            counts = ()
        if best >= ceiling:
            return None
        self._made += 1
        return Box(best, -self._made, low, high, counts)

    def _counts(self, amounts: Reals) -> tuple[float, ...]:
        counts = [0.0] * len(self._prices)
        for column, amount in zip(self._master.columns, amounts, strict=True):
            counts[column.supply] += amount
        return tuple(counts)

    def _price(
        self, duals: Reals, charges: Reals, low: Sequence[int], high: Sequence[int]
    ) -> tuple[int, int]:
        """A floor from the duals, and how many better patterns they brought up."""
        worth = _binary(duals, [*self.lot.counts, self._area])
        area_worth, worth = float(worth[-1]), worth[:-1]
        worth[list(self._tables.thin)] = 0.0
        bound = float(np.dot(worth, self.lot.counts)) + area_worth * self._area
        fresh = 0
        for grained, table in self._tables.by_grain.items():
            values = table.values(worth)
            self.work.spend(table.pairs // 3 + PAIRS_A_KIND * len(worth))
            for place, stock in enumerate(self.lot.stocks):
                if stock.grained != grained:
                    continue
                value = table.worth_of(values, stock.width, stock.height)
                gain = value + area_worth * self._fills[place] - stock.price
                bound -= gain * (high[place] if gain > 0 else low[place])
                if gain + charges[place] > 1e-7 * max(1, stock.price):
                    pattern = table.pattern(values, worth, stock.width, stock.height)
                    fresh += self._offer(place, pattern) if pattern else 0
        return ceil(bound), fresh


def _most(limit: int | None, price: int, ceiling: int, pieces: int) -> int:
    """How many sheets of a stock a purchase below the ceiling can have."""
    most = pieces if limit is None else min(limit, pieces)
    return most if price == 0 else min(most, (ceiling - 1) // price)


def _with(counts: tuple[int, ...], place: int, count: int) -> tuple[int, ...]:
    return (*counts[:place], count, *counts[place + 1 :])


def _binary(duals: Reals, demands: Sequence[int]) -> Reals:
    """Duals rounded down to binary fractions whose sums over any sheet or demand are exact."""
    total = float(np.dot(np.maximum(duals, 0.0), demands))
    scale = 2.0 ** (44 - ceil(log2(max(total, 1.0))))
    rounded: Reals = np.floor(np.maximum(duals, 0.0) * scale) / scale
    return rounded
