"""Many tiny questions about sheets: the cheapest cost, found by trying everything, is met."""

from fractions import Fraction

import pytest

from service.planning.panels import searching
from service.planning.panels.sheets import plan_sheets
from tests.planning.panels.cases import tiny
from tests.planning.panels.checker import faults
from tests.planning.panels.exhaustive import cheapest
from tests.planning.panels.poor import poor_plans

SIXTIES = [(first, first + 60) for first in range(0, 360, 60)]


@pytest.mark.parametrize(("first", "last"), SIXTIES)
def test_the_cheapest_of_all_ways_is_found_and_proved(first: int, last: int) -> None:
    for seed in range(first, last):
        panels, sheets, cutting = tiny(seed)
        plan = plan_sheets(panels, sheets, cutting, deadline_s=None, effort=10**8)
        best = cheapest(panels, sheets, cutting)
        assert faults(panels, sheets, cutting, plan) == [], seed
        if best is None:
            assert plan.enough == "no" and plan.unplaced, seed
        else:
            assert (Fraction(plan.cost), plan.status, plan.enough) == (best, "optimal", "yes"), seed


@pytest.mark.parametrize(("first", "last"), SIXTIES)
def test_the_search_finds_the_cheapest_without_quick_plans(
    first: int, last: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(searching, "plans", poor_plans)
    for seed in range(first + 1000, last + 1000):
        panels, sheets, cutting = tiny(seed)
        plan = plan_sheets(panels, sheets, cutting, deadline_s=None, effort=10**8)
        best = cheapest(panels, sheets, cutting)
        assert faults(panels, sheets, cutting, plan) == [], seed
        if best is not None:
            assert (Fraction(plan.cost), plan.status, plan.enough) == (best, "optimal", "yes"), seed


@pytest.mark.parametrize("seed", range(5000, 5020))
def test_five_panels_are_cut_from_the_cheapest_sheets(seed: int) -> None:
    panels, sheets, cutting = tiny(seed, most=5)
    plan = plan_sheets(panels, sheets, cutting, deadline_s=None, effort=10**8)
    best = cheapest(panels, sheets, cutting)
    assert (plan.enough == "yes") == (best is not None)
    assert best is None or Fraction(plan.cost) == best


@pytest.mark.parametrize("effort", [0, 20_000, 200_000])
def test_a_floor_never_lies_above_the_cheapest_however_early_the_search_ends(effort: int) -> None:
    for seed in range(400, 460):
        panels, sheets, cutting = tiny(seed)
        plan = plan_sheets(panels, sheets, cutting, deadline_s=None, effort=effort)
        best = cheapest(panels, sheets, cutting)
        if best is not None and plan.enough == "yes":
            assert Fraction(plan.bound) <= best <= Fraction(plan.cost), seed
        assert faults(panels, sheets, cutting, plan) == [], seed
