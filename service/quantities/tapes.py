"""Exact inches to what a tape reads, and how far the tape is off."""

from fractions import Fraction
from math import ceil, floor
from typing import Literal, TypedDict

from service.quantities.refusals import refusal
from service.quantities.units import MM

SIXTEENTH = Fraction(1, 16)


class Measured(TypedDict("Inches", {"in": float})):
    """A length as every answer shows it. `off_by` is the tape reading less the true size."""

    mm: float
    tape: str
    off_by: str


def nearest(
    inches: Fraction, to: Fraction, mode: Literal["nearest", "down", "up"] = "nearest"
) -> Fraction:
    """The multiple of `to` at, below or above a size. Exact halves go up, also below zero.

    Raises QuantityError when `to` is not more than zero.
    """
    if to <= 0:
        raise refusal(to, "a step to round to", "it must be more than zero", "it like 1/16")
    steps = inches / to
    if mode == "nearest":
        return floor(steps + Fraction(1, 2)) * to
    return (floor(steps) if mode == "down" else ceil(steps)) * to


def tape(inches: Fraction, *, to: Fraction | None = None, metric: bool = False) -> str:
    """The nearest reading: `20 3/4"`, or `527 mm` in a metric build.

    `to` is the step in inches, in both cases; by default 1/16 in, or one millimeter.
    """
    return _marked(nearest(inches, to or _step(metric)), metric)


def measured(inches: Fraction, *, to: Fraction | None = None, metric: bool = False) -> Measured:
    """The four ways in which an answer gives a length.

    `in` has six decimals and `mm` four: a millionth of an inch either way.
    """
    reading = nearest(inches, to or _step(metric))
    return {
        "in": round(float(inches), 6),
        "mm": round(float(inches / MM), 4),
        "tape": _marked(reading, metric),
        "off_by": _signed(reading - inches, metric),
    }


def written(inches: Fraction, *, metric: bool = False) -> str:
    """Text that `length` reads back as exactly this size: `20 3/4 in`, `527.05 mm`.

    The unit asked for, or the other one where only that is short: 18 mm stays `18 mm`.
    """
    mm = _decimal(inches / MM)
    plain = inches.denominator & (inches.denominator - 1) == 0 and inches.denominator <= 128
    if mm is not None and len(mm) <= 12 and (metric or not plain):
        return f"{mm} mm"
    return f"{_mixed(inches)} in"


def _step(metric: bool) -> Fraction:
    return MM if metric else SIXTEENTH


def _marked(inches: Fraction, metric: bool) -> str:
    if not metric:
        return f'{_mixed(inches)}"'
    mm = inches / MM
    return f"{_decimal(mm) or _mixed(mm)} mm"


def _signed(off: Fraction, metric: bool) -> str:
    """Exact where that is short; three digits where a size came from an angle."""
    if off == 0:
        return "0"
    sign, size = ("+" if off > 0 else "-"), abs(off) / (MM if metric else 1)
    if size.denominator <= 10_000:
        digits = (_decimal(size) if metric else None) or _mixed(size)
    else:
        digits = f"{float(size):.3g}"
    return f"{sign}{digits} mm" if metric else f'{sign}{digits}"'


def _mixed(value: Fraction) -> str:
    """`20 3/4`, `3/4`, `-1 1/2`, `0`."""
    sign = "-" if value < 0 else ""
    whole, part = divmod(abs(value.numerator), value.denominator)
    if not part:
        return f"{sign}{whole}"
    fraction = f"{part}/{value.denominator}"
    return f"{sign}{whole} {fraction}" if whole else f"{sign}{fraction}"


def _decimal(value: Fraction) -> str | None:
    """All decimals of a value, or None when they never end or are over ten."""
    scaled = value * 10**10
    if scaled.denominator != 1:
        return None
    sign = "-" if scaled < 0 else ""
    whole, part = divmod(abs(scaled.numerator), 10**10)
    return f"{sign}{whole}.{part:010d}".rstrip("0").rstrip(".")
