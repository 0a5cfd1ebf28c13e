"""The same sheets, but with a larger rest: an imaginary panel takes the place that is kept free."""

from dataclasses import replace

from service.planning.panels.deciding import decide
from service.planning.panels.lots import Kind, Laid, Layout, Lot, kinds_in, renamed
from service.planning.panels.trees import rests_in
from service.planning.panels.work import Spent, Work

KEPT = 60
HALVINGS = 4


def largest_rest(layout: Layout) -> int:
    """Square steps of the largest rest."""
    rests = (rest for laid in layout for rest in rests_in(laid.root))
    return max((rest.width * rest.height for rest in rests), default=0)


def keep_larger(lot: Lot, layout: Layout, seed: int, work: Work) -> Layout:
    """A layout from the same sheets with a rest no smaller, as far as the work goes.

    For every stock in use, strips right across its sheet are tried, wider and wider by halving.
    """
    counts = [0] * len(lot.stocks)
    for laid in layout:
        counts[laid.stock] += 1
    used = tuple(counts)
    places = sorted((p for p, n in enumerate(used) if n), key=lambda p: -lot.stocks[p].area)
    try:
        for place in places:
            for axis in (0, 1):
                layout = _wider(lot, layout, used, (place, axis), (seed, work))
    except Spent:
        pass
    return layout


def _wider(
    lot: Lot, layout: Layout, used: tuple[int, ...], strip: tuple[int, int],
    effort: tuple[int, Work],
) -> Layout:  # fmt: skip
    place, axis = strip
    stock = lot.stocks[place]
    across, along = (stock.height, stock.width) if axis == 0 else (stock.width, stock.height)
    low, high = largest_rest(layout) // across, along
    for _ in range(HALVINGS):
        middle = (low + high + 1) // 2
        if middle <= low:
            break
        found = _with_strip(lot, used, (middle, across) if axis == 0 else (across, middle), effort)
        if found is None:
            high = middle - 1
        else:
            layout, low = found, largest_rest(found) // across
    return layout


def _with_strip(
    lot: Lot, used: tuple[int, ...], size: tuple[int, int], effort: tuple[int, Work]
) -> Layout | None:
    spare = sum(n * stock.area for n, stock in zip(used, lot.stocks, strict=True)) - lot.area
    if size[0] * size[1] > spare:
        return None
    wider = replace(lot, kinds=(*lot.kinds, Kind(*size, 1)))
    seed, work = effort
    areas = [stock.area for stock in lot.stocks]
    decision = decide(wider, used, areas, most=KEPT, seed=seed, work=work)
    if decision.answer != "yes":
        return None
    names = [*range(len(lot.kinds)), -1]
    freed = (Laid(laid.stock, renamed(laid.root, names)) for laid in decision.layout)
    return tuple(laid for laid in freed if kinds_in(laid.root))
