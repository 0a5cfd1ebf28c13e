"""How stated ends and edges are read: slopes, long points, and the words for lengths.

The convention stands at the top of `shape`.
"""

from collections.abc import Iterator
from fractions import Fraction
from functools import lru_cache
from math import atan, cos, degrees, radians, tan
from typing import NamedTuple

from service.domain.build import End, Lean, Measured, Part
from service.domain.ratio import ratio
from service.domain.values import dataclass

ACROSS = ("bottom", "top")
THROUGH = ("front", "back")
ZERO = Fraction(0)

BOTH_LONG_ON_ONE_SIDE = (
    "{field} is not given: read as opposite, so that both long points lie on one side."
)
LONG_ON_BOTTOM = (
    "No end says which edge holds the long point of its miter: the bottom edge is taken."
)
LONG_ON_FRONT = (
    "No {which} says which face holds the long point of its bevel: the front face is taken."
)


class Slant(NamedTuple):
    """Inches by which an end reaches out, per inch toward the top edge and toward the front."""

    across: Fraction
    through: Fraction

    @property
    def settings(self) -> tuple[float, float]:
        """Miter and bevel as the saw is set, degrees off square; signs as the piece lies."""
        miter = atan(self.across)
        bevel = atan(self.through * cos(miter))
        return degrees(miter), degrees(bevel)


@dataclass(frozen=True, slots=True)
class Cuts:
    """A part's ends and long edges as slopes with a sign.

    `top` and `bottom` are inches by which an edge reaches out per inch toward the front.
    `ends_assumed` bears on any part, `sides_assumed` only on one with faces and edges.
    """

    first: Slant
    second: Slant
    top: Fraction
    bottom: Fraction
    exact: bool
    ends_assumed: tuple[str, ...] = ()
    sides_assumed: tuple[str, ...] = ()


class LongSides(NamedTuple):
    """Which side holds each long point, and what had to be assumed to know it."""

    first: str
    second: str
    lean_assumed: bool = False
    side_assumed: bool = False


@lru_cache(maxsize=512)
def run_off(degrees: float, turned: float = 0.0) -> Fraction:
    """Inches that a cut runs off per inch: tan(degrees) / cos(turned), rounded to 1e-12.

    Exact at 0 and 45 degrees, `turned` 0. `turned` is the miter under a bevel: the tilt is
    square to the cut line, so along the part it is stretched by 1 / cos(miter).
    """
    return ratio(round(tan(radians(degrees)) / cos(radians(turned)) * 10**12), 10**12)


def names_both_sides(end: End) -> bool:
    """Whether `long` contradicts itself."""
    return end.long.issuperset(ACROSS) or end.long.issuperset(THROUGH)


def read_cuts(part: Part) -> Cuts:
    """The slopes of a part's two ends and two edges, and what was assumed to know them."""
    first, second = part.ends
    top, bottom = part.edges
    miters = long_sides(part.ends, part.ends_lean, ACROSS, (first.miter > 0, second.miter > 0))
    bevels = long_sides(part.ends, part.ends_lean, THROUGH, (first.bevel > 0, second.bevel > 0))
    edges = long_sides(part.edges, part.edges_lean, THROUGH, (top.bevel > 0, bottom.bevel > 0))
    slopes = (
        _signed(run_off(top.bevel), edges.first == "front"),
        _signed(run_off(bottom.bevel), edges.second == "front"),
    )
    return Cuts(
        first=_slant(first, miters.first, bevels.first),
        second=_slant(second, miters.second, bevels.second),
        top=slopes[0],
        bottom=slopes[1],
        exact=all(_is_exact(end) for end in (first, second, top, bottom)),
        ends_assumed=tuple(_ends_assumed(miters, bevels)),
        sides_assumed=tuple(_sides_assumed(part, miters, bevels, edges, slopes)),
    )


def long_sides(
    ends: tuple[End, End], lean: Lean | None, sides: tuple[str, str], angled: tuple[bool, bool]
) -> LongSides:
    """Which of two sides holds the long point of each end; the first of `sides` by default.

    A side named on an end wins; the other end follows it as `lean` says, or as `opposite` does
    (both long points on one side) where `lean` is left out. Where neither names a side, a
    lone angled end has nothing to lean with, and takes the default.
    """
    first, second = (_named(end, sides) for end in ends)
    named = bool(first or second)
    if not named and not all(angled):
        return LongSides(sides[0], sides[0], side_assumed=any(angled))
    is_open = (angled[0] and not first) or (angled[1] and not second)
    if not first:
        first = _follows(second, lean, sides) if second else sides[0]
    second = second or _follows(first, lean, sides)
    return LongSides(first, second, lean_assumed=lean is None and is_open, side_assumed=not named)


def readings(first: Fraction, second: Fraction) -> dict[Measured, Fraction]:
    """Each word for `measured` that has meaning, less the length along the near side.

    `first` and `second` are how much farther each end reaches out on the far side than on the
    near side, below 0 where the long point is near. The near side is the bottom edge seen on a
    face, the back face seen on an edge.
    """
    words: dict[Measured, Fraction] = {
        "long-to-long": max(first, ZERO) + max(second, ZERO),
        "short-to-short": min(first, ZERO) + min(second, ZERO),
        "center": (first + second) / 2,
    }
    far = first + second
    if first < 0 < second or first == second == 0:
        words |= {"long-to-short": ZERO, "short-to-long": far}
    elif second < 0 < first:
        words |= {"long-to-short": far, "short-to-long": ZERO}
    return words


def _named(end: End, sides: tuple[str, str]) -> str:
    return next((side for side in sides if side in end.long), "")


def _follows(side: str, lean: Lean | None, sides: tuple[str, str]) -> str:
    if lean != "same":
        return side
    return sides[1] if side == sides[0] else sides[0]


def _signed(amount: Fraction, outward: bool) -> Fraction:
    return amount if outward else -amount


def _slant(end: End, long_edge: str, long_face: str) -> Slant:
    across = _signed(run_off(end.miter), long_edge == "top")
    through = _signed(run_off(end.bevel, end.miter), long_face == "front")
    return Slant(across, through)


def _is_exact(end: End) -> bool:
    return 0 in (end.miter, end.bevel) and end.miter + end.bevel in (0, 45)


def _ends_assumed(miters: LongSides, bevels: LongSides) -> Iterator[str]:
    if miters.lean_assumed or bevels.lean_assumed:
        yield BOTH_LONG_ON_ONE_SIDE.format(field="ends_lean")


def _sides_assumed(
    part: Part,
    miters: LongSides,
    bevels: LongSides,
    edges: LongSides,
    slopes: tuple[Fraction, Fraction],
) -> Iterator[str]:
    """Sides taken by default, where the other choice would change a size."""
    if miters.side_assumed and slopes[0] != slopes[1]:
        yield LONG_ON_BOTTOM
    if bevels.side_assumed and any(end.miter for end in part.ends):
        yield LONG_ON_FRONT.format(which="end")
    if edges.lean_assumed:
        yield BOTH_LONG_ON_ONE_SIDE.format(field="edges_lean")
    if edges.side_assumed:
        yield LONG_ON_FRONT.format(which="edge")
