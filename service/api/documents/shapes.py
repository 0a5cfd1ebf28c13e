"""Shapes: what parts form together, each with the measures of its own kind.

The same measures, read the same way, are the parameters of the question about that shape.
"""

from collections.abc import Callable, Mapping
from functools import cache
from typing import Any

from marshmallow import ValidationError, post_load
from marshmallow import fields as marshmallow_fields

from service.api.documents.fields import Angle, Field, Id, Length, Pair, Text, Whole, Word, YesNo
from service.api.documents.forms import Form
from service.api.documents.gathered import Either, Named, Several
from service.api.documents.schemas import Book, Json, any_of, discriminated, schema_of
from service.domain.build import Shape
from service.quantities import patterns

Measure = Callable[[], marshmallow_fields.Field[Any]]


class TwoAngles(Field[tuple[float, float]]):
    """The angles of both ends: `10,10` or a list of two."""

    def _deserialize(self, value: Any, attr: str | None, data: Any, **_: Any) -> Any:
        both = value.split(",") if isinstance(value, str) else value
        return Several(Angle(), 2, 2).deserialize(both)


@schema_of.register
def _(field: TwoAngles, book: Book) -> Json:
    both = {"type": "string", "pattern": patterns.TWO_ANGLES_TEXT}
    return any_of([both, book.field(Several(Angle(), 2, 2))])


def _turn() -> Angle:
    return Angle(0, 90)


def _clearance() -> Length:
    return Length(zero=True)


_FRAME: Mapping[str, Measure] = {
    "opening": Pair,
    "outside": Pair,
    "contents": Pair,
    "rabbet": Length,
    "clearance": _clearance,
}

EVERY: Mapping[str, Measure] = {
    "stock": Text,
    "seen": lambda: Word("face", "edge"),
    "saw_miter_to": _turn,
    "saw_bevel_to": _turn,
}

MEASURES: Mapping[str, Mapping[str, Measure]] = {
    "leaning": {
        "height": Length,
        "lean": Angle,
        "top": lambda: Either(Length(), Word("level", "square")),
    },
    "splayed-legs": {
        "height": Length,
        "lean": Angle,
        "lean_front": Angle,
        "lean_side": Angle,
        "turned": YesNo,
        "top_inset": lambda: Either(_clearance(), Pair()),
        "top_outside": lambda: Either(Length(), Pair()),
        "top_inside": lambda: Either(Length(), Pair()),
        "rail_top_at": Length,
    },
    "mitered-frame": _FRAME,
    "butted-frame": _FRAME,
    "sloped-box": {
        "sides": lambda: Whole(3, 100),
        "height": Length,
        "slant": Length,
        "slope": Angle,
        "slope_from": lambda: Word("vertical", "horizontal"),
        "corners": lambda: Word("mitered", "butted"),
        "rim": lambda: Either(Length(), Pair()),
        "foot": lambda: Either(Length(), Pair()),
    },
    "polygon": {
        "sides": lambda: Whole(3, 100),
        "across_flats": Length,
        "across_corners": Length,
        "side": Length,
        "ring": lambda: Word("flat", "upright"),
    },
    "brace": {
        "run": Length,
        "rise": Length,
        "given": lambda: Word("long-points", "center", "short-points"),
        "between": lambda: Word("upright,level", "level,level"),
        "opening": Length,
    },
    "crossed-legs": {"width": Length, "height": Length},
    "prop": {"lean": Angle, "up": Length, "foot": Length},
    "tapered-leg": {"length": Length, "top": Length, "foot": Length, "straight": Length},
    "ends": {
        "length": Length,
        "miter": TwoAngles,
        "bevel": TwoAngles,
        "ends_lean": lambda: Word("opposite", "same"),
        "measured": lambda: Word(
            "long-to-long", "short-to-short", "long-to-short", "short-to-long", "center"
        ),
    },
    # `opening` is what the pieces share out: `within` of the question, but here that is how near
    # the sizes must come.
    "row": {
        "opening": Length,
        "pieces": lambda: Whole(1, 1000),
        "piece": Length,
        "ends": lambda: Either(Length(zero=True), Word("gap", "flush", "half")),
        "centers": Length,
        "at": lambda: Several(Length(zero=True), 1, 1000),
    },
}

ROLES = (
    "leg", "rail", "stretcher", "top", "side", "stile", "brace", "board", "prop", "piece",
)  # fmt: skip


class ShapeForm(Form):
    """What every shape has."""

    id = Id(required=True)
    shape = Word(*MEASURES, required=True)
    parts = Named(Word(*ROLES), Several(Id(), 1, 100), len(ROLES))
    within = Length(zero=True)

    @post_load
    def made(self, data: dict[str, Any], **_: Any) -> Any:
        """The shape, its own measures gathered under their names."""
        kind = data["shape"]
        measures = {name: data.pop(name) for name in _measures_of(kind) if name in data}
        data["parts"] = data.get("parts", {})
        return Shape(fields=measures, **data)


def _measures_of(shape: str) -> Mapping[str, Measure]:
    return {**EVERY, **MEASURES[shape]}


@cache
def form_of(shape: str) -> Form:
    """The form of one kind of shape."""
    own = {name: make() for name, make in _measures_of(shape).items()}
    own["shape"] = Word(shape, required=True)
    name = "".join(word.title() for word in shape.split("-")) + "ShapeForm"
    made = type(name, (ShapeForm,), {"__doc__": f"A shape: {shape}.", **own})()
    assert isinstance(made, Form)
    return made


class AnyShape(Field[Shape]):
    """A shape, read by the form of its kind."""

    def _deserialize(self, value: Any, attr: str | None, data: Any, **_: Any) -> Shape:
        if not isinstance(value, Mapping):
            raise ValidationError("This must be an object.")
        known = self.known(value)
        shape: Shape = form_of(known).load(value)
        return shape

    def known(self, value: Mapping[str, Any]) -> str:
        """The kind of shape, or a refusal at its place."""
        try:
            return str(Word(*MEASURES, required=True).deserialize(value["shape"]))
        except KeyError:
            raise ValidationError({"shape": ["This is required."]}) from None
        except ValidationError as refusal:
            raise ValidationError({"shape": refusal.messages}) from None


@schema_of.register
def _(field: AnyShape, book: Book) -> Json:
    return discriminated("shape", {shape: book.form(form_of(shape)) for shape in MEASURES})
