"""Runs: lines along which sizes add up."""

from typing import Any, ClassVar

from marshmallow import post_load, validates_schema

from service.api.documents.fields import Angle, Id, Length, Text, Whole, Word, YesNo
from service.api.documents.forms import Form
from service.api.documents.gathered import EitherForm, Object, Several, one_of
from service.api.documents.schemas import demands_one_of
from service.domain.build import Piece, Run


class PieceForm(Form):
    """A part's extent, a stated size, or a gap; `count` times."""

    demands = (demands_one_of("part", "size", "gap"),)

    part = Id()
    along = Word("length", "width", "thickness", "rise", "reach")
    size = Length()
    name = Text()
    gap = Length()
    count = Whole(1, 1000)
    less = YesNo()
    lean = Angle()
    let_in = Length(zero=True)
    overlap = Length(zero=True)

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

    id = Id(required=True)
    pieces = Several(Object(PieceForm), 1, 200, required=True)
    equals = EitherForm(Length(), PieceForm)
    within = Length(zero=True)
    fits = Length()
    clearance = Length(zero=True)
    gives = Several(Id(), 0, 100)

    @validates_schema
    def _equals_or_fits(self, data: dict[str, Any], **_: Any) -> None:
        one_of(data, ("equals", "fits"))
