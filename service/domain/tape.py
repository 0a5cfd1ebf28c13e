"""Sizes in words: what a tape measure shows, and the exact text of a size in a document."""

import math
from fractions import Fraction

SIXTEENTH = Fraction(1, 16)
MM_PER_INCH = Fraction(127, 5)  # exact: the inch is 25.4 mm by definition (1959 agreement)


def nearest(size: Fraction, step: Fraction) -> Fraction:
    """The multiple of `step` nearest to a size; half a step goes up."""
    return math.floor(size / step + Fraction(1, 2)) * step


def mixed(size: Fraction) -> str:
    """A number as builders write it: 20 3/4, 3/4, 20."""
    sign = "-" if size < 0 else ""
    whole, rest = divmod(abs(size), 1)
    if not rest:
        return f"{sign}{whole}"
    return f"{sign}{whole} {rest}" if whole else f"{sign}{rest}"


def decimal(value: Fraction, places: int = 9) -> str | None:
    """The exact decimal of a fraction, or None where it has no end within `places`."""
    scaled = value * 10**places
    if scaled.denominator != 1:
        return None
    return f"{float(value):.{places}f}".rstrip("0").rstrip(".")


def tape(size: Fraction, metric: bool = False) -> str:
    """The nearest 1/16 in (or whole millimeter), with its unit, as read off a tape."""
    if metric:
        return f"{nearest(size * MM_PER_INCH, Fraction(1))} mm"
    return f'{mixed(nearest(size, SIXTEENTH))}"'


def plain(size: Fraction, metric: bool = False) -> str:
    """A size in a sentence: exact where it can be said shortly, else to 0.001 in or 0.1 mm."""
    if metric:
        millimeters = size * MM_PER_INCH
        return f"{decimal(millimeters, 2) or f'{float(millimeters):.1f}'} mm"
    if size.denominator <= 64 and size.denominator & (size.denominator - 1) == 0:
        return f'{mixed(size)}"'
    return f'{float(size):.3f}"'


def exact(size: Fraction, metric: bool = False) -> str:
    """A size as text that reads back to exactly the same length."""
    millimeters = decimal(size * MM_PER_INCH)
    if millimeters is not None and (metric or size.denominator % 127 == 0):
        return f"{millimeters} mm"
    return f"{mixed(size)} in"
