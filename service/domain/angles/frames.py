"""Frames: four mitered or butted sides around an opening, a panel or a mirror.

Sight opening = contents + clearance - 2 x rabbet. Outside = opening + 2 x the width of the sides
that lie across it. Mitered: 45 degrees, long to long = outside. Butted: the stiles run the whole
height, the rails go between them.
Source: plane geometry.
"""

from fractions import Fraction

from service.domain.angles.answer import (
    Asked,
    Figure,
    Figured,
    Letter,
    Mark,
    Sketch,
    Stick,
    Wanted,
    impossible,
)
from service.domain.angles.leaning import angled
from service.domain.build import Part

Size = tuple[Fraction, Fraction]

AXES = (
    "Sizes are width by height as the frame hangs; clearance is the total of both sides; rabbet is "
    "how far the lip reaches over the contents, on each side; rails lie level, stiles upright."
)
TRACE = (
    "Lay the contents on a sheet of paper, draw around them, draw the sight opening inside by the "
    "lip less half the clearance, and the outside around that: cut each side to its own line."
)
MITER_TEST = (
    "Cut four short scraps at the one setting and hold them together as a small frame: three "
    "closed corners and a gap at the fourth show eight times the saw's error; closed means right."
)
BUTT_TEST = (
    "Cut one rail, turn it over end for end against a square: light at the end is twice the saw's "
    "error. Then measure both diagonals of the dry frame: alike means square."
)


def _opening(asked: Asked, rail: Fraction, stile: Fraction) -> Size:
    """The sight opening from whichever measure is given."""
    given = asked.one_of("opening", "outside", "contents")
    size = asked.pair(given)
    if size is None:
        raise impossible(given, "This is width by height: 16x20in.")
    if given == "outside":
        opening = (size[0] - 2 * stile, size[1] - 2 * rail)
    elif given == "contents":
        grows = (asked.length("clearance") or 0) - 2 * (asked.length("rabbet") or 0)
        opening = (size[0] + grows, size[1] + grows)
    else:
        opening = size
    if min(opening) <= 0:
        raise impossible(given, "The sides are so wide that no opening is left.")
    return opening


def figure_mitered(asked: Asked) -> Figured:
    """A frame with mitered corners. Raises NotFigured."""
    seen = asked.seen_as("face")
    rail, stile = asked.stick("rail"), asked.stick("stile")
    wide = rail.across(seen)
    opening = _opening(asked, wide, wide)
    outside = (opening[0] + 2 * wide, opening[1] + 2 * wide)
    end = angled(seen, 45.0)

    def side(name: str, stick: Stick, length: Fraction) -> Wanted:
        part = Part(
            name, stick.stock, length, quantity=2, ends=(end, end),
            ends_lean="opposite", measured="long-to-long",
        )  # fmt: skip
        return Wanted(name, part, stick, "alike")

    sides = (side("rail", rail, outside[0]), side("stile", stile, outside[1]))
    marks = (
        Mark("side", wide, "square in from the edge at the long point: the corner of "
                           "the opening"),
    )  # fmt: skip
    return _figured(
        asked, sides=sides, opening=opening, outside=outside, marks=marks, borders=(wide, wide),
        test_cut=MITER_TEST, formula="mitered frame: long to long = opening + 2 x width",
    )  # fmt: skip


def figure_butted(asked: Asked) -> Figured:
    """A frame with butted corners, rails between stiles. Raises NotFigured."""
    seen = asked.seen_as("face")
    rail, stile = asked.stick("rail"), asked.stick("stile")
    high, wide = rail.across(seen), stile.across(seen)
    opening = _opening(asked, high, wide)
    outside = (opening[0] + 2 * wide, opening[1] + 2 * high)
    sides = (
        Wanted("rail", Part("rail", rail.stock, opening[0], quantity=2), rail, "between"),
        Wanted("stile", Part("stile", stile.stock, outside[1], quantity=2), stile, "overall"),
    )
    marks = (Mark("stile", high, "from each end: the inner edge of the rail"),)
    return _figured(
        asked, sides=sides, opening=opening, outside=outside, marks=marks, borders=(wide, high),
        test_cut=BUTT_TEST, formula="butted frame: stile = outside height, rail = opening width",
    )  # fmt: skip


def _figured(
    asked: Asked,
    *,
    sides: tuple[Wanted, ...],
    opening: Size,
    outside: Size,
    marks: tuple[Mark, ...],
    borders: Size,
    test_cut: str,
    formula: str,
) -> Figured:
    rabbet = asked.length("rabbet")
    figures = [
        Figure("opening width", opening[0]), Figure("opening height", opening[1]),
        Figure("outside width", outside[0]), Figure("outside height", outside[1]),
    ]  # fmt: skip
    if rabbet is not None:
        figures += [
            Figure("width from rabbet to rabbet", opening[0] + 2 * rabbet),
            Figure("height from rabbet to rabbet", opening[1] + 2 * rabbet),
        ]
        marks += (Mark("side", rabbet, "from the opening's edge, on the back: the rabbet"),)
    return Figured(
        wanted=sides,
        figures=tuple(figures),
        marks=marks,
        trace=TRACE,
        test_cut=test_cut,
        axes=AXES,
        formula=formula,
        drawing=_drawing(opening, outside, borders, "miter" in formula),
    )


def _drawing(opening: Size, outside: Size, borders: Size, mitered: bool) -> Sketch:
    wide, high = float(outside[0]), float(outside[1])
    left, low = float(borders[0]), float(borders[1])
    right, top = wide - left, high - low
    level, plumb = low + (top - low) / 4, left + (right - left) / 4
    outer = ((0.0, 0.0), (wide, 0.0), (wide, high), (0.0, high))
    inner = ((left, low), (right, low), (right, top), (left, top))
    if mitered:
        nexts = (*range(1, 4), 0)
        sides = tuple((outer[i], outer[j], inner[j], inner[i]) for i, j in enumerate(nexts))
    else:
        sides = (
            ((0.0, 0.0), (left, 0.0), (left, high), (0.0, high)),
            ((right, 0.0), (wide, 0.0), (wide, high), (right, high)),
            ((left, 0.0), (right, 0.0), (right, low), (left, low)),
            ((left, top), (right, top), (right, high), (left, high)),
        )
    letters = (
        Letter("A", (outer[3], outer[2]), "outside width", outside[0], "above"),
        Letter("B", (outer[0], outer[3]), "outside height", outside[1], "left"),
        Letter("C", ((left, level), (right, level)), "opening width", opening[0], "through"),
        Letter("D", ((plumb, low), (plumb, top)), "opening height", opening[1], "through"),
    )
    return Sketch(sides, letters)
