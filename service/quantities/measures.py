"""Weights, loads, stresses, coverages, densities, times, temperatures and angles."""

import re
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from typing import Literal

from service.domain.ratio import ratio
from service.domain.spelling import MINUS
from service.quantities.reading import (
    TOO_LARGE,
    checked,
    exact,
    leading_number,
    typed,
    why_no_unit,
)
from service.quantities.refusals import refusal, shown
from service.quantities.units import (
    ANGLE,
    COVERAGE,
    DENSITY,
    DURATION,
    FORCE,
    FORCE_PER_AREA,
    FORCE_PER_LENGTH,
    KINDS,
    MASS,
    PRESSURE,
    VOLUME,
    Kind,
    both_known,
)

Number = str | int | float | Decimal

_LOADS: tuple[tuple[Literal["total", "per-foot", "per-square-foot"], Kind], ...] = (
    ("total", FORCE),
    ("per-foot", FORCE_PER_LENGTH),
    ("per-square-foot", FORCE_PER_AREA),
)
_PLAIN = Kind("a number", "it like 0.451, 3/4 or 11 1/4", ())
_TEMPERATURE = Kind("a temperature", "it with its scale, like 68 F or 20 C", ())
_SCALE = re.compile(r"(?:°|º|deg ?)? ?([FfCc])")
_ABSOLUTE_ZERO = Fraction("-459.67")  # degrees F


@dataclass(frozen=True, slots=True)
class Load:
    """What a piece carries: `amount` in lb, lb/ft or lb/ft2, as `kind` says. Exact.

    A kilogram counts as its weight at standard gravity, so 40 lb is 40 pounds of force.
    """

    kind: Literal["total", "per-foot", "per-square-foot"]
    amount: Fraction


def mass(
    value: Number, unit: Literal["lb", "oz", "kg", "g"] = "lb", *, zero: bool = False
) -> Fraction:
    """Pounds, exactly; a bare number is in `unit`. Raises QuantityError."""
    return _quantity(value, MASS, unit, zero)


def load(value: str, *, zero: bool = False) -> Load:
    """A load from `40 lb`, `18 lb/ft` (or `plf`), `35 lb/ft2` (or `psf`), kg, N, kN and kPa.

    The unit says how the load is meant, so a bare number is refused. Raises QuantityError.
    """
    text = typed(value, FORCE)
    over, under, rest = leading_number(text, FORCE)
    for meaning, kind in _LOADS:
        if unit := kind.unit(rest):
            amount = ratio(over, under) * unit.factor
            return Load(meaning, checked(_small(amount, value, FORCE), value, FORCE, zero=zero))
    why = why_no_unit(rest, FORCE) if not rest else f"“{shown(rest)}” is not a unit of load here"
    raise refusal(value, FORCE.name, why, FORCE.example)


def pressure(value: Number, unit: str | None = None) -> Fraction:
    """psi, exactly, from psi, ksi, MPa, GPa or N/mm2. Upper and lower case matter (MPa).

    A bare number is refused unless `unit` says what it is in. Raises QuantityError.
    """
    return _quantity(value, PRESSURE, unit)


def coverage(value: Number, unit: str | None = None) -> Fraction:
    """Square feet per US gallon, exactly, from `ft2/gal`, `ft2/qt` or `m2/L`."""
    return _quantity(value, COVERAGE, unit)


def density(value: Number, unit: str | None = None) -> Fraction:
    """Pounds per cubic foot, exactly, from `lb/ft3` or `kg/m3`."""
    return _quantity(value, DENSITY, unit)


def volume(value: Number, unit: str | None = None) -> Fraction:
    """Cubic feet, exactly, from `6 ft3`, `170 L` or `30 gal`."""
    return _quantity(value, VOLUME, unit) / 1728


def duration(value: Number, unit: str | None = None, *, zero: bool = False) -> Fraction:
    """Minutes, exactly, from `30 min`, `24 h` or `7 d`."""
    return _quantity(value, DURATION, unit, zero)


def temperature(value: str, to: Literal["F", "C"] = "F") -> Fraction:
    """Degrees F (or C), exactly, from `68F`, `20 C` or `-5 °C`. A bare number is refused."""
    over, under, rest = _signed(value, _TEMPERATURE)
    scale = _SCALE.fullmatch(rest.strip(" "))
    if scale is None:
        why = f"“{shown(rest)}” is neither F nor C" if rest else "it says neither F nor C"
        raise refusal(value, _TEMPERATURE.name, why, _TEMPERATURE.example)
    degrees = ratio(over, under)
    fahrenheit = degrees if scale[1] in "Ff" else degrees * 9 / 5 + 32
    if fahrenheit < _ABSOLUTE_ZERO:
        raise refusal(value, _TEMPERATURE.name, "nothing is that cold", _TEMPERATURE.example)
    fahrenheit = _small(fahrenheit, value, _TEMPERATURE)
    return fahrenheit if to == "F" else (fahrenheit - 32) * 5 / 9


def angle(value: Number) -> float:
    """Degrees, from a number, `12.5`, `12 1/2 deg` or `12°`.

    The sign is kept: which angles make sense is for the caller to say. Raises QuantityError
    beyond a full turn either way.
    """
    if isinstance(value, str):
        over, under, rest = _signed(value, ANGLE)
        if rest and ANGLE.unit(rest) is None:
            raise refusal(value, ANGLE.name, why_no_unit(rest, ANGLE), ANGLE.example)
        degrees: Fraction = ratio(over, under)
    else:
        degrees = exact(value, ANGLE)
    if abs(degrees) > 360:
        raise refusal(value, ANGLE.name, "it is more than a full turn", ANGLE.example)
    return float(degrees)


def number(text: str) -> Fraction:
    """A plain number as printed in a table: `0.451`, `11 1/4`, `-1/16`. Raises QuantityError."""
    over, under, rest = _signed(text, _PLAIN)
    if rest:
        why = f"“{shown(rest)}” follows the number"
        raise refusal(text, _PLAIN.name, why, _PLAIN.example)
    return ratio(over, under)


def amount_in(printed: str, unit: str, to: str) -> Fraction:
    """A printed number of `unit`, exactly in `to`: `amount_in("19", "mm", "in")`.

    For the tables of reference data. Temperatures are degrees on a scale, not differences.
    Raises QuantityError for an unknown unit, or two that don't measure the same thing.
    """
    scales = _SCALE.fullmatch(unit), _SCALE.fullmatch(to)
    if scales[0] and scales[1]:
        return temperature(f"{printed} {unit}", "F" if scales[1][1] in "Ff" else "C")
    known = both_known(KINDS, unit, to)
    if known is None:
        why = f"“{shown(unit)}” and “{shown(to)}” are not two units of one kind"
        raise refusal(
            f"{printed} {unit}", "an amount", why, "two units of one kind, like mm and in"
        )
    return number(printed) * known[0].factor / known[1].factor


def _quantity(value: Number, kind: Kind, bare: str | None, zero: bool = False) -> Fraction:
    """The amount in the kind's base unit; `bare` is the unit of a number without one."""
    if isinstance(value, str):
        over, under, rest = leading_number(typed(value, kind), kind)
        amount: Fraction = ratio(over, under)
    else:
        amount, rest = exact(value, kind), ""
    unit = kind.unit(rest or bare or "")
    if unit is None:
        raise refusal(value, kind.name, why_no_unit(rest, kind), kind.example)
    return checked(_small(amount, value, kind) * unit.factor, value, kind, zero=zero)


def _signed(value: object, kind: Kind) -> tuple[int, int, str]:
    """Like `leading_number`, for what may stand below zero."""
    text = typed(value, kind).lstrip(" ")
    if text[:1] not in ("-", MINUS, "+"):
        return leading_number(text, kind)
    over, under, rest = leading_number(text, kind, 1)
    return (over if text[0] == "+" else -over), under, rest


def _small(amount: Fraction, given: object, kind: Kind) -> Fraction:
    if amount >= TOO_LARGE:
        raise refusal(given, kind.name, "it is too large", kind.example)
    return amount
