"""How high a leaning part stands and how far it reaches along the floor.

The part leans in one upright plane, `lean` degrees from vertical. Rise and reach are the vertical
and the horizontal extent of the part as it is cut, in that plane, tip to tip:

- ends cut parallel to the floor (each off square by the lean, `ends_lean: same`), length along
  the piece, parallel to its edges: rise = length x cos(lean), because the cut adds nothing
  upright; reach = length x sin(lean) + width / cos(lean), because the cut itself lies level and
  is width / cos(lean) long;
- square ends: rise = length x cos(lean) + width x sin(lean), reach = length x sin(lean) +
  width x cos(lean), because the corners stand out;
- any other ends: worked out from the corners the same way.

`width` there is the part's extent in the plane of the lean. The plane follows from the ends: a
mitered part leans across its width, a beveled one through its thickness, and one with both leans
askew, as its ends say. Square ends say nothing: a part then leans through its thickness, as a
board leans back on a prop, and that is listed in `assumed`.

Source: plane geometry.
"""

from fractions import Fraction
from math import atan, cos, degrees, hypot, radians, sin
from typing import Literal

from service.domain.ends import Slant
from service.domain.ratio import ratio
from service.domain.solid import Rod, Solid
from service.domain.values import dataclass

Toward = Literal["width", "thickness"]
Aside = tuple[float, float]  # a unit step (y, z) square to the part's length

THROUGH_THICKNESS = (
    "The ends are square, so they don't show which way the part leans: through its thickness."
)
ROUNDED_TO = 10**9


@dataclass(frozen=True, slots=True)
class Leaning:
    """Vertical and horizontal extent in inches, rounded to 1e-9."""

    rise: Fraction
    reach: Fraction
    assumed: tuple[str, ...] = ()


def lean_part(solid: Solid | Rod, lean: float, toward: Toward | None = None) -> Leaning:
    """Rise and reach of a part that leans `lean` degrees from vertical (0 to below 90).

    `toward` names the extent that lies in the plane of the lean, for a caller that knows it.
    """
    ways = _ways(solid.slants)
    unknown = not (ways or toward or lean == 0 or isinstance(solid, Rod))
    aside = _aside(ways, lean, toward)
    upright, level = cos(radians(lean)), sin(radians(lean))
    up = (upright, level * aside[0], level * aside[1])
    along = (level, -upright * aside[0], -upright * aside[1])
    assumed = (THROUGH_THICKNESS,) if unknown else ()
    return Leaning(_extent(solid, up), _extent(solid, along), assumed)


def _ways(slants: tuple[Slant, Slant]) -> list[Slant]:
    """For each slanted end, the way the part would lean to bring that end level."""
    first, second = slants
    ways = (first, Slant(-second.across, -second.through))
    return [way for way in ways if any(way)]


def _aside(ways: list[Slant], lean: float, toward: Toward | None) -> Aside:
    """The way that brings an end nearest to level; the first end's where both come as near."""
    nearest = min(ways, key=lambda way: abs(degrees(atan(hypot(*way))) - lean), default=None)
    if toward is not None:
        component = (nearest.across if toward == "width" else nearest.through) if nearest else 0
        sign = -1.0 if component < 0 else 1.0
        return (sign, 0.0) if toward == "width" else (0.0, sign)
    if nearest is None:
        return 0.0, 1.0
    steep = hypot(*nearest)
    return float(nearest.across) / steep, float(nearest.through) / steep


def _extent(solid: Solid | Rod, way: tuple[float, float, float]) -> Fraction:
    spots = _rod_spots(solid, way) if isinstance(solid, Rod) else _spots(solid, way)
    return ratio(round((max(spots) - min(spots)) * ROUNDED_TO), ROUNDED_TO)


def _spots(solid: Solid, way: tuple[float, float, float]) -> list[float]:
    return [float(x) * way[0] + float(y) * way[1] + float(z) * way[2] for x, y, z in solid.points]


def _rod_spots(rod: Rod, way: tuple[float, float, float]) -> list[float]:
    """How far the lowest and highest points of both end ellipses lie along `way`."""
    radius = float(rod.diameter) / 2
    spots = []
    for center, outward, slant in zip(
        (0.0, float(rod.center_length)), (-1, 1), rod.slants, strict=True
    ):
        swing = radius * hypot(
            way[1] + outward * way[0] * float(slant.across),
            way[2] + outward * way[0] * float(slant.through),
        )
        spots += [center * way[0] - swing, center * way[0] + swing]
    return spots
