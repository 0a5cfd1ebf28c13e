"""A leg or rail that leans one way, in one upright plane.

Ends level: each is cut off square by the lean, the two parallel. Length along an edge = height /
cos(lean); the cut itself is width / cos(lean) long; the foot stands height x tan(lean) out.
With a square top the longer edge is height / cos(lean) and the shorter one width x tan(lean) less.
Source: plane geometry.
"""

from fractions import Fraction
from math import cos, radians, tan

from service.domain.angles.answer import (
    Asked,
    Figure,
    Figured,
    Letter,
    Mark,
    Seen,
    Sketch,
    Spot,
    Wanted,
    impossible,
    inches,
)
from service.domain.build import SQUARE, End, Part

FORMULA = "leaning part: length along the edge = height / cos(lean)"
AXES = (
    "Seen from the side to which it leans; height is vertical, floor to the highest point; lean is "
    "from vertical; the cut is off square by the lean."
)
ON_TOP = "top is the thickness of what lies on the leg; height is to its upper side."
TRACE = (
    "Draw the floor, and a line plumb to it, full size on a sheet of plywood. Mark the height on "
    "the plumb line and the foot beside it on the floor, lay the stick along the two marks and "
    "draw the floor's line and the top's line across it: no angle needs to be read."
)
TEST_CUT = (
    "Cut both ends of a scrap of the same stick with the saw left as set, then stand it up beside "
    "a square: both ends sit flat and it leans by what the drawing says. Two such scraps turned "
    "toward each other must lean alike; half of any difference is the saw's error."
)


def angled(seen: Seen, degrees: float) -> End:
    """An end off square in the plane that shows: mitered across the face, or beveled."""
    return End(miter=degrees) if seen == "face" else End(bevel=degrees)


def stick_outline(left: float, lean: float, height: float, across: float) -> tuple[Spot, ...]:
    """A stick with level ends, its foot at `left`, leaning to the right."""
    level, out = across / cos(radians(lean)), height * tan(radians(lean))
    return (left, 0.0), (left + level, 0.0), (left + level + out, height), (left + out, height)


def floor(left: float, right: float) -> tuple[Spot, Spot]:
    """The floor under something that reaches from left to right, a little longer."""
    more = (right - left) / 12
    return (left - more, 0.0), (right + more, 0.0)


def _drawing(lean: float, rise: Fraction, across: float, length: Fraction) -> Sketch:
    high, level = float(rise), across / cos(radians(lean))
    out = high * tan(radians(lean))
    return Sketch(
        (stick_outline(0, lean, high, across),),
        (
            Letter("A", ((level, 0.0), (level + out, high)), "length", length),
            Letter("B", ((0.0, 0.0), (out, high)), "height of the leg", rise, "left"),
            Letter("C", ((0.0, 0.0), (out, high)), "foot out of plumb", inches(out), "below"),
        ),
        (floor(0.0, level + out),),
    )


def figure_leaning(asked: Asked) -> Figured:
    """One leg: length, end cuts, how far it reaches. Raises NotFigured."""
    height, lean = asked.need("height"), asked.angle("lean")
    seen, stick = asked.seen_as("face"), asked.stick("leg")
    across = float(stick.across(seen))
    rise, square = _rise(asked, height), asked.fields.get("top") == "square"
    slope = radians(lean)
    length = inches(float(rise) / cos(slope))
    if square and float(length) <= across * tan(slope):
        raise impossible("height", "The square top and the level foot cross: raise the height.")
    ends = (angled(seen, lean), SQUARE if square else angled(seen, lean))
    part = Part(
        "leg",
        stick.stock,
        length,
        ends=ends,
        ends_lean=None if square or lean == 0 else "same",
        measured="long-to-long" if square else ("long-to-short" if lean else None),
    )
    out = inches(float(rise) * tan(slope))
    level = inches(across / cos(slope))
    return Figured(
        wanted=(Wanted("leg", part, stick, "overall"),),
        figures=(
            Figure("length along the edge", length),
            Figure("foot out of plumb with the top", out),
            Figure("level width of the end cut", level),
            Figure("lean", lean),
        ),
        marks=(
            Mark("floor", out, "from plumb under the top's edge to the same edge of the foot"),
            Mark("floor", level, "from that edge of the foot to its other edge"),
        ),
        trace=TRACE,
        test_cut=TEST_CUT,
        axes=AXES,
        formula=FORMULA,
        drawing=_drawing(lean, rise, across, length),
        assumed=() if rise == height else (ON_TOP,),
    )


def _rise(asked: Asked, height: Fraction) -> Fraction:
    """How high the leg itself goes: under a top of the thickness given, less than the whole."""
    top = asked.length("top")
    if top is not None and top >= height:
        raise impossible("top", "The top is as thick as the whole piece is high.")
    return height - (top or 0)
