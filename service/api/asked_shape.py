"""One shape in the parameters of an address: the measures that its entry in a document has."""

from functools import cache
from typing import Any

from marshmallow import ValidationError

from service.api.documents.fields import Field, Length, Text, Whole, YesNo
from service.api.documents.forms import Form
from service.api.documents.gathered import Several
from service.api.documents.measures import EVERY, MEASURES
from service.api.documents.schemas import Book, Json, in_a_list, schema_of
from service.api.parameters import UnitsForm, WholeText

NO_STICK = frozenset({"row"})


class YesNoText(YesNo):
    """true or false, written out."""

    def _deserialize(self, value: Any, attr: str | None, data: Any, **_: Any) -> bool:
        if value not in ("true", "false"):
            raise ValidationError("This must be true or false.")
        return bool(value == "true")


class ListText(Field[tuple[Any, ...]]):
    """A list with commas between its items."""

    def __init__(self, items: Several, **options: Any) -> None:
        super().__init__(**options)
        self.items = items

    def _deserialize(self, value: Any, attr: str | None, data: Any, **_: Any) -> Any:
        return self.items.deserialize([one.strip() for one in str(value).split(",")])


@schema_of.register
def _(field: ListText, book: Book) -> Json:
    items, inner = in_a_list(field.items.inner, book), field.items
    return {"type": "array", "items": items, "minItems": inner.least, "maxItems": inner.most}


class AnglesForm(UnitsForm):
    """What every shape is asked with."""

    region = Text(load_default="us")
    stock = Text()
    width = Length()
    thickness = Length()
    to = Length()


def written(measure: Any) -> Any:
    """The field for a measure of a document when it comes as a parameter."""
    meant = measure.metadata
    if isinstance(measure, Whole):
        return WholeText(measure.least, measure.most, metadata=meant)
    if isinstance(measure, YesNo):
        return YesNoText(metadata=meant)
    return ListText(measure, metadata=meant) if type(measure) is Several else measure


@cache
def form_of(shape: str) -> UnitsForm:
    """The parameters of one shape: the measures that its entry in a document has."""
    own = {name: written(make()) for name, make in {**EVERY, **MEASURES[shape]}.items()}
    # Crossed legs have a width of their own, so that of the stick has another name there.
    named = {"stock_width": Length()} if "width" in MEASURES[shape] else {}
    made = type(f"{shape.title().replace('-', '')}Query", (AnglesForm,), own | named)()
    assert isinstance(made, AnglesForm)
    return made


def forms() -> dict[str, Form]:
    """The parameters of every shape that is asked about by its name."""
    return {shape: form_of(shape) for shape in MEASURES if shape not in NO_STICK}
