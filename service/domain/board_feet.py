"""Board feet: how sawn lumber is counted and priced, which is not by its real size."""

import math
from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction
from typing import Literal

from service.domain.catalog import BoardSize, Catalog
from service.domain.errors import Complaint, DryfitError
from service.domain.sizes import StockSizes, look_up
from service.domain.values import dataclass

CUBIC_INCHES = 144  # in one board foot: a board of 1 in by 12 in by 12 in
INCHES_A_FOOT = 12

SOURCES = ("page-hardwood-measure", "tip-board-feet")

Counted = Literal["nominal", "rough", "listed", "stated"]
Per = Literal["piece", "foot", "board-foot", "sheet"]

EXPLAINED: dict[Counted, str] = {
    "nominal": "softwood is counted by the size in its name, not by what it measures",
    "rough": "hardwood is counted by its rough thickness and the width of the board",
    "listed": "this stock is named by its real size, so that is what is counted",
    "stated": "counted by the sizes given, as if they were nominal or rough",
}


class NotCounted(DryfitError):
    """There is no count of board feet for this."""

    def __init__(self, *complaints: Complaint) -> None:
        super().__init__("; ".join(complaint.detail for complaint in complaints))
        self.complaints = complaints


@dataclass(frozen=True, slots=True)
class Section:
    """Thickness and width that are counted, inches, and which sizes these are."""

    thickness: Fraction
    width: Fraction
    counted: Counted
    rests_on: tuple[str, ...] = ()

    @property
    def each_foot(self) -> Fraction:
        """Board feet in one foot of length."""
        return board_feet(self.thickness, self.width, Fraction(INCHES_A_FOOT))


def board_feet(thickness: Fraction, width: Fraction, length: Fraction) -> Fraction:
    """Board feet of one board, from its counted sizes in inches. Exact.

    Source: tip-board-feet, worked examples (1 x 9 x 96 in is 6, 1 1/2 x 9 x 96 in is 9).
    """
    return thickness * width * length / CUBIC_INCHES


def surface_measure(width: Fraction, length: Fraction) -> int:
    """The whole number on a hardwood tally: square feet of a board's face, nearest, half up.

    Source: page-hardwood-measure (6 1/4 in by 8 ft is tallied 4).
    """
    return math.floor(width * length / CUBIC_INCHES + Fraction(1, 2))


def own_section(sizes: StockSizes) -> Section | None:
    """The section of a stock whose name says all of it; None for sheets and for random widths."""
    board = sizes.sold
    if not isinstance(board, BoardSize) or board.width is None or board.kind == "hardwood":
        return None
    nominal = board.nominal_width is not None or board.nominal_thickness is not None
    return Section(
        board.nominal_thickness or board.thickness.listed,
        board.nominal_width or board.width.listed,
        "nominal" if nominal else "listed",
        board.rests_on,
    )


def counted_section(sizes: StockSizes, width: Fraction | None) -> Section:
    """The sizes of a stock that board feet are counted by.

    Softwood counts the numbers in its name. Hardwood counts its rough thickness and the width of
    the board, which the caller states. Raises NotCounted.
    Source: page-hardwood-measure for hardwood; for softwood the trade's own use of the name.
    """
    own, board = own_section(sizes), sizes.sold
    if own is not None and width is None:
        return own
    if own is not None:
        raise NotCounted(
            Complaint("width", f"{sizes.stock} has a width of its own; leave this out.")
        )
    if not isinstance(board, BoardSize):
        told = f"{sizes.stock} is sold by the sheet; board feet count sawn lumber."
        raise NotCounted(Complaint("stock", told))
    if width is None:
        told = f"{sizes.stock} comes in any width: say how wide the board is."
        raise NotCounted(Complaint("width", told))
    rough = board.nominal_thickness or board.thickness.listed
    return Section(rough, width, "rough", board.rests_on)


def section_of(
    catalog: Catalog,
    region: str,
    stock: str | None,
    thickness: Fraction | None,
    width: Fraction | None,
) -> tuple[Section, tuple[str, ...]]:
    """What is counted for a stock by name, or for sizes as given, and what that assumes.

    Raises UnknownName and NotCounted.
    """
    if stock is not None:
        sizes = look_up(catalog, region, stock)
        return counted_section(sizes, width), sizes.assumed
    if thickness is None or width is None:
        raise NotCounted(Complaint("stock", "Say stock, or thickness and width."))
    return Section(thickness, width, "stated"), ()


@dataclass(frozen=True, slots=True)
class Tally:
    """Boards counted: board feet, exact, and money to the cent.

    `surface_measure` is the whole number on a hardwood tally, for one board.
    """

    section: Section
    length: Fraction
    count: int
    each: Fraction
    surface_measure: int | None
    cost: Decimal | None

    @property
    def total(self) -> Fraction:
        """Board feet of all the boards."""
        return self.each * self.count


def tally(section: Section, length: Fraction, count: int, price: Decimal | None, per: Per) -> Tally:
    """`count` boards of one section and length (inches), priced if there is a price."""
    each = board_feet(section.thickness, section.width, length)
    rough = section.counted == "rough"
    measure = surface_measure(section.width, length) if rough else None
    money = None if price is None else cost(price, per, count, length, each * count)
    return Tally(section, length, count, each, measure, money)


def cost(price: Decimal, per: Per, count: int, length: Fraction, feet: Fraction) -> Decimal:
    """What `count` boards cost, to the cent, half up; `feet` are the board feet of all of them."""
    units = {
        "piece": Fraction(count),
        "sheet": Fraction(count),
        "foot": count * length / INCHES_A_FOOT,
        "board-foot": feet,
    }[per]
    exact = Fraction(price) * units
    cents = Decimal(exact.numerator) / Decimal(exact.denominator)
    return cents.quantize(Decimal("0.01"), ROUND_HALF_UP)
