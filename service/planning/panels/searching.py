"""The search for the cheapest sheets: a plan at once, a floor, and the two brought together.

Purchases come cheapest first from the relaxed choice. Each is decided with few pieces kept, then
with more and more, until it yields every panel, is proved not to, or the work is spent.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

from service.planning.panels.bounding import Purchases
from service.planning.panels.deciding import Decision, decide
from service.planning.panels.greedy import best_plan, plans
from service.planning.panels.lots import Layout, Lot, cost_of
from service.planning.panels.stepwise import decide_stepwise
from service.planning.panels.tables import Tables
from service.planning.panels.work import Spent, Work

KEPT = (60, 150, 300, 600, 1200, 2400, 4800, 9600)
MOST_OPEN = 40
MOST_TOGETHER = 12
"""Sheets that are decided together at most."""

ATTEMPTS = 8
TRIES = 40
SEED = 1


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
    """One search; `best` and `floor` stand at any time."""

    def __init__(self, lot: Lot, work: Work, base: int = 1) -> None:
        self.lot = lot
        self._base = base
        self.work = work
        self.best: Found | None = None
        self._tables = Tables(lot)
        self._open: list[_Open] = []
        self._refuted: list[tuple[int, ...]] = []
        self._purchases: Purchases | None = None

    def run(self, known: Layout | None = None) -> Found | None:
        """Search until the cost is proved or the work is spent; None where no plan was found."""
        self._start(known)
        if self.best is None:
            return None
        try:
            self._purchases = Purchases(self.lot, self._tables, self.best.cost, self.work)
            self._gather(self._purchases)
            for most in KEPT[1:]:
                if not self._open or (self._settled() and most > KEPT[2]):
                    break
                self._press(most)
        except Spent:
            pass
        return self.best._replace(floor=self._floor())

    @property
    def short(self) -> bool:
        """Whether it is proved that all sheets there are don't yield the lot."""
        return self._known_short(self._all)

    def _start(self, known: Layout | None) -> None:
        if known is not None:
            self._take(known)
        plan = best_plan(self.lot, SEED, TRIES, 0)
        if plan is not None:
            self._take(plan[0])
        if self.best is None and sum(self._all) <= MOST_TOGETHER:
            one = _Open(0, self._all)
            for most in KEPT[:4]:
                if self.best is None and not self.short:
                    self._decide(one, most)

    @property
    def _all(self) -> tuple[int, ...]:
        most = self.lot.pieces
        limits = (stock.limit for stock in self.lot.stocks)
        return tuple(most if limit is None else min(limit, most) for limit in limits)

    def _take(self, layout: Layout) -> None:
        cost = cost_of(self.lot, layout)
        if self.best is None or cost < self.best.cost:
            self.best = Found(layout, cost, 0)
            self._open = [one for one in self._open if one.cost < cost]

    @property
    def _ceiling(self) -> int:
        return self.best.cost if self.best else 0

    def _floor(self) -> int:
        floors = [one.cost for one in self._open]
        if self._purchases is None:
            floors.append(0)
        elif self._purchases.floor is not None:
            floors.append(self._purchases.floor)
        return min([self._ceiling, *floors])

    def _settled(self) -> bool:
        """Whether the money is proved, and only the number of sheets is still open."""
        return self._floor() // self._base == self._ceiling // self._base

    def _gather(self, purchases: Purchases) -> None:
        """Take purchases cheapest first, until one yields the lot or too many are open."""
        while len(self._open) < MOST_OPEN:
            counts = purchases.next(self._ceiling)
            if counts is None:
                return
            price = sum(n * s.price for n, s in zip(counts, self.lot.stocks, strict=True))
            if price >= self._ceiling or self._known_short(counts):
                continue
            one = _Open(price, counts)
            self._open.append(one)
            self._decide(one, KEPT[0])

    def _press(self, most: int) -> None:
        """Decide what is open once more, cheapest first, with more pieces kept."""
        for one in sorted(self._open, key=lambda one: (one.cost, one.counts)):
            if one in self._open:
                self._decide(one, most)

    def _decide(self, one: _Open, most: int) -> None:
        decision = self._ask(one.counts, most)
        if decision.answer == "yes":
            self._take(decision.layout)
        elif decision.answer == "no":
            self._refuted.append(one.counts)
            self._open = [other for other in self._open if not self._known_short(other.counts)]

    def _ask(self, counts: Sequence[int], most: int) -> Decision:
        """One decision, with no more work than it should take."""
        share = 2_000_000 + self.lot.pieces**2 * most**2 // 2
        part = Work(min(share, self.work.allowed - self.work.done), self.work.clock)
        asked = (self.lot, counts, self._tables)
        try:
            decision = decide(*asked, most=most, seed=SEED, work=part)
            if decision.answer == "open":
                decision = decide_stepwise(
                    *asked, most=most, seed=most, attempts=ATTEMPTS, work=part
                )
        except Spent:
            decision = Decision("open")
        self.work.spend(part.done)
        return decision

    def _known_short(self, counts: Sequence[int]) -> bool:
        return any(
            all(n <= most for n, most in zip(counts, refuted, strict=True))
            for refuted in self._refuted
        )


def search(lot: Lot, work: Work, base: int) -> tuple[Found, tuple[int, ...], bool]:
    """The cheapest layout found, what it leaves out of each kind, and whether it has to.

    `base` is the price of one cent. Where the sheets there are don't yield every panel, as much
    area as was found is cut, and the cost is judged for those panels.
    """
    none = tuple(0 for _ in lot.kinds)
    if not lot.pieces or not lot.stocks:
        return Found((), 0, 0), lot.counts, bool(lot.pieces)
    first = Search(lot, work, base)
    found = first.run()
    if found is not None:
        return found, none, False
    layout, left = min(
        plans(lot, SEED, TRIES),
        key=lambda plan: sum(k.area * n for k, n in zip(lot.kinds, plan[1], strict=True)),
    )
    cut = tuple(n - out for n, out in zip(lot.counts, left, strict=True))
    rest = Search(lot.wanting(cut), work, base).run(layout)
    return rest or Found(layout, cost_of(lot, layout), 0), tuple(left), first.short
