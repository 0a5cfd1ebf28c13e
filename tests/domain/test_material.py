"""Density from specific gravity, against arithmetic by hand on the handbook's equations."""

import pytest

from service.domain.catalog import Spread, Wood
from service.domain.material import density, density_of, gravity_at, pounds


@pytest.mark.parametrize(
    ("green", "moisture", "expected"),
    [
        (0.50, 30, 0.50),  # at fiber saturation the wood is as big as green
        (0.50, 60, 0.50),
        (0.50, 0, 0.57637),  # 0.50 / (1 - 0.265 x 0.50)
        (0.50, 15, 0.53548),  # 0.50 / (1 - 0.265 x 0.50 x 0.5)
        (0.40, 12, 0.42717),  # 0.40 / (1 - 0.265 x 0.40 x 0.6)
    ],
)
def test_wood_shrinks_and_grows_denser_as_it_dries(
    green: float, moisture: float, expected: float
) -> None:
    assert gravity_at(green, moisture) == pytest.approx(expected, abs=5e-6)


def test_density_counts_the_water() -> None:
    assert density_of(0.50, 12) == pytest.approx(34.944)  # 62.4 x 0.50 x 1.12


def test_a_cubic_foot_weighs_its_density() -> None:
    assert pounds(1728, 35) == 35


def test_at_the_moisture_of_the_table_its_own_gravity_is_taken() -> None:
    wood = Wood("any", "any", "softwood", (), Spread(0.4, 0.4, ("g",)), Spread(0.45, 0.45, ("d",)))
    twelve, wet = density(wood), density(wood, 19)
    assert twelve is not None and twelve.rests_on == ("d",)
    assert twelve.low == pytest.approx(31.4496)  # 62.4 x 0.45 x 1.12
    assert wet is not None and wet.rests_on == ("g",)
    assert wet.low == pytest.approx(30.9035, abs=5e-5)  # 62.4 x 1.19 x 0.40 / (1 - 0.106 x 11/30)


def test_without_a_gravity_there_is_no_density() -> None:
    assert density(Wood("any", "any", "softwood")) is None
