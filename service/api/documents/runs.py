"""Runs: lines along which sizes add up."""

from typing import Any, ClassVar

from marshmallow import post_load, validates_schema

from service.api.documents.fields import Angle, Id, Length, Text, Whole, Word, YesNo
from service.api.documents.forms import Form
from service.api.documents.gathered import EitherForm, Object, Several, one_of
from service.api.documents.schemas import demands_one_of
from service.api.documents.telling import told
from service.domain.build import Piece, Run


class PieceForm(Form):
    """A part's extent, a stated size, or a gap; `count` times."""

    demands = (demands_one_of("part", "size", "gap"),)

    part = Id(
        metadata=told(
            "The id of the part whose size counts.", "end", left_out="the piece is a size or a gap"
        )
    )
    along = Word(
        "length",
        "width",
        "thickness",
        "rise",
        "reach",
        metadata=told(
            "Which size of the part counts; a leaning part also has a rise and a reach.",
            "thickness",
            left_out="length",
        ),
    )
    size = Length(
        metadata=told(
            "A stated length that belongs to no part.",
            "3/4",
            left_out="the piece is a part or a gap",
        )
    )
    name = Text(
        metadata=told("What a stated size or gap is called.", "mirror", left_out="it has no name")
    )
    gap = Length(
        metadata=told("A length where nothing is.", "1/2", left_out="the piece is a part or a size")
    )
    count = Whole(
        1, 1000, metadata=told("How many times it comes in the line, 1 to 1000.", 2, left_out="1")
    )
    less = YesNo(
        metadata=told(
            "Whether it is taken off instead of added.", True, left_out="false: it is added"
        )
    )
    lean = Angle(
        metadata=told(
            "Degrees from vertical, for the rise or reach of a part that leans.",
            10,
            left_out="the lean that its shape gives it",
        )
    )
    let_in = Length(
        zero=True,
        metadata=told(
            "What comes off because it sits in a dado or rabbet, a length for each.",
            "3/8",
            left_out="0",
        ),
    )
    overlap = Length(
        zero=True,
        metadata=told(
            "What comes off because it is lapped over its neighbor, a length for each.",
            "3/4",
            left_out="0",
        ),
    )

    @validates_schema
    def _one_thing(self, data: dict[str, Any], **_: Any) -> None:
        one_of(data, ("part", "size", "gap"))

    @post_load
    def made(self, data: dict[str, Any], **_: Any) -> Any:
        """The piece; a gap is a size that belongs to nothing."""
        gap = data.pop("gap", None)
        return Piece(**data) if gap is None else Piece(gap=True, size=gap, **data)


class RunForm(Form):
    """Pieces in a line that equal a size or a piece, or go into an opening."""

    makes: ClassVar[Any] = Run
    demands = (demands_one_of("equals", "fits"),)

    id = Id(required=True, metadata=told("What the other entries call this run.", "width"))
    pieces = Several(
        Object(PieceForm),
        1,
        200,
        required=True,
        metadata=told(
            "What lies in the line, in order.",
            [{"part": "end", "along": "thickness", "count": 2}, {"part": "shelf"}],
        ),
    )
    equals = EitherForm(
        Length(),
        PieceForm,
        metadata=told(
            "What they must come to: a length, or a part's size.",
            "26",
            {"part": "side", "along": "length"},
            left_out="the run fits into an opening instead",
        ),
    )
    within = Length(
        zero=True,
        metadata=told("How far the sum may be off, a length.", "1/16", "0", left_out="1/32 in"),
    )
    fits = Length(
        metadata=told(
            "The full size of the opening that they must go into, a length.",
            "30 1/2",
            left_out="the run equals something instead",
        )
    )
    clearance = Length(
        zero=True,
        metadata=told(
            "How much room must be left in the opening, both sides together, a length.",
            "1/8",
            left_out="0",
        ),
    )
    gives = Several(
        Id(),
        0,
        100,
        metadata=told(
            "Ids of the parts that take up the difference when the run is resized.",
            ["shelf"],
            left_out="the service works out which can",
        ),
    )

    @validates_schema
    def _equals_or_fits(self, data: dict[str, Any], **_: Any) -> None:
        one_of(data, ("equals", "fits"))
