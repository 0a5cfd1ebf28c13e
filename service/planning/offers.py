"""What can be had of a stock: boards and sheets for sale, on hand or planned, with prices."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from decimal import Decimal
from fractions import Fraction

from service.domain.build import Offcut, Planned, Price
from service.domain.catalog import BoardSize, PanelSize
from service.domain.parts import ResolvedPart
from service.domain.purchase import each
from service.domain.resolving import ResolvedBuild
from service.planning.job import ForSale, OnHand
from service.planning.panels.asking import Sheet

A_SQUARE_FOOT = 144  # square inches


@dataclass(frozen=True, slots=True)
class Stock:
    """What parts are cut from: a board or panel by key, and the wood where prices depend on it.

    `reserved` names the parts where boards are kept for them: those share boards with no others.
    """

    key: str
    wood: str | None
    reserved: tuple[str, ...] = ()

    def has(self, build: ResolvedBuild, entry: Planned | Offcut) -> bool:
        """Whether a board on hand or planned is of this stock, and for these parts."""
        return build.sizing.key(entry.stock) == self.key and entry.reserved == self.reserved


@dataclass(frozen=True, slots=True)
class Choice:
    """What may be used: everything, or only what the plan says to buy; some pieces only."""

    planned_only: bool = False
    pieces: dict[str, int] | None = None

    def count(self, part: ResolvedPart) -> int:
        """How many pieces of a part are wanted."""
        if self.pieces is None:
            return part.part.quantity
        return min(self.pieces.get(part.part.id, 0), part.part.quantity)


def boards_for_sale(
    build: ResolvedBuild, stock: Stock, board: BoardSize, choice: Choice
) -> Iterator[ForSale]:
    """Lengths that can be bought, each with its price a board; price 0 where none is known."""
    if choice.planned_only:
        for planned in planned_of(build, stock):
            yield ForSale(planned.length, Decimal(1), planned.quantity)
        return
    prices = list(prices_of(build, stock))
    for price in prices:
        for length in (price.length,) if price.length is not None else board.lengths:
            money = each(build, price, length, price.width)
            if money is not None:
                yield ForSale(length, cents(Fraction(money)), price.at_most)
    if not prices:
        lengths = {planned.length for planned in planned_of(build, stock)} or set(board.lengths)
        yield from (ForSale(length, Decimal(0)) for length in sorted(lengths))


def cents(amount: Fraction) -> Decimal:
    """Money to the cent, half up."""
    return Decimal(int(amount * 100 + Fraction(1, 2))) / 100


def by_length(for_sale: tuple[ForSale, ...]) -> Iterator[ForSale]:
    """Without prices: the least wood is the best plan, so a board costs its inches."""
    for sale in for_sale:
        yield ForSale(sale.length, cents(sale.length), sale.at_most)


def prices_of(build: ResolvedBuild, stock: Stock) -> Iterator[Price]:
    """The caller's prices for a stock; one that names a wood holds for that wood only."""
    for price in build.build.buying.prices:
        wood = price.wood
        named = wood and (build.catalog.key("wood", build.build.region, wood) or wood)
        if build.sizing.key(price.stock) == stock.key and named in (None, stock.wood):
            yield price


def planned_of(build: ResolvedBuild, stock: Stock) -> Iterator[Planned]:
    """What the plan says to buy of a stock."""
    for planned in build.build.buying.planned:
        if stock.has(build, planned):
            yield planned


def offcuts_of(build: ResolvedBuild, stock: Stock) -> Iterator[Offcut]:
    """What is on hand of a stock."""
    for offcut in build.build.buying.offcuts:
        if stock.has(build, offcut):
            yield offcut


def boards_on_hand(build: ResolvedBuild, stock: Stock, width: Fraction) -> Iterator[OnHand]:
    """Boards on hand in their full width; a narrower offcut serves no full-width part."""
    for offcut in offcuts_of(build, stock):
        if offcut.width is None or offcut.width >= width:
            yield OnHand(offcut.length, offcut.quantity, offcut.defects)


def sheets_to_use(
    build: ResolvedBuild, stock: Stock, panel: PanelSize, choice: Choice, *, grained: bool
) -> Iterator[Sheet]:
    """Sheets on hand, planned or for sale; price 0 where none is known."""
    for place, offcut in enumerate(offcuts_of(build, stock)):
        if offcut.width is not None:
            yield Sheet(f"on-hand-{place}", offcut.length, offcut.width, Decimal(0),
                        offcut.quantity, on_hand=True, grain=grained)  # fmt: skip
    planned = [entry for entry in planned_of(build, stock) if entry.width is not None]
    if choice.planned_only:
        for place, entry in enumerate(planned):
            yield Sheet(f"planned-{place}", entry.length, entry.width or Fraction(0), Decimal(1),
                        entry.quantity, grain=grained)  # fmt: skip
        return
    prices = list(sheet_prices(build, stock, panel))
    for place, (size, money, at_most) in enumerate(prices):
        width, length = size
        yield Sheet(f"store-{place}", length, width, money, at_most, grain=grained)
    if not prices:
        sizes = {(entry.width or Fraction(0), entry.length) for entry in planned}
        for place, (width, length) in enumerate(sorted(sizes or set(panel.sheets))):
            yield Sheet(f"store-{place}", length, width, grain=grained)


def sheet_prices(
    build: ResolvedBuild, stock: Stock, panel: PanelSize
) -> Iterator[tuple[tuple[Fraction, Fraction], Decimal, int | None]]:
    """Sheets (width, length) with a price, and how many; a side not told is that of usual ones."""
    for price in prices_of(build, stock):
        if price.width is not None and price.length is not None:
            sizes = [(price.width, price.length)]
        else:
            sizes = [(price.width or w, price.length or n) for w, n in panel.sheets]
        for width, length in dict.fromkeys(sizes):
            money = each(build, price, length, width)
            if money is not None:
                yield (width, length), cents(Fraction(money)), price.at_most


def by_area(sheets: tuple[Sheet, ...]) -> tuple[Sheet, ...]:
    """Without prices: the least sheet is the best plan, so a sheet costs its square feet."""
    return tuple(
        sheet
        if sheet.on_hand
        else replace(sheet, price=cents(sheet.length * sheet.width / A_SQUARE_FOOT))
        for sheet in sheets
    )
