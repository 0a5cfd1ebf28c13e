"""From inches and money to whole steps: exact, by the largest unit that divides every size.

Panels alike become one kind, sheets alike one stock; what can't help is left out. Kinds and
stocks are sorted by size and price, so that the order of the question doesn't matter.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal
from fractions import Fraction
from math import ceil, floor, gcd, lcm

from service.planning.panels.asking import Cutting, Panel, Sheet
from service.planning.panels.lots import Kind, Lot, Stock

MOST_STEPS = 1 << 28
FEWER_STEPS = 1 << 20


@dataclass(frozen=True, slots=True)
class Exact:
    """The lot, and what its numbers stand for.

    `unit` is inches a step. A price is cents times `base`, and one for the sheet itself, so that
    of purchases that cost the same the one with the fewest sheets is the cheapest; a free sheet
    adds nothing. `cent` is the smallest money of the question. `panels` lists, by kind, places
    in the question's panels, one for every piece; `sheets`, by stock, places in its sheets, one
    for every sheet there is or could be needed. `misfits` are places of panels that no sheet
    takes.
    `rounded`: the unit is a little coarse; panels were rounded up and sheets down.
    """

    lot: Lot
    unit: Fraction
    cent: Decimal
    base: int
    panels: tuple[tuple[int, ...], ...]
    sheets: tuple[tuple[int, ...], ...]
    misfits: tuple[int, ...]
    rounded: bool

    def money(self, price: int) -> Decimal:
        """The money in a sum of prices, or in a floor under one."""
        return price // self.base * self.cent


def exact(panels: Sequence[Panel], sheets: Sequence[Sheet], cutting: Cutting) -> Exact:
    """The question in whole steps."""
    unit, rounded = _unit(panels, sheets, cutting)
    grain = any(sheet.grain for sheet in sheets)
    sizes = [_steps(panel, cutting.kerf, unit, grain) for panel in panels]
    cent = _cent(sheet.price for sheet in sheets)
    stocks = _stocks(sheets, cutting, unit, cent)
    misfits = tuple(
        place for place, (w, h, turns) in enumerate(sizes)
        if not any(_takes(stock, w, h, turns) for stock in stocks)
    )  # fmt: skip
    kinds: dict[tuple[int, int, bool], list[int]] = {}
    for place, size in enumerate(sizes):
        if place not in misfits:
            kinds.setdefault(size, []).extend([place] * panels[place].quantity)
    order = sorted(kinds, key=lambda size: (-size[0] * size[1], size))
    useful = _useful(stocks, order)
    base = sum(len(kinds[size]) for size in order) + 1
    lot = Lot(
        tuple(Kind(w, h, len(kinds[(w, h, turns)]), turns) for w, h, turns in order),
        tuple(replace(s, price=s.price * base + 1 if s.price else 0) for s in useful),
        cutting.turns,
    )
    return Exact(
        lot, unit, cent, base, tuple(tuple(kinds[size]) for size in order),
        tuple(_expanded(stocks[stock], sheets, lot.pieces) for stock in useful),
        misfits, rounded,
    )  # fmt: skip


def _unit(
    panels: Sequence[Panel], sheets: Sequence[Sheet], cutting: Cutting
) -> tuple[Fraction, bool]:
    edges = 2 * cutting.trim
    sizes = [size for panel in panels for size in (panel.length, panel.width)]
    sizes += [size - edges for sheet in sheets for size in (sheet.length, sheet.width)]
    sizes = [size + cutting.kerf for size in sizes]
    under = lcm(1, *(size.denominator for size in sizes))
    unit = Fraction(gcd(*(int(size * under) for size in sizes)) or 1, under)
    longest = max([unit, *map(abs, sizes)])
    if longest / unit > MOST_STEPS:
        return longest / FEWER_STEPS, True
    return unit, False


def _steps(panel: Panel, kerf: Fraction, unit: Fraction, grain: bool) -> tuple[int, int, bool]:
    """Width, height and whether it may turn; the longer side first where it may."""
    w, h = ceil((panel.length + kerf) / unit), ceil((panel.width + kerf) / unit)
    if w == h:
        return w, h, False
    if panel.turns or not grain:
        return max(w, h), min(w, h), True
    return w, h, False


def _cent(prices: Iterable[Decimal]) -> Decimal:
    places = [int(price.as_tuple().exponent) for price in prices]
    return Decimal(1).scaleb(min([0, *places]))


def _stocks(
    sheets: Sequence[Sheet], cutting: Cutting, unit: Fraction, cent: Decimal
) -> dict[Stock, list[int]]:
    """The stocks, and which sheets of the question each stands for; limits added up."""
    alike: dict[tuple[int, int, int, bool], list[int]] = {}
    for place, sheet in enumerate(sheets):
        width = floor((sheet.length - 2 * cutting.trim + cutting.kerf) / unit)
        height = floor((sheet.width - 2 * cutting.trim + cutting.kerf) / unit)
        if width > 0 and height > 0 and sheet.at_most != 0:
            key = (width, height, int(sheet.price / cent), sheet.grain)
            alike.setdefault(key, []).append(place)
    stocks = {}
    for key in sorted(alike, key=lambda key: (key[2], key)):
        limits = [sheets[place].at_most for place in alike[key]]
        known = [limit for limit in limits if limit is not None]
        limit = sum(known) if len(known) == len(limits) else None
        width, height, price, grained = key
        stocks[Stock(width, height, price, limit, grained)] = alike[key]
    return stocks


def _takes(stock: Stock, w: int, h: int, turns: bool) -> bool:
    upright = w <= stock.width and h <= stock.height
    turned = h <= stock.width and w <= stock.height
    return upright or (turned and (turns or not stock.grained))


def _useful(stocks: Iterable[Stock], sizes: Sequence[tuple[int, int, bool]]) -> list[Stock]:
    """The stocks that take some panel and that no larger, no dearer one makes needless."""
    taking = [stock for stock in stocks if any(_takes(stock, *size) for size in sizes)]
    return [one for one in taking if not any(_betters(other, one) for other in taking)]


def _betters(other: Stock, one: Stock) -> bool:
    return (
        other != one and other.limit is None and other.price <= one.price
        and other.width >= one.width and other.height >= one.height
        and (one.grained or not other.grained)
    )  # fmt: skip


def _expanded(places: Sequence[int], sheets: Sequence[Sheet], pieces: int) -> tuple[int, ...]:
    """One place a sheet: limited entries first, then as many as there are panels."""
    limited = [place for place in places if sheets[place].at_most is not None]
    any_number = [place for place in places if sheets[place].at_most is None]
    found = [place for place in limited for _ in range(min(pieces, sheets[place].at_most or 0))]
    return tuple(found + any_number[:1] * pieces)
