"""A leg tapered toward its foot, and any cut part by its ends.

Taper on one side: the side runs off atan((top - foot) / tapered length); on both sides, half of the
difference each. Source: plane geometry.
"""

from fractions import Fraction
from math import atan, degrees

from service.domain.angles.answer import (
    Asked,
    Figure,
    Figured,
    Letter,
    Mark,
    Sketch,
    Wanted,
    impossible,
)
from service.domain.build import End, Measured, Part
from service.domain.solid import Crossed, Solid, Unclear

TAPER_AXES = (
    "The leg lies on its side, top end left; top and foot are widths across the leg; straight is "
    "what stays full width below the top, for an apron."
)
TAPER_TRACE = (
    "Mark the straight part and the foot's width on the blank, and draw a line between them with a "
    "straightedge: saw outside of the line and plane to it."
)
TAPER_TEST = (
    "Run a scrap through the jig, turn it over onto its other edge and lay it on the drawing: the "
    "foot must measure its width, and the taper must begin at its mark."
)
ENDS_AXES = (
    "The part lies on its back face, first end left: miter turns the cut across the face, bevel "
    "tilts it through the thickness, both off square."
)
ENDS_TRACE = (
    "Square a line around the part at its shorter length, mark the run-off along each edge from "
    "it, and join the marks: no angle needs to be read."
)
ENDS_TEST = (
    "Cut a scrap, turn one piece over and hold the two cuts together against a straightedge: any "
    "bend in the line is twice the error of the setting."
)


def figure_taper(asked: Asked) -> Figured:
    """The taper's angle and marks; the part is the blank before it. Raises NotFigured."""
    length, top, foot = asked.need("length"), asked.need("top"), asked.need("foot")
    straight, stick = asked.length("straight") or Fraction(0), asked.stick("leg")
    if foot >= top:
        raise impossible("foot", "A leg tapers toward its foot: foot is less than top.")
    if straight >= length:
        raise impossible("straight", "Nothing is left to taper.")
    taper = length - straight
    one = degrees(atan((top - foot) / taper))
    both = degrees(atan((top - foot) / 2 / taper))
    part = Part("leg", stick.stock, length, width=top)
    return Figured(
        wanted=(Wanted("leg", part, stick, "overall", top),),
        figures=(
            Figure("taper on one side", one),
            Figure("taper on each of two opposite sides", both),
            Figure("tapered length", taper),
            Figure("taken off at the foot, one side", top - foot),
            Figure("taken off at the foot, each of two sides", (top - foot) / 2),
        ),
        marks=(
            Mark("leg", straight, "from the top end to where the taper begins"),
            Mark("leg's foot", foot, "from the straight edge to the line (taper on one side)"),
            Mark("leg's foot", (top - foot) / 2, "in from either edge (taper on two sides)"),
        ),
        trace=TAPER_TRACE,
        test_cut=TAPER_TEST,
        axes=TAPER_AXES,
        formula="taper: tan(angle) = (top - foot) / tapered length",
        drawing=_tapered((length, straight), top, foot),
        assumed=("The part listed is the blank; document parts have no taper of their own.",),
    )  # fmt: skip


def _tapered(along: tuple[Fraction, Fraction], top: Fraction, foot: Fraction) -> Sketch:
    """The leg lying on its straight edge, its foot to the right; `along`: length, straight part."""
    (off, begins), (high, low) = map(float, along), map(float, (top, foot))
    outline = ((0.0, 0.0), (off, 0.0), (off, low), (begins, high), (0.0, high))
    letters = [
        Letter("A", ((0.0, 0.0), (0.0, high)), "top", top, "left"),
        Letter("B", ((off, 0.0), (off, low)), "foot", foot, "right"),
        Letter("C", ((0.0, 0.0), (off, 0.0)), "length", along[0], "below"),
    ]
    if along[1]:
        span = (0.0, high), (begins, high)
        letters.append(Letter("D", span, "before the taper", along[1], "above"))
    return Sketch((outline,), tuple(letters))


def figure_ends(asked: Asked) -> Figured:
    """A part cut at its ends: all its lengths follow from one. Raises NotFigured."""
    length, stick = asked.need("length"), asked.stick("piece")
    miters, bevels = _two(asked, "miter"), _two(asked, "bevel")
    ends = (End(miters[0], bevels[0]), End(miters[1], bevels[1]))
    square = all(end.is_square for end in ends)
    lean, word = asked.word("ends_lean", "opposite"), asked.word("measured", "long-to-long")
    part = Part(
        "piece", stick.stock, length, ends=ends,
        ends_lean=None if square else ("same" if lean == "same" else "opposite"),
        measured=None if square else next(w for w in WORDS if w == word),
    )  # fmt: skip
    wanted = Wanted("piece", part, stick, "overall")
    return Figured(
        wanted=(wanted,),
        figures=(),
        marks=(),
        trace=ENDS_TRACE,
        test_cut=ENDS_TEST,
        axes=ENDS_AXES,
        formula="cut part: run-off = width x tan(miter), thickness x tan(bevel) / cos(miter)",
        drawing=_cut_part(wanted.solid, length),
        assumed=() if square or "measured" in asked.fields else ("length is read long-to-long.",),
    )


def _cut_part(solid: Solid | Crossed | Unclear | None, length: Fraction) -> Sketch:
    """The front face of a part as it is cut; the lower edge, front down, where only bevels slant.

    Nothing is drawn of a part whose cuts cross but its length.
    """
    if not isinstance(solid, Solid):
        line = (0.0, 0.0), (float(length), 0.0)
        return Sketch((line,), (Letter("A", line, "length", length, "below"),))
    corners = solid.corners
    mitered = solid.slants[0].across or solid.slants[1].across
    axis, names = (1, FACE) if mitered else (2, EDGE)
    spots = tuple((float(corners[name][0]), float(corners[name][axis])) for name in names)
    if not mitered:
        spots = tuple((x, float(solid.thickness) - y) for x, y in spots)
    low, high = ("bottom edge", "top edge") if mitered else ("front face", "back face")
    first, second, third, fourth = (corners[name][0] for name in names)
    return Sketch((spots,), (
        Letter("A", (spots[0], spots[1]), f"along the {low}", second - first, "below"),
        Letter("B", (spots[3], spots[2]), f"along the {high}", third - fourth, "above"),
    ))  # fmt: skip


FACE = ("first-bottom-front", "second-bottom-front", "second-top-front", "first-top-front")
EDGE = ("first-bottom-front", "second-bottom-front", "second-bottom-back", "first-bottom-back")

WORDS: tuple[Measured, ...] = (
    "long-to-long", "short-to-short", "long-to-short", "short-to-long", "center",
)  # fmt: skip


def _two(asked: Asked, name: str) -> tuple[float, float]:
    value = asked.fields.get(name)
    if not isinstance(value, tuple) or len(value) != 2:
        return 0.0, 0.0
    return float(value[0]), float(value[1])
