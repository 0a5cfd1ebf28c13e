"""The planner with one thing broken at a time: every such planner must be caught."""

from collections.abc import Iterator
from fractions import Fraction

import pytest

from service.planning.panels import deciding, exact, growing, searching, trees
from service.planning.panels.deciding import Decision
from service.planning.panels.lots import Lot
from service.planning.panels.sheets import plan_sheets
from tests.planning.panels.cases import tiny
from tests.planning.panels.checker import faults
from tests.planning.panels.exhaustive import cheapest
from tests.planning.panels.poor import poor_plans


@pytest.fixture(autouse=True)
def quick_plans_are_poor(monkeypatch: pytest.MonkeyPatch) -> None:
    """The quick plans find the cheapest in nearly all tiny cases: without them, the search must."""
    monkeypatch.setattr(searching, "plans", poor_plans)


FAR = 10**7


def complaints(effort: int = FAR, last: int = 120) -> Iterator[str]:
    """What checker and exhaustive search say of the planner as it now is."""
    for seed in range(last):
        panels, sheets, cutting = tiny(seed)
        plan = plan_sheets(panels, sheets, cutting, deadline_s=None, effort=effort)
        yield from faults(panels, sheets, cutting, plan)
        best = cheapest(panels, sheets, cutting)
        if best is None and plan.enough == "yes":
            yield "yields what can't be yielded"
        if best is not None and plan.enough == "no":
            yield "says no where there is a way"
        if best is not None and effort >= FAR and Fraction(plan.cost) != best:
            yield "not the cheapest"
        if best is not None and plan.enough == "yes":
            if Fraction(plan.bound) > best:
                yield "the bound is above the least cost"
            if Fraction(plan.cost) < best:
                yield "cheaper than can be"


def test_the_planner_as_it_is_gives_no_cause_for_complaint() -> None:
    assert list(complaints()) == []
    assert list(complaints(effort=0)) == []


def test_a_bound_that_is_just_the_cost_is_caught(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(searching.Search, "floor", searching.Search.ceiling)
    assert "the bound is above the least cost" in set(complaints(effort=0))


def test_a_planner_that_forgets_the_kerf_is_caught(monkeypatch: pytest.MonkeyPatch) -> None:
    steps = exact._steps
    monkeypatch.setattr(
        exact, "_steps", lambda panel, kerf, unit, grain: steps(panel, Fraction(0), unit, grain)
    )
    assert list(complaints())


def test_a_planner_that_turns_every_panel_is_caught(monkeypatch: pytest.MonkeyPatch) -> None:
    poses = Lot.poses
    monkeypatch.setattr(Lot, "poses", lambda lot, grained: poses(lot, False))
    assert any("across the grain" in complaint for complaint in complaints())


def test_a_planner_that_counts_no_turns_is_caught(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(deciding, "_turns", lambda pieces, stock: pieces.turns * 0)
    monkeypatch.setattr(growing, "_needed", lambda pieces, axis, cross: pieces.turns * 0)
    assert any("turns" in complaint for complaint in complaints())


def test_a_planner_that_refutes_too_early_is_caught(monkeypatch: pytest.MonkeyPatch) -> None:
    decide = searching.decide

    def hasty(*asked: object, **effort: object) -> Decision:
        answer = decide(*asked, **effort)
        return answer if answer.answer == "yes" and len(answer.layout) > 1 else Decision("no")

    monkeypatch.setattr(searching, "decide", hasty)
    assert "the bound is above the least cost" in set(complaints())


def test_a_tree_that_loses_a_rest_is_caught(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(trees, "_higher", lambda node, height: node)
    assert list(complaints())
