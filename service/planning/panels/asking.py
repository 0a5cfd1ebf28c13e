"""What is asked of the sheets: panels wanted, sheets to be had, and how the shop cuts. Inches."""

from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction


@dataclass(frozen=True, slots=True)
class Panel:
    """A rectangular part, wanted `quantity` times.

    `length` lies along the sheet's length, where its grain runs, unless `turns`: then the grain
    does not matter and the panel may lie either way.
    """

    id: str
    length: Fraction
    width: Fraction
    quantity: int = 1
    turns: bool = False


@dataclass(frozen=True, slots=True)
class Sheet:
    """Sheets alike, for sale or on hand (price 0); `at_most` is how many there are (None: any).

    The grain runs along the length; a sheet without grain takes every panel either way.
    """

    id: str
    length: Fraction
    width: Fraction
    price: Decimal = Decimal(0)
    at_most: int | None = None
    on_hand: bool = False
    grain: bool = True


@dataclass(frozen=True, slots=True)
class Cutting:
    """How sheets are cut.

    `kerf` lies between neighbors; `trim` comes off every edge of a sheet, its saw cut included.
    `turns` is how often, at most, the direction of cutting may change on the way to any one
    panel, edge trimming aside (None: as often as need be). `carry` is the largest piece that can
    be carried home, `store_cuts` how many straight cuts the store makes on one sheet, at most
    (None: any number; 0: none). A rest is kept when both sides reach `keep_at_least`.
    """

    kerf: Fraction = Fraction(1, 8)
    trim: Fraction = Fraction(0)
    turns: int | None = None
    carry: tuple[Fraction, Fraction] | None = None
    store_cuts: int | None = 0
    keep_at_least: Fraction = Fraction(6)
