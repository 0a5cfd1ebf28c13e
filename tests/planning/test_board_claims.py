"""What a plan claims of itself: no proof where a better plan may lie outside what was looked at."""

from collections import Counter
from dataclasses import replace
from decimal import Decimal
from fractions import Fraction
from itertools import count
from random import Random

import pytest

from service.domain.ends import Slant
from service.planning.boards import plan_boards, plan_longest_first
from service.planning.effort import Clock, Effort
from service.planning.goals import reach
from service.planning.job import ForSale, Job, OnHand, Part
from service.planning.scaling import scaled
from tests.planning.independent import check_plan
from tests.planning.jobs import EIGHTH, any_job, inches, sold
from tests.planning.test_nested_boards import (
    beveled,
    job_of,
    opposed,
    parallel,
    planned,
    shortest_by_trying_all,
)

F = Fraction
HARDLY = Effort(nodes=1, patience=0, leaf_steps=1, leaf_nodes=(1, 1), listed=1, listing_steps=1,
                flow_nodes=1)  # fmt: skip
SQUARE, MITER = Slant(F(0), F(0)), Slant(F(1), F(0))
BRACE = Part("brace", F(20), 2, SQUARE, MITER)
RAIL = Part("rail", F(20), 1, Slant(F(-1), F(0)), MITER)


def test_kinds_of_ends_that_could_take_turns_are_not_called_proved() -> None:
    # brace, rail, brace: both miters are shared, which a run of braces and a run of rails are not
    assert shortest_by_trying_all([BRACE, RAIL]) < 61
    plan = planned(job_of(F(61), BRACE, RAIL))
    assert plan.bound <= Decimal("8.00")
    assert plan.status == "feasible" or plan.cost == Decimal("8.00")


@pytest.mark.parametrize("seed", range(60))
def test_no_bound_lies_over_what_trying_every_order_finds(seed: int) -> None:
    r = Random(seed)
    angles = r.sample([15.0, 30.0, 45.0], 2)
    parts = [
        r.choice([parallel, opposed, beveled])(
            f"s{i}", r.randint(8, 20), r.choice(angles), 1, turns_over=r.random() < 0.5
        )
        for i in range(3)
    ]
    parts.append(Part("brace", F(r.randint(8, 20)), 1, SQUARE, MITER))
    shortest = F(shortest_by_trying_all(parts)) + F(1, 1000)
    plan = plan_boards(job_of(shortest.limit_denominator(10**6), *parts))
    assert plan.bound <= Decimal("8.00")


def test_slanted_parts_beside_ripped_ones_are_not_called_proved() -> None:
    # on boards of their own four sides nest in 94 in, twice; the slat takes a third
    sides, slat = opposed("side", F(45, 2), 45, 8), Part("slat", F(90), 1, width=F(2))
    job = job_of(F(96), sides, slat)
    plan = plan_boards(replace(job, rips=True))
    assert plan.bound <= Decimal("24.00")


def test_of_ripped_boards_that_defects_part_the_longest_clear_length_is_used() -> None:
    bad = (F(40), F(41)), (F(70), F(71))
    slats = Part("slat", F(30), 2, width=F(2)), Part("rail", F(28), 1, width=F(3))
    job = Job(slats, (sold(96, "8.00"),), (OnHand(F(100), 2, bad),), EIGHTH,
              keep_at_least=F(6), width=F(11, 2), rips=True)  # fmt: skip
    plan = plan_boards(job)
    check_plan(job, plan)
    assert plan.cost == 0 and plan.unplaced == ()
    rest = Part("pole", F(29), 6, width=F(11, 2))  # more come out of the boards than is planned
    job = replace(job, parts=(*slats, rest), for_sale=())
    plan = plan_boards(job)
    check_plan(job, plan)
    assert plan.status == "feasible" and plan.unplaced != ()


def test_pieces_that_only_rounding_leaves_out_are_not_proved_to_be_too_many() -> None:
    parts = tuple(Part(f"p{i}", F(1000 + 7 * i, 64) + F(i, 2540) + F(i, 3**7)) for i in range(12))
    kerf = F(3, 25)
    board = OnHand(sum((part.length for part in parts), 11 * kerf))
    plan = plan_boards(Job(parts, (), (board,), kerf))
    assert plan.unplaced == () or plan.status == "feasible"


def test_a_plain_plan_that_leaves_pieces_out_proves_nothing() -> None:
    job = Job((Part("slat", F(60), 3), Part("pole", F(200))), (), (OnHand(F(61), 2),), EIGHTH)
    plan = plan_longest_first(job)
    assert plan.status == "feasible" and not plan.fewest
    assert {(u.part, u.why) for u in plan.unplaced} == {
        ("slat", "not-enough-boards"), ("pole", "longer-than-any-board")
    }  # fmt: skip


def test_spare_boards_are_no_more_than_the_store_has() -> None:
    few = sold(96, "5.00", at_most=3), sold(120, "9.00", at_most=1)
    plan = plan_boards(Job(inches(90, 90), few, kerf=EIGHTH, spare=3))
    assert {row.length: (row.count, row.spare) for row in plan.buy} == {96: (2, 1), 120: (0, 1)}


def test_mirror_images_of_one_part_are_missed_together() -> None:
    across = Slant(F(1, 2), F(0))
    halves = Part("side", F(60), 2, across, SQUARE), Part("side", F(60), 2, SQUARE, across)
    board = ForSale(F(72), Decimal("5.00"), 3)
    plan = plan_boards(Job(halves, (board,), kerf=EIGHTH, width=F(7, 2), thickness=F(3, 4)))
    assert sum(len(board.pieces) for board in plan.boards) == 3
    assert [(u.part, u.quantity) for u in plan.unplaced] == [("side", 1)]


@pytest.mark.parametrize("calls", [*range(40), 60, 100, 200, 400])
def test_a_clock_that_rings_at_any_time_leaves_a_plan(calls: int) -> None:
    # longest first, 5 and 4 share a board and a 2 is left over; 5, 3, 2 and 4, 4, 2 fit just so
    pieces = Counter({5: 1, 4: 2, 3: 1, 2: 2})
    parts = tuple(Part(f"p{length}", F(length), n) for length, n in pieces.items())
    whole = scaled(Job(parts, (), (OnHand(F(10), 2),)))
    ticks = count()
    clock = Clock(1.0, lambda: 0.0 if next(ticks) <= calls else 2.0)
    goals = reach(whole.problem, [False], clock, Effort())
    assert goals.cost == 0 and goals.short <= 1


def test_a_board_may_hold_what_longest_first_does_not() -> None:
    pieces = Counter({5: 1, 4: 2, 3: 1, 2: 2})
    parts = tuple(Part(f"p{length}", F(length), n) for length, n in pieces.items())
    job = Job(parts, (), (OnHand(F(10), 2),))
    plan = plan_boards(job)
    check_plan(job, plan)
    assert plan.unplaced == () and plan.status == "optimal"


@pytest.mark.parametrize("effort", [Effort(), HARDLY], ids=["enough work", "hardly any"])
@pytest.mark.parametrize("seed", range(30))
def test_a_plan_of_any_job_adds_up(seed: int, effort: Effort) -> None:
    job = any_job(seed)
    plan = plan_boards(job, seconds=5, effort=effort)
    check_plan(job, plan)
    for board in plan.boards:
        assert 0 <= board.kept(job.width) <= board.length * job.width
    there = Counter[tuple[Fraction, Decimal]]()
    for sale in job.for_sale:
        there[sale.length, sale.price] += 10**6 if sale.at_most is None else sale.at_most
    for row in plan.buy:
        there[row.length, row.price] -= row.count + row.spare
    assert min(there.values(), default=0) >= 0
