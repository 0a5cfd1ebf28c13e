"""Design values for how long the load stays and how wet the wood is: the factors of the code.

The reference values of `holding` are for a load of ten years in all, on wood that was dry when the
joint was made and stays dry. Other terms multiply them, by rows of connection_constants.
"""

from collections.abc import Iterator
from fractions import Fraction
from typing import Literal

from service.domain.catalog import Catalog
from service.domain.fastening.fixing import NAILS, Fixing
from service.domain.fastening.holding import Hold
from service.domain.fastening.surroundings import Surroundings
from service.domain.values import dataclass

Of = Literal["both", "sideways", "pulled out"]

DURATIONS = ("permanent", "ten-years", "two-months", "seven-days", "ten-minutes")
SERVICES = ("dry", "wet", "dries", "stays-wet")
NORMAL = "ten-years"
DRY_UP_TO = 19  # percent moisture; nds-2018, table 11.3.3
LOAD, WATER = "CD", "CM"  # what the code calls the two factors
THICK = Fraction(1, 4)  # in; from there a fastener loses more in wood that dries; table 11.3.3
SAID = {
    "permanent": "permanent load",
    "ten-years": "load of ten years in all",
    "two-months": "load of two months",
    "seven-days": "load of seven days",
    "ten-minutes": "load of ten minutes, as of wind",
    "dry": "dry when made and dry in use",
    "wet": "dry when made and wet in use",
    "dries": "wet when made and dry in use",
    "stays-wet": "wet when made and wet in use",
}
NORMAL_TAKEN = f"no duration is stated: a {SAID[NORMAL]} is taken"
SERVICE_TAKEN = {
    "dry": f"no service is stated: {SAID['dry']} is taken",
    "wet": f"the piece stands outdoors: {SAID['wet']} is taken",
    "dries": f"a part is wet by its moisture: {SAID['dries']} is taken",
    "stays-wet": f"a part is wet and the piece stands outdoors: {SAID['stays-wet']} is taken",
}


@dataclass(frozen=True, slots=True)
class Terms:
    """What a question says of the load and the wood: words of DURATIONS and SERVICES, or None.

    `made_wet` says that the build states more water in one of the parts than dry wood has.
    """

    duration: str | None = None
    service: str | None = None
    made_wet: bool = False


@dataclass(frozen=True, slots=True)
class Factor:
    """A factor of the code, what it is for, which value it multiplies, and its row."""

    name: str
    what: str
    of: Of
    value: Fraction
    row: str


@dataclass(frozen=True, slots=True)
class Adjusted:
    """Pounds with the factors on them; None where no value exists."""

    pulled: float | None
    sheared: float | None
    factors: tuple[Factor, ...]
    assumed: tuple[str, ...]


def adjusted(around: Surroundings, hold: Hold, fixing: Fixing, terms: Terms) -> Adjusted:
    """The values of one fastener, driven so, under those terms.

    Outdoors the wood is wet in use unless the terms say otherwise. For a toe-nail that is pulled
    the code leaves the factor for wet wood out (nds-2018, 12.5.4.1).
    """
    catalog, diameter = around.catalog, fixing.diameter or Fraction(0)
    service = terms.service or service_at(around.where, terms.made_wet)
    water = water_factors(catalog, fixing.method, diameter, service)
    if fixing.slope and fixing.method in NAILS:
        water = (factor for factor in water if factor.of != "pulled out")
    factors = (*load_factor(catalog, terms.duration or NORMAL), *water)
    return Adjusted(
        pulled=_times(hold.pulled, factors, "pulled out"),
        sheared=_times(hold.sheared, factors, "sideways"),
        factors=factors,
        assumed=tuple(_assumed(terms, service)),
    )


def service_at(where: str | None, made_wet: bool) -> str:
    """The service of wood at a place: outdoors it is wet in use."""
    if where == "outdoors":
        return "stays-wet" if made_wet else "wet"
    return "dries" if made_wet else "dry"


def _times(value: float | None, factors: tuple[Factor, ...], of: Of) -> float | None:
    if value is None:
        return None
    for factor in factors:
        if factor.of in ("both", of):
            value *= float(factor.value)
    return value


def _assumed(terms: Terms, service: str) -> Iterator[str]:
    if terms.duration is None:
        yield NORMAL_TAKEN
    if terms.service is None:
        yield SERVICE_TAKEN[service]


def load_factor(catalog: Catalog, duration: str) -> Iterator[Factor]:
    """Wood carries more the shorter the load stays. Source: nds-2018, table 2.3.2."""
    told = catalog.constants.get(f"duration.{duration}")
    if told is not None:
        yield Factor(LOAD, SAID[duration], "both", told.value, told.row)


def water_factors(
    catalog: Catalog, method: str, diameter: Fraction, service: str
) -> Iterator[Factor]:
    """Wet wood bears less, and a nail comes loose where the wood dries, or gets wet, around it.

    Source: nds-2018, table 11.3.3; wet is over 19 percent moisture. What the table leaves alone
    has no factor: wood screws in wood that dries, and nails in wood that stays as wet as it was.
    """
    aside = "made-wet.thin" if diameter < THICK else "made-wet.thick"
    sideways = {"dry": "dry", "dries": aside}.get(service, "wet")
    yield from _water(catalog, f"lateral.{sideways}", service, "sideways")
    if method in NAILS and service in ("wet", "dries"):
        yield from _water(catalog, "withdrawal.nail", service, "pulled out")
    if method not in NAILS and service in ("wet", "stays-wet"):
        yield from _water(catalog, "withdrawal.screw", service, "pulled out")


def _water(catalog: Catalog, key: str, service: str, of: Of) -> Iterator[Factor]:
    told = catalog.constants.get(f"wet-service.{key}")
    if told is not None:
        yield Factor(WATER, SAID[service], of, told.value, told.row)
