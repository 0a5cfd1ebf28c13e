"""One thing that a builder must know to make a joint that proposed fasteners do not hold."""

from collections.abc import Iterator
from fractions import Fraction

from service.domain.values import dataclass


@dataclass(frozen=True, slots=True)
class Particular:
    """What it is about, in words; with the size behind it in inches, or a range of sizes.

    `drilled` says that the size is that of a drill, which goes by sixty-fourths.
    """

    what: str
    words: str
    least: Fraction | None = None
    most: Fraction | None = None
    drilled: bool = False
    rests_on: tuple[str, ...] = ()


Particulars = Iterator[Particular]
