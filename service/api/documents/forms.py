"""What all documents have in common: closed to unknown fields, and made into a frozen value."""

import difflib
from collections.abc import Callable, Iterable, Iterator, Mapping
from functools import cached_property
from typing import Any, ClassVar
from urllib.parse import quote

from marshmallow import RAISE, Schema, ValidationError, missing, post_load
from marshmallow.decorators import VALIDATES_SCHEMA
from marshmallow.exceptions import SCHEMA
from marshmallow.fields import Field

_UNKNOWN = "no such field"
_SHOWN = 60
_MOST_UNKNOWN = 20  # looking for the nearest name takes time, so junk gets no more of it


class Form(Schema):
    """One object of a document. `makes` is the frozen value that it becomes.

    `demands` says as JSON Schema what its `validates_schema` methods check.
    """

    makes: ClassVar[Any] = None
    demands: ClassVar[tuple[Mapping[str, Any], ...]] = ()
    word: ClassVar[str] = "field"
    error_messages = {  # noqa: RUF012 # marshmallow declares it without ClassVar
        "unknown": _UNKNOWN,
        "type": "This must be an object.",
    }

    class Meta:
        unknown = RAISE

    def load(self, data: Any, **_options: Any) -> Any:
        """The value, or every fault of the data under its name.

        What marshmallow does for one closed object, done directly, which is four times as fast:
        fields that are left out, which most are, cost nothing. A test holds it against marshmallow.
        """
        if not isinstance(data, Mapping):
            raise ValidationError({SCHEMA: [self.error_messages["type"]]})
        most = len(self.load_fields) + _MOST_UNKNOWN
        if len(data) > most:  # before every name in it is looked at
            raise ValidationError(f"This has {len(data)} {self.word}s; it can have {most} at most.")
        values, refused = self._read(data)
        if refused:
            raise self._refusal(refused, data)
        for check in self._checks:
            try:
                check(values)
            except ValidationError as error:
                raise self._refusal(self._placed(error), data) from None
        return self.made(values)

    def _read(self, data: Mapping[str, Any]) -> tuple[dict[str, Any], dict[str, Any]]:
        """The value of every field by its attribute, and what is wrong by its name."""
        readers, values = self._readers, dict(self._defaults)
        refused: dict[str, Any] = {}
        for name, value in data.items():
            reader = readers.get(name)
            if reader is None:
                refused[name] = [_UNKNOWN]
                continue
            attribute, read, field = reader
            if value is None:
                refused[name] = field.make_error("null").messages
                continue
            try:
                values[attribute] = read(value, name, data)
            except ValidationError as error:
                refused[name] = error.messages
        for name, told in self._asked.items():
            if name not in data:
                refused[name] = [told]
        return values, refused

    def _placed(self, error: ValidationError) -> Any:
        """What a check of the whole form refuses, at the name of the field that it blames."""
        field = self.fields.get(error.field_name)
        if field is not None and field.data_key is not None:
            error.field_name = field.data_key
        return error.normalized_messages()  # type: ignore[no-untyped-call]

    def _refusal(self, messages: dict[str, Any], data: Mapping[str, Any]) -> ValidationError:
        error = ValidationError(messages)
        self.handle_error(error, data)
        return error

    @cached_property
    def _readers(self) -> dict[str, tuple[str, Callable[..., Any], Field[Any]]]:
        """Attribute of each field, how what is given is read, and itself, by name in documents."""
        return {
            field.data_key or name: (field.attribute or name, _reader(field), field)
            for name, field in self.load_fields.items()
        }

    @cached_property
    def _asked(self) -> dict[str, Any]:
        """Fields that must be given, and what is said where one is left out."""
        return {
            field.data_key or name: field.error_messages["required"]
            for name, field in self.load_fields.items()
            if field.required
        }

    @cached_property
    def _defaults(self) -> dict[str, Any]:
        """The values of fields that are left out, by attribute."""
        return {
            field.attribute or name: field.load_default
            for name, field in self.load_fields.items()
            if field.load_default is not missing
        }

    @cached_property
    def _checks(self) -> tuple[Callable[..., Any], ...]:
        """The form's own checks, each marked with marshmallow's `validates_schema`."""
        return tuple(getattr(self, name) for name, _, _ in self._hooks[VALIDATES_SCHEMA])

    @post_load
    def made(self, data: dict[str, Any], **_options: Any) -> Any:
        """The frozen value."""
        return data if self.makes is None else self.makes(**data)

    def handle_error(self, error: ValidationError, data: Any, **_options: Any) -> None:
        """Unknown fields by name, with the nearest known one, in the order of the document."""
        if not isinstance(error.messages, dict) or not isinstance(data, Mapping):
            return
        messages = error.messages
        ordered = [name for name in data if name in messages]
        known = [field.data_key or name for name, field in self.load_fields.items()]
        unknown = [name for name in ordered if messages[name] == [_UNKNOWN]]
        for name in unknown:
            messages[name] = [f"There is no {self.word} {shown(name)}{nearest(name, known)}"]
        rest = [name for name in messages if name not in data]
        error.messages = {name: messages[name] for name in [*ordered, *rest]}


def _reader(field: Field[Any]) -> Callable[..., Any]:
    """How a field reads what is given: our own have no hooks to go through, marshmallow's have."""
    own = type(field).deserialize is not Field.deserialize
    return field._deserialize if own else field.deserialize


def shown(name: str) -> str:
    """A name as it may be repeated to the caller: short, and nothing unprintable."""
    short = name if len(name) <= _SHOWN else name[: _SHOWN - 1] + "…"
    return '"' + "".join(c if c.isprintable() else "?" for c in short) + '"'


def nearest(name: str, known: Iterable[str]) -> str:
    """The end of a sentence: the known name most like an unknown one, if there is one."""
    close = difflib.get_close_matches(name[:_SHOWN].lower(), list(known), n=1, cutoff=0.6)
    return f'; did you mean "{close[0]}"?' if close else "."


def pointers(messages: Any, place: str = "#") -> Iterator[tuple[str, str]]:
    """Each message with the JSON pointer, in URI-fragment form, of what it is about."""
    if isinstance(messages, Mapping):
        for name, inner in messages.items():
            step = "" if name == "_schema" else f"/{_escaped(str(name))}"
            yield from pointers(inner, place + step)
    elif isinstance(messages, list):
        for inner in messages:
            yield from pointers(inner, place)
    else:
        yield place, str(messages)


def _escaped(name: str) -> str:
    """RFC 6901: ~ and / first, then what a URI fragment can't hold."""
    short = name if len(name) <= 200 else name[:200]
    return quote(short.replace("~", "~0").replace("/", "~1"), safe="!$&'()*+,;=:@~-._")
