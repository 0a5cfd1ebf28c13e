"""What forms and their fields take, as JSON Schema 2020-12: the same language that they read.

A form is named once and referred to; so is a kind of value that comes again and again. What no
schema can say stands in `BEYOND_SCHEMAS`. Fields of a single question tell their schema beside
their class, with `@schema_of.register`.
"""

from collections.abc import Iterable, Mapping
from functools import singledispatch
from typing import Any

from marshmallow import Schema, fields

from service.api.documents import fields as kinds
from service.api.documents.gathered import Either, EitherForm, Named, Object, Several
from service.quantities import patterns
from service.quantities.reading import LONGEST_TEXT as LONGEST_QUANTITY

Json = dict[str, Any]

DIALECT = "https://json-schema.org/draft/2020-12/schema"
LONGEST_MM = 304_800  # 1,000 ft: what a bare number may be in a metric build
LARGEST = 10**10  # the first number with an exponent over 9

# Control characters, separators, and what has no width: not in a text that is printed. Beyond the
# first plane, and for code points without a character, only the form knows.
_HIDDEN = (
    r"\u0000-\u001f\u007f-\u00a0\u00ad\u0600-\u0605\u061c\u06dd\u070f\u0890\u0891\u08e2\u1680"
    r"\u180e\u2000-\u200f\u2028-\u202f\u205f-\u206f\u3000\ue000-\uf8ff\ufeff\ufff9-\ufffb"
)
PRINTABLE = f"^ *[^ {_HIDDEN}][^{_HIDDEN}]*$"

# What a form refuses although its schema lets it pass, by a part of what it then says.
BEYOND_SCHEMAS = (
    *("it is over 1,000 ft", "it must be more than zero", "must be under one", "it is too large"),
    *("it is more than a full turn", "This goes from", "nothing is that cold", "10,000 ft3"),
    *("more than 40 decimals", "more than 64 characters", "a character that can't be printed"),
    *("More are mirrored than there are", "A defect ends after it starts"),
)


class Book:
    """Schemas by name as they are asked for; `place` is where a reference finds them.

    In an address everything is text, so there a quantity that may be a number is told without.
    """

    def __init__(self, place: str = "#/$defs/", in_address: bool = False) -> None:
        self.place, self.in_address = place, in_address
        self.schemas: dict[str, Json] = {}
        self._forms: dict[str, type[Schema]] = {}

    def named(self, name: str, schema: Json) -> Json:
        """A reference to a schema that is kept under a name."""
        if self.in_address and textual(schema) != schema:
            name, schema = f"{name}Text", textual(schema)
        known = self.schemas.setdefault(name, schema)
        assert known == schema, f"two schemas are called {name}"
        return {"$ref": f"{self.place}{name}"}

    def form(self, form: Schema) -> Json:
        """A reference to the schema of a form, which has the name of its class."""
        name = type(form).__name__.removesuffix("Form")
        if self._forms.setdefault(name, type(form)) is not type(form):
            raise ValueError(f"two forms are called {name}")
        if name not in self.schemas:
            self.schemas[name] = {}  # holds its place while its fields are asked
            self.schemas[name] = self.object_of(form)
        return {"$ref": f"{self.place}{name}"}

    def object_of(self, form: Schema) -> Json:
        """The schema of a form itself: closed, and what it demands beyond its fields."""
        held = {field.data_key or name: field for name, field in form.load_fields.items()}
        schema: Json = {
            "type": "object",
            "description": " ".join((type(form).__doc__ or "").split()),
            "properties": {name: self.field(field) for name, field in held.items()},
            "additionalProperties": False,
        }
        required = [name for name, field in held.items() if field.required]
        if required:
            schema["required"] = required
        if demands := getattr(form, "demands", ()):
            schema["allOf"] = [dict(demand) for demand in demands]
        return schema

    def field(self, field: fields.Field[Any]) -> Json:
        """The schema of a field, with what is told of it beside the field."""
        told: Json = {}
        if text := field.metadata.get("description"):
            left_out = field.metadata.get("left_out")
            told["description"] = f"{text} Left out: {left_out}." if left_out else text
        if examples := field.metadata.get("examples"):
            told["examples"] = examples
        return schema_of(field, self) | told

    def whole(self, schema: Json) -> Json:
        """A schema that stands alone: what it refers to, and what that refers to, is in it."""
        return {"$schema": DIALECT, **schema, "$defs": self.schemas}


def demands_one_of(*names: str) -> Json:
    """Exactly one of some fields is given."""
    return {"oneOf": [{"required": [name]} for name in names]}


def textual(schema: Json) -> Json:
    """The schema of a quantity where it can only come as text, as in an address."""
    if "string" not in schema.get("type", ()):
        return schema
    bounds = ("minimum", "maximum", "exclusiveMinimum", "exclusiveMaximum")
    return {name: v for name, v in schema.items() if name not in bounds} | {"type": "string"}


def text_of(pattern: str) -> Json:
    """A quantity that is always text."""
    return {"type": "string", "maxLength": LONGEST_QUANTITY, "pattern": pattern}


def in_a_list(field: fields.Field[Any], book: Book) -> Json:
    """The schema of a value with commas between it and its neighbors in an address."""
    if isinstance(field, kinds.Length):
        return book.named("LengthInList", text_of(patterns.LENGTH_IN_A_LIST))
    if isinstance(field, kinds.Angle):
        return book.named("AngleInList", text_of(patterns.ANGLE_IN_A_LIST))
    return book.field(field)


def _number_or(pattern: str, **bounds: float) -> Json:
    return text_of(pattern) | {"type": ["number", "string"]} | bounds


@singledispatch
def schema_of(field: fields.Field[Any], book: Book) -> Json:
    """The schema of what a field reads. Every kind of field is registered."""
    raise TypeError(f"no schema for {type(field).__name__}")


@schema_of.register
def _(field: kinds.Text, book: Book) -> Json:
    schema = {"type": "string", "minLength": 1, "maxLength": field.most, "pattern": PRINTABLE}
    return book.named("Text", schema) if field.most == kinds.LONGEST_TEXT else schema


@schema_of.register
def _(field: kinds.Id, book: Book) -> Json:
    return book.named("Id", {"type": "string", "pattern": f"^{kinds.ID.pattern}$"})


@schema_of.register
def _(field: kinds.Word, book: Book) -> Json:
    return {"type": "string", "enum": list(field.words)}


@schema_of.register
def _(field: kinds.YesNo, book: Book) -> Json:
    return {"type": "boolean"}


@schema_of.register
def _(field: kinds.Whole, book: Book) -> Json:
    return {"type": "integer", "minimum": field.least, "maximum": field.most}


@schema_of.register
def _(field: kinds.Number, book: Book) -> Json:
    return {"type": "number", "minimum": field.least, "maximum": field.most}


@schema_of.register
def _(field: kinds.Length, book: Book) -> Json:
    least = {"minimum": 0} if field.zero else {"exclusiveMinimum": 0}
    schema = _number_or(patterns.LENGTH_TEXT, **least, maximum=LONGEST_MM)
    said = "A bare number is in the units asked for, text may name its own. At most 1,000 ft."
    name = "LengthOrNone" if field.zero else "Length"
    return book.named(name, schema | {"description": said})


@schema_of.register
def _(field: kinds.Angle, book: Book) -> Json:
    schema = _number_or(patterns.ANGLE_TEXT, minimum=field.least, maximum=field.most)
    said = f"Degrees, {field.least:g} to {field.most:g}."
    return book.named(f"AngleTo{field.most:g}", schema | {"description": said})


@schema_of.register
def _(field: kinds.Pair, book: Book) -> Json:
    said = "Two lengths, width by height, with an x between them."
    return book.named("Pair", text_of(patterns.PAIR_TEXT) | {"description": said})


@schema_of.register
def _(field: kinds.CarriedLoad, book: Book) -> Json:
    return book.named("LoadText", text_of(patterns.LOAD_TEXT))


@schema_of.register
def _(field: kinds.Weight, book: Book) -> Json:
    return book.named("Weight", text_of(patterns.WEIGHT_TEXT))


@schema_of.register
def _(field: kinds.Duration, book: Book) -> Json:
    schema = _number_or(patterns.DURATION_TEXT, minimum=0, exclusiveMaximum=LARGEST)
    said = f"A bare number is in {field.unit}."
    return book.named("Minutes" if field.unit == "min" else "Hours", schema | {"description": said})


@schema_of.register
def _(field: kinds.Temperature, book: Book) -> Json:
    return book.named("Temperature", text_of(patterns.TEMPERATURE_TEXT))


@schema_of.register
def _(field: kinds.Volume, book: Book) -> Json:
    return book.named("Volume", text_of(patterns.VOLUME_TEXT))


@schema_of.register
def _(field: kinds.Money, book: Book) -> Json:
    schema = {"type": ["string", "integer"], "pattern": patterns.MONEY_TEXT}
    said = "A decimal string, or whole units of the currency as a number."
    bounds = {"minimum": 0, "exclusiveMaximum": LARGEST, "description": said}
    return book.named("Money", schema | bounds)


@schema_of.register
def _(field: Several, book: Book) -> Json:
    return {
        "type": "array",
        "items": book.field(field.inner),
        "minItems": field.least,
        "maxItems": field.most,
    }


@schema_of.register
def _(field: Object, book: Book) -> Json:
    return book.form(field.schema)


@schema_of.register
def _(field: Named, book: Book) -> Json:
    return {
        "type": "object",
        "propertyNames": book.field(field.names),
        "additionalProperties": book.field(field.inner),
        "maxProperties": field.most,
    }


@schema_of.register
def _(field: EitherForm, book: Book) -> Json:
    return {"anyOf": [book.field(field.plain), book.field(field.object)]}


@schema_of.register
def _(field: Either, book: Book) -> Json:
    return {"anyOf": [book.field(kind) for kind in field.kinds]}


def any_of(schemas: Iterable[Json]) -> Json:
    """Any one of several schemas."""
    return {"anyOf": list(schemas)}


def discriminated(by: str, schemas: Mapping[str, Json]) -> Json:
    """One of several objects, told apart by one of their fields."""
    mapping = {word: schema["$ref"] for word, schema in schemas.items()}
    return {
        "oneOf": list(schemas.values()),
        "discriminator": {"propertyName": by, "mapping": mapping},
    }
