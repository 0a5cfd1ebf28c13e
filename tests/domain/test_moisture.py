"""Moisture in air, and what it does to a width: the printed table and hand arithmetic."""

import pytest

from service.domain.catalog import Catalog
from service.domain.moisture import celsius, equilibrium, moves, swing

# Wood Handbook, the 70 F row of the equilibrium table, as remembered: humidity and moisture.
ROW_70_F = [(30, 6.2), (40, 7.7), (50, 9.2), (60, 11.0), (65, 12.0), (70, 13.1), (80, 16.0),
            (90, 20.5)]  # fmt: skip


@pytest.mark.parametrize(("humidity", "moisture"), ROW_70_F)
def test_the_equation_gives_the_printed_table(humidity: float, moisture: float) -> None:
    assert equilibrium(humidity, celsius(70)) == pytest.approx(moisture, abs=0.06)


@pytest.mark.parametrize("fahrenheit", [30, 70, 110, 150])
def test_damper_air_makes_damper_wood(fahrenheit: float) -> None:
    rising = [equilibrium(h, celsius(fahrenheit)) for h in range(5, 100, 5)]
    assert rising == sorted(rising)


def test_a_flat_sawn_width_moves_more_than_a_quarter_sawn_one(catalog: Catalog) -> None:
    # Northern red oak: 0.00369 flat, 0.00158 quarter; 20 in over 5 points.
    least, most = moves(catalog.moving["oak-northern-red"], 20, 6, 11)
    assert (least, most) == (pytest.approx(0.158), pytest.approx(0.369))


def test_nothing_moves_above_fiber_saturation(catalog: Catalog) -> None:
    oak = catalog.moving["oak-northern-red"]
    assert moves(oak, 20, 40, 80) == (0, 0)
    assert moves(oak, 20, 25, 80) == moves(oak, 20, 25, 30)


def test_a_group_moves_as_its_liveliest_member(catalog: Catalog) -> None:
    members = catalog.woods["spf"].members
    flat = max(catalog.moving[key].flat.value for key in members if key in catalog.moving)
    assert catalog.moving["spf"].flat.value == flat


def test_a_place_that_is_damper_than_usual_widens_the_swing(catalog: Catalog) -> None:
    usual = swing(catalog, "indoors", None, 68)
    damp = swing(catalog, "indoors", 80, 68)
    assert (damp.low, damp.high) == (usual.low, pytest.approx(16.0, abs=0.1))


@pytest.mark.parametrize("panel", ["mdf", "plywood-softwood", "particleboard", "osb"])
def test_panels_have_no_movement(catalog: Catalog, panel: str) -> None:
    assert panel not in catalog.moving
