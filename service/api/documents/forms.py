"""What all documents have in common: closed to unknown fields, and made into a frozen value."""

import difflib
from collections.abc import Callable, Iterable, Iterator, Mapping
from functools import cached_property
from typing import Any, ClassVar
from urllib.parse import quote

from marshmallow import RAISE, Schema, ValidationError, missing, post_load

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

    def load(self, data: Any, **options: Any) -> Any:
        """The value. An object of junk is refused before every name in it is looked at."""
        most = len(self.load_fields) + _MOST_UNKNOWN
        if isinstance(data, Mapping) and len(data) > most:
            raise ValidationError(f"This has {len(data)} {self.word}s; it can have {most} at most.")
        return super().load(data, **options)

    def _deserialize(self, data: Any, *, error_store: Any, **_options: Any) -> Any:
        """marshmallow's own for one closed object: what is given is read, the rest has defaults.

        Fields that are left out, which most are, cost nothing. Lists of forms are not read here.
        """
        if not isinstance(data, Mapping):
            error_store.store_error([self.error_messages["type"]])
            return {}
        read, made = self._readers, dict(self._defaults)
        given = [*data.items(), *((name, missing) for name in self._asked if name not in data)]
        for name, value in given:
            if name not in read:
                error_store.store_error([_UNKNOWN], name)
                continue
            attribute, deserialize = read[name]
            try:
                result = deserialize(value, name, data)
            except ValidationError as error:
                error_store.store_error(error.messages, name)
                continue
            if result is not missing:
                made[attribute] = result
        return made

    @cached_property
    def _readers(self) -> dict[str, tuple[str, Callable[..., Any]]]:
        """Attribute and reader of each field, by its name in documents."""
        return {
            field.data_key or name: (field.attribute or name, field.deserialize)
            for name, field in self.load_fields.items()
        }

    @cached_property
    def _asked(self) -> tuple[str, ...]:
        """Fields that are read even when they are left out: required ones, fresh defaults."""
        fields = self.load_fields.items()
        return tuple(
            field.data_key or name
            for name, field in fields
            if field.required or callable(field.load_default)
        )

    @cached_property
    def _defaults(self) -> dict[str, Any]:
        """The values of fields that are left out, by attribute."""
        return {
            field.attribute or name: field.load_default
            for name, field in self.load_fields.items()
            if (field.data_key or name) not in self._asked and field.load_default is not missing
        }

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
