"""How each kind of value in a document is read. Each refusal is one plain sentence."""

import math
import re
from contextvars import ContextVar
from decimal import Decimal
from fractions import Fraction
from typing import Any, Literal, TypeVar

from marshmallow import ValidationError, fields, missing

from service import quantities
from service.api.documents.forms import nearest, shown

Units = Literal["in", "mm"]
T = TypeVar("T")

# What a bare number is in; the outermost document sets it while it is read.
UNITS: ContextVar[Units] = ContextVar("units", default="in")

LONGEST_TEXT = 80
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
        if isinstance(value, str) and ID.fullmatch(value):
            return value
        super()._deserialize(value, attr, data)  # what is wrong with it as text comes first
        raise ValidationError(
            "An id starts with a letter or digit and goes on with letters, digits, spaces, dots, "
            "hyphens and underlines, 60 characters at most."
        )


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
        cubic_feet = quantities.volume(value)
        if cubic_feet > 10_000:
            raise ValidationError("This must be 10,000 ft3 at most.")
        return cubic_feet


class Money(Quantity[Decimal]):
    """An amount as a decimal string."""

    def read(self, value: Any) -> Decimal:
        return quantities.money(value)
