"""Every part that is not cut square: its points numbered, their distances, how to trace it."""

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction

from service.domain.drawing import BOLD, HAIR, Drawing, Path
from service.domain.parts import ResolvedPart
from service.domain.solid import Rod, Solid
from service.handouts.drawings.cutouts import cutout_marks, cutout_words, draw_cutouts, shown
from service.handouts.drawings.folded import Fold, fold
from service.handouts.drawings.pens import Page, Pen
from service.handouts.drawings.tapes import moved
from service.handouts.drawings.tracing import (
    alike,
    is_beveled,
    lengths_in_words,
    settings_in_words,
    tracing,
)
from service.handouts.drawings.views import (
    BACK,
    FRONT,
    Edges,
    draw_section,
    draw_side,
    measured,
    side_of,
)

EDGE = {1: FRONT[1], 2: FRONT[2], 6: BACK[6], 5: BACK[5]}


def part_drawings(pen: Pen) -> Iterator[tuple[str, str, Drawing]]:
    """Key, caption and drawing of every part with a slanted end, a beveled edge or a cutout."""
    for part in pen.build.parts:
        if not is_drawn(part):
            continue
        caption, solid = f"Part {pen.named(part.part.id)}", part.solid
        if isinstance(solid, Solid):
            yield f"part-{part.index + 1}", caption, draw_part(part, solid, caption, pen)
        elif isinstance(solid, Rod):
            yield f"part-{part.index + 1}", caption, draw_rod(part, solid, caption, pen)


def is_drawn(part: ResolvedPart) -> bool:
    """Whether there is more to see on a part than its sizes say."""
    solid = part.solid
    if isinstance(solid, Solid):
        return not solid.is_square or bool(shown(part))
    return isinstance(solid, Rod) and not solid.is_square


def draw_part(part: ResolvedPart, solid: Solid, title: str, pen: Pen) -> Drawing:
    """The front face; the lower edge and the end where the part is not the same all through."""
    page, paper = Page(), _fold_of(solid)
    _draw_face(page, part, solid, paper, pen)
    if _slants_through(solid):
        page.line("Lower edge, the front face down")
        spots, own = side_of(solid, EDGE, 2)
        edges = replace(own, blank=own.lower[1] - own.lower[0])
        high = float(solid.thickness)
        view = measured(page, high, paper, edges, pen)
        draw_side(page, view, tuple(EDGE), spots, "edge")
    if len(set(solid.face_widths)) > 1:
        page.line("Seen on its first end, the front face down")
        draw_section(page, solid, pen)
    marks: list[str] = []
    if not solid.is_square:
        marks += [*lengths_in_words(solid, pen), *tracing(solid, pen)]
    marks += [*settings_in_words(part)]
    marks += [cutout_words(cutout, pen.say, pen.named) for cutout in part.part.cutouts]
    about = f"{title}. Drawn 1 to {72 / paper.scale:.3g}{_left_out(paper)}."
    return page.done(title, about, [*marks, *alike(part)], paper.scale)


def _draw_face(page: Page, part: ResolvedPart, solid: Solid, paper: Fold, pen: Pen) -> None:
    """The front face, what shows of the back face in dashes, and what is taken out."""
    square = solid.is_square
    page.line(f"Front face{', its first end to the left' if shown(part) else ''}")
    marks, deep = cutout_marks(part, paper, pen)
    spots, edges = side_of(solid, FRONT, 1)
    behind, _ = side_of(solid, BACK, 1)
    view = measured(page, float(solid.blank_width), paper, edges, pen, kept=deep)
    if behind != spots:
        back = tuple(view.spot(Fraction(x), Fraction(y)) for x, y in behind)
        page.add(Path(back, "back", closed=True, dashed=True, weight=HAIR))
    draw_side(page, view, (0, 0, 0, 0) if square else tuple(FRONT), spots, "face")
    draw_cutouts(page, part, solid, view)
    page.add(*(moved(mark, view.foot) for mark in marks))


def _slants_through(solid: Solid) -> bool:
    """Whether the lower edge has ends that are not square."""
    corners = solid.corners
    return is_beveled(solid) and any(corners[FRONT[n]][0] != corners[BACK[n + 4]][0] for n in FRONT)


def draw_rod(part: ResolvedPart, rod: Rod, title: str, pen: Pen) -> Drawing:
    """A round from the side on which its ends slant the most."""
    page = Page()
    first, second = rod.tips()
    paper = fold(float(rod.blank_length), float(rod.diameter), float(2 * first), float(2 * second))
    long, zero = rod.blank_length, Fraction(0)
    lengths = rod.lengths()
    opposed = "short-to-long" in lengths and lengths["long-to-short"] > 0 and bool(second)
    lower = (zero, long - 2 * second if opposed else long)
    upper = (2 * first, long if opposed else long - 2 * second)
    page.line("Seen from the side")
    view = measured(page, float(rod.diameter), paper, Edges(upper, lower, long), pen)
    high = float(rod.diameter)
    spots = ((lower[0], 0.0), (lower[1], 0.0), (upper[1], high), (upper[0], high))
    on = tuple(view.spot(Fraction(x), Fraction(y)) for x, y in spots)
    page.add(Path(on, "face", closed=True, weight=BOLD), *paper.torn(view.top, view.foot))
    marks = [*lengths_in_words(rod, pen), *settings_in_words(part)]
    marks += [cutout_words(cutout, pen.say, pen.named) for cutout in part.part.cutouts]
    about = f"{title}. A round, seen from the side{_left_out(paper)}."
    return page.done(title, about, [*marks, *alike(part)], paper.scale)


def _left_out(paper: Fold) -> str:
    return "; the plain middle is left out" if paper.breaks else ""


def _fold_of(solid: Solid) -> Fold:
    """Room for whatever slants at either end, and an inch more."""
    xs = [float(point[0]) for point in solid.points]
    first, second = max(xs[:4]) + 1, float(solid.blank_length) - min(xs[4:]) + 1
    return fold(float(solid.blank_length), float(solid.blank_width), first, second)
