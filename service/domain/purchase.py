"""What is bought: boards and sheets, with where their wood ends up. A planner hands it in."""

from decimal import Decimal
from fractions import Fraction
from typing import Literal

from service.domain.board_feet import own_section
from service.domain.build import Planned, Price
from service.domain.parts import ResolvedPart
from service.domain.resolving import ResolvedBuild
from service.domain.sizes import look_up
from service.domain.solid import Rod, Solid
from service.domain.values import dataclass
from service.domain.weight import Mass

Per = Literal["piece", "foot", "board-foot", "sheet"]
FOOT, SQUARE_FOOT = 12, 144


@dataclass(frozen=True, slots=True)
class Bought:
    """Boards or sheets alike: inches, money each, and cubic inches of all of them together.

    `in_parts` ends up in the piece, `kept` is put by, `waste` is the rest; None where nobody has
    planned the cuts. `price` is None where none is known; wood on hand costs nothing.
    """

    stock: str
    length: Fraction
    width: Fraction | None
    count: int
    price: Decimal | None
    source: Literal["store", "on-hand"] = "store"
    volume: Fraction | None = None
    in_parts: Fraction | None = None
    kept: Fraction | None = None
    waste: Fraction | None = None


@dataclass(frozen=True, slots=True)
class Lacking:
    """Pieces of one part that no plan makes of what can be had, and why, in words."""

    part: str
    quantity: int
    why: str


@dataclass(frozen=True, slots=True)
class Purchase:
    """Everything bought or taken from the bin. `planned`: False where no purchase is planned."""

    boards: tuple[Bought, ...] = ()
    planned: bool = True
    store_cuts: int = 0
    lacking: tuple[Lacking, ...] = ()


NOT_PLANNED = Purchase(planned=False)


def carried_home(build: ResolvedBuild, purchase: Purchase, piece: Mass) -> Mass | None:
    """What is bought weighs more than the piece by as much as it holds more wood.

    None where the purchase is not planned, or holds more or less than can be told.
    """
    bought = [one for one in purchase.boards if one.source == "store"]
    volumes = [one.volume for one in bought if one.volume is not None]
    if not purchase.planned or not bought or len(volumes) < len(bought) or not piece.usual:
        return None
    cut = sum(
        (
            Fraction(p.solid.volume) * p.part.quantity
            for p in build.parts
            if p.density and isinstance(p.solid, Solid | Rod)
        ),
        Fraction(0),
    )
    return piece.times(float(sum(volumes, Fraction(0)) / cut)) if cut else None


def planned_purchase(build: ResolvedBuild) -> Purchase:
    """What `planned` of the document says to buy; how it is cut is not known."""
    planned = build.build.buying.planned
    if not planned:
        return NOT_PLANNED
    return Purchase(tuple(_bought(build, one) for one in planned))


def _bought(build: ResolvedBuild, one: Planned) -> Bought:
    stock = build.sizing.key(one.stock) or one.stock
    price = price_of(build, stock, one.length, one.width)
    part = next((p for p in build.parts if p.sized and p.sized.key == stock), None)
    volume = _volume(part, one) if part else None
    in_parts = None
    if volume is not None and sum(p.stock == one.stock for p in build.build.buying.planned) == 1:
        in_parts = min(volume, volume_in_parts(build, stock))
    return Bought(
        stock, one.length, one.width, one.quantity, price, volume=volume, in_parts=in_parts
    )


def _volume(part: ResolvedPart, one: Planned) -> Fraction | None:
    sized = part.sized
    wide = one.width or (sized.stock_width.listed if sized and sized.stock_width else None)
    if sized is None or wide is None:
        return None
    return sized.stock_thickness.listed * wide * one.length * one.quantity


def volume_in_parts(build: ResolvedBuild, stock: str) -> Fraction:
    """Cubic inches of the parts of a stock, as cut."""
    return sum(
        (
            Fraction(p.solid.volume) * p.part.quantity
            for p in build.parts
            if p.sized and p.sized.key == stock and isinstance(p.solid, Solid | Rod)
        ),
        Fraction(0),
    )


def prices_for(build: ResolvedBuild, stock: str) -> tuple[Price, ...]:
    """The caller's prices of a stock, those of another wood left out."""
    region, wood = build.build.region, build.build.wood
    own = build.catalog.key("wood", region, wood) if wood else None
    return tuple(
        price
        for price in build.build.buying.prices
        if (build.sizing.key(price.stock) or price.stock) == stock
        and (price.wood is None or build.catalog.key("wood", region, price.wood) == own is not None)
    )


def price_of(
    build: ResolvedBuild, stock: str, length: Fraction, width: Fraction | None
) -> Decimal | None:
    """What one board or sheet costs by the caller's prices, exact; None where none applies.

    A price by the piece holds for its own length (and width) only; one by the foot, board foot or
    sheet for what it counts.
    """
    found = [each(build, price, length, width) for price in prices_for(build, stock)]
    return min((price for price in found if price is not None), default=None)


def each(
    build: ResolvedBuild, price: Price, length: Fraction, width: Fraction | None
) -> Decimal | None:
    """One price as that of a board or sheet of a size."""
    if price.per in ("piece", "sheet"):
        fits = price.length in (None, length) and price.width in (None, width)
        return price.price if fits else None
    feet = length / FOOT
    if price.per == "board-foot":
        section = foot_section(build, price.stock)
        if section is None:
            return None
        feet *= section
    return times(price.price, feet)


def foot_section(build: ResolvedBuild, stock: str) -> Fraction | None:
    """Board feet in a foot of a stock; None where its name does not say."""
    key = build.sizing.key(stock)
    if key is None:
        return None
    section = own_section(look_up(build.catalog, build.build.region, key))
    return section.each_foot if section else None


def converted(build: ResolvedBuild, price: Price) -> dict[Per, Decimal]:
    """A price in every way that it can be said, exact: by piece, foot, board foot or sheet."""
    said: dict[Per, Decimal] = {price.per: price.price}
    section = foot_section(build, price.stock)
    if price.per in ("piece", "sheet"):
        if price.length is None or price.width is not None:
            return said
        foot = times(price.price, FOOT / price.length)
    else:
        by = section if price.per == "board-foot" else Fraction(1)
        if by is None:
            return said
        foot = times(price.price, by)
    said["foot"] = foot
    if section:
        said["board-foot"] = times(foot, 1 / section)
    if price.length is not None:
        said["piece"] = times(foot, price.length / FOOT)
    return {**said, price.per: price.price}


def times(money: Decimal, count: Fraction) -> Decimal:
    """Money so many times; to 28 digits, rounded only when it is shown."""
    return money * count.numerator / count.denominator
