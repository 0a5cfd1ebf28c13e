"""How answers give a length: both units, what a tape reads, and how far the tape is off."""

from fractions import Fraction
from functools import lru_cache
from typing import TypedDict

from service.domain.ratio import ratio
from service.domain.tape import MM, decimal, marked, mixed, tape_step
from service.domain.tape import nearest as nearest_mark


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
    inches = ratio(over, under)
    reading = nearest_mark(inches, to or tape_step(metric))
    return {
        "in": round(over / under, 6),
        "mm": round(over * MM.denominator / (under * MM.numerator), 4),
        "tape": marked(reading, metric),
        "off_by": _signed(reading - inches, metric),
    }


def _signed(off: Fraction, metric: bool) -> str:
    """Exact where that is short; three digits where a size came from an angle."""
    if not off:
        return "0"
    sign, size = ("+" if off > 0 else "-"), abs(off) / MM if metric else abs(off)
    if size.denominator <= 10_000:
        digits = (decimal(size) if metric else None) or mixed(size)
    else:
        digits = f"{float(size):.3g}"
    return f"{sign}{digits} mm" if metric else f'{sign}{digits}"'
