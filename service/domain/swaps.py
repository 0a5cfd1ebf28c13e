"""What to buy instead where the budget is passed, by the caller's own prices.

The same stock of another wood, a larger sheet of the same panel, or another finish of the same
family; several together where no single one is enough.
"""

import math
from collections.abc import Iterator
from decimal import Decimal
from fractions import Fraction

from service.domain.build import Price, Step
from service.domain.cost import PACK, Cost, cents, finish_lines, tax_on, wood_line
from service.domain.finishing import finish_of, little_against_water
from service.domain.purchase import Bought, Purchase, prices_for
from service.domain.resolving import ResolvedBuild
from service.domain.values import dataclass, replace

BY_PIECE = ("piece", "sheet")
WET = ("damp", "covered", "outdoors")


@dataclass(frozen=True, slots=True)
class Swap:
    """Another thing that the caller has a price for, and what it saves, tax included."""

    line: str
    to: str
    saves: Decimal
    meets_budget: bool


@dataclass(frozen=True, slots=True)
class Cheaper:
    """One line as something else, and how much less that costs before tax."""

    line: str
    to: str
    less: Decimal


def swaps(
    build: ResolvedBuild, purchase: Purchase, found: Cost, coats: tuple[Step, ...] = ()
) -> tuple[Swap, ...]:
    """Every swap that saves; none where there is no budget, or where it is met."""
    if found.budget is None or found.total <= found.budget:
        return ()
    steps = (*build.build.steps, *coats)
    cheaper = [
        one
        for one in (*_woods(build, purchase), *_sheets(build, purchase), *_finishes(build, steps))
        if one.less > 0
    ]
    single = [_swap(build, found, (one,)) for one in cheaper]
    if any(one.meets_budget for one in single):
        return tuple(single)
    return (*single, *_together(build, found, cheaper))


def _swap(build: ResolvedBuild, found: Cost, ones: tuple[Cheaper, ...]) -> Swap:
    subtotal = found.subtotal - sum((one.less for one in ones), Decimal(0))
    total = subtotal + tax_on(build, subtotal)
    return Swap(
        " and ".join(one.line for one in ones),
        " and ".join(one.to for one in ones),
        found.total - total,
        found.budget is not None and total <= found.budget,
    )


def _together(build: ResolvedBuild, found: Cost, cheaper: list[Cheaper]) -> Iterator[Swap]:
    """The fewest swaps that meet the budget, the best for each line; all of them if none do."""
    best: dict[str, Cheaper] = {}
    for one in sorted(cheaper, key=lambda one: -one.less):
        best.setdefault(one.line, one)
    ones = tuple(best.values())
    for count in range(2, len(ones) + 1):
        swap = _swap(build, found, ones[:count])
        if swap.meets_budget or count == len(ones):
            yield swap
            return


def _woods(build: ResolvedBuild, purchase: Purchase) -> Iterator[Cheaper]:
    for one, money in _paid(purchase):
        for price in build.build.buying.prices:
            same = (build.sizing.key(price.stock) or price.stock) == one.stock
            fits = price.length in (None, one.length) and price.width in (None, one.width)
            enough = price.at_most is None or price.at_most >= one.count
            if same and fits and enough and price.wood and price.per in BY_PIECE:
                less = cents(money - price.price * one.count)
                was = wood_line(one, build.metric).what
                yield Cheaper(was, f"{price.stock}, {price.wood}", less)


def _sheets(build: ResolvedBuild, purchase: Purchase) -> Iterator[Cheaper]:
    """Sheets at least as large, each cut as those that it takes the place of."""
    for one, money in _paid(purchase):
        for price in prices_for(build, one.stock) if one.width is not None else ():
            fit = _fit(build, price, one)
            alike = (price.length, price.width) == (one.length, one.width)
            if price.length is None or not fit or alike:
                continue
            count = math.ceil(Fraction(one.count, fit))
            if price.at_most is None or price.at_most >= count:
                named = replace(
                    one, length=price.length, width=price.width, count=count, price=price.price
                )
                less = cents(money - price.price * count)
                was, now = (wood_line(board, build.metric).what for board in (one, named))
                yield Cheaper(was, f"{count} x {now}", less)


def _fit(build: ResolvedBuild, price: Price, one: Bought) -> int:
    """How many whole sheets come out of another, a kerf between them."""
    if price.length is None or price.width is None or one.width is None:
        return 0
    if price.per not in BY_PIECE:
        return 0
    kerf = build.build.shop.kerf or Fraction(0)
    along = math.floor((price.length + kerf) / (one.length + kerf))
    return along * math.floor((price.width + kerf) / (one.width + kerf))


def _paid(purchase: Purchase) -> Iterator[tuple[Bought, Decimal]]:
    for one in purchase.boards:
        if one.price is not None and one.source == "store":
            yield one, cents(one.price * one.count)


def _finishes(build: ResolvedBuild, steps: tuple[Step, ...]) -> Iterator[Cheaper]:
    """Another finish of the same family that a can is priced of, and that suits the place."""
    now = _money(build, steps)
    if now is None:
        return
    catalog, region = build.catalog, build.build.region
    packs = (PACK.fullmatch(price.stock) for price in build.build.buying.prices)
    keys = dict.fromkeys(catalog.key("finish", region, pack[1]) for pack in packs if pack)
    priced = [catalog.finishes[key] for key in keys if key and key in catalog.finishes]
    used = [one for step in steps if (one := finish_of(build, step))]
    for old in {one.key: one for one in used}.values():
        for new in priced:
            wet = build.build.place.where in WET and little_against_water(new) is not None
            if new.kind != old.kind or new.key == old.key or wet:
                continue
            changed = tuple(
                replace(step, finish=new.key) if finish_of(build, step) is old else step
                for step in steps
            )
            money = _money(build, changed)
            if money is not None:
                yield Cheaper(old.key, new.key, now - money)


def _money(build: ResolvedBuild, steps: tuple[Step, ...]) -> Decimal | None:
    """What the finish of all steps costs; None where a price is missing."""
    lines = [line.money for line in finish_lines(build, steps)]
    known = [money for money in lines if money is not None]
    return sum(known, Decimal(0)) if len(known) == len(lines) else None
