"""A part as a solid, made from its stated sizes and cuts.

Lay the part on its back face, first end left: x runs along the length, y across the width from
the bottom edge (near) to the top edge, z through the thickness from back to front.

- **Ends.** `miter` is the saw table's turn: the cut's line on a face is turned that many degrees
  off square. `bevel` is the blade's tilt, measured square to the cut line, as a saw is set. Along
  the part a cut so runs off by tan(miter) per inch of width and by tan(bevel) / cos(miter) per
  inch of thickness.
- **Edges** have a bevel only: across the part they run off by tan(bevel) per inch of thickness.
- **Long points.** An end's `long` names the side that holds its long point: top or bottom for
  the miter, front or back for the bevel. Without it: the first end's bottom and front, the second
  end's as `ends_lean` says: `opposite` the same side as the first (a trapezoid), `same` the other
  (a parallelogram). Edges likewise: the first long on the front, the second by `edges_lean`.
- **Width** is read on the measured face: the front, unless `measured_on` says back.
- **Length** is read on the measured face, parallel to the edges, in the words of `measured`. An
  end without a miter is square there. Where no end has a miter but one has a bevel, the same
  words are read on the edge, the two faces standing for the two edges; then `measured_on: back`
  counts only where `measured` is left out (it names the face that was measured).
- What had to be assumed is listed in `assumed`.

Source: plane geometry; the convention is this service's own.
"""

from collections.abc import Iterator
from fractions import Fraction
from math import lcm

from service.domain.build import SQUARE, Measured, Part
from service.domain.ends import Cuts, Slant, names_both_sides, read_cuts, readings
from service.domain.ratio import ratio
from service.domain.solid import (
    ARRISES,
    Crossed,
    Point,
    Rod,
    Solid,
    Unclear,
    round_readings,
    shortest_line,
)
from service.domain.values import replace

ZERO = Fraction(0)
LONG_TO_LONG = "measured is not given: the length is read long-to-long."
ON_THE_BACK = "measured is not given: the length is read along the back face."
WORD_WINS = (
    "The ends are beveled only, so {word} is read on the edge and names the front face, "
    "although measured_on says back."
)
NO_EDGES = "A round has no long edges: the bevels given for its edges are left out."


def shape_part(
    part: Part, length: Fraction, width: Fraction, thickness: Fraction
) -> Solid | Crossed | Unclear:
    """A board or panel part of the given sizes (inches), cut as `part` states.

    `Unclear`: the words for its length have no meaning with its ends. `Crossed`: its cuts meet.
    """
    if all(end.is_square for end in part.ends) and not (part.edges[0].bevel or part.edges[1].bevel):
        return _square(length, width, thickness)
    if any(names_both_sides(end) for end in (*part.ends, *part.edges)):
        return Unclear("An end or edge names both sides as its long one.")
    cuts = read_cuts(part)
    along_bottom = _bottom_length(part, cuts, length, width, thickness)
    if isinstance(along_bottom, Unclear):
        return along_bottom
    assumed = cuts.ends_assumed + cuts.sides_assumed + _assumed_length(part, cuts)
    measured_at = thickness if part.measured_on == "front" else ZERO
    solid = _cut(cuts, along_bottom, width, thickness, measured_at)
    return replace(solid, assumed=assumed) if assumed else solid


def shape_round(part: Part, length: Fraction, diameter: Fraction) -> Rod | Crossed | Unclear:
    """A round part (a dowel, a turned leg) of the given length and diameter in inches.

    Miter and bevel of an end make one slant. Long and short points are the tips of the two
    ellipses; `center` is along the axis.
    """
    if any(names_both_sides(end) for end in part.ends):
        return Unclear("An end names both sides as its long one.")
    cuts = read_cuts(replace(part, edges=(SQUARE, SQUARE)))
    slants = (cuts.first, cuts.second)
    words = round_readings(slants, diameter)
    word = part.measured or "long-to-long"
    if word not in words:
        return _unclear(word, words)
    assumed = cuts.ends_assumed
    if part.measured is None and words["long-to-long"]:
        assumed += (LONG_TO_LONG,)
    if any(edge.bevel for edge in part.edges):
        assumed += (NO_EDGES,)
    center_length = length - words[word]
    shortest = shortest_line(center_length, diameter, slants)
    if shortest <= 0:
        return Crossed("shortest line", -shortest, assumed)
    return Rod(center_length, diameter, slants, cuts.exact, assumed)


def _square(length: Fraction, width: Fraction, thickness: Fraction) -> Solid:
    points = (
        (ZERO, ZERO, ZERO), (ZERO, ZERO, thickness), (ZERO, width, ZERO), (ZERO, width, thickness),
        (length, ZERO, ZERO), (length, ZERO, thickness), (length, width, ZERO),
        (length, width, thickness),
    )  # fmt: skip
    return Solid(points, length, width, thickness, is_square=True, exact=True)


def _bottom_length(
    part: Part, cuts: Cuts, length: Fraction, width: Fraction, thickness: Fraction
) -> Fraction | Unclear:
    """The length along the bottom edge of the measured face."""
    if _is_mitered(cuts):
        words = readings(cuts.first.across * width, cuts.second.across * width)
        beyond = ZERO
    else:
        first, second = cuts.first.through * thickness, cuts.second.through * thickness
        words = readings(first, second)
        beyond = first + second if part.measured_on == "front" else ZERO
        if part.measured is None and part.measured_on == "back":
            return length
    word = part.measured or "long-to-long"
    if word not in words:
        return _unclear(word, words)
    return length - words[word] + beyond


def _is_mitered(cuts: Cuts) -> bool:
    return bool(cuts.first.across or cuts.second.across)


def _unclear(word: Measured, words: dict[Measured, Fraction]) -> Unclear:
    return Unclear(
        f"{word} needs two angled ends with their long points on different sides.", tuple(words)
    )


def _assumed_length(part: Part, cuts: Cuts) -> tuple[str, ...]:
    """What the reading of the length rests on besides the caller's words."""
    slanted = _is_mitered(cuts)
    through = (cuts.first.through, cuts.second.through)
    if not slanted and not any(through):
        return ()
    on_the_back = part.measured_on == "back" and not slanted
    if part.measured is None:
        return (ON_THE_BACK,) if on_the_back else (LONG_TO_LONG,)
    if on_the_back and _names_front(part.measured, *through):
        return (WORD_WINS.format(word=part.measured),)
    return ()


def _names_front(word: Measured, first: Fraction, second: Fraction) -> bool:
    """Whether a word, read on the edge, is the length of the front face and not of the back."""
    words = readings(first, second)
    return words[word] == first + second != 0


def _cut(
    cuts: Cuts, along_bottom: Fraction, width: Fraction, thickness: Fraction, measured_at: Fraction
) -> Solid | Crossed:
    """The solid whose measured face has this width and this length along its bottom edge.

    It is figured in whole numbers: x, y and z each over one denominator. Slopes have twelve
    decimals, and fractions so long are slow to add.
    """
    run = lcm(*(slope.denominator for slope in (*cuts.first, *cuts.second, cuts.top, cuts.bottom)))
    step = lcm(*(size.denominator for size in (along_bottom, width, thickness, measured_at)))
    top, bottom = _whole(cuts.top, run), _whole(cuts.bottom, run)
    wide, back = _whole(width, step), -_whole(measured_at, step)
    depths = (back, back + _whole(thickness, step))
    for face, depth in zip(("back", "front"), depths, strict=True):
        face_width = wide * run + (top + bottom) * depth
        if face_width <= 0:
            return Crossed(face, ratio(-face_width, step * run))
    rows = ((0, -bottom), (wide * run, top))
    spots = [(y + slope * depth, depth) for y, slope in rows for depth in depths]
    long = _whole(along_bottom, step) * run * run
    first = [-out for out in _reach_out(cuts.first, run, spots)]
    second = [long + out for out in _reach_out(cuts.second, run, spots)]
    lengths = [right - left for left, right in zip(first, second, strict=True)]
    shortest, fine = min(lengths), step * run * run
    if shortest <= 0:
        return Crossed(ARRISES[lengths.index(shortest)], ratio(-shortest, fine))
    # The corners are moved so that the blank, tip to tip, starts at (0, 0, 0).
    left, near = min(first), min(y for y, _ in spots)
    flat = [(ratio(y - near, step * run), ratio(depth - back, step)) for y, depth in spots]
    points: list[Point] = [
        (ratio(x - left, fine), *yz)
        for xs in (first, second)
        for x, yz in zip(xs, flat, strict=True)
    ]
    blank_length, blank_width = max(x for x, _, _ in points), max(y for y, _ in flat)
    return Solid(tuple(points), blank_length, blank_width, flat[1][1], False, cuts.exact)


def _whole(size: Fraction, under: int) -> int:
    """How many of the parts of a denominator a size has."""
    return size.numerator * (under // size.denominator)


def _reach_out(slant: Slant, run: int, spots: list[tuple[int, int]]) -> Iterator[int]:
    across, through = _whole(slant.across, run), _whole(slant.through, run) * run
    return (across * y + through * depth for y, depth in spots)
