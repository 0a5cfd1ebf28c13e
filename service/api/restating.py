"""A document whose bare numbers get the unit that they had, so that its `units` may change."""

from collections.abc import Mapping
from fractions import Fraction
from typing import Any

from marshmallow import Schema, ValidationError

from service.api.documents.fields import UNITS, Length, Pair, Units
from service.api.documents.forms import Form
from service.api.documents.gathered import Either, EitherForm, Named, Object, Several
from service.api.documents.shapes import AnyShape, form_of
from service.domain.tape import exact


def restated(form: Form, document: Any, units: Units) -> Any:
    """The document in other units, every length the same. It must be of the form."""
    old: Units = "mm" if document.get("units") == "mm" else "in"
    if old == units:
        return document
    before = UNITS.set(old)
    try:
        return _object(form, document, units) | {"units": units}
    finally:
        UNITS.reset(before)


def _object(form: Schema, value: Any, units: Units) -> Any:
    fields = {field.data_key or name: field for name, field in form.load_fields.items()}
    return {name: _value(fields[name], inner, units) for name, inner in value.items()}


def _value(field: Any, value: Any, units: Units) -> Any:
    """A value read by its field: a size gets its unit, what holds sizes is gone through."""
    if isinstance(field, Length):
        return exact(field.deserialize(value), units == "mm") if _bare(field, value) else value
    if isinstance(field, Pair):
        return _pair(field, value, units)
    if isinstance(field, Several) and isinstance(value, list):
        return [_value(field.inner, one, units) for one in value]
    return _held(field, value, units) if isinstance(value, Mapping) else _first(field, value, units)


def _held(field: Any, value: Mapping[str, Any], units: Units) -> Any:
    if isinstance(field, AnyShape):
        return _object(form_of(field.known(value)), value, units)
    if isinstance(field, Named):
        return {name: _value(field.inner, one, units) for name, one in value.items()}
    inner = field.object if isinstance(field, EitherForm) else field
    return _object(inner.schema, value, units) if isinstance(inner, Object) else value


def _first(field: Any, value: Any, units: Units) -> Any:
    """By the first kind that reads it, as the document itself is read."""
    if isinstance(field, EitherForm):
        return _value(field.plain, value, units)
    for kind in field.kinds if isinstance(field, Either) else ():
        try:
            kind.deserialize(value)
        except ValidationError:
            continue
        return _value(kind, value, units)
    return value


def _bare(field: Length | Pair, value: Any) -> bool:
    """Whether a size has no unit of its own, so that it reads otherwise in the other unit."""
    return bool(_read_in("in", field, value) != _read_in("mm", field, value))


def _read_in(units: Units, field: Length | Pair, value: Any) -> Any:
    before = UNITS.set(units)
    try:
        return field.deserialize(value)
    except ValidationError:
        return None
    finally:
        UNITS.reset(before)


def _pair(field: Pair, value: Any, units: Units) -> Any:
    if not _bare(field, value):
        return value
    sizes: tuple[Fraction, Fraction] = field.deserialize(value)
    return " x ".join(exact(size, units == "mm") for size in sizes)
