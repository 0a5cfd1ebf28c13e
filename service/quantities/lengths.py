"""Lengths and pairs of lengths, to exact inches."""

import re
from decimal import Decimal
from fractions import Fraction
from functools import lru_cache
from typing import Literal

from service.domain.ratio import ratio
from service.quantities.reading import checked, exact, leading_number, typed, why_no_unit
from service.quantities.refusals import refusal
from service.quantities.units import LENGTH, Kind, Unit

LONGEST = 12_000  # inches: 1,000 ft

_INCH = LENGTH.units[0]
_FEET_THEN_MORE = re.compile(r"(?:feet|foot|ft\.?|'(?!')) *+-? *+(?=\.?[0-9])", re.IGNORECASE)
_PAIR = Kind("a pair of sizes", "it like 16x20 in or 400 x 500 mm", LENGTH.units)


def length(
    value: str | int | float | Decimal, unit: Literal["in", "mm"] = "in", *, zero: bool = False
) -> Fraction:
    """Inches, exactly. `unit` is what a bare number is in; `zero` allows a length of none.

    Text is read as people write it: `20 3/4`, `20-3/4"`, `20¾ in`, `1' 8 3/4"`, `1 ft 8.75 in`,
    `527 mm`, `52,7 cm`, `0.5 m`. After feet, a bare number is inches. Raises QuantityError for
    anything else, a negative or zero length, and one over 1,000 ft.
    """
    if not isinstance(value, str):
        return _within_reach(exact(value, LENGTH), LENGTH.spellings[unit], value, zero)
    return _read(value, unit, zero)


@lru_cache(maxsize=1024)  # the same few sizes come again and again; a text has 64 letters at most
def _read(value: str, unit: Literal["in", "mm"], zero: bool) -> Fraction:
    text = typed(value, LENGTH)
    over, under, written = _number_and_unit(text, LENGTH)
    factor = (written or LENGTH.spellings[unit]).factor
    top, bottom = over * factor.numerator, under * factor.denominator
    if 0 < top <= LONGEST * bottom:  # whole numbers compare faster than fractions
        return ratio(top, bottom)
    return _within_reach(ratio(top, bottom), _INCH, value, zero)


def size_pair(value: str, unit: Literal["in", "mm"] = "in") -> tuple[Fraction, Fraction]:
    """Two lengths written with an x between them, in inches: `16x20in`, `400 x 500 mm`.

    A unit written once, at the end, holds for both. Width comes first for a thing that hangs or
    stands. Raises QuantityError, also when only the first of the two has a unit.
    """
    text = typed(value, _PAIR)
    halves = re.split(r"[xX\N{MULTIPLICATION SIGN}]", text)
    if len(halves) != 2:
        raise refusal(value, _PAIR.name, "it needs one x between two sizes", _PAIR.example)
    first, second = (_number_and_unit(half, _PAIR) for half in halves)
    if first[2] is not None and second[2] is None:
        raise refusal(value, _PAIR.name, "the second size has no unit", _PAIR.example)
    last = second[2] or LENGTH.spellings[unit]
    return _half(first, last, value), _half(second, last, value)


def _half(parts: tuple[int, int, Unit | None], last: Unit, given: str) -> Fraction:
    over, under, own = parts
    return _within_reach(ratio(over, under), own or last, given, zero=False)


def _number_and_unit(text: str, kind: Kind) -> tuple[int, int, Unit | None]:
    """Numerator, denominator and unit as written; feet with inches become inches."""
    over, under, rest = leading_number(text, kind)
    if not rest:
        return over, under, None
    if unit := kind.spellings.get(rest):
        return over, under, unit
    if feet := _FEET_THEN_MORE.match(rest):
        start = len(text) - len(rest) + feet.end()
        more, below, rest = leading_number(text, kind, start)
        if rest and kind.unit(rest) is not _INCH:
            why = "only inches can follow feet"
            raise refusal(text, kind.name, why, kind.example)
        return 12 * over * below + more * under, under * below, _INCH
    if unit := kind.unit(rest):
        return over, under, unit
    raise refusal(text, kind.name, why_no_unit(rest, kind), kind.example)


def _within_reach(number: Fraction, unit: Unit, given: object, zero: bool) -> Fraction:
    inches = number * unit.factor
    if inches > LONGEST:
        raise refusal(given, LENGTH.name, "it is over 1,000 ft", LENGTH.example)
    return checked(inches, given, LENGTH, zero=zero)
