"""A long board on a narrow page: its pieces in rows, all at one scale, no piece broken."""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from service.handouts.drawings.pens import FIELD, MARGIN
from service.planning.job import Piece

ROOM = FIELD - 2 * MARGIN - 8  # points; torn ends stand 4 out on either side
USUAL, FINE = 7.2, 14.4
"""Points an inch: one to ten, and one to five where pieces are short."""

READABLE = 11.0
"""Points between two cuts that upright figures need."""


TRIM = "trim"


@dataclass(frozen=True, slots=True)
class Stretch:
    """A thing that lies along a board from `start` to `end` inches: a piece, or wood left over."""

    start: Fraction
    end: Fraction
    piece: Piece | None = None
    keep: bool = False
    waste: str = ""


@dataclass(frozen=True, slots=True)
class Row:
    """Stretches that are drawn in one line, and how much of the board it shows."""

    start: Fraction
    end: Fraction
    stretches: tuple[Stretch, ...]


def scale_for(stretches: Sequence[Stretch], length: Fraction) -> float:
    """Points an inch: short pieces can be told apart and the longest one goes across the page."""
    pieces = [one.end - one.start for one in stretches if one.piece]
    longest = max((one.end - one.start for one in stretches), default=length)
    longest += 2 * max((one.end - one.start for one in stretches if one.waste == TRIM), default=0)
    least = min(pieces, default=length)
    wanted = min(FINE, max(USUAL, READABLE / float(least)))
    if float(length) * USUAL < ROOM:
        wanted = max(wanted, min(FINE, ROOM / float(length)))
    return min(wanted, ROOM / float(longest))


def rows_of(stretches: Sequence[Stretch], scale: float) -> tuple[Row, ...]:
    """As many stretches in each row as go across the page."""
    rows: list[list[Stretch]] = []
    for one in stretches:
        if rows and float(one.end - rows[-1][0].start) * scale <= ROOM + 1e-6:
            rows[-1].append(one)
        else:
            rows.append([one])
    return tuple(Row(row[0].start, max(s.end for s in row), tuple(row)) for row in rows)
