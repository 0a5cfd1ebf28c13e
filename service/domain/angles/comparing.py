"""A part as it is stated against the part that its shape wants: which angle or length is off.

A part may lie in a document turned over, turned end for end or mirrored; it is the same part. So
the ends are compared in all eight positions, and the nearest counts.
"""

from fractions import Fraction
from itertools import product
from math import acos, atan, degrees, hypot, sqrt
from typing import Literal

from service.domain.angles.answer import Wanted
from service.domain.build import Measured, Part
from service.domain.ends import Slant
from service.domain.solid import Rod, Solid
from service.domain.values import dataclass

ANGLE_WITHIN = 0.25  # degrees: what a shop saw can be set to
Slants = tuple[Slant, Slant]


@dataclass(frozen=True, slots=True)
class Position:
    """How a part lies against the one wanted: sides changed over, ends changed over."""

    across: int
    through: int
    ends_swapped: bool

    def put(self, slants: Slants) -> Slants:
        """The ends of a part brought into this position."""
        first, second = (
            Slant(self.across * one.across, self.through * one.through) for one in slants
        )
        return (second, first) if self.ends_swapped else (first, second)


POSITIONS = tuple(Position(*way) for way in product((1, -1), (1, -1), (False, True)))


@dataclass(frozen=True, slots=True)
class Turned:
    """Two sets of ends in the position where they agree best: degrees off, first and second end.

    The ends are those of the document, not of the shape.
    """

    position: Position
    off: tuple[float, float]

    @property
    def worst(self) -> float:
        """Degrees off at the worse end."""
        return max(self.off)


@dataclass(frozen=True, slots=True)
class AngleOff:
    """An end that is not as the shape wants it. Degrees off square; `end` is 0 or 1."""

    kind: Literal["complement", "opposed", "parallel", "other"]
    end: int
    is_now: float
    wanted: float


def best_turn(stated: Slants, wanted: Slants) -> Turned:
    """The position in which the stated ends come nearest to those wanted."""
    turns = [_turn(position, stated, wanted) for position in POSITIONS]
    return min(turns, key=lambda turn: (turn.worst, sum(turn.off)))


def _turn(position: Position, stated: Slants, wanted: Slants) -> Turned:
    put = position.put(stated)
    first, second = (_between(a, b) for a, b in zip(put, wanted, strict=True))
    return Turned(position, (second, first) if position.ends_swapped else (first, second))


def _between(one: Slant, other: Slant) -> float:
    """Degrees between two cut planes."""
    a, b = (1.0, float(one.across), float(one.through)), (
        1.0, float(other.across), float(other.through),
    )  # fmt: skip
    dot = sum(x * y for x, y in zip(a, b, strict=True))
    size = sqrt(sum(x * x for x in a) * sum(y * y for y in b))
    return degrees(acos(min(1.0, dot / size)))


def steepness(slant: Slant) -> float:
    """Degrees off square in the plane where the cut slopes most."""
    return degrees(atan(hypot(float(slant.across), float(slant.through))))


def angle_off(stated: Slants, wanted: Slants, within: float = ANGLE_WITHIN) -> AngleOff | None:
    """What is wrong with the ends, or None. A cause that explains both ends is named once."""
    turn = best_turn(stated, wanted)
    if turn.worst <= within:
        return None
    worst = 0 if turn.off[0] >= turn.off[1] else 1
    aims = wanted[::-1] if turn.position.ends_swapped else wanted
    now, aim = steepness(stated[worst]), steepness(aims[worst])
    flipped = (stated[0], Slant(-stated[1].across, -stated[1].through))
    if best_turn(flipped, wanted).worst <= within:
        parallel = _leans_alike(wanted)
        return AngleOff("parallel" if parallel else "opposed", 1, now, aim)
    for ends in ((0, 1), (0,), (1,)):
        tried = tuple(_complement(s) if i in ends else s for i, s in enumerate(stated))
        found = best_turn((tried[0], tried[1]), wanted)
        if found.worst <= within and any(tried[i] != stated[i] for i in ends):
            end = ends[0]
            return AngleOff("complement", end, steepness(stated[end]), steepness(tried[end]))
    return AngleOff("other", worst, now, aim)


def _leans_alike(slants: Slants) -> bool:
    """Whether the two cuts are parallel, so that the long points lie on different sides."""
    return slants[0].across * slants[1].across + slants[0].through * slants[1].through < 0


def _complement(slant: Slant) -> Slant:
    """The cut that a saw makes when its other scale is read; plain cuts only."""
    if slant.across and slant.through:
        return slant
    return Slant(*(1 / one if one else one for one in slant))


@dataclass(frozen=True, slots=True)
class LengthOff:
    """A length that is off: inches, stated less wanted, and the word that would make it right."""

    by: Fraction
    right_as: Measured | None


def length_off(
    part: Part, solid: Solid | Rod, wanted: Wanted, within: Fraction
) -> LengthOff | None:
    """How far a part's length is off, its angles being right, or None.

    Where angles differ by the little that is allowed, each reading differs a little; a part that
    is right in one of them is right.
    """
    aim = wanted.solid
    if not isinstance(aim, Solid):
        return None
    offs = list(_offs(solid, aim))
    by = min(offs, key=abs)
    if abs(by) <= within:
        return None
    lengths = solid.lengths(part.measured_on)
    now = lengths.get(part.measured or "long-to-long")
    for word, length in lengths.items():
        if now is not None and word != part.measured and abs(by + now - length) <= within:
            return LengthOff(by, word)
    return LengthOff(by, None)


def _offs(solid: Solid | Rod, aim: Solid) -> list[Fraction]:
    """Stated less wanted along the center, tip to tip, and along the long corners."""
    offs = [solid.center_length - aim.center_length]
    if isinstance(solid, Solid):
        offs.append(solid.blank_length - aim.blank_length)
        for one, other in zip(
            sorted(solid.arrises.values()), sorted(aim.arrises.values()), strict=True
        ):
            offs.append(one - other)
    return offs
