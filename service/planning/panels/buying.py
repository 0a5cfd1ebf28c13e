"""The cheapest purchase of sheets for a lot, and what has to be left out where they are few."""

from service.planning.panels.lots import Lot, cost_of
from service.planning.panels.packing import Packing
from service.planning.panels.reworking import rework
from service.planning.panels.searching import Depth, Found, Search
from service.planning.panels.work import Work

MOST_AT_ONCE = 45
"""Panels that one search can do; with more, a few sheets at a time do better."""

LARGE = Depth(tries=20, kept=(60, 150, 300), open=2)


def buy(lot: Lot, work: Work, base: int) -> tuple[Found, tuple[int, ...], bool]:
    """The cheapest layout found, what it leaves out of each kind, and whether it has to.

    Where the sheets there are don't yield every panel, as much area as was found is cut, and the
    cost is judged for those panels.
    """
    if not lot.pieces or not lot.stocks:
        return Found((), 0, 0), lot.counts, bool(lot.pieces)
    search = Search(lot, work, base, _depth(lot))
    search.start()
    if search.layout is not None:
        return _searched(search), tuple(0 for _ in lot.kinds), False
    short, left = search.short, search.least_left
    cut = tuple(n - out for n, out in zip(lot.counts, left, strict=True))
    rest = Search(lot.wanting(cut), work, base, _depth(lot))
    rest.take(search.partial)
    rest.start()
    return _searched(rest), left, short


def _depth(lot: Lot) -> Depth:
    large = lot.pieces > MOST_AT_ONCE or not Packing(lot.counts).possible
    return LARGE if large else Depth()


def _searched(search: Search) -> Found:
    """A floor first, then the rework of a few sheets at a time, then whole purchases again."""
    work, large = search.work, search.depth is LARGE
    search.gather(work.share(0.3 if large else 0.15))
    if not search.proved and len(search.layout or ()) > 2:
        rework(search, work.share(0.9 if large else 0.3))
    search.gather(work.share(0.5))
    search.press()
    layout = search.layout or ()
    return Found(layout, cost_of(search.lot, layout), search.floor)
