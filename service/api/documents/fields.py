"""How each kind of value in a document is read. Each refusal is one plain sentence."""

import copy
import math
import re
from collections.abc import Callable, Iterable, Mapping
from contextvars import ContextVar
from decimal import Decimal
from fractions import Fraction
from typing import Any, Literal, TypeVar

from marshmallow import Schema, ValidationError, fields, missing

from service import quantities
from service.api.documents.forms import nearest, shown

Units = Literal["in", "mm"]
T = TypeVar("T")

# What a bare number is in; the outermost document sets it while it is read.
UNITS: ContextVar[Units] = ContextVar("units", default="in")

LONGEST_TEXT = 80
_AMOUNT = re.compile(r" ?([0-9][0-9./]{0,19}) ?([A-Za-z][A-Za-z0-9]{0,9})")
ID = re.compile(r"[A-Za-z0-9][A-Za-z0-9 ._-]{0,59}")

MISSING: dict[str, Any] = {
    "required": "This is required.",
    "null": "Leave it out rather than send null.",
}


def read_directly(
    self: fields.Field[Any], value: Any, attr: str | None = None, data: Any = None, **options: Any
) -> Any:
    """marshmallow's `deserialize` without its hooks, which nothing here uses: a third faster."""
    if value is missing:
        if self.required:
            raise self.make_error("required")
        return self.load_default
    if value is None:
        raise self.make_error("null")
    return self._deserialize(value, attr, data, **options)


class Field(fields.Field[T]):
    """A field that says what it misses in the words of this service."""

    default_error_messages = MISSING
    deserialize = read_directly


class Text(Field[str]):
    """1 to 80 characters that can be seen, or as many as `most` says."""

    def __init__(self, most: int = LONGEST_TEXT, **options: Any) -> None:
        super().__init__(**options)
        self.most = most

    def _deserialize(self, value: Any, attr: str | None, data: Any, **_: Any) -> str:
        if not isinstance(value, str):
            raise ValidationError("This must be text.")
        if not 1 <= len(value) <= self.most:
            raise ValidationError(f"This must have 1 to {self.most} characters.")
        if not value.isprintable() or value.isspace():
            raise ValidationError("This holds a character that can't be printed, or only spaces.")
        return value


class Id(Text):
    """What a part, joint, run or shape is called by the others."""

    def _deserialize(self, value: Any, attr: str | None, data: Any, **_: Any) -> str:
        text = super()._deserialize(value, attr, data)
        if not ID.fullmatch(text):
            raise ValidationError(
                "An id starts with a letter or digit and goes on with letters, digits, spaces, "
                "dots, hyphens and underlines, 60 characters at most."
            )
        return text


class Word(Field[str]):
    """One of a few words."""

    def __init__(self, *words: str, **options: Any) -> None:
        super().__init__(**options)
        self.words = words

    def _deserialize(self, value: Any, attr: str | None, data: Any, **_: Any) -> str:
        if isinstance(value, str) and value in self.words:
            return value
        said = f"{shown(value)} is not one of" if isinstance(value, str) else "This must be one of"
        close = nearest(value, self.words) if isinstance(value, str) else "."
        raise ValidationError(f"{said} {', '.join(self.words)}{close}")


class YesNo(Field[bool]):
    """true or false, nothing like them."""

    def _deserialize(self, value: Any, attr: str | None, data: Any, **_: Any) -> bool:
        if not isinstance(value, bool):
            raise ValidationError("This must be true or false.")
        return value


class Whole(Field[int]):
    """A whole number between two limits; 3.0 is one, "3" and true are not."""

    def __init__(self, least: int, most: int, **options: Any) -> None:
        super().__init__(**options)
        self.least, self.most = least, most

    def _deserialize(self, value: Any, attr: str | None, data: Any, **_: Any) -> int:
        whole = isinstance(value, int) or (isinstance(value, float) and value.is_integer())
        if isinstance(value, bool) or not whole or not self.least <= value <= self.most:
            raise ValidationError(f"This must be a whole number from {self.least} to {self.most}.")
        return int(value)


class Number(Field[float]):
    """A number between two limits, with decimals or without."""

    def __init__(self, least: float, most: float, **options: Any) -> None:
        super().__init__(**options)
        self.least, self.most = least, most

    def _deserialize(self, value: Any, attr: str | None, data: Any, **_: Any) -> float:
        number = isinstance(value, int | float) and not isinstance(value, bool)
        if not number or not math.isfinite(value) or not self.least <= value <= self.most:
            raise ValidationError(f"This must be a number from {self.least:g} to {self.most:g}.")
        return float(value)


class Quantity(Field[T]):
    """A value that `quantities` reads; its sentence becomes the refusal."""

    def read(self, value: Any) -> T:
        raise NotImplementedError

    def _deserialize(self, value: Any, attr: str | None, data: Any, **_: Any) -> T:
        try:
            return self.read(value)
        except quantities.QuantityError as refusal:
            raise ValidationError(str(refusal)) from None


class Length(Quantity[Fraction]):
    """Inches, from a number in the document's units or from text; `zero` where none is one."""

    def __init__(self, *, zero: bool = False, **options: Any) -> None:
        super().__init__(**options)
        self.zero = zero

    def read(self, value: Any) -> Fraction:
        return quantities.length(value, UNITS.get(), zero=self.zero)


class Angle(Quantity[float]):
    """Degrees between two limits, both allowed."""

    def __init__(self, least: float = 0, most: float = 89, **options: Any) -> None:
        super().__init__(**options)
        self.least, self.most = least, most

    def read(self, value: Any) -> float:
        degrees = quantities.angle(value)
        if not self.least <= degrees <= self.most:
            raise ValidationError(f"This goes from {self.least:g} to {self.most:g} degrees.")
        return degrees


class Pair(Quantity[tuple[Fraction, Fraction]]):
    """Two lengths, width first: `16x20in`."""

    def read(self, value: Any) -> tuple[Fraction, Fraction]:
        return quantities.size_pair(value, UNITS.get())


class CarriedLoad(Quantity[quantities.Load]):
    """`40 lb`, `18 lb/ft` or `35 lb/ft2`."""

    def read(self, value: Any) -> quantities.Load:
        return quantities.load(value)


class Weight(Quantity[Fraction]):
    """Pounds that rest on one spot: `90 lb`. The unit must be said."""

    def read(self, value: Any) -> Fraction:
        load = quantities.load(value)
        if load.kind != "total":
            raise ValidationError("This must be a weight in all, like 90 lb.")
        return load.amount


class Duration(Quantity[Fraction]):
    """Minutes (or hours, as `unit` says), from a number or from text like `30 min`."""

    def __init__(self, unit: Literal["min", "h"], **options: Any) -> None:
        super().__init__(**options)
        self.unit = unit

    def read(self, value: Any) -> Fraction:
        minutes = quantities.duration(value, self.unit, zero=True)
        return minutes if self.unit == "min" else minutes / 60


class Temperature(Quantity[Fraction]):
    """Degrees Fahrenheit, from text that says its scale: `68F`, `20 C`."""

    def read(self, value: Any) -> Fraction:
        return quantities.temperature(value)


class Volume(Quantity[Fraction]):
    """Cubic feet, from text that says its unit: `6 ft3`, `170 L`."""

    def read(self, value: Any) -> Fraction:
        match = _AMOUNT.fullmatch(value) if isinstance(value, str) else None
        if match is None:
            raise ValidationError("This must be a volume with its unit, like 6 ft3 or 170 L.")
        cubic_feet = quantities.amount_in(match[1], match[2], "ft3")
        if not 0 < cubic_feet <= 10_000:
            raise ValidationError("This must be more than zero, and 10,000 ft3 at most.")
        return cubic_feet


class Money(Quantity[Decimal]):
    """An amount as a decimal string."""

    def read(self, value: Any) -> Decimal:
        return quantities.money(value)


class Several(fields.List[Any]):
    """A list of bounded length, in the order of the document, as a tuple."""

    default_error_messages = MISSING | {"invalid": "This must be a list."}
    deserialize = read_directly

    def __init__(self, inner: fields.Field[Any], least: int, most: int, **options: Any) -> None:
        super().__init__(inner, **options)
        self.least, self.most = least, most

    def _deserialize(self, value: Any, attr: str | None, data: Any, **options: Any) -> Any:
        # The length first: a megabyte of list must not be read to be refused.
        if isinstance(value, list) and not self.least <= len(value) <= self.most:
            raise ValidationError(_how_many(self.least, self.most, len(value)))
        return tuple(super()._deserialize(value, attr, data, **options))


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
