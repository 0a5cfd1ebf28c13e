"""The checker and the tables, tried on things that are wrong on purpose."""

from dataclasses import replace
from decimal import Decimal
from fractions import Fraction

import pytest

from service.planning.panels.asking import Cutting
from service.planning.panels.lots import Kind, Lot, Stock
from service.planning.panels.planned import Placed, SheetPlan
from service.planning.panels.sheets import plan_sheets
from service.planning.panels.tables import Tables
from tests.planning.panels.cases import workshop
from tests.planning.panels.checker import NEVER, faults, fewest_turns

PANELS, SHEETS, CUTTING = workshop(1)


@pytest.fixture(scope="module")
def plan() -> SheetPlan:
    found = plan_sheets(PANELS, SHEETS, CUTTING, deadline_s=None, effort=10**7)
    assert faults(PANELS, SHEETS, CUTTING, found) == []
    assert len(found.sheets[0].panels) > 1
    return found


def with_first(plan: SheetPlan, panel: Placed) -> SheetPlan:
    sheet = replace(plan.sheets[0], panels=(panel, *plan.sheets[0].panels[1:]))
    return replace(plan, sheets=(sheet, *plan.sheets[1:]))


def test_a_plan_that_calls_its_cost_proved_without_proof_is_caught(plan: SheetPlan) -> None:
    liar = replace(plan, status="optimal", bound=plan.cost - 1)
    assert any("proof" in fault for fault in faults(PANELS, SHEETS, CUTTING, liar))


def test_a_plan_whose_sheets_cost_more_than_it_says_is_caught(plan: SheetPlan) -> None:
    liar = replace(plan, cost=plan.cost - 1, bound=plan.cost - 1)
    assert any("the plan says" in fault for fault in faults(PANELS, SHEETS, CUTTING, liar))


def test_a_panel_left_out_is_caught(plan: SheetPlan) -> None:
    sheet = replace(plan.sheets[0], panels=plan.sheets[0].panels[1:])
    short = replace(plan, sheets=(sheet, *plan.sheets[1:]))
    assert faults(PANELS, SHEETS, CUTTING, short)


def test_a_panel_moved_by_half_a_kerf_is_caught(plan: SheetPlan) -> None:
    first = plan.sheets[0].panels[0]
    for axis in ("x", "y"):
        moved = first.area._replace(**{axis: getattr(first.area, axis) + CUTTING.kerf / 2})
        found = faults(PANELS, SHEETS, CUTTING, with_first(plan, replace(first, area=moved)))
        assert any("is not cut free" in fault for fault in found)


def test_a_panel_turned_across_its_grain_is_caught() -> None:
    locked = [replace(panel, turns=False) for panel in PANELS]
    plan = plan_sheets(locked, SHEETS, CUTTING, deadline_s=None, effort=10**6)
    first = plan.sheets[0].panels[0]
    turned = first.area._replace(length=first.area.width, width=first.area.length)
    liar = with_first(plan, replace(first, area=turned, turned=True))
    assert any("grain" in fault for fault in faults(locked, SHEETS, CUTTING, liar))


def test_a_cut_a_little_beside_its_mark_is_caught(plan: SheetPlan) -> None:
    cuts = plan.sheets[0].cuts
    beside = replace(cuts[0], at=cuts[0].at + Fraction(1, 64))
    sheet = replace(plan.sheets[0], cuts=(beside, *cuts[1:]))
    liar = replace(plan, sheets=(sheet, *plan.sheets[1:]))
    assert any("not there" in f or "free" in f for f in faults(PANELS, SHEETS, CUTTING, liar))


def box(*edges: int) -> tuple[Fraction, ...]:
    return tuple(Fraction(edge) for edge in edges)


def test_a_pinwheel_of_coordinates_is_not_cut_edge_to_edge() -> None:
    blades = [box(0, 14, 0, 10), box(14, 24, 0, 14), box(10, 24, 14, 24), box(0, 10, 10, 24)]
    boxes = [*blades, box(10, 14, 10, 14)]
    assert fewest_turns(boxes, box(0, 24, 0, 24), Fraction(0)) == NEVER


@pytest.mark.parametrize(
    ("boxes", "turns"),
    [
        ([(0, 4, 0, 4)], 0),
        ([(0, 2, 0, 4), (2, 4, 0, 4)], 0),
        ([(0, 2, 0, 3), (2, 4, 0, 4)], 1),
        ([(0, 2, 0, 2), (0, 2, 2, 4), (2, 4, 0, 4)], 1),
        ([(0, 2, 0, 2), (0, 1, 2, 4), (1, 2, 2, 4), (2, 4, 0, 4)], 2),
        ([(0, 1, 0, 1)], 1),
    ],
)
def test_turns_are_counted_as_by_hand(boxes: list[tuple[int, ...]], turns: int) -> None:
    exact = [tuple(Fraction(edge) for edge in box) for box in boxes]
    assert (
        fewest_turns(exact, (Fraction(0), Fraction(4), Fraction(0), Fraction(4)), Fraction(0))
        == turns
    )


GCUT1 = (
    "167 184 30728 114 118 13452 167 152 25384 83 140 11620 70 86 6020 143 166 23738 "
    "120 160 19200 66 148 9768 87 141 12267 69 165 11385"
)
"""The first case of Beasley's guillotine set (1985), sheet 250 by 250; optimum 56460."""


def gcut1() -> tuple[Lot, list[float]]:
    numbers = [int(word) for word in GCUT1.split()]
    rows = [numbers[place : place + 3] for place in range(0, len(numbers), 3)]
    kinds = tuple(Kind(width, height, 9) for width, height, _ in rows)
    return Lot(kinds, (Stock(250, 250, 1),)), [float(row[2]) for row in rows]


def test_the_table_of_cuts_meets_a_published_optimum() -> None:
    lot, worth = gcut1()
    assert Tables(lot, 10**9).best(worth) == [56460.0]


@pytest.mark.parametrize("finest", [20, 200, 2000])
def test_a_table_on_a_coarse_grid_is_never_below_the_optimum(finest: int) -> None:
    lot, worth = gcut1()
    (best,) = Tables(lot, finest).best(worth)
    assert 56460.0 <= best <= 250 * 250 * 2


def test_a_plan_says_how_far_its_cost_may_lie_above_the_least(plan: SheetPlan) -> None:
    half = replace(plan, cost=Decimal(80), bound=Decimal(60))
    assert half.gap_percent == 25.0
    free = replace(plan, cost=Decimal(0), bound=Decimal(0))
    assert free.gap_percent == 0.0
    assert isinstance(CUTTING, Cutting)
