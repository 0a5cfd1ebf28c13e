"""Query parameters: each known, each once, each read like a value of a document."""

import re
from collections.abc import Iterable, Mapping
from typing import Any, ClassVar

from flask import request
from marshmallow import ValidationError

from service.api.documents.fields import UNITS, Field, Number, Text, Whole, Word
from service.api.documents.forms import Form, pointers, shown
from service.api.documents.schemas import Book, Json, in_a_list, schema_of
from service.api.refusals import Fault, InvalidParameter

# As programs write a number, 1e-07 among them.
_NUMBER = re.compile(r"-?[0-9]{1,20}(\.[0-9]{1,25})?([eE][-+]?[0-9]{1,3})?")


class QueryForm(Form):
    """The parameters of one question. All values come as text."""

    word: ClassVar[str] = "parameter"

    format = Text()


class UnitsForm(QueryForm):
    """Parameters with lengths in them: bare numbers are in `units`, inches by default."""

    units = Word("in", "mm", load_default="in")

    def load(self, data: Any, **options: Any) -> Any:
        """The parameters, read in their units."""
        before = UNITS.set("mm" if data.get("units") == "mm" else "in")
        try:
            return super().load(data, **options)
        finally:
            UNITS.reset(before)


class WholeText(Whole):
    """A whole number written in digits."""

    def _deserialize(self, value: Any, attr: str | None, data: Any, **options: Any) -> int:
        digits = isinstance(value, str) and value.isascii() and value.isdigit() and len(value) < 10
        return super()._deserialize(int(value) if digits else None, attr, data, **options)


def read_query(form: Form) -> Any:
    """The parameters of this request. Raises InvalidParameter with every fault."""
    refuse_repeated()
    return loaded(form, request.args.to_dict())


def loaded(form: Form, parameters: Mapping[str, str]) -> Any:
    """Some parameters by their form. Raises InvalidParameter with every fault."""
    try:
        return form.load(parameters)
    except ValidationError as refusal:
        raise InvalidParameter(
            "The parameters can't be read.", *_as_faults(refusal.messages)
        ) from None


def refuse_repeated() -> None:
    """Refuse a parameter that is given twice: nobody can say which one counts."""
    twice = [name for name, values in request.args.lists() if len(values) > 1]
    if twice:
        faults = (Fault(f"{shown(name)} is given twice.", parameter=name[:60]) for name in twice)
        raise InvalidParameter("A parameter is given more than once.", *faults)


def _as_faults(messages: Any) -> Iterable[Fault]:
    for pointer, detail in pointers(messages, ""):
        yield Fault(detail, parameter=pointer.removeprefix("/") or "query")


class NumberText(Number):
    """A number written in digits, with decimals or without."""

    def _deserialize(self, value: Any, attr: str | None, data: Any, **options: Any) -> float:
        number = isinstance(value, str) and _NUMBER.fullmatch(value)
        return super()._deserialize(float(value) if number else None, attr, data, **options)


class SeveralTexts(Field[tuple[Any, ...]]):
    """Values with commas between them, each read by the same field."""

    def __init__(self, inner: Field[Any], least: int, most: int, **options: Any) -> None:
        super().__init__(**options)
        self.inner, self.least, self.most = inner, least, most

    def _deserialize(
        self, value: Any, attr: str | None, data: Any, **options: Any
    ) -> tuple[Any, ...]:
        parts = str(value).split(",")
        if not self.least <= len(parts) <= self.most:
            raise ValidationError(f"This holds {self.least} to {self.most} values.")
        return tuple(self.inner.deserialize(part.strip(" ")) for part in parts)


@schema_of.register
def _(field: SeveralTexts, book: Book) -> Json:
    items = in_a_list(field.inner, book)
    return {"type": "array", "items": items, "minItems": field.least, "maxItems": field.most}
