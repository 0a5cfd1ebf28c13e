"""Narrow parts out of ripped boards: the other half serves another part."""

import time
from collections.abc import Iterator
from dataclasses import replace
from decimal import Decimal
from fractions import Fraction
from itertools import pairwise
from random import Random

import pytest

from service.domain.ends import Slant
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


def test_a_part_that_no_board_holds_leaves_the_other_its_width() -> None:
    parts = Part("slat", F(24), 3, width=F(2)), Part("pole", F(200), 1, width=F(1))
    plan = planned(ripped(*parts, width=F(11, 2)))
    assert [u.part for u in plan.unplaced] == ["pole"]
    assert plan.boards[0].strips == (2, 2)


@pytest.mark.parametrize("many", [8, 14, 40])
def test_many_widths_are_planned_in_time(many: int) -> None:
    parts = [Part(f"w{i}", F(20), 2, width=F(1, 2) + F(i, 16)) for i in range(many)]
    job = ripped(*parts, width=F(29, 4))
    start = time.process_time()
    plan = plan_boards(job, seconds=1.0)
    assert time.process_time() - start <= 1.5
    check_plan(job, plan)
    assert plan.unplaced == ()


MITERED = (Slant(F(1), F(0)), Slant(F(1), F(0)))


@pytest.mark.parametrize("width", [None, F(2)], ids=["none is ripped", "one is ripped"])
def test_slanted_parts_stay_on_the_board_where_a_saw_rips(width: Fraction | None) -> None:
    # long edges 28 3/8, 28 3/8 and 20 3/8 come to 77 3/8 with two kerfs: more than a 72 in board
    stile, rail = F(28375, 1000) - F(5, 2), F(20375, 1000) - F(5, 2)
    parts = (
        Part("stile", stile, 2, *MITERED),
        Part("rail", rail, 2, *MITERED),
        Part("slat", F(10), 1, width=width),
    )
    board = ForSale(F(72), Decimal("3.60"))
    plan = plan_boards(Job(parts, (board,), kerf=KERF, width=F(5, 2), rips=True))
    assert sum(len(one.pieces) for one in plan.boards) == 5
    for one in plan.boards:
        assert all(0 <= piece.start < piece.end <= 72 for piece in one.pieces)
        if width is not None:  # square blanks, mitered afterward
            assert all(b.start - a.end >= KERF for a, b in pairwise(one.pieces))


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


def partitions(pieces: tuple[int, ...]) -> Iterator[list[list[int]]]:
    """All ways to put pieces into heaps."""
    if not pieces:
        yield []
        return
    first, rest = pieces[0], pieces[1:]
    for heaps in partitions(rest):
        yield [[first], *heaps]
        for place in range(len(heaps)):
            yield [*heaps[:place], [first, *heaps[place]], *heaps[place + 1 :]]


def least_by_trying_all(job: Job) -> Decimal:
    """The least cost: every heap of pieces on a board, every heap of a heap in a strip."""
    pieces = [part for part in job.parts for _ in range(part.quantity)]
    fits: dict[tuple[tuple[int, ...], Fraction], bool] = {}

    def one_board(heap: tuple[int, ...], length: Fraction) -> bool:
        if (heap, length) not in fits:
            fits[heap, length] = any(
                sum(max(pieces[i].width or job.width for i in strip) + KERF for strip in strips)
                <= job.width + KERF
                and all(sum(pieces[i].length + KERF for i in strip) <= length + KERF
                        for strip in strips)
                for strips in partitions(heap)
            )  # fmt: skip
        return fits[heap, length]

    def price(heap: list[int]) -> Decimal:
        own = [b.price for b in job.for_sale if one_board(tuple(heap), b.length)]
        return min(own, default=Decimal(10**6))

    whole = tuple(range(len(pieces)))
    return min(sum((price(h) for h in heaps), Decimal(0)) for heaps in partitions(whole))


@pytest.mark.parametrize("seed", range(60))
def test_no_way_to_rip_and_cut_few_pieces_is_cheaper(seed: int) -> None:
    r = Random(seed)
    parts = tuple(
        Part(f"p{i}", F(r.randint(10, 60)), r.randint(1, 2),
             width=r.choice([None, F(5), F(11, 2), F(7, 2), F(2)]))
        for i in range(3)
    )  # fmt: skip
    for_sale = (ForSale(F(96), Decimal("20.00")), ForSale(F(72), Decimal("16.00")))
    job = Job(parts, for_sale, kerf=KERF, width=F(45, 4), rips=True)
    plan = planned(job)
    assert plan.status == "optimal" and plan.cost == least_by_trying_all(job)
