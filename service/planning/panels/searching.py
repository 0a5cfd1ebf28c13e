"""The search for the cheapest sheets: a plan at once, a floor under its cost, and the two brought together.

Purchases come cheapest first from the relaxed choice. Each is decided with few pieces kept, then
with more and more, until it yields every panel, is proved not to, or the work is spent.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

from service.planning.panels.bounding import Purchases
from service.planning.panels.deciding import Decision, decide
from service.planning.panels.greedy import best_plan
from service.planning.panels.lots import Layout, Lot, cost_of
from service.planning.panels.stepwise import decide_stepwise
from service.planning.panels.tables import Tables
from service.planning.panels.work import Spent, Work

KEPT = (60, 150, 300, 600, 1200, 2400, 4800, 9600)
MOST_OPEN = 40
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

    def __init__(self, lot: Lot, work: Work) -> None:
        self.lot = lot
        self.work = work
        self.best: Found | None = None
        self._tables = Tables(lot)
        self._open: list[_Open] = []
        self._refuted: list[tuple[int, ...]] = []
        self._purchases: Purchases | None = None

    def run(self) -> Found | None:
        """Search until the cost is proved or the work is spent; None where no plan was found."""
        self._start()
        if self.best is None:
            return None
        try:
            self._purchases = Purchases(self.lot, self._tables, self.best.cost, self.work)
            self._gather(self._purchases)
            for most in KEPT[1:]:
                if not self._open:
                    break
                self._press(most)
        except Spent:
            pass
        return self.best._replace(floor=self._floor())

    def _start(self) -> None:
        plan = best_plan(self.lot, SEED, TRIES, 0)
        if plan is not None:
            self._take(plan[0])

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
