"""Pieces spaced in a row: each position worked out whole, so that rounding never adds up.

`opening` is the length that n pieces of one size share out. Ends: a gap like the others (n + 1
equal gaps), flush (the outer pieces at the ends, n - 1 gaps), half a gap, or a stated size.
Positions are near sides, from the end that is called the first. All exact.
"""

from fractions import Fraction

from service.domain.errors import Complaint
from service.domain.tape import nearest
from service.domain.values import dataclass


class NoRow(ValueError):
    """The pieces can't be spaced so: they don't go into the length, or a measure is missing.

    Whoever asks turns it into a refusal of its own, at the measure as it is called there.
    """

    def __init__(self, place: str, why: str, *, missing: bool = False) -> None:
        super().__init__(why)
        self.complaints = (Complaint(place, why),)
        self.missing = missing


Ends = Fraction | str  # a size in inches, or gap, flush or half


@dataclass(frozen=True, slots=True)
class Row:
    """Equal pieces in a row: inches, all exact. `end` is what is left before the first piece."""

    opening: Fraction
    pieces: int
    piece: Fraction
    gap: Fraction
    end: Fraction

    @property
    def step(self) -> Fraction:
        """Center to center, and near side to near side."""
        return self.piece + self.gap

    @property
    def near_sides(self) -> tuple[Fraction, ...]:
        """From the first end to the near side of each piece."""
        return tuple(self.end + n * self.step for n in range(self.pieces))

    @property
    def centers(self) -> tuple[Fraction, ...]:
        """From the first end to the middle of each piece."""
        return tuple(at + self.piece / 2 for at in self.near_sides)

    def readings(self, to: Fraction) -> tuple[Fraction, ...]:
        """What a tape held at the first end reads at each near side; none depends on another."""
        return tuple(nearest(at, to) for at in self.near_sides)

    def drift(self, to: Fraction) -> Fraction:
        """How far off the last piece would be if one rounded step were laid off again and again."""
        return (nearest(self.step, to) - self.step) * (self.pieces - 1)


def space(opening: Fraction, pieces: int, piece: Fraction, ends: Ends) -> Row:
    """Pieces with equal gaps. Raises NoRow."""
    left = opening - pieces * piece
    if left < 0:
        raise NoRow("pieces", "The pieces alone are longer than what they are to share.")
    if isinstance(ends, Fraction):
        return _between(opening, pieces, piece, ends)
    if ends == "flush":
        return _between(opening, pieces, piece, Fraction(0))
    gaps = pieces + 1 if ends == "gap" else pieces
    gap = left / gaps
    return Row(opening, pieces, piece, gap, gap if ends == "gap" else gap / 2)


def _between(opening: Fraction, pieces: int, piece: Fraction, end: Fraction) -> Row:
    left = opening - pieces * piece - 2 * end
    if left < 0:
        raise NoRow("ends", "The pieces and what is left at the ends are longer than the whole.")
    if pieces == 1:
        if left:
            raise NoRow("pieces", "One piece can't lie at both ends: say ends=gap.")
        return Row(opening, pieces, piece, Fraction(0), end)
    return Row(opening, pieces, piece, left / (pieces - 1), end)


def space_by_centers(opening: Fraction, pieces: int, piece: Fraction, centers: Fraction) -> Row:
    """Pieces at a given distance from center to center, the row in the middle. Raises NoRow."""
    if centers < piece:
        raise NoRow("centers", "The pieces would overlap: they are wider than the distance.")
    end = (opening - (pieces - 1) * centers - piece) / 2
    if end < 0:
        raise NoRow("centers", "At that distance the row is longer than what it is to go into.")
    return Row(opening, pieces, piece, centers - piece, end)


@dataclass(frozen=True, slots=True)
class Uneven:
    """A position that is off: which one (from 0), how far, and what it would be right for.

    `taken` is near where nothing explains it; center or far where the list holds those instead.
    """

    index: int
    at: Fraction
    wanted: Fraction
    taken: str


def judge_positions(row: Row, at: tuple[Fraction, ...], within: Fraction) -> Uneven | None:
    """The worst of some near sides, if it is off by more than `within`."""
    wanted = row.near_sides
    off = [abs(a - w) for a, w in zip(at, wanted, strict=True)]
    worst = max(range(len(off)), key=lambda index: (off[index], -index))
    if off[worst] <= within:
        return None
    taken = "near"
    for name, offset in (("center", row.piece / 2), ("far", row.piece)):
        if all(abs(a - w - offset) <= within for a, w in zip(at, wanted, strict=True)):
            taken = name
    return Uneven(worst, at[worst], wanted[worst], taken)
