"""Slots, holes, laps and notches on the face of a part, and in words."""

from collections.abc import Callable, Iterator
from fractions import Fraction

from service.domain.build import Cutout
from service.domain.drawing import HAIR, Circle, Path, Shape, box
from service.domain.parts import ResolvedPart
from service.domain.solid import Solid
from service.handouts.drawings.folded import LEFT, Fold
from service.handouts.drawings.pens import Page, Pen
from service.handouts.drawings.tapes import Mark, tape_marks
from service.handouts.drawings.views import View

CLEAR = 8.0
"""Points beside the corners that their numbers take."""

MOST = 12  # places that are told one by one


def shown(part: ResolvedPart) -> list[Cutout]:
    """Cutouts that a view of the face shows: those in the faces, and those in an edge."""
    return [
        cutout
        for cutout in part.part.cutouts
        if cutout.size is not None and cutout.at and cutout.on != "end"
    ]


def draw_cutouts(page: Page, part: ResolvedPart, solid: Solid, view: View) -> None:
    """What is taken out, in dashes where it is out of sight."""
    for cutout in shown(part):
        page.add(*_outlines(cutout, solid, view))


def cutout_marks(part: ResolvedPart, paper: Fold, pen: Pen) -> tuple[list[Shape], float]:
    """Where the tape finds the cutouts, along an edge at 0, and the room that the marks take."""
    last = paper.x(float(part.part.length or 0)) - CLEAR
    places = [at for cutout in shown(part) if cutout.runs != "along" for at in cutout.at]
    marks = [Mark(paper.x(float(at)), pen.short(at)) for at in places]
    return tape_marks([m for m in marks if LEFT + CLEAR < m.x < last], 0.0, below=True)


def _outlines(cutout: Cutout, solid: Solid, view: View) -> Iterator[Path | Circle]:
    size, wide = cutout.size or Fraction(0), solid.blank_width
    deep = min(cutout.depth or wide, wide)
    hidden = cutout.on == "back"
    for at in cutout.at:
        if cutout.kind == "hole" and cutout.on != "edge":
            center, radius = view.spot(at, wide / 2), float(size) / 2 * view.fold.scale
            yield Circle(center, radius, "hole", dashed=hidden)
            continue
        start = at - size / 2 if cutout.kind == "hole" else at
        if cutout.runs == "along" and cutout.kind != "hole":
            low, high = view.spot(Fraction(0), at), view.spot(solid.blank_length, at + size)
        elif cutout.on == "edge":
            low, high = view.spot(start, wide - deep), view.spot(start + size, wide)
            hidden = cutout.kind not in ("notch", "lap")
        else:
            low, high = view.spot(start, Fraction(0)), view.spot(start + size, wide)
        corners = box(low[0], high[1], high[0], low[1])
        yield Path(corners, "cutout", cutout.kind, closed=True, dashed=hidden, weight=HAIR)


def cutout_words(
    cutout: Cutout, say: Callable[[Fraction], str], named: Callable[[str], str]
) -> str:
    """A cutout in a sentence: what, how wide and deep, where, and for which part."""
    hole = cutout.kind == "hole"
    words = f"{cutout.kind} in the {cutout.on}"
    if cutout.size is not None:
        words += f", {say(cutout.size)} {'across' if hole else 'wide'}"
    words += f", {say(cutout.depth)} deep" if cutout.depth is not None else ""
    if not hole and cutout.runs == "along":
        words += ", along the part"
    if cutout.at:
        spot = "center" if hole else "near side"
        places = ", ".join(map(say, cutout.at[:MOST]))
        more = f" and {len(cutout.at) - MOST} more places" if len(cutout.at) > MOST else ""
        words += f"; {spot} at {places}{more}{_origin(cutout)}"
    return words + (f"; for {named(cutout.fits)}" if cutout.fits else "")


def _origin(cutout: Cutout) -> str:
    """From where the places of a cutout are told; of one in an end the document does not say."""
    if cutout.on == "end":
        return ""
    along = cutout.runs == "along" and cutout.kind != "hole"
    return " from the lower edge" if along else " from the first end"
