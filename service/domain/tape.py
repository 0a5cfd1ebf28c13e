"""Sizes in words: what a tape measure shows, and the exact text of a size in a document.

Every answer is full of these, so they are figured in whole numbers: fractions are slower.
"""

from fractions import Fraction
from typing import Literal

from service.domain.ratio import Ratio, ratio

MM = Ratio(5, 127)  # one millimeter in inches: the inch is 25.4 mm (agreement of 1959)
SIXTEENTH = Fraction(1, 16)
FINEST_UNDER = 999_999  # the largest lower number of a fraction that is read
_MOST_DECIMALS = 60  # what is read has 64 characters


def nearest(
    size: Fraction, to: Fraction, mode: Literal["nearest", "down", "up"] = "nearest"
) -> Fraction:
    """The multiple of `to` at, below or above a size. Exact halves go up, also below zero."""
    (size_over, size_under), (over, under) = size.as_integer_ratio(), to.as_integer_ratio()
    steps, one = size_over * under, size_under * over
    if mode == "nearest":
        whole = (2 * steps + one) // (2 * one)
    else:
        whole = steps // one if mode == "down" else -(-steps // one)
    return ratio(whole * over, under)


def mixed(value: Fraction) -> str:
    """A number as builders write it: `20 3/4`, `3/4`, `-1 1/2`, `0`."""
    over, under = value.as_integer_ratio()
    sign = "-" if over < 0 else ""
    whole, part = divmod(abs(over), under)
    if not part:
        return f"{sign}{whole}"
    return f"{sign}{whole} {part}/{under}" if whole else f"{sign}{part}/{under}"


def decimal(value: Fraction, places: int = 10) -> str | None:
    """All decimals of a value, or None when they never end or are over `places`."""
    over, under = value.as_integer_ratio()
    scaled, rest = divmod(over * 10**places, under)
    if rest:
        return None
    sign = "-" if scaled < 0 else ""
    whole, part = divmod(abs(scaled), 10**places)
    return f"{sign}{whole}.{part:0{places}d}".rstrip("0").rstrip(".")


def tape_step(metric: bool) -> Fraction:
    """The finest mark that answers read a tape to: 1/16 in, or one millimeter."""
    return MM if metric else SIXTEENTH


def marked(size: Fraction, metric: bool = False) -> str:
    """A size with its unit mark: `20 3/4"`, `527 mm`."""
    if not metric:
        return f'{mixed(size)}"'
    return f"{decimal(size / MM) or mixed(size / MM)} mm"


def tape(size: Fraction, *, to: Fraction | None = None, metric: bool = False) -> str:
    """The nearest reading: `20 3/4"`, or `527 mm` in a metric build.

    `to` is the step in inches, in both cases; by default 1/16 in, or one millimeter.
    """
    return marked(nearest(size, to or tape_step(metric)), metric)


def sold(size: Fraction, metric: bool = False) -> str:
    """A length as shops say it: feet where it is whole feet."""
    return f"{size // 12} ft" if not metric and size % 12 == 0 else exact(size, metric)


def plain(size: Fraction, metric: bool = False) -> str:
    """A size in a sentence: exact where it can be said shortly, else to 0.001 in or 0.1 mm."""
    if metric:
        return f"{decimal(size / MM, 2) or rounded(size / MM, 1)} mm"
    if size.denominator <= 64 and is_binary(size):
        return marked(size)
    return f'{rounded(size, 3)}"'


def rounded(value: Fraction | float, places: int) -> str:
    """A decimal with no more places than it needs: 21.4, not 21.400."""
    return f"{float(value):.{places}f}".rstrip("0").rstrip(".")


def exact(size: Fraction, metric: bool = False) -> str:
    """Text that reads back as exactly this size: `20 3/4 in`, `527.05 mm`.

    The unit asked for, or the other one where only that is short: 18 mm stays `18 mm`.
    """
    halved = is_binary(size) and size.denominator <= 128
    if metric or not halved:
        mm = decimal(size / MM)
        if mm is not None and len(mm) <= 12:
            return f"{mm} mm"
    return f"{mixed(size)} in" if size.denominator <= FINEST_UNDER else _finest(size)


def _finest(size: Fraction) -> str:
    """A size whose fraction of an inch would be too fine to be read: it was written otherwise."""
    mm = size / MM
    for value, unit in ((size, "in"), (mm, "mm")):
        text = decimal(value, _MOST_DECIMALS)
        if text is not None:
            return f"{text} {unit}"
    return f"{mixed(mm)} mm"


def is_binary(size: Fraction) -> bool:
    """Whether a size lies on the halves, quarters, eighths ... of an inch."""
    return size.denominator & (size.denominator - 1) == 0


def pair(size: Fraction | None) -> tuple[int | None, ...]:
    """A size in whole numbers: quicker to look up by than the fraction."""
    return (None,) if size is None else size.as_integer_ratio()
