"""Shapes: what parts form together, each with the measures of its own kind."""

from collections.abc import Mapping
from functools import cache
from typing import Any

from marshmallow import ValidationError, post_load

from service.api.documents.fields import Field, Id, Length, Word
from service.api.documents.forms import Form
from service.api.documents.gathered import Named, Several
from service.api.documents.measures import EVERY, MEASURES, Measure
from service.api.documents.schemas import Book, Json, discriminated, schema_of
from service.api.documents.telling import told
from service.domain.build import Shape

ROLES = (
    "leg", "rail", "stretcher", "top", "side", "stile", "brace", "board", "prop", "piece",
)  # fmt: skip


class ShapeForm(Form):
    """What every shape has."""

    id = Id(required=True, metadata=told("What the other entries call this shape.", "legs"))
    shape = Word(
        *MEASURES, required=True, metadata=told("What the parts form; it decides the measures.")
    )
    parts = Named(
        Word(*ROLES),
        Several(Id(), 1, 100),
        len(ROLES),
        metadata=told(
            "Ids of the parts in each role.",
            {"leg": ["leg"], "rail": ["rail"]},
            left_out="the shape is figured, but no part is held against it",
        ),
    )
    within = Length(
        zero=True,
        metadata=told(
            "How far a part's sizes may be off, a length.",
            "1/16",
            left_out="1/32 in, and 0.25 degrees for angles",
        ),
    )

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
    own["shape"] = Word(shape, required=True, metadata=ShapeForm._declared_fields["shape"].metadata)
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
    kinds = {shape: book.form(form_of(shape)) for shape in MEASURES}
    return book.named("Shape", discriminated("shape", kinds))
