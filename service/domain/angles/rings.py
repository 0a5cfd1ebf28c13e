"""Rings of equal sides: a sloped box or planter, and a polygon lying flat or standing upright.

With sides that lean a from vertical and n corners, seen from above each corner turns 180 / n from
either side. A point of a side, t up its slope and d in from its outer face, lies t sin(a) - d
cos(a) farther out, and a mitered side reaches tan(180 / n) as much farther along. So across the
face the cut is off square by atan(sin(a) tan(180 / n)), and the blade tilts asin(cos(a) sin(180 /
n)). Butted, with four sides: atan(sin(a)) and asin(sin(a)^2). Slant = height / cos(a). Level top
and bottom edges are beveled by a, and the blank is wider than the slant by thickness x tan(a).
Source: solid geometry.
"""

from fractions import Fraction
from math import asin, atan, cos, degrees, pi, radians, sin, tan

from service.domain.angles.answer import (
    Asked,
    Figure,
    Figured,
    Letter,
    Mark,
    Seen,
    Sketch,
    Spot,
    Stick,
    Wanted,
    impossible,
    inches,
)
from service.domain.angles.leaning import angled
from service.domain.build import End, Part

BOX_AXES = (
    "Looking at the outer face with the box's rim up: the front of each part is its outer face, "
    "its top edge the rim. The slope is from vertical or from horizontal, as slope_from says; "
    "height is plumb, slant is along the face. A box opens upward."
)
RING_AXES = (
    "A flat ring lies with the faces up, an upright one stands with the faces outward; across "
    "flats is twice the distance from the middle to a side, across corners twice that to a corner."
)
TRACE = (
    "Draw the ring from above, full size: the circle through its corners, stepped off into equal "
    "parts. Lay a side on its line and mark the points where the lines to the middle cross it; for"
    " a sloped side, draw its slant beside it and carry the rim's and the foot's lengths over to "
    "its edges."
)
TEST_CUT = (
    "Cut short scraps at the setting, one for every side, and hold them together with tape: all "
    "corners closed proves it. One corner's gap is the saw's error twice for every side."
)
AMBIGUOUS = "slope_from is not given: the slope is read from vertical, so that 0 is an upright box."


def figure_box(asked: Asked) -> Figured:
    """A box with sloping sides, mitered or butted. Raises NotFigured."""
    count, lean = asked.whole("sides"), _box_lean(asked)
    butted = asked.word("corners", "mitered") == "butted"
    if butted and count != 4:
        raise impossible("corners", "Butted corners are figured for four sides; miter the others.")
    stick, slope = asked.stick("side"), radians(lean)
    given = asked.one_of("height", "slant")
    size = float(asked.need(given))
    slant, height = (size, size * cos(slope)) if given == "slant" else (size / cos(slope), size)
    grows = 2 * height * tan(slope) * tan(pi / count)
    rim = _rim(asked, count, grows)
    blank = slant + float(stick.thickness) * tan(slope)
    sides = tuple(_sides(stick, (count, lean), inches(slant), rim, butted))
    end = sides[0].part.ends[0]
    return Figured(
        wanted=sides,
        figures=(
            Figure("miter across the face", end.miter),
            Figure("bevel of the ends", end.bevel),
            Figure("bevel of level top and bottom edges", lean),
            Figure("height", inches(height)),
            Figure("slant, up the outer face", inches(slant)),
            Figure("width of the blank for level edges", inches(blank)),
            Figure("rim longer than foot, each side", inches(grows)),
        ),
        marks=(
            Mark("side", inches(grows / 2), "along the foot, from square under the rim's point to "
                                            "the foot's point, on the outer face"),
        ),
        trace=TRACE,
        test_cut=TEST_CUT,
        axes=BOX_AXES,
        formula="sloped box: compound miter, tan(miter) = sin(lean) tan(180 / sides)",
        drawing=_side_drawing(rim[0] if rim else None, grows, slant),
        assumed=_assumed(asked, rim),
        tilted=lean if lean and not butted else None,
        tilted_turn=180 / count if not butted else None,
    )  # fmt: skip


def _box_lean(asked: Asked) -> float:
    """Degrees from vertical, whichever way the slope is named."""
    slope = asked.angle("slope")
    lean = 90 - slope if asked.word("slope_from", "vertical") == "horizontal" else slope
    if not 0 <= lean < 89.5:
        raise impossible("slope", "The sides would lie flat: figure it as a polygon ring.")
    return lean


def _assumed(asked: Asked, rim: tuple[Fraction, Fraction] | None) -> tuple[str, ...]:
    said = [] if "slope_from" in asked.fields else [AMBIGUOUS]
    if rim is None:
        said.append("No rim or foot is given, so the lengths of the sides are not figured.")
    return tuple(said)


def _rim(asked: Asked, count: int, grows: float) -> tuple[Fraction, Fraction] | None:
    """Outer length of a side along the rim; for four sides those of both pairs."""
    given = [name for name in ("rim", "foot") if name in asked.fields]
    if not given:
        return None
    if len(given) > 1:
        raise impossible("foot", "Say rim or foot, not both: the slope gives the other.")
    pair, single = asked.pair(given[0]), asked.length(given[0])
    if pair and count != 4 and pair[0] != pair[1]:
        raise impossible(given[0], "Only four sides can have two lengths.")
    both = pair or (single or Fraction(0), single or Fraction(0))
    more = inches(grows) if given[0] == "foot" else Fraction(0)
    rim = both[0] + more, both[1] + more
    if min(rim) <= grows:
        raise impossible(given[0], "The sides come to a point before they reach the foot.")
    return rim


def _sides(
    stick: Stick,
    form: tuple[int, float],
    slant: Fraction,
    rim: tuple[Fraction, Fraction] | None,
    butted: bool,
) -> list[Wanted]:
    count, lean = form
    slope = radians(lean)
    if butted:
        miter, bevel, outer = degrees(atan(sin(slope))), degrees(asin(sin(slope) ** 2)), "back"
    else:
        miter = degrees(atan(sin(slope) * tan(pi / count)))
        bevel, outer = degrees(asin(cos(slope) * sin(pi / count))), "front"
    end = End(_zero(miter), _zero(bevel), frozenset({"top", outer}))
    edges = (End(bevel=lean, long=frozenset({"front"})), End(bevel=lean, long=frozenset({"back"})))
    first, second = rim or (None, None)
    if butted and second is not None:
        second -= 2 * inches(float(stick.thickness) / cos(slope))
    alike = first == second
    lengths = [("side", count, first)] if alike else [
        ("side", 2, first), ("end-side", 2, second),
    ]  # fmt: skip
    made = []
    for name, quantity, length in lengths:
        if length is not None and length <= 2 * slant * inches(tan(radians(end.miter))):
            raise impossible("slope", "The cuts of a side meet before its foot.")
        part = Part(
            name, stick.stock, length, quantity=quantity, width=slant,
            ends=(end, end), ends_lean="opposite", measured="long-to-long",
            edges=edges if lean else (End(), End()), edges_lean="same" if lean else None,
        )  # fmt: skip
        made.append(Wanted("side", part, stick, "alike", slant))
    return made


def _zero(angle: float) -> float:
    """An angle that is only rounding away from square is square."""
    return 0.0 if abs(angle) < 1e-9 else angle


def _side_drawing(rim: Fraction | None, grows: float, slant: float) -> Sketch:
    wide = float(rim) if rim is not None else grows + 2 * slant
    outline: tuple[Spot, ...] = (
        (grows / 2, 0.0), (wide - grows / 2, 0.0), (wide, slant), (0.0, slant),
    )  # fmt: skip
    letters = [
        Letter("A", ((grows / 2, 0.0), (0.0, slant)), "slant", inches(slant), "left"),
        Letter("B", ((0.0, slant), (grows / 2, 0.0)), "rim past the foot, at each end",
               inches(grows / 2), "below"),
    ]  # fmt: skip
    if rim is not None:
        letters.append(Letter("C", ((0.0, slant), (wide, slant)), "rim", rim, "above"))
    return Sketch((outline,), tuple(letters))


def figure_polygon(asked: Asked) -> Figured:
    """A ring of equal sides with plain miters (flat) or bevels (upright). Raises NotFigured."""
    count, half = asked.whole("sides"), pi / asked.whole("sides")
    given = asked.one_of("across_flats", "across_corners", "side")
    size = asked.need(given)
    side = {
        "across_flats": lambda: inches(float(size) * tan(half)),
        "across_corners": lambda: inches(float(size) * sin(half)),
        "side": lambda: size,
    }[given]()
    flat = asked.word("ring", "flat") == "flat"
    stick = asked.stick("side")
    seen: Seen = "face" if flat else "edge"
    across = stick.across(seen)
    inner = side - inches(2 * float(across) * tan(half))
    if inner <= 0:
        raise impossible(given, "The sides are so wide that the ring has no middle.")
    end = angled(seen, 180 / count)
    part = Part(
        "side", stick.stock, side, quantity=count, ends=(end, end), ends_lean="opposite",
        measured="long-to-long",
    )  # fmt: skip
    flats, corners = inches(float(side) / tan(half)), inches(float(side) / sin(half))
    return Figured(
        wanted=(Wanted("side", part, stick, "alike"),),
        figures=(
            Figure("off square at each end", 180 / count),
            Figure("side, long point to long point", side),
            Figure("side, short point to short point", inner),
            Figure("across flats", flats),
            Figure("across corners", corners),
            Figure("opening across flats", flats - 2 * across),
        ),
        marks=(Mark("side", (side - inner) / 2, "from the long point to square above the short"),),
        trace=TRACE,
        test_cut=TEST_CUT,
        axes=RING_AXES,
        formula="polygon ring: off square by 180 / sides; side = across flats x tan(180 / sides)",
        drawing=_ring(count, float(corners) / 2, float(across) / cos(half), side),
    )  # fmt: skip


def _ring(count: int, outer: float, border: float, side: Fraction) -> Sketch:
    turn = 2 * pi / count

    def spot(index: int, radius: float) -> Spot:
        angle = turn * (index + 0.5) - pi / 2
        return radius * cos(angle), radius * sin(angle)

    sides = tuple(
        (spot(i, outer), spot(i + 1, outer), spot(i + 1, outer - border), spot(i, outer - border))
        for i in range(count)
    )
    top = min(range(count), key=lambda i: -spot(i, outer)[1] - spot(i + 1, outer)[1])
    span = (spot(top + 1, outer), spot(top, outer))
    return Sketch(sides, (Letter("A", span, "side, long point to long point", side),))
