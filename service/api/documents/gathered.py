"""How lists, objects and alternatives in a document are read, every refusal at its own place."""

import copy
from collections.abc import Callable, Iterable, Mapping
from functools import cached_property
from typing import Any

from marshmallow import Schema, ValidationError, fields

from service.api.documents.fields import MISSING, Field, Word, read_directly


class Several(fields.List[Any]):
    """A list of bounded length, in the order of the document, as a tuple."""

    default_error_messages = MISSING | {"invalid": "This must be a list."}
    deserialize = read_directly

    def __init__(self, inner: fields.Field[Any], least: int, most: int, **options: Any) -> None:
        super().__init__(inner, **options)
        self.least, self.most = least, most

    def _deserialize(self, value: Any, attr: str | None, data: Any, **_: Any) -> Any:
        if not isinstance(value, list):
            raise self.make_error("invalid")
        # The length first: a megabyte of list must not be read to be refused.
        if not self.least <= len(value) <= self.most:
            raise ValidationError(_how_many(self.least, self.most, len(value)))
        read = self.inner.deserialize
        values, refused = [], {}
        for index, one in enumerate(value):
            try:
                values.append(read(one))
            except ValidationError as error:
                refused[index] = error.messages
        if refused:
            raise ValidationError(refused)
        return tuple(values)


def _how_many(least: int, most: int, given: int) -> str:
    if least == most:
        return f"This must hold exactly {most}, not {given}."
    if given < least:
        return f"This must hold at least {least}."
    return f"This may hold {most} at most, not {given}."


class WordSet(Several):
    """Some of a few words, in any order, as a set."""

    def __init__(self, *words: str, **options: Any) -> None:
        super().__init__(Word(*words), 0, len(words), **options)

    def _deserialize(self, value: Any, attr: str | None, data: Any, **options: Any) -> Any:
        return frozenset(super()._deserialize(value, attr, data, **options))


class Object(fields.Nested):
    """An object of its own form."""

    default_error_messages = MISSING
    deserialize = read_directly

    def __init__(self, form: type[Schema], **options: Any) -> None:
        super().__init__(form, **options)

    def _deserialize(
        self, value: Any, attr: str | None, data: Any, partial: Any = None, **_: Any
    ) -> Any:
        return self._load_form(value)

    @cached_property
    def _load_form(self) -> Callable[[Any], Any]:
        """marshmallow makes the form when it is first asked for, and looks for it ever after."""
        return self.schema.load


class Named(Field[dict[str, Any]]):
    """An object whose names the caller chooses, each with a value of one kind."""

    def __init__(
        self, name: fields.Field[str], inner: fields.Field[Any], most: int, **options: Any
    ) -> None:
        super().__init__(**options)
        self.names, self.inner, self.most = name, inner, most

    def _bind_to_schema(self, field_name: str, parent: Any) -> None:
        super()._bind_to_schema(field_name, parent)
        self.inner = copy.deepcopy(self.inner)
        self.inner._bind_to_schema(field_name, self)

    def _deserialize(self, value: Any, attr: str | None, data: Any, **_: Any) -> dict[str, Any]:
        if not isinstance(value, Mapping):
            raise ValidationError("This must be an object.")
        if len(value) > self.most:
            raise ValidationError(_how_many(0, self.most, len(value)))
        return gathered({name: self._reader(name, inner) for name, inner in value.items()})

    def _reader(self, name: str, value: Any) -> Callable[[], Any]:
        def read() -> Any:
            self.names.deserialize(name)
            return self.inner.deserialize(value)

        return read


class EitherForm(Field[Any]):
    """An object of one form, or else a plain value."""

    def __init__(self, plain: fields.Field[Any], form: type[Schema], **options: Any) -> None:
        super().__init__(**options)
        self.plain, self.object = plain, Object(form)

    def _bind_to_schema(self, field_name: str, parent: Any) -> None:
        super()._bind_to_schema(field_name, parent)
        self.plain, self.object = copy.deepcopy(self.plain), copy.deepcopy(self.object)
        self.plain._bind_to_schema(field_name, self)
        self.object._bind_to_schema(field_name, self)

    def _deserialize(self, value: Any, attr: str | None, data: Any, **_: Any) -> Any:
        reader = self.object if isinstance(value, dict) else self.plain
        return reader.deserialize(value)


class Either(Field[Any]):
    """A value of the first kind that can read it."""

    def __init__(self, *kinds: fields.Field[Any], **options: Any) -> None:
        super().__init__(**options)
        self.kinds = kinds

    def _deserialize(self, value: Any, attr: str | None, data: Any, **_: Any) -> Any:
        refusals: list[Any] = []
        for kind in self.kinds:
            try:
                return kind.deserialize(value)
            except ValidationError as refusal:
                refusals.extend(refusal.messages)
        raise ValidationError(" Or: ".join(map(str, refusals)))


def gathered(readers: Mapping[str, Callable[[], Any]]) -> dict[str, Any]:
    """What each reader gives, by name; every refusal under its name, not only the first."""
    read, refused = {}, {}
    for name, reader in readers.items():
        try:
            read[name] = reader()
        except ValidationError as refusal:
            refused[name] = refusal.messages
    if refused:
        raise ValidationError(refused)
    return read


def one_of(data: Mapping[str, Any], names: Iterable[str]) -> str:
    """The only one of the names that is given; refuses none and more than one."""
    names = tuple(names)
    given = [name for name in names if name in data]
    if len(given) == 1:
        return given[0]
    listed = ", ".join(names[:-1]) + " or " + names[-1]
    if not given:
        raise ValidationError(f"This needs {listed}.")
    raise ValidationError(f"Say {listed}, not both.", field_name=given[-1])


def stock_or_sizes(data: Mapping[str, Any]) -> None:
    """Refuse a section that is not told by a stock alone, or by thickness and width."""
    if one_of(data, ("stock", "thickness")) == "thickness" and "width" not in data:
        raise ValidationError("This is required with thickness.", field_name="width")
