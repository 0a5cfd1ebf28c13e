"""A cell as it stands in print, its exact value, and how both are read and shown."""

from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from typing import Any, Generic, TypeVar

from service import quantities
from service.domain.tape import MM

T = TypeVar("T")


class Unreadable(ValueError):
    """A cell does not hold what its column says."""


@dataclass(frozen=True, slots=True)
class Printed(Generic[T]):
    """A cell as it stands in print, and its exact value."""

    text: str
    value: T


Size = Printed[Fraction]
Sizes = Printed[tuple[Fraction, ...]]
Sheets = Printed[tuple[tuple[Fraction, Fraction], ...]]
KeyList = Printed[tuple[str, ...]]
WholeSeries = Printed[tuple[int, ...]]


@lru_cache(maxsize=4096)
def read_number(text: str) -> Printed[Fraction]:
    """A plain number with the digits of the print. Raises `Unreadable`."""
    try:
        return Printed(text, quantities.number(text))
    except quantities.QuantityError as refusal:
        raise Unreadable(str(refusal)) from refusal


@lru_cache(maxsize=4096)
def read_length(text: str, zero: bool = False) -> Printed[Fraction]:
    """A length with its unit, in inches; none at all where `zero`. Raises `Unreadable`."""
    try:
        return Printed(text, quantities.length(_with_unit(text), zero=zero))
    except quantities.QuantityError as refusal:
        raise Unreadable(str(refusal)) from refusal


@lru_cache(maxsize=4096)
def read_temperature(text: str) -> Printed[Fraction]:
    """A temperature with its unit, in degrees Fahrenheit. Raises `Unreadable`."""
    try:
        return Printed(text, quantities.temperature(text))
    except quantities.QuantityError as refusal:
        raise Unreadable(str(refusal)) from refusal


@lru_cache(maxsize=4096)
def read_sheet(text: str) -> tuple[Fraction, Fraction]:
    """Width and length of a sheet, in inches. Raises `Unreadable`."""
    try:
        return quantities.size_pair(_with_unit(text))
    except quantities.QuantityError as refusal:
        raise Unreadable(str(refusal)) from refusal


def with_inches(asked: str) -> str:
    """What a caller asks for, in inches when no unit is named."""
    return f"{asked} in" if asked[-1:].isdigit() else asked


def _with_unit(text: str) -> str:
    """The text, which must name its unit in letters: a table guesses nothing."""
    if not text[-1:].isalpha():
        raise Unreadable(f"{text!r} has no unit")
    return text


def shown_number(value: Fraction) -> int | float:
    """A number as JSON shows it."""
    return value.numerator if value.denominator == 1 else float(value)


def shown_length(text: str, inches: Fraction) -> dict[str, Any]:
    """A length as JSON shows it: as printed, in inches, and in millimeters to four places."""
    return {"printed": text, "in": float(inches), "mm": round(float(inches / MM), 4)}
