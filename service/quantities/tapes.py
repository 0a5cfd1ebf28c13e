"""How answers give a length: both units, what a tape reads, and how far the tape is off."""

from fractions import Fraction
from functools import lru_cache
from typing import TypedDict

from service.domain.ratio import ratio
from service.domain.tape import MM, decimal, marked, mixed, tape_step

_MM_OVER, _MM_UNDER = MM.as_integer_ratio()


class Measured(TypedDict("Inches", {"in": float})):
    """A length as every answer shows it. `off_by` is the tape reading less the true size."""

    mm: float
    tape: str
    off_by: str


def measured(inches: Fraction, *, to: Fraction | None = None, metric: bool = False) -> Measured:
    """The four ways in which an answer gives a length.

    `in` has six decimals and `mm` four: a millionth of an inch either way.
    """
    return _measured(*inches.as_integer_ratio(), to, metric).copy()


@lru_cache(maxsize=1024)  # the same few sizes come again; fractions themselves hash slowly
def _measured(over: int, under: int, to: Fraction | None, metric: bool) -> Measured:
    one, parts = (to or tape_step(metric)).as_integer_ratio()
    reading = one * ((2 * over * parts + under * one) // (2 * under * one))  # in `parts` of an inch
    return {
        "in": round(over / under, 6),
        "mm": round(over * _MM_UNDER / (under * _MM_OVER), 4),
        "tape": marked(ratio(reading, parts), metric),
        "off_by": _signed(reading * under - over * parts, parts * under, metric),
    }


def _signed(over: int, under: int, metric: bool) -> str:
    """Exact where that is short; three digits where a size came from an angle."""
    if not over:
        return "0"
    sign, off = ("+" if over > 0 else "-"), ratio(abs(over), under)
    size = off / MM if metric else off
    if size.denominator <= 10_000:
        digits = (decimal(size) if metric else None) or mixed(size)
    else:
        digits = f"{float(size):.3g}"
    return f"{sign}{digits} mm" if metric else f'{sign}{digits}"'
