"""Saw settings of a cut: both scales, both ways, and what to do where the saw stops."""

from collections.abc import Iterator
from math import atan, cos, degrees, radians, tan

from service.domain.angles.answer import Figured
from service.domain.build import End, Part
from service.domain.values import dataclass

SLACK = 1e-9

Leaning = tuple[float | None, float | None]

HAND_SAW = (
    "Mark the line with a bevel gauge, clamp the part flat to the bench with the line past its "
    "edge, and cut it with a hand saw, or cut just outside of it with a jigsaw and plane to it. "
    "Never stand the part on end at a powered saw, and leave every guard where it is."
)


@dataclass(frozen=True, slots=True)
class Way:
    """One way to set a saw for a cut: degrees off square, turned and tilted.

    `reaches` is None where the saw's stops are not known.
    """

    how: str
    turned: float
    tilted: float
    reaches: bool | None = None

    @property
    def turned_scale(self) -> float:
        """The turn on a scale that reads 90 at square."""
        return 90 - self.turned

    @property
    def tilted_scale(self) -> float:
        """The tilt on a scale that reads 90 at square."""
        return 90 - self.tilted


@dataclass(frozen=True, slots=True)
class SawCut:
    """A cut of a part, the ways to set a saw for it, and another way where none reaches."""

    part: str
    cut: str
    ways: tuple[Way, ...]
    other_way: str | None = None


@dataclass(frozen=True, slots=True)
class Stops:
    """How far the saw turns and tilts, degrees off square; None where it is not known."""

    miter: float | None = None
    bevel: float | None = None

    def reach(self, turned: float, tilted: float) -> bool | None:
        """Whether the saw can be set so."""
        known = [(self.miter, turned), (self.bevel, tilted)]
        if any(stop is not None and want > stop + SLACK for stop, want in known):
            return False
        return None if any(stop is None and want > 0 for stop, want in known) else True


def on_edge(end: End) -> tuple[float, float]:
    """Turn and tilt for the same cut with the part standing on its edge instead of its face.

    Standing, width and thickness change places: the slope along the thickness, tan(bevel) /
    cos(miter), is the turn, and the slope along the width, tan(miter), the stretched tilt.
    """
    turned = atan(tan(radians(end.bevel)) / cos(radians(end.miter)))
    tilted = atan(tan(radians(end.miter)) * cos(turned))
    return degrees(turned), degrees(tilted)


def saw_cuts(figured: Figured, stops: Stops) -> tuple[SawCut, ...]:
    """Every cut of the shape that is not square, alike ones once."""
    leaning = (figured.tilted, figured.tilted_turn)
    cuts = [cut for wanted in figured.wanted for cut in cuts_of(wanted.part, stops, leaning)]
    return tuple(dict.fromkeys(cuts))


def cuts_of(part: Part, stops: Stops, leaning: Leaning = (None, None)) -> Iterator[SawCut]:
    """Every cut of a part that is not square. `leaning`: the angle at which a board can lean in
    the saw as it will stand, and the table's turn for that."""
    first, second = part.ends
    same = (first.miter, first.bevel) == (second.miter, second.bevel)
    named = [("both ends", first)] if same else [("first end", first), ("second end", second)]
    for name, end in named:
        if not end.is_square:
            ways = tuple(_ways(end, leaning, stops))
            yield SawCut(part.id, name, ways, _other_way(ways))
    for name, edge in zip(("top edge", "bottom edge"), part.edges, strict=True):
        if edge.bevel:
            tilted = edge.bevel
            way = Way("rip, flat on its face: blade tilted", 0.0, tilted, stops.reach(0, tilted))
            yield SawCut(part.id, name, (way,), _other_way((way,)))


def _ways(end: End, leaning: Leaning, stops: Stops) -> Iterator[Way]:
    tilted, turn = leaning
    yield _way("flat on its face", end.miter, end.bevel, stops)
    yield _way("standing on its edge against the fence", *on_edge(end), stops)
    if tilted is not None and turn is not None and end.miter and end.bevel:
        how = f"leaning in the saw as it will stand, {tilted:g} degrees from vertical"
        yield _way(how, turn, 0.0, stops)


def _way(how: str, turned: float, tilted: float, stops: Stops) -> Way:
    set_so = [
        word for word, angle in (("table turned", turned), ("blade tilted", tilted)) if angle > 0
    ]
    return Way(f"{how}: {' and '.join(set_so)}", turned, tilted, stops.reach(turned, tilted))


def _other_way(ways: tuple[Way, ...]) -> str | None:
    return HAND_SAW if all(way.reaches is False for way in ways) else None
