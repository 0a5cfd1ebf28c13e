"""Query parameters: each known, each once, each read like a value of a document."""

from collections.abc import Iterable, Mapping
from typing import Any, ClassVar

from flask import request
from marshmallow import ValidationError

from service.api.documents.fields import UNITS, Text, Whole, Word
from service.api.documents.forms import Form, pointers, shown
from service.api.refusals import Fault, InvalidParameter


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
