"""Plans for boards, worked out by hand: kerf traps, limits, offcuts, defects, what can't be cut."""

from dataclasses import replace
from decimal import Decimal
from fractions import Fraction

import pytest

from service.planning.boards import plan_boards, plan_longest_first
from service.planning.job import Job, OnHand, Part, Plan
from tests.planning.independent import check_plan, longest_rest
from tests.planning.jobs import EIGHTH, inches, sold

F = Fraction


def planned(job: Job) -> Plan:
    """The plan of a job, checked."""
    plan = plan_boards(job, recheck=True)
    check_plan(job, plan)
    return plan


def four_of(length: Fraction, kerf: Fraction = EIGHTH, **more: object) -> Job:
    return Job((Part("leg", length, 4),), (sold(96, "8.00"),), kerf=kerf, **more)  # type: ignore[arg-type]  # fields by name


def test_four_pieces_of_24_do_not_come_out_of_one_96() -> None:
    assert planned(four_of(F(24))).cost == Decimal("16.00")


def test_four_pieces_that_leave_just_three_kerfs_come_out_of_one_96() -> None:
    assert planned(four_of((96 - 3 * EIGHTH) / 4)).cost == Decimal("8.00")


def test_a_64th_more_in_one_piece_takes_another_board() -> None:
    exact = (96 - 3 * EIGHTH) / 4
    parts = (Part("leg", exact, 3), Part("long leg", exact + F(1, 64)))
    job = replace(four_of(exact), parts=parts)
    assert planned(job).cost == Decimal("16.00")


def test_without_a_kerf_four_pieces_of_24_come_out_of_one_96() -> None:
    assert planned(four_of(F(24), F(0))).cost == Decimal("8.00")


def test_the_trim_comes_off_both_ends() -> None:
    exact = (95 - 3 * EIGHTH) / 4
    assert planned(four_of(exact, end_trim=F(1, 2))).cost == Decimal("8.00")
    assert planned(four_of(exact, end_trim=F(33, 64))).cost == Decimal("16.00")


def test_a_piece_as_long_as_the_board_needs_no_cut() -> None:
    plan = planned(Job(inches(96), (sold(96, "8.00"),), kerf=EIGHTH))
    assert plan.cost == Decimal("8.00") and plan.boards[0].rests == ()


def test_thirds_of_an_inch_and_millimeters_fit_exactly() -> None:
    third, metric = F(100, 3), 5 * F(5, 127)
    parts = (Part("third", third, 2), Part("metric", metric, 1))
    length = 2 * third + metric + 2 * EIGHTH
    fits = Job(parts, (sold(length, "8.00"),), kerf=EIGHTH)
    short = replace(fits, for_sale=(sold(length - F(1, 10**6), "8.00"),))
    assert planned(fits).cost == Decimal("8.00")
    assert planned(short).cost == Decimal("16.00")


def test_money_comes_before_the_number_of_boards() -> None:
    job = Job(inches(40, 40), (sold(48, "3.00"), sold(96, "6.01")), kerf=EIGHTH)
    plan = planned(job)
    assert plan.cost == Decimal("6.00") and len(plan.boards) == 2


def test_at_the_same_money_fewer_boards_are_bought() -> None:
    job = Job(inches(40, 40), (sold(48, "3.00"), sold(96, "6.00")), kerf=EIGHTH)
    plan = planned(job)
    assert plan.cost == Decimal("6.00") and len(plan.boards) == 1 and plan.fewest


def test_at_the_same_boards_one_long_rest_is_left_rather_than_two_short_ones() -> None:
    job = Job(inches(60, 60, 20, 10), (sold(96, "8.00"),))
    plan = planned(job)
    assert len(plan.boards) == 2 and plan.largest_rest
    assert longest_rest(job, plan) == 36


def test_what_is_on_hand_is_free_and_used_first() -> None:
    job = Job(inches(30), (sold(96, "8.00"),), (OnHand(F(31)),), EIGHTH)
    plan = planned(job)
    assert plan.cost == 0 and plan.buy == () and plan.boards[0].source == "on-hand"


def test_of_two_offcuts_the_long_one_is_left_alone() -> None:
    job = Job(inches(20), (), (OnHand(F(60)), OnHand(F(30))), EIGHTH)
    assert planned(job).boards[0].length == 30


@pytest.mark.parametrize(("defect", "cost"), [((20, 21), "0"), ((29, 30), "8.00")])
def test_no_part_spans_a_defect(defect: tuple[int, int], cost: str) -> None:
    bad = (F(defect[0]), F(defect[1]))
    job = Job(inches(39), (sold(96, "8.00"),), (OnHand(F(60), 1, (bad,)),), EIGHTH)
    assert planned(job).cost == Decimal(cost)


def test_pieces_on_both_sides_of_a_defect_come_from_one_board() -> None:
    job = Job(inches(30, 28), (), (OnHand(F(60), 1, ((F(30), F(31)),)),), EIGHTH)
    plan = planned(job)
    assert len(plan.boards) == 1 and plan.unplaced == ()


def test_a_defect_thinner_than_the_kerf_still_takes_a_kerf() -> None:
    bad = (F(30), F(30) + F(1, 16))
    fits = Job(inches(30, "239/8"), (), (OnHand(F(60), 1, (bad,)),),
               EIGHTH)  # fmt: skip
    assert planned(fits).unplaced == ()
    assert planned(replace(fits, parts=inches(30, "479/16"))).unplaced != ()


def test_the_store_has_only_so_many() -> None:
    few = (sold(96, "1.00", at_most=1), sold(48, "9.00"))
    plan = planned(Job(inches(40, 40, 40, 40), few, kerf=EIGHTH))
    assert plan.cost == Decimal("19.00")


def test_what_cannot_be_carried_is_not_bought() -> None:
    job = Job(inches(40, 40), (sold(48, "5.00"), sold(96, "6.00")), kerf=EIGHTH, longest=F(50))
    assert planned(job).cost == Decimal("10.00")


@pytest.mark.parametrize(
    ("longest", "why"), [(None, "longer-than-any-board"), (F(50), "too-long-to-carry")]
)
def test_a_part_that_fits_nothing_is_named_and_the_rest_is_planned(
    longest: Fraction | None, why: str
) -> None:
    long = 60 if longest else 100
    job = Job(inches(long, 40), (sold(48, "5.00"), sold(96, "9.00")), longest=longest)
    plan = planned(job)
    assert [(u.part, u.quantity, u.why) for u in plan.unplaced] == [("a", 1, why)]
    assert plan.cost == Decimal("5.00")


def test_when_boards_run_out_as_many_pieces_as_can_be_are_cut() -> None:
    job = Job((Part("slat", F(30), 5),), (sold(96, "8.00", at_most=1),), kerf=EIGHTH)
    plan = planned(job)
    assert [(u.quantity, u.why) for u in plan.unplaced] == [(2, "not-enough-boards")]
    assert plan.status == "optimal" and plan.cost == Decimal("8.00")


def test_with_nothing_to_cut_from_every_part_is_named() -> None:
    plan = planned(Job(inches(30)))
    assert [(u.part, u.why) for u in plan.unplaced] == [("a", "no-boards")]


def test_a_job_without_parts_buys_nothing() -> None:
    plan = planned(Job((), (sold(96, "8.00"),)))
    assert plan.cost == 0 and plan.boards == () and plan.status == "optimal"


def test_rests_long_enough_are_kept() -> None:
    job = Job(inches(50), (sold(96, "8.00"),), kerf=EIGHTH, keep_at_least=F(12))
    assert planned(job).boards[0].keep == (True,)
    assert planned(replace(job, keep_at_least=F(46))).boards[0].keep == (False,)


def test_spare_boards_are_bought_on_top_and_shown() -> None:
    job = Job(inches(50), (sold(96, "8.00"), sold(60, "6.00"), sold(48, "1.00")), spare=2)
    plan = planned(job)
    assert plan.cost == Decimal("6.00")
    assert [(row.length, row.count, row.spare) for row in plan.buy] == [(60, 1, 2)]
    assert plan.spare_cost == Decimal("12.00")


def test_the_plain_plan_is_never_cheaper() -> None:
    job = Job(inches(50, 50, 45, 45), (sold(96, "8.00"), sold(120, "9.90")), kerf=EIGHTH)
    plain = plan_longest_first(job)
    check_plan(job, plain)
    assert plain.cost == Decimal("19.80") and planned(job).cost == Decimal("16.00")


def test_sizes_of_two_systems_with_a_tiny_common_unit_are_still_planned() -> None:
    parts = tuple(Part(f"p{i}", F(1000 + 7 * i, 64) + F(i, 2540) + F(i, 3**7)) for i in range(12))
    job = Job(parts, (sold(96, "8.00"), sold(120, "9.90")), kerf=F(3, 25))
    plan = planned(job)
    assert plan.unplaced == () and plan.gap_percent == 0
