"""The units that are read, how people spell them, and their exact factors.

The factors follow from five definitions, so they stand here as exact fractions, and a request
never waits for pint (130 ms to load) nor lets it see a caller's text (it reads `20 3/4 in` as
15 in). pint is the oracle: `exact_factor` asks it, and a test holds every row against it.
This is the only file that imports pint.

Source of the definitions: NIST Handbook 44, appendix C (international yard and pound of 1959,
gallon of 231 cubic inches); 3rd CGPM 1901 for standard gravity.
"""

from collections.abc import Iterable
from dataclasses import dataclass, field
from fractions import Fraction
from functools import cache
from typing import Any

from service.domain.ratio import Ratio
from service.domain.tape import MM

KG = Fraction(100_000_000, 45_359_237)  # one kilogram in pounds: the pound is 0.45359237 kg
N = KG / Fraction("9.80665")  # one newton in pounds of force, at standard gravity
M = 1000 * MM / 12  # one meter in feet
GALLON = Fraction(231)  # cubic inches
LITER = (100 * MM) ** 3  # cubic inches


@dataclass(frozen=True, slots=True)
class Unit:
    """One unit: its exact worth in the base unit of its kind, and the spellings accepted."""

    key: str
    factor: Fraction
    pint: str
    spelled: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Kind:
    """Units of one kind. The first is the base: the unit that the readers answer in."""

    name: str
    example: str
    units: tuple[Unit, ...]
    spellings: dict[str, Unit] = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        spellings = {word: unit for unit in self.units for word in (unit.key, *unit.spelled)}
        object.__setattr__(self, "spellings", spellings)

    def unit(self, text: str) -> Unit | None:
        """The unit that a spelling means, or None when the kind has no such unit.

        Case is forgiven where the lower-case spelling is listed: `KG` is kg, but `mPa` is
        not MPa.
        """
        return self.spellings.get(text) or self._loosely(text)

    def _loosely(self, text: str) -> Unit | None:
        plain = text.strip(" ").removesuffix(".").translate(_SUPERSCRIPTS)
        for written, meant in _OTHERWISE:
            plain = plain.replace(written, meant)
        lower = plain.lower() if plain.isascii() else plain  # the kelvin sign is no small k
        return self.spellings.get(plain) or self.spellings.get(lower)


_SUPERSCRIPTS = str.maketrans("²³", "23")
_OTHERWISE = (
    ("^2", "2"), ("^3", "3"), (" per ", "/"), (" / ", "/"),
    ("sq. ", "sq "), ("sqft", "ft2"), ("sq ft", "ft2"), ("sq in", "in2"), ("sq m", "m2"),
)  # fmt: skip


def _unit(key: str, factor: Fraction | int, pint: str, *spelled: str) -> Unit:
    return Unit(key, Ratio(factor), pint, spelled)


LENGTH = Kind(
    "a length",
    "it like 20 3/4 in, 1' 8 3/4\" or 527 mm",
    (
        _unit("in", 1, "inch", '"', "inch", "inches", "''"),
        _unit("ft", 12, "foot", "'", "foot", "feet"),
        _unit("mm", MM, "millimeter", "millimeter", "millimeters", "millimetre", "millimetres"),
        _unit(
            "cm", 10 * MM, "centimeter", "centimeter", "centimeters", "centimetre", "centimetres"
        ),
        _unit("m", 1000 * MM, "meter", "meter", "meters", "metre", "metres"),
    ),
)

MASS = Kind(
    "a weight",
    "it like 40 lb or 18 kg",
    (
        _unit("lb", 1, "pound", "lbs", "pound", "pounds"),
        _unit("oz", Fraction(1, 16), "ounce", "ounce", "ounces"),
        _unit("kg", KG, "kilogram", "kilogram", "kilograms"),
        _unit("g", KG / 1000, "gram", "gram", "grams"),
    ),
)

_LOAD_EXAMPLE = "it like 40 lb, 18 lb/ft, 35 lb/ft2, 18 kg, 25 kg/m or 1.5 kN/m2"

FORCE = Kind(
    "a load",
    _LOAD_EXAMPLE,
    (
        _unit("lb", 1, "force_pound", "lbs", "lbf", "pound", "pounds"),
        _unit("oz", Fraction(1, 16), "force_ounce", "ounce", "ounces"),
        _unit("kg", KG, "force_kilogram", "kgf", "kilogram", "kilograms"),
        _unit("g", KG / 1000, "force_gram"),
        _unit("N", N, "newton", "n"),
        _unit("kN", 1000 * N, "kilonewton", "kn"),
    ),
)

FORCE_PER_LENGTH = Kind(
    "a load per length",
    _LOAD_EXAMPLE,
    (
        _unit("lb/ft", 1, "force_pound / foot", "lbs/ft", "lbf/ft", "lb/foot", "plf"),
        _unit("lb/in", 12, "force_pound / inch", "lbs/in", "lbf/in", "lb/inch"),
        _unit("kg/m", KG / M, "force_kilogram / meter"),
        _unit("N/m", N / M, "newton / meter", "n/m"),
        _unit("N/mm", 1000 * N / M, "newton / millimeter", "n/mm"),
        _unit("kN/m", 1000 * N / M, "kilonewton / meter", "kn/m"),
    ),
)

FORCE_PER_AREA = Kind(
    "a load per area",
    _LOAD_EXAMPLE,
    (
        _unit("lb/ft2", 1, "force_pound / foot ** 2", "lbs/ft2", "lbf/ft2", "psf"),
        _unit("lb/in2", 144, "force_pound / inch ** 2", "lbs/in2", "lbf/in2", "psi"),
        _unit("kg/m2", KG / M**2, "force_kilogram / meter ** 2"),
        _unit("g/m2", KG / M**2 / 1000, "force_gram / meter ** 2"),
        _unit("N/m2", N / M**2, "newton / meter ** 2", "n/m2", "Pa", "pa"),
        _unit("kN/m2", 1000 * N / M**2, "kilonewton / meter ** 2", "kn/m2", "kPa", "kpa"),
    ),
)

_PASCAL = N / (1000 * MM) ** 2  # in psi

PRESSURE = Kind(
    "a stress or stiffness",
    "it like 1200000 psi, 8.3 GPa or 40 N/mm2",
    (
        _unit("psi", 1, "force_pound / inch ** 2", "lb/in2", "lbf/in2"),
        _unit("ksi", 1000, "kip / inch ** 2"),
        _unit("million-psi", 1_000_000, "megapsi", "million psi"),
        _unit("Pa", _PASCAL, "pascal", "N/m2"),
        _unit("kPa", 10**3 * _PASCAL, "kilopascal", "kN/m2"),
        _unit("MPa", 10**6 * _PASCAL, "megapascal", "N/mm2"),
        _unit("GPa", 10**9 * _PASCAL, "gigapascal", "kN/mm2"),
    ),
)

COVERAGE = Kind(
    "a coverage",
    "it like 400 ft2/gal, 100 ft2/qt or 10 m2/L",
    (
        _unit("ft2/gal", 1, "foot ** 2 / gallon", "ft2/gallon"),
        _unit("ft2/qt", 4, "foot ** 2 / quart", "ft2/quart"),
        _unit("m2/L", M**2 * GALLON / LITER, "meter ** 2 / liter", "m2/l", "m2/liter", "m2/litre"),
    ),
)

DENSITY = Kind(
    "a density",
    "it like 450 kg/m3 or 28 lb/ft3",
    (
        _unit("lb/ft3", 1, "pound / foot ** 3", "lbs/ft3", "pcf"),
        _unit("kg/m3", KG / M**3, "kilogram / meter ** 3"),
        _unit("g/cm3", 1000 * KG / M**3, "gram / centimeter ** 3"),
    ),
)

DURATION = Kind(
    "a time",
    "it like 30 min, 24 h or 7 d",
    (
        _unit("min", 1, "minute", "mins", "minute", "minutes"),
        _unit("s", Fraction(1, 60), "second", "sec", "second", "seconds"),
        _unit("h", 60, "hour", "hr", "hrs", "hour", "hours"),
        _unit("d", 1440, "day", "day", "days"),
    ),
)

AREA = Kind(
    "an area",
    "it like 32 ft2 or 3 m2",
    (
        _unit("ft2", 1, "foot ** 2"),
        _unit("in2", Fraction(1, 144), "inch ** 2"),
        _unit("m2", M**2, "meter ** 2"),
    ),
)

VOLUME = Kind(
    "a volume",
    "it like 6 ft3, 1 gal or 170 L",
    (
        _unit("in3", 1, "inch ** 3"),
        _unit("ft3", 1728, "foot ** 3"),
        _unit("gal", GALLON, "gallon", "gallon", "gallons"),
        _unit("qt", GALLON / 4, "quart", "quart", "quarts"),
        _unit("L", LITER, "liter", "l", "liter", "liters", "litre", "litres"),
        _unit("mL", LITER / 1000, "milliliter", "ml"),
    ),
)

ANGLE = Kind(
    "an angle",
    "it in degrees, like 12.5",
    (_unit("deg", 1, "degree", "°", "º", "degree", "degrees"),),
)

KINDS = (
    LENGTH,
    MASS,
    FORCE,
    FORCE_PER_LENGTH,
    FORCE_PER_AREA,
    PRESSURE,
    COVERAGE,
    DENSITY,
    DURATION,
    AREA,
    VOLUME,
    ANGLE,
)


def both_known(kinds: Iterable[Kind], first: str, second: str) -> tuple[Unit, Unit] | None:
    """The two units, from the first kind that knows both; None when they don't go together."""
    for kind in kinds:
        one, other = kind.unit(first), kind.unit(second)
        if one is not None and other is not None:
            return one, other
    return None


def exact_factor(unit: Unit, base: Unit) -> Fraction:
    """How many `base` make one `unit`, by pint. For tests and for building tables: it is slow."""
    quantity = _registry().Quantity(Fraction(1), unit.pint)
    return Fraction(quantity.to(base.pint).magnitude)


@cache
def _registry() -> Any:  # pint's registry classes are built at run time: no useful static type
    from pint import UnitRegistry  # noqa: PLC0415 - the service itself never loads pint

    return UnitRegistry(non_int_type=Fraction)
