"""What all documents have in common: closed to unknown fields, and made into a frozen value."""

import difflib
from collections.abc import Iterable, Iterator, Mapping
from typing import Any, ClassVar
from urllib.parse import quote

from marshmallow import RAISE, Schema, ValidationError, post_load

_UNKNOWN = "no such field"
_SHOWN = 60
_MOST_UNKNOWN = 20  # looking for the nearest name takes time, so junk gets no more of it


class Form(Schema):
    """One object of a document. `makes` is the frozen value that it becomes."""

    makes: ClassVar[Any] = None
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
