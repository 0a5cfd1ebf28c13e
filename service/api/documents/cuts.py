"""How the ends, edges and cutouts of a part are cut."""

from typing import Any, ClassVar

from marshmallow import ValidationError, post_load, validates_schema

from service.api.documents.fields import Angle, Id, Length, Word
from service.api.documents.forms import Form
from service.api.documents.gathered import Several, WordSet
from service.api.documents.schemas import Book, Json, schema_of
from service.api.documents.telling import told
from service.domain.build import Cutout, End


class Sides(WordSet):
    """On which sides a long point is: one of each two that lie across from each other."""

    opposites = (("top", "bottom"), ("front", "back"))

    def __init__(self, **options: Any) -> None:
        super().__init__(*(side for both in self.opposites for side in both), **options)

    def _deserialize(self, value: Any, attr: str | None, data: Any, **options: Any) -> Any:
        sides = super()._deserialize(value, attr, data, **options)
        if any(sides.issuperset(both) for both in self.opposites):
            raise ValidationError("The long point is on one of two sides.")
        return sides


@schema_of.register
def _(field: Sides, book: Book) -> Json:
    both = ([{"contains": {"const": side}} for side in pair] for pair in field.opposites)
    listed = schema_of.dispatch(WordSet)(field, book)
    return listed | {"not": {"anyOf": [{"allOf": pair} for pair in both]}}


class EdgeForm(Form):
    """One long edge: degrees off square through the thickness."""

    makes: ClassVar[Any] = End

    bevel = Angle(
        metadata=told(
            "How far the saw's blade is tilted, in degrees off square, 0 to 89.",
            12,
            left_out="0, square",
        )
    )
    long = Sides(
        metadata=told(
            "Which sides hold the long point: top or bottom, front or back.",
            ["top", "front"],
            left_out="bottom and front at the first, and by ends_lean or edges_lean",
        ),
    )


class EndForm(EdgeForm):
    """One cut end, which may also turn across the face."""

    miter = Angle(
        metadata=told(
            "How far the saw's table is turned, in degrees off square, 0 to 89.",
            45,
            left_out="0, square",
        )
    )


class CutoutForm(Form):
    """Wood taken out of a part."""

    demands = (
        {
            "if": {"properties": {"kind": {"const": "hole"}}, "required": ["kind"]},
            "then": {"not": {"required": ["width"]}},
            "else": {"not": {"required": ["diameter"]}},
        },
    )

    kind = Word(
        "slot",
        "dado",
        "rabbet",
        "lap",
        "notch",
        "hole",
        required=True,
        metadata=told("What is cut: a slot, dado, rabbet, lap, notch or hole.", "dado"),
    )
    on = Word(
        "face",
        "back",
        "edge",
        "end",
        required=True,
        metadata=told("Which side it is cut into: face (the front), back, edge or end.", "face"),
    )
    at = Several(
        Length(zero=True),
        0,
        200,
        metadata=told(
            "Lengths from the first end to the near side of a slot or the center of a hole.",
            ["9 1/4"],
            left_out="its place is not judged",
        ),
    )
    width = Length(
        metadata=told(
            "Width of anything but a hole, a length.", "3/4", left_out="its fit is not judged"
        )
    )
    diameter = Length(
        metadata=told("Diameter of a hole, a length.", "1", left_out="its fit is not judged")
    )
    depth = Length(
        metadata=told(
            "How deep it goes, a length.",
            "3/8",
            left_out="it goes through, or its depth is not judged",
        )
    )
    fits = Id(
        data_key="for",
        metadata=told(
            "The id of the part that goes into it.",
            "shelf",
            left_out="nothing is fitted into it",
        ),
    )
    runs = Word(
        "across",
        "along",
        load_default="across",
        metadata=told("Whether it runs across the part or along it.", "across", left_out="across"),
    )

    @validates_schema
    def _only_holes_are_round(self, data: dict[str, Any], **_: Any) -> None:
        hole = data.get("kind") == "hole"
        wrong = "width" if hole else "diameter"
        if wrong in data and "kind" in data:
            told = "A hole has a diameter." if hole else "Only a hole has a diameter."
            raise ValidationError(told, field_name=wrong)

    @post_load
    def made(self, data: dict[str, Any], **_: Any) -> Any:
        """The cutout; its size is the width or the diameter."""
        width, diameter = data.pop("width", None), data.pop("diameter", None)
        optional = {"at": (), "depth": None, "fits": None}
        return Cutout(size=width or diameter, **(optional | data))
