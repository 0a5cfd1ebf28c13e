"""Resized lengths put on the marks of a tape, with gaps left to take up the dust."""

from collections.abc import Iterator
from fractions import Fraction

from service.domain.angles.judging import RINGS
from service.domain.build import Piece
from service.domain.resizing.answer import Sizes
from service.domain.resizing.equations import Sums, terms_of
from service.domain.rounding import WHY, Rounding, Turn, cutting_order, finest, rounded
from service.domain.tape import plain

MOST_HALVINGS = 4


def taped(
    now: Sums, before: Sums, sizes: dict[str, Fraction], why: dict[str, str]
) -> tuple[Turn, ...]:
    """Round every changed length of a part, say what it was, and give the order of cutting."""
    cut = {path: way for path, way in _ways(now) if _changes(before, path, sizes)}
    lengths = [(sizes[path], way) for path, way in cut.items()]
    for path, one in zip(cut, rounded(lengths, _step(now)), strict=True):
        if one.off_by:
            sizes[path] = one.size
            why[path] += f"; {WHY[one.how]}, it was {plain(one.was, now.metric)}"
            _take_up(now, path, one.off_by, sizes, why)
    names = {path: now.build.parts[int(path.split("/")[2])].id for path in cut}
    return cutting_order((names[path], way) for path, way in cut.items())


def _step(now: Sums) -> Fraction:
    """The finest marks, halved until what rounding takes off stays within what every run allows."""
    step = finest(now.metric)
    allowed = [run.within for run in now.build.runs if run.fits is None and run.within]
    for _ in range(MOST_HALVINGS):
        if step > min(allowed, default=step):
            step /= 2
    return step


def _changes(before: Sums, path: str, sizes: Sizes) -> bool:
    part = before.build.parts[int(path.split("/")[2])]
    was = part.length if path.endswith("/length") else part.width
    return path in sizes and sizes[path] != was


def _ways(now: Sums) -> Iterator[tuple[str, Rounding]]:
    """How each part's length is rounded: with its frame, between faces, or as an overall size."""
    framed = {
        id
        for shape in now.build.shapes
        if shape.shape in RINGS
        for ids in shape.parts.values()
        for id in ids
    }
    between = {
        (piece.part, piece.along)
        for run in now.build.runs
        if len(run.pieces) > 1 or run.fits is not None
        for piece in run.pieces
        if piece.part is not None
    }
    for index, part in enumerate(now.build.parts):
        for along in ("length", "width"):
            way: Rounding = "between" if (part.id, along) in between else "overall"
            yield f"/parts/{index}/{along}", "alike" if part.id in framed else way


def _take_up(
    now: Sums, path: str, by: Fraction, sizes: dict[str, Fraction], why: dict[str, str]
) -> None:
    """A gap along the same run is figured, not cut: it takes up what rounding leaves."""
    for index, run in enumerate(now.build.runs):
        terms = terms_of(index, run, now)
        for place, piece in enumerate(run.pieces):
            gap = f"/runs/{index}/pieces/{place}/gap"
            if path in terms and gap in terms and _stated(piece) is not None:
                size = sizes.get(gap, _stated(piece) or Fraction(0)) - by * terms[path] / terms[gap]
                if size > 0:
                    sizes[gap] = size
                    why.setdefault(gap, "it takes up what rounding leaves")
                break


def _stated(piece: Piece) -> Fraction | None:
    return piece.size if piece.gap else None
