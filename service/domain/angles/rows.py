"""A row of equal pieces as a shape: the measures of `spacing`, with marks and a drawing."""

from collections.abc import Mapping
from fractions import Fraction

from service.domain.angles.answer import (
    Asked,
    Figure,
    Figured,
    Letter,
    Mark,
    NotFigured,
    Sketch,
    Wanted,
)
from service.domain.build import Part
from service.domain.spacing import NoRow, Row, space, space_by_centers

AXES = (
    "Positions are near sides, measured along the row from its first end, never from one another."
)
TRACE = (
    "Rip a spacer to the gap and set each piece against it, from the middle outward so that any "
    "error is shared by both ends; or fold a strip of paper of the whole length into equal parts."
)
TEST_CUT = (
    "Lay all pieces in the opening with two spacers cut to the gap before anything is fastened: "
    "the last gap shows the whole error, to be shared out."
)


def read_row(fields: Mapping[str, object]) -> Row:
    """The row that some measures describe. Raises NoRow."""
    opening, piece = (_size(fields, name) for name in ("opening", "piece"))
    listed = fields.get("at")
    pieces = fields.get("pieces", len(listed) if isinstance(listed, tuple) else None)
    if not isinstance(pieces, int):
        raise NoRow("pieces", "This is required.", missing=True)
    if isinstance(listed, tuple) and len(listed) != pieces:
        raise NoRow("at", f"This lists {len(listed)} positions for {pieces} pieces.")
    centers, ends = fields.get("centers"), fields.get("ends", "gap")
    if isinstance(centers, Fraction):
        if "ends" in fields:
            raise NoRow("ends", "Say centers or ends, not both.")
        return space_by_centers(opening, pieces, piece, centers)
    assert isinstance(ends, Fraction | str)
    return space(opening, pieces, piece, ends)


def _size(fields: Mapping[str, object], name: str) -> Fraction:
    size = fields.get(name)
    if not isinstance(size, Fraction):
        raise NoRow(name, "This is required.", missing=True)
    return size


def figure_row(asked: Asked) -> Figured:
    """Gap, ends and positions. Raises NotFigured."""
    try:
        row = read_row(asked.fields)
    except NoRow as refusal:
        raise NotFigured(*refusal.complaints, missing=refusal.missing) from None
    wanted: tuple[Wanted, ...] = ()
    if asked.sticks:
        stick = asked.stick("piece")
        part = Part("piece", stick.stock, None, quantity=row.pieces)
        wanted = (Wanted("piece", part, stick, "overall"),)
    return Figured(
        wanted=wanted,
        figures=(
            Figure("gap", row.gap),
            Figure("left at each end", row.end),
            Figure("center to center", row.step),
        ),
        marks=tuple(
            Mark("row", at, f"from the first end to the near side of piece {number}")
            for number, at in enumerate(row.near_sides, 1)
        ),
        trace=TRACE,
        test_cut=TEST_CUT,
        axes=AXES,
        formula="row: gap = (length - pieces x piece - ends) / number of gaps",
        drawing=_drawing(row),
        assumed=() if {"ends", "centers"} & set(asked.fields) else (
            "ends is not given: the ends are gaps like the others.",
        ),
    )  # fmt: skip


def _drawing(row: Row) -> Sketch:
    high, end, gap = float(row.opening) / 8, float(row.end), float(row.gap)
    far = end + float(row.piece)
    whole = ((0.0, 0.0), (float(row.opening), 0.0), (float(row.opening), high), (0.0, high))
    pieces = tuple(
        (
            (float(at), 0.0),
            (float(at + row.piece), 0.0),
            (float(at + row.piece), high),
            (float(at), high),
        )
        for at in row.near_sides[:60]
    )
    letters = (
        Letter("A", (whole[3], whole[2]), "whole length", row.opening, "above"),
        Letter("B", ((0.0, 0.0), (end, 0.0)), "left at each end", row.end, "below"),
        Letter("C", ((far, 0.0), (far + gap, 0.0)), "gap", row.gap, "below"),
    )
    return Sketch((whole, *pieces), letters)
