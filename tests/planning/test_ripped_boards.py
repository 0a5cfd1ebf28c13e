"""Narrow parts out of ripped boards: the other half serves another part."""

from dataclasses import replace
from decimal import Decimal
from fractions import Fraction

import pytest

from service.planning.boards import plan_boards
from service.planning.job import ForSale, Job, OnHand, Part, Plan
from tests.planning.independent import check_plan

F = Fraction
KERF = F(1, 8)


def ripped(*parts: Part, width: object = F(45, 4), rips: bool = True) -> Job:
    board = ForSale(F(96), Decimal("20.00"))
    return Job(parts, (board,), kerf=KERF, width=F(width), rips=rips)  # type: ignore[arg-type]  # a number


def planned(job: Job) -> Plan:
    plan = plan_boards(job)
    check_plan(job, plan)
    return plan


def test_both_halves_of_a_ripped_board_are_used() -> None:
    slats = Part("slat", F(90), 4, width=F(5))
    plan = planned(ripped(slats))
    assert plan.cost == Decimal("40.00")
    assert all(board.strips == (5, 5) for board in plan.boards)


def test_without_a_saw_that_rips_every_slat_takes_a_board() -> None:
    assert planned(ripped(Part("slat", F(90), 4, width=F(5)), rips=False)).cost == Decimal("80.00")


def test_the_kerf_between_strips_counts() -> None:
    half = (F(45, 4) - KERF) / 2
    assert planned(ripped(Part("slat", F(90), 2, width=half))).cost == Decimal("20.00")
    wide = half + F(1, 64)
    assert planned(ripped(Part("slat", F(90), 2, width=wide))).cost == Decimal("40.00")


def test_the_other_half_serves_another_part() -> None:
    parts = Part("wide", F(90), 1, width=F(7)), Part("narrow", F(90), 1, width=F(4))
    plan = planned(ripped(*parts))
    assert plan.cost == Decimal("20.00") and plan.boards[0].strips == (4, 7)


def test_a_narrow_part_may_come_from_a_wide_strip() -> None:
    parts = Part("wide", F(60), 1, width=F(7)), Part("narrow", F(30), 1, width=F(3))
    assert planned(ripped(*parts, width=8)).cost == Decimal("20.00")


def test_full_width_parts_are_not_ripped() -> None:
    parts = Part("top", F(60), 1), Part("slat", F(30), 1, width=F(5))
    plan = planned(ripped(*parts))
    assert plan.cost == Decimal("20.00") and plan.boards[0].strips == (F(45, 4),)


def test_a_part_wider_than_the_board_is_named() -> None:
    plan = planned(ripped(Part("top", F(60), 1, width=F(12))))
    assert [u.why for u in plan.unplaced] == ["wider-than-the-board"]


def test_strips_of_boards_on_hand_are_free() -> None:
    job = replace(ripped(Part("slat", F(40), 4, width=F(5))), on_hand=(OnHand(F(96)),))
    assert planned(job).cost == 0


@pytest.mark.parametrize("seed", range(30))
def test_ripped_plans_cost_no_more_than_unripped_ones(seed: int) -> None:
    parts = tuple(
        Part(f"p{i}", F(12 + (seed * 7 + i * 13) % 70), 1 + (seed + i) % 3,
             width=[None, F(5), F(7, 2), F(2)][(seed + i) % 4])
        for i in range(5)
    )  # fmt: skip
    job = ripped(*parts)
    plan, whole = planned(job), planned(replace(job, rips=False))
    assert plan.cost <= whole.cost and plan.unplaced == ()
