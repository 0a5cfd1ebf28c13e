"""The search for the cheapest sheets: a plan at once, a floor, and the two brought together.

Purchases come cheapest first from the relaxed choice. Each is decided with few pieces kept, then
with more and more, until it yields every panel, is proved not to, or the work is spent.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

from service.planning.panels.bounding import Purchases
from service.planning.panels.deciding import Decision, decide
from service.planning.panels.greedy import plans
from service.planning.panels.guillotine import FINEST
from service.planning.panels.lots import Layout, Lot, cost_of
from service.planning.panels.stepwise import Steps, decide_stepwise
from service.planning.panels.tables import Tables
from service.planning.panels.work import Spent, Work

SEED = 1
MOST_TOGETHER = 12
"""Sheets that are decided together at most."""


class Depth(NamedTuple):
    """How hard to search.

    Quick plans, pieces kept of a level in each round, open purchases, attempts sheet by sheet,
    pairs in a table of cuts.
    """

    tries: int = 40
    kept: tuple[int, ...] = (60, 150, 300, 600, 1200, 2400, 4800, 9600)
    open: int = 40
    attempts: int = 8
    finest: int = FINEST


SETTLED = 300
"""Pieces kept, at most, where only the number of sheets is still open."""


class Found(NamedTuple):
    """The cheapest layout found, and a floor: no purchase that yields the lot costs less."""

    layout: Layout
    cost: int
    floor: int


@dataclass(slots=True)
class _Open:
    """A purchase that may yield the lot, or not: nobody knows yet."""

    cost: int
    counts: tuple[int, ...]


class Search:
    """One search; `layout` and `floor` stand at any time. `base` is the price of one cent."""

    def __init__(self, lot: Lot, work: Work, base: int = 1, depth: Depth | None = None) -> None:
        self.lot = lot
        self.work = work
        self.layout: Layout | None = None
        self.least_left = lot.counts
        self.partial: Layout = ()
        self.base = base
        self.depth = depth or Depth()
        self._fills = tuple(stock.area for stock in lot.stocks)
        self._patterns: list[Layout] = []
        self._open: list[_Open] = []
        self._refuted: list[tuple[int, ...]] = []
        self._purchases: Purchases | None = None

    @property
    def ceiling(self) -> int:
        """The cost of the cheapest layout found."""
        return cost_of(self.lot, self.layout or ())

    @property
    def floor(self) -> int:
        """What any purchase that yields the lot costs, at least."""
        if self._purchases is None:
            return 0
        floors = [self.ceiling, *(one.cost for one in self._open)]
        if self._purchases.floor is not None:
            floors.append(self._purchases.floor)
        return min(floors)

    @property
    def proved(self) -> bool:
        """Whether nothing can be cheaper than the layout found."""
        return self.layout is not None and self.floor >= self.ceiling

    @property
    def short(self) -> bool:
        """Whether it is proved that all sheets there are don't yield the lot."""
        area = sum(stock.area * n for stock, n in zip(self.lot.stocks, self._all, strict=True))
        return area < self.lot.area or self._known_short(self._all)

    def take(self, layout: Layout) -> None:
        """Keep a layout that yields the lot, where it is the cheapest so far."""
        cost = cost_of(self.lot, layout)
        if self.layout is None or cost < self.ceiling:
            self.layout = layout
            self._open = [one for one in self._open if one.cost < cost]

    def start(self) -> None:
        """Quick plans; where none yields the lot, all sheets there are are decided together."""
        fewest = self.lot.area + 1
        quick = self.work.share(0.1)
        for layout, left in plans(self.lot, SEED, self.depth.tries, quick):
            bare = sum(k.area * n for k, n in zip(self.lot.kinds, left, strict=True))
            if bare < fewest:
                fewest, self.partial, self.least_left = bare, layout, tuple(left)
            if not bare:
                self.take(layout)
            self._patterns.append(layout)
        if self.layout is None and sum(self._all) <= MOST_TOGETHER:
            one = _Open(0, self._all)
            for most in self.depth.kept[:4]:
                if self.layout is None and not self.short:
                    self._decide(one, most, self.work)

    def gather(self, work: Work) -> None:
        """Take purchases cheapest first, until one yields the lot or too many are open."""
        if self._purchases is None:
            tables = Tables(self.lot, self.depth.finest)
            self._fills = tables.fill
            self._purchases = Purchases(self.lot, tables, self._patterns, self.ceiling, work)
        self._purchases.work = work
        try:
            while len(self._open) < self.depth.open:
                counts = self._purchases.next(self.ceiling)
                if counts is None:
                    return
                price = sum(n * s.price for n, s in zip(counts, self.lot.stocks, strict=True))
                if price < self.ceiling and not self._known_short(counts):
                    one = _Open(price, counts)
                    self._open.append(one)
                    self._decide(one, self.depth.kept[0], work)
        except Spent:
            return

    def press(self) -> None:
        """Decide what is open again and again, cheapest first, with more and more pieces kept."""
        try:
            for most in self.depth.kept[1:]:
                if self.proved or (self._settled() and most > SETTLED):
                    return
                for one in sorted(self._open, key=lambda one: (one.cost, one.counts)):
                    if one in self._open:
                        self._decide(one, most, self.work)
                self.gather(self.work)
        except Spent:
            return

    @property
    def _all(self) -> tuple[int, ...]:
        most = self.lot.pieces
        limits = (stock.limit for stock in self.lot.stocks)
        return tuple(most if limit is None else min(limit, most) for limit in limits)

    def _settled(self) -> bool:
        """Whether the money is proved, and only the number of sheets is still open."""
        return self.floor // self.base == self.ceiling // self.base

    def _decide(self, one: _Open, most: int, work: Work) -> None:
        share = 2_000_000 + self.lot.pieces**2 * most**2 // 2
        decision = self._ask(one.counts, most, work.part(share))
        if decision.answer == "yes":
            self.take(decision.layout)
        elif decision.answer == "no":
            self._refuted.append(one.counts)
            self._open = [other for other in self._open if not self._known_short(other.counts)]

    def _ask(self, counts: Sequence[int], most: int, work: Work) -> Decision:
        asked = (self.lot, counts, self._fills)
        try:
            decision = decide(*asked, most=most, seed=SEED, work=work)
            if decision.answer == "open":
                steps = Steps(most, most, self.depth.attempts)
                decision = decide_stepwise(*asked, steps, work)
        except Spent:
            decision = Decision("open")
        return decision

    def _known_short(self, counts: Sequence[int]) -> bool:
        return any(
            all(n <= most for n, most in zip(counts, refuted, strict=True))
            for refuted in self._refuted
        )
