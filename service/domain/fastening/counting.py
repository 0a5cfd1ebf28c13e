"""How many fasteners a joint takes, and how far apart they stand."""

from fractions import Fraction
from functools import lru_cache
from math import ceil

from service.domain.catalog import Interval
from service.domain.fastening.meeting import Meeting
from service.domain.values import dataclass

# Own figures, between those of the rules of thumb: two for a board up to 4 in by name, three for
# 6 in, four for 8 in, five for 10 and 12 in; along a long edge one every 6 to 8 in, brads 4 to 6.
ONE_UP_TO = Fraction(1)
CLOSE, FAR = Fraction(5, 2), Fraction(7)
FAR_BRADS = Fraction(5)
WIDE = Fraction(12)
POCKETS = Fraction(6)
INSET = Fraction(3, 4)  # from the ends of the joint to the first one
UNKNOWN_WIDTH = Fraction(7, 2)  # in; a 1x4, where no size says how wide the joint is


@dataclass(frozen=True, slots=True)
class Row:
    """So many fasteners along a joint `width` inches wide; `spacing` between them, 0 for one."""

    width: Fraction
    count: int
    spacing: Fraction
    inset: Fraction


def row_of(meeting: Meeting, method: str, across: Fraction | None, least_inset: Fraction) -> Row:
    """The fasteners of one method along the joint; `across` is the joint's width where stated."""
    width = across or joint_width(meeting)
    return _row(method, *width.as_integer_ratio(), least_inset)


@lru_cache(maxsize=512)
def _row(method: str, over: int, under: int, least_inset: Fraction) -> Row:
    """A row by the width of the joint in whole numbers, as they are quicker to look up by."""
    width = Fraction(over, under)
    inset = min(max(INSET, least_inset), width / 4)
    between = width - 2 * inset
    count = _count(method, width, between)
    return Row(width, count, between / (count - 1) if count > 1 else Fraction(0), inset)


def _count(method: str, width: Fraction, between: Fraction) -> int:
    if width <= ONE_UP_TO:
        return 1
    if method == "pocket-screw":
        step = POCKETS
    elif width <= WIDE:
        step = CLOSE
    else:
        step = FAR_BRADS if method in ("brad", "staple") else FAR
    return max(2, 1 + ceil(between / step))


def joint_width(meeting: Meeting) -> Fraction:
    """Along how much the two surfaces meet, inches.

    An end meets with its width. A face or an edge meets along what the two have in common: boards
    that cross meet in the narrower one's width, an edge along its length.
    """
    through, into = meeting.through, meeting.into
    if through.surface == "end":
        return _listed(through.wide)
    if into.surface == "end":
        return _listed(into.wide)
    if through.surface == "face" and into.surface == "face":
        return min(_listed(through.narrow), _listed(into.narrow))
    longest = [size.listed for size in (through.wide, into.wide) if size is not None]
    return min(longest, default=UNKNOWN_WIDTH)


def _listed(size: Interval | None) -> Fraction:
    return UNKNOWN_WIDTH if size is None else size.listed
