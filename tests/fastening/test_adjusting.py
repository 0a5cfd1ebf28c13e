"""Factors for load and wet wood against what the code prints, on values that it prints."""

from fractions import Fraction

import pytest

from service.domain.catalog import Catalog
from service.domain.fasteners import NailSize
from service.domain.fastening.adjusting import (
    DURATIONS,
    NORMAL_TAKEN,
    SERVICE_TAKEN,
    SERVICES,
    Terms,
    adjusted,
)
from service.domain.fastening.fixing import Fixing
from service.domain.fastening.gravity import Gravity
from service.domain.fastening.holding import Hold, Seat, screw_hold
from service.domain.fastening.surroundings import Surroundings
from service.domain.fastening.toe_nailing import toe_nail_hold

# NDS 2018, table 2.3.2.
LOADS = {
    "permanent": 0.9, "ten-years": 1.0, "two-months": 1.15, "seven-days": 1.25, "ten-minutes": 1.6,
}  # fmt: skip
# NDS 2018, table 11.3.3: method, inches thick, service, factor sideways, factor pulled out.
WATER = (
    ("screw", "0.164", "dry", (1.0, 1.0)),
    ("screw", "0.164", "wet", (0.7, 0.7)),
    ("screw", "0.164", "dries", (0.7, 1.0)),
    ("screw", "0.164", "stays-wet", (0.7, 0.7)),
    ("screw", "0.250", "dries", (0.4, 1.0)),
    ("screw", "0.249", "dries", (0.7, 1.0)),
    ("nail", "0.131", "dry", (1.0, 1.0)),
    ("nail", "0.131", "wet", (0.7, 0.25)),
    ("nail", "0.131", "dries", (0.7, 0.25)),
    ("nail", "0.131", "stays-wet", (0.7, 1.0)),
    ("finish-nail", "0.099", "dries", (0.7, 0.25)),
)


def under(
    catalog: Catalog, method: str, thick: str, terms: Terms, where: str | None = None
) -> tuple[float, float]:
    """A hundred pounds each way, with the factors on them."""
    fixing = Fixing(method, diameter=Fraction(thick))
    found = adjusted(Surroundings(catalog, where), Hold(100.0, 100.0), fixing, terms)
    assert found.sheared is not None and found.pulled is not None
    return found.sheared, found.pulled


@pytest.mark.parametrize(("duration", "factor"), LOADS.items())
def test_a_load_has_the_factor_of_the_code(catalog: Catalog, duration: str, factor: float) -> None:
    both = under(catalog, "screw", "0.164", Terms(duration, "dry"))
    assert both == pytest.approx((100 * factor, 100 * factor))


def test_every_duration_is_tried() -> None:
    assert set(DURATIONS) == set(LOADS)


@pytest.mark.parametrize(("method", "thick", "service", "factors"), WATER)
def test_wet_wood_has_the_factors_of_the_code(
    catalog: Catalog, method: str, thick: str, service: str, factors: tuple[float, float]
) -> None:
    both = under(catalog, method, thick, Terms("ten-years", service))
    assert both == pytest.approx(tuple(100 * factor for factor in factors))


def test_factors_multiply(catalog: Catalog) -> None:
    # 1.6 x 0.7 = 1.12 sideways, and 1.6 x 0.25 = 0.4 for a nail that is pulled.
    both = under(catalog, "nail", "0.131", Terms("ten-minutes", "wet"))
    assert both == pytest.approx((112.0, 40.0))


def test_outdoors_is_wet_in_use_unless_it_is_said_otherwise(catalog: Catalog) -> None:
    assert under(catalog, "screw", "0.164", Terms(), "outdoors") == pytest.approx((70.0, 70.0))
    assert under(catalog, "screw", "0.164", Terms(service="dry"), "outdoors") == (100.0, 100.0)
    assert under(catalog, "screw", "0.164", Terms(), "covered") == (100.0, 100.0)


def test_what_is_taken_for_granted_is_said(catalog: Catalog) -> None:
    def said(terms: Terms, where: str | None = None) -> tuple[str, ...]:
        fixing = Fixing("screw", diameter=Fraction("0.164"))
        return adjusted(Surroundings(catalog, where), Hold(1.0), fixing, terms).assumed

    assert said(Terms()) == (NORMAL_TAKEN, SERVICE_TAKEN["dry"])
    assert said(Terms(), "outdoors") == (NORMAL_TAKEN, SERVICE_TAKEN["wet"])
    assert said(Terms(made_wet=True)) == (NORMAL_TAKEN, SERVICE_TAKEN["dries"])
    assert said(Terms(made_wet=True), "outdoors") == (NORMAL_TAKEN, SERVICE_TAKEN["stays-wet"])
    assert said(Terms("permanent", "wet", made_wet=True), "outdoors") == ()
    assert set(SERVICE_TAKEN) == set(SERVICES)


def test_a_toe_nail_that_is_pulled_has_no_factor_for_wet_wood(catalog: Catalog) -> None:
    # NDS 2018, 12.5.4.1.
    toed = Fixing("nail", diameter=Fraction("0.131"), slope=30.0)
    found = adjusted(Surroundings(catalog), Hold(100.0, 100.0), toed, Terms("ten-years", "wet"))
    assert (found.sheared, found.pulled) == pytest.approx((70.0, 100.0))


def common_8d(catalog: Catalog) -> NailSize:
    return next(nail for nail in catalog.fasteners.nails if nail.key == "common.8d")


def test_a_toe_nail_has_its_share_of_a_printed_nail(catalog: Catalog) -> None:
    """8d common, 2 1/2 in long, at 30 degrees from a third of its length up.

    Pulled: 2.5 - 0.8333 / cos 30 = 1.5378 in of it, 32 lb an inch at G 0.50 (table 12.2C), x 0.67.
    Sideways: 0.8333 in of side part lie between the 90 lb and the 97 lb printed for 3/4 and 1 in at
    G 0.50 (table 12N), 2.5 cos 30 - 0.8333 = 1.3317 in deep, more than ten diameters; x 0.83.
    """
    fir = Gravity(0.50, ())
    bite = Fraction("1.5378")
    seat = Seat(Fraction(1), bite, bite, "face", fir, fir)
    hold = toe_nail_hold(catalog, common_8d(catalog), Fraction(5, 2), 30.0, seat)
    assert hold.pulled == pytest.approx(32 * 1.5378 * 0.67, abs=0.52)
    assert hold.sheared is not None and 90 * 0.83 < hold.sheared < 97.5 * 0.83
    assert {
        "connection_constants/toe-nail.lateral",
        "connection_constants/toe-nail.withdrawal",
    } <= (set(hold.rests_on))


def test_a_value_that_does_not_exist_stays_so(catalog: Catalog) -> None:
    fixing = Fixing("screw", diameter=Fraction("0.164"))
    found = adjusted(Surroundings(catalog), Hold(None, 50.0), fixing, Terms("permanent", "wet"))
    assert found.pulled is None
    assert found.sheared == pytest.approx(50 * 0.9 * 0.7)


def test_a_printed_screw_under_two_months_of_load_in_wet_wood(catalog: Catalog) -> None:
    # NDS 2018: table 12.2B has 82 lb an inch for No. 8 at G 0.42, and table 12L 73 lb for No. 8
    # through 1/2 in at G 0.50; 1.15 x 0.7 of each, one inch of thread, ten diameters of bite.
    screw = catalog.fasteners.screw("wood-screw", "no-8")
    assert screw is not None
    fixing = Fixing("screw", diameter=screw.diameter.value)
    terms, around = Terms("two-months", "wet"), Surroundings(catalog)
    for gravity, way, printed in ((0.42, "pulled", 82), (0.50, "sheared", 73)):
        wood = Gravity(gravity, ())
        seat = Seat(Fraction(1, 2), Fraction(2), Fraction(1), "face", wood, wood)
        found = adjusted(around, screw_hold(catalog, screw, seat), fixing, terms)
        assert getattr(found, way) == pytest.approx(printed * 1.15 * 0.7, abs=0.45)
