"""A few sheets at a time: their panels are cut anew, more cheaply where that can be.

What is too much for one search falls into small ones: some sheets of the plan, the emptier ones
rather, whose panels are searched for the cheapest sheets by themselves.
"""

from collections.abc import Iterator, Sequence
from random import Random

from service.planning.panels.lots import Laid, Layout, Lot, cost_of, kinds_in, pattern_of, renamed
from service.planning.panels.packing import Packing
from service.planning.panels.searching import SEED, Search
from service.planning.panels.stepwise import Steps, decide_stepwise
from service.planning.panels.work import Spent, Work

MOST_PANELS = 40
MOST_SHEETS = 5
FRUITLESS = 150
"""Tries in a row without a gain that end the rework."""
KEPT = 40
ATTEMPTS = 6
ROOMIEST = 3
"""Cheaper purchases that are tried for some sheets, those with the most area."""
FULLEST = 0.985
"""The share of its sheets that panels may have to cover for a try to be worth it."""
MOST_LISTED = 3000


def rework(search: Search, work: Work) -> None:
    """Make the layout of a search cheaper, a few sheets at a time, as far as the work goes.

    Where the panels of some sheets only come out of the same sheets again, the new cut is kept
    if it leaves one sheet emptier: what is left over gathers until a sheet is not needed.
    """
    chance = Random(SEED)
    layout = search.layout or ()
    fruitless = 0
    while len(layout) > 1 and not search.proved and fruitless < FRUITLESS and work.can(0):
        fruitless += 1
        some = _some(search.lot, layout, chance)
        rest = _without(layout, some)
        anew = _anew(search.lot, rest, some, fruitless, work) if len(some) > 1 else None
        if anew is None:
            continue
        cheaper = cost_of(search.lot, anew) < cost_of(search.lot, some)
        if cheaper or _unevenness(search.lot, anew) > _unevenness(search.lot, some):
            layout = (*rest, *anew)
        if cheaper:
            search.take(layout)
            fruitless = 0


def _unevenness(lot: Lot, layout: Layout) -> float:
    return sum(_full(lot, laid) ** 2 * lot.stocks[laid.stock].area for laid in layout)


def _some(lot: Lot, layout: Layout, chance: Random) -> Layout:
    """Some sheets of a layout, few enough for one search; emptier ones are likelier."""
    order = sorted(
        layout,
        key=lambda laid: chance.random() ** 2 * (0.05 + 1 - _full(lot, laid)),
        reverse=True,
    )
    found: list[Laid] = []
    counts: dict[int, int] = {}
    for laid in order[:MOST_SHEETS]:
        more = dict(counts)
        for kind, n in pattern_of(laid.root).items():
            more[kind] = more.get(kind, 0) + n
        if sum(more.values()) <= MOST_PANELS and Packing(tuple(more.values())).possible:
            found.append(laid)
            counts = more
    return tuple(found)


def _full(lot: Lot, laid: Laid) -> float:
    area = sum(lot.kinds[kind].area for kind in kinds_in(laid.root))
    return area / lot.stocks[laid.stock].area


def _without(layout: Layout, some: Layout) -> Layout:
    left = list(layout)
    for laid in some:
        left.remove(laid)
    return tuple(left)


def _anew(lot: Lot, rest: Layout, some: Layout, seed: int, work: Work) -> Layout | None:
    """The panels of some sheets, cut from sheets no dearer; None where no way is found."""
    counts: dict[int, int] = {}
    for laid in some:
        for kind, n in pattern_of(laid.root).items():
            counts[kind] = counts.get(kind, 0) + n
    names = sorted(counts)
    small = lot.some(names, [counts[name] for name in names], [laid.stock for laid in rest])
    areas = [stock.area for stock in small.stocks]
    ways = sorted(
        _purchases(small, cost_of(lot, some)),
        key=lambda bought: (-_total(areas, bought), bought),
    )[:ROOMIEST]
    stocks = [laid.stock for laid in some]
    ways.append(tuple(stocks.count(place) for place in range(len(areas))))
    for bought in ways:
        try:
            steps = Steps(KEPT, seed, ATTEMPTS, together=1)
            decision = decide_stepwise(small, bought, areas, steps, work)
        except Spent:
            return None
        if decision.answer == "yes":
            return tuple(Laid(laid.stock, renamed(laid.root, names)) for laid in decision.layout)
    return None


def _total(areas: Sequence[int], bought: Sequence[int]) -> int:
    return sum(area * n for area, n in zip(areas, bought, strict=True))


def _purchases(lot: Lot, ceiling: int) -> Iterator[tuple[int, ...]]:
    """Purchases cheaper than a ceiling that have the area, free sheets in full; at most some."""
    stocks = lot.stocks
    waiting: list[tuple[tuple[int, ...], int]] = [((), 0)]
    listed = 0
    while waiting and listed < MOST_LISTED:
        chosen, cost = waiting.pop()
        if len(chosen) == len(stocks):
            listed += 1
            if lot.area <= FULLEST * _total([stock.area for stock in stocks], chosen):
                yield chosen
            continue
        stock = stocks[len(chosen)]
        limit = lot.pieces if stock.limit is None else min(stock.limit, lot.pieces)
        if stock.price == 0:
            waiting.append(((*chosen, limit), cost))
            continue
        most = min(limit, (ceiling - 1 - cost) // stock.price)
        waiting += [((*chosen, n), cost + n * stock.price) for n in range(most + 1)]
