"""Braces and crossed legs: a stick of real width between two lines.

Between a vertical and a level face the brace's edges rise at t = atan(rise / run); its end against
the vertical is off square by t, the one on the level by 90 - t, both long points outward. Between
two level faces both ends are off square by 90 - t, parallel. There the tips reach run = rise /
tan(t) + width / sin(t), so that t = atan(rise / run) + asin(width / hypot(run, rise)).
Legs of an X are such braces, two of them, crossing at half their height; the lap lies where the
other leg's edges cross, width / sin(2 x lean) long along the leg.
Source: plane geometry.
"""

from collections.abc import Mapping
from fractions import Fraction
from math import asin, atan2, cos, degrees, hypot, pi, radians, sin, tan

from service.domain.angles.answer import (
    Asked,
    Figure,
    Figured,
    Letter,
    Mark,
    Sketch,
    Spot,
    Stick,
    Wanted,
    impossible,
    inches,
)
from service.domain.angles.leaning import angled, floor, stick_outline
from service.domain.build import Measured, Part

BRACE_AXES = (
    "Seen square to the brace: run is level, rise is plumb, both from the corner of the faces that "
    "it goes between, to its long points, center line or short points as given says."
)
CROSS_AXES = (
    "Seen from the front: width is over the outer points of the feet, height is plumb from the "
    "floor to the level tops; lean is from vertical."
)
TRACE = (
    "Hold the stick across the two pieces where it goes, with its edge on both marks, and run a "
    "pencil along each piece from behind: both cuts are drawn, whatever the angles are."
)
CROSS_TRACE = (
    "Draw floor and top full size, mark the feet, lay one leg from foot mark to opposite top mark "
    "and scribe both ends; lay the second over it the other way, and scribe each edge on the other"
    " leg: that is the lap."
)
TEST_CUT = (
    "Cut a short scrap with both ends and hold it in the corner of a framing square, or between "
    "two straight boards: each end closes over its whole width, or shows which setting is off."
)
POINTS: Mapping[str, Measured] = {
    "long-points": "long-to-long",
    "center": "center",
    "short-points": "short-to-short",
}


def figure_brace(asked: Asked) -> Figured:
    """A brace in a corner, or between two level faces. Raises NotFigured."""
    given, stick = asked.word("given", "long-points"), asked.stick("brace")
    across = float(stick.across(asked.seen_as("face")))
    if asked.word("between", "upright,level") == "level,level":
        return _between_levels(asked, stick, across, given)
    return _in_corner(asked, stick, across, given)


def _in_corner(asked: Asked, stick: Stick, across: float, given: str) -> Figured:
    run, rise, seen = asked.need("run"), asked.need("rise"), asked.seen_as("face")
    steep = atan2(float(rise), float(run))
    first, second = degrees(steep), 90 - degrees(steep)
    length = inches(hypot(run, rise))
    takes = across * (tan(steep) + 1 / tan(steep))
    long = float(length) + {"long-points": 0.0, "center": takes / 2, "short-points": takes}[given]
    if long <= takes:
        raise impossible("run", "The board is so wide that the brace's short edge is gone.")
    part = Part(
        "brace", stick.stock, length, ends=(angled(seen, first), angled(seen, second)),
        ends_lean="opposite", measured=POINTS[given],
    )  # fmt: skip
    reach, high = long * cos(steep), long * sin(steep)
    _overlap(asked, reach)
    inner = (across / sin(steep), across / cos(steep))
    return Figured(
        wanted=(Wanted("brace", part, stick, "between"),),
        figures=(
            Figure("end against the upright face, off square", first),
            Figure("end on the level face, off square", second),
            Figure("long point to long point", inches(long)),
            Figure("short point to short point", inches(long - takes)),
        ),
        marks=tuple(
            Mark(face, inches(at), f"from the corner to the brace's {point} point")
            for face, long_at, takes_up in (
                ("level face", reach, inner[0]),
                ("upright face", high, inner[1]),
            )
            for point, at in (("long", long_at), ("short", long_at - takes_up))
        ),
        trace=TRACE,
        test_cut=TEST_CUT,
        axes=BRACE_AXES,
        formula="brace in a corner: tan(angle) = rise / run",
        drawing=_corner(reach, high, inner),
        assumed=() if "given" in asked.fields else ("run and rise reach to the long points.",),
    )


def _corner(reach: float, high: float, inner: tuple[float, float]) -> Sketch:
    outline = ((reach, 0.0), (0.0, high), (0.0, high - inner[1]), (reach - inner[0], 0.0))
    return Sketch(
        (outline,),
        (
            Letter("A", (outline[1], outline[0]), "long to long", inches(hypot(reach, high))),
            Letter("B", ((0.0, 0.0), outline[0]), "run to the long point", inches(reach), "below"),
            Letter("C", ((0.0, 0.0), outline[1]), "rise to the long point", inches(high), "left"),
        ),
        (((0.0, 0.0), (1.1 * reach, 0.0)), ((0.0, 0.0), (0.0, 1.1 * high))),
    )


def _overlap(asked: Asked, reach: float) -> None:
    """Refuse two braces that share a level face shorter than both of them."""
    shared = asked.length("opening")
    if shared is not None and 2 * reach > float(shared) + 1e-9:
        by = 2 * reach - float(shared)
        raise impossible(
            "run",
            f"Two such braces overlap by {by:.3f} in where they meet, because boards have width: "
            f"each takes {reach:.3f} in of the level face to its long point.",
            by / 2,
        )


def _steep(run: float, rise: float, across: float, given: str, named: str = "run") -> float:
    """The angle of a brace between two level faces from the level, in radians."""
    far = hypot(run, rise)
    if across >= far:
        raise impossible(named, "The board is wider than the brace is long.")
    turn = {"long-points": 1, "center": 0, "short-points": -1}[given]
    steep = atan2(rise, run) + turn * asin(across / far)
    if not 1e-3 < steep <= pi / 2 + 1e-12:
        raise impossible(named, "No board of that width goes between those points.")
    return min(steep, pi / 2)


def _between_levels(asked: Asked, stick: Stick, across: float, given: str) -> Figured:
    run, rise = float(asked.need("run")), float(asked.need("rise"))
    steep = _steep(run, rise, across, given)
    lean = _zero(90 - degrees(steep))
    length, level = inches(rise / sin(steep)), across / sin(steep)
    end = angled(asked.seen_as("face"), lean)
    part = Part(
        "brace", stick.stock, length, ends=(end, end), ends_lean="same" if lean else None,
        measured="long-to-short" if lean else None,
    )  # fmt: skip
    reach = rise * tan(radians(lean)) + level
    _overlap(asked, reach)
    return Figured(
        wanted=(Wanted("brace", part, stick, "between"),),
        figures=(
            Figure("both ends off square, parallel", lean),
            Figure("length along an edge", length),
            Figure("level width of each end", inches(level)),
            Figure("tip to tip, level", inches(reach)),
        ),
        marks=(
            Mark("level face", inches(level), "from the brace's outer edge to its inner edge"),
            Mark("level face", inches(reach - level), "from plumb under the upper end's outer edge "
                                                      "to the same edge at the foot"),
        ),
        trace=TRACE,
        test_cut=TEST_CUT,
        axes=BRACE_AXES,
        formula="brace between level faces: run = rise / tan(t) + width / sin(t) over the tips",
        drawing=Sketch(
            (stick_outline(0, lean, rise, across),),
            (
                Letter("A", ((level, 0.0), (reach, rise)), "length along an edge", length),
                Letter("B", ((0.0, 0.0), (reach, rise)), "from face to face", inches(rise), "left"),
                Letter("C", ((0.0, 0.0), (reach, rise)), "tip to tip", inches(reach), "below"),
            ),
            (((0.0, 0.0), (reach, 0.0)), ((0.0, rise), (reach, rise))),
        ),
        assumed=() if "given" in asked.fields else ("run and rise reach to the long points.",),
    )  # fmt: skip


def figure_crossed(asked: Asked) -> Figured:
    """Two legs that cross in an X, halved where they cross. Raises NotFigured."""
    wide, high = float(asked.need("width")), float(asked.need("height"))
    seen, stick = asked.seen_as("face"), asked.stick("leg")
    across = float(stick.across(seen))
    steep = _steep(wide, high, across, "long-points", "width")
    lean, level = 90 - degrees(steep), across / sin(steep)
    if lean < 1:
        raise impossible("width", "The legs stand so upright that they don't cross.")
    length, lap = inches(high / sin(steep)), across / sin(2 * radians(lean))
    if lap >= high / sin(steep):
        raise impossible("width", "The lap would be longer than the leg.")
    near = float(length) / 2 - lap / 2
    deep = (stick.thickness if seen == "face" else stick.width) / 2
    end = angled(seen, lean)
    part = Part(
        "leg", stick.stock, length, quantity=2, ends=(end, end), ends_lean="same",
        measured="long-to-short",
    )  # fmt: skip
    figures = (
        Figure("lean from vertical", lean),
        Figure("length along an edge", length),
        Figure("angle between the legs", 2 * lean),
        Figure("level width of each foot", inches(level)),
        Figure("lap, from the center line's end to its near side", inches(near)),
        Figure("lap, length along the leg", inches(lap)),
        Figure("lap, depth in each leg", deep),
        Figure("lap, its shoulders off square", abs(90 - 2 * lean)),
    )
    return Figured(
        wanted=(Wanted("leg", part, stick, "overall"),),
        figures=figures,
        marks=_lap_marks(near, lap, wide),
        trace=CROSS_TRACE,
        test_cut=TEST_CUT,
        axes=CROSS_AXES,
        formula="crossed legs: width = height tan(lean) + leg width / cos(lean)",
        drawing=_cross(lean, wide, high, (across, lap)),
    )


def _lap_marks(near: float, lap: float, wide: float) -> tuple[Mark, ...]:
    return (
        Mark(
            "leg",
            inches(near),
            "along the center line, from the middle of a cut end to the lap's near shoulder",
        ),
        Mark(
            "leg",
            inches(near + lap),
            "along the center line, from the middle of that end to the far shoulder",
        ),
        Mark("floor", inches(wide), "outer point of one foot to outer point of the other"),
    )


def _cross(lean: float, wide: float, high: float, sizes: tuple[float, float]) -> Sketch:
    across, lap = sizes
    left = stick_outline(0, lean, high, across)
    right = tuple((wide - x, y) for x, y in left)

    def spot(along: float) -> Spot:
        """A place on the center line of the left leg, from where they cross."""
        turn = radians(lean)
        return wide / 2 + along * sin(turn), high / 2 + along * cos(turn)

    return Sketch(
        (left, right),
        (
            Letter("A", ((0.0, 0.0), (wide, 0.0)), "width over the feet", inches(wide), "below"),
            Letter("B", ((wide, 0.0), (wide, high)), "height", inches(high), "right"),
            Letter(
                "C", (spot(-lap / 2), spot(lap / 2)), "lap along the leg", inches(lap), "through"
            ),
        ),
        (floor(0.0, wide),),
    )


def _zero(angle: float) -> float:
    return 0.0 if abs(angle) < 1e-9 else angle


def lap_places(length: Fraction, lap: Fraction) -> tuple[Fraction, Fraction, Fraction]:
    """Near side, middle and far side of a lap along a leg, from its end."""
    return (length - lap) / 2, length / 2, (length + lap) / 2
