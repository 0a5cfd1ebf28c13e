"""Each sum of a build as a row of pieces to scale: what stands beside what, and the whole."""

from collections.abc import Iterator
from fractions import Fraction

from service.domain.dimensions import STEP, beside, level
from service.domain.drawing import HAIR, Drawing, Path, Text, box
from service.domain.runs import PieceSize, ResolvedRun
from service.handouts.drawings.pens import FIELD, MARGIN, Page, Pen, fits
from service.handouts.drawings.tapes import Mark, tape_marks

LEFT = MARGIN + 8
ROOM = FIELD - 2 * LEFT
HIGH = 30.0
MOST = 60
"""Pieces that one row shows; a sum of more is told in words alone."""


def sum_drawings(pen: Pen) -> Iterator[tuple[str, str, Drawing]]:
    """Key, caption and drawing of every sum of several pieces whose sizes are all known.

    A sum that takes off all that it adds has no length to be drawn.
    """
    for judged in pen.build.runs:
        run = judged.run
        count = sum(abs(size.times) for size in run.pieces)
        if run.total is not None and 1 < count <= MOST and _total(run) > 0:
            caption = f"What adds up to the {' '.join(run.run.id.split())}"
            yield f"run-{run.index + 1}", caption, draw_sum(run, caption, pen)


def draw_sum(run: ResolvedRun, title: str, pen: Pen) -> Drawing:
    """The pieces from left to right; what is taken off again lies under them, from the right."""
    page, pieces = Page(), run.pieces
    whole = sum((s.each.listed * s.times for s in pieces if s.times > 0), Fraction(0))
    total = _total(run)
    scale = ROOM / float(whole)
    page.y += STEP + MARGIN
    top = page.y
    end = LEFT + float(total) * scale
    page.add(*beside(level(((LEFT, top), (end, top)), pen.short(total)), top - STEP / 2, -1, FIELD))
    forward = [s for s in pieces if s.times > 0]
    _row(page, forward, LEFT, scale, pen)
    if len(forward) < len(pieces):
        page.y += MARGIN
        _row(page, [s for s in pieces if s.times < 0], end, scale, pen)
    marks = [_piece_words(size, pen) for size in pieces]
    about = f"{title}: {len(pieces)} sizes in a row, drawn 1 to {72 / scale:.3g}."
    return page.done(title, about, [*marks, _total_words(run, total, pen)], scale)


def _total(run: ResolvedRun) -> Fraction:
    return sum((size.each.listed * size.times for size in run.pieces), Fraction(0))


def _row(page: Page, sizes: list[PieceSize], start: float, scale: float, pen: Pen) -> None:
    """Boxes side by side, gaps in dashes, their sizes below where they stand clear."""
    x, top, marks = start, page.y, []
    for size in sizes:
        wide = float(size.each.listed) * scale
        for _ in range(abs(size.times)):
            dashed = size.piece.gap or size.times < 0
            corners = box(x, top, x + wide, top + HIGH)
            kind = "gap" if size.piece.gap else "less" if size.times < 0 else "box"
            page.add(Path(corners, kind, _letter(size, pen), closed=True, dashed=dashed,
                          weight=HAIR if dashed else 0.8))  # fmt: skip
            letter = _letter(size, pen)
            if letter and fits(letter, wide, HIGH):
                page.add(Text((x + wide / 2, top + HIGH / 2 + 4), letter, "middle", strong=True))
                letter = ""
            marks.append(Mark(x + wide / 2, f"{letter} {pen.short(size.each.listed)}".strip()))
            x += wide
    found, deep = tape_marks(marks, top + HIGH, below=True)
    page.add(*found)
    page.y = top + HIGH + deep


def _letter(size: PieceSize, pen: Pen) -> str:
    return pen.letter(size.piece.part) if size.piece.part is not None else ""


def _piece_words(size: PieceSize, pen: Pen) -> str:
    """One entry of the sum: `A end, thickness 3/4", 2 times`."""
    piece, long = size.piece, pen.say(size.each.listed)
    if piece.part is not None:
        said = f"{pen.named(piece.part)}, {piece.along} {long}"
    else:
        said = f"{piece.name or ('gap' if piece.gap else 'a size')} {long}"
    said += f", {abs(size.times)} times" if abs(size.times) > 1 else ""
    for taken, where in ((piece.let_in, "let in"), (piece.overlap, "overlapping")):
        said += f", {where} by {pen.say(taken)}" if taken else ""
    return f"less {said}" if size.times < 0 else said


def _total_words(run: ResolvedRun, total: Fraction, pen: Pen) -> str:
    words = f"together {pen.say(total)}"
    if run.run.fits is not None:
        return f"{words}, for an opening of {pen.say(run.run.fits)}"
    if run.equals is not None and run.equals.piece.part is not None:
        piece = run.equals.piece
        return f"{words}; it should equal the {piece.along} of {pen.named(run.equals.piece.part)}"
    if isinstance(run.run.equals, Fraction):
        return f"{words}; it should be {pen.say(run.run.equals)}"
    return words
