"""Slanted ends along a board: against every order and turn of a few pieces, and by hand."""

from dataclasses import replace
from decimal import Decimal
from fractions import Fraction
from itertools import pairwise, permutations, product
from math import radians, sqrt, tan
from random import Random

import pytest

from service.domain.ends import Slant
from service.planning.boards import plan_boards, plan_tip_to_tip
from service.planning.job import ForSale, Job, Part, Plan
from tests.planning.independent import check_plan
from tests.planning.jobs import EIGHTH, sold

F = Fraction
WIDTH, THICKNESS = F(7, 2), F(3, 4)
ROUNDING = F(1, 256)


def slope(degrees: float) -> Fraction:
    """How far a cut runs off, per inch."""
    return F(round(tan(radians(degrees)) * 10**9), 10**9)


def parallel(name: str, length: object, miter: float, quantity: int = 1, **more: object) -> Part:
    """Both ends lean the same way: one reaches out at the top, the other at the bottom."""
    across = slope(miter)
    ends = Slant(-across, F(0)), Slant(across, F(0))
    return Part(name, F(length), quantity, *ends, **more)  # type: ignore[arg-type]  # by name


def opposed(name: str, length: object, miter: float, quantity: int = 1, **more: object) -> Part:
    """Both long points on the top edge."""
    across = slope(miter)
    ends = Slant(across, F(0)), Slant(across, F(0))
    return Part(name, F(length), quantity, *ends, **more)  # type: ignore[arg-type]  # by name


def beveled(name: str, length: object, bevel: float, quantity: int = 1, **more: object) -> Part:
    """Both long points on the front."""
    through = slope(bevel)
    ends = Slant(F(0), through), Slant(F(0), through)
    return Part(name, F(length), quantity, *ends, **more)  # type: ignore[arg-type]  # by name


def job_of(length: Fraction, *parts: Part, kerf: Fraction = EIGHTH) -> Job:
    board = ForSale(length, Decimal("8.00"))
    return Job(parts, (board,), kerf=kerf, width=WIDTH, thickness=THICKNESS)


def planned(job: Job) -> Plan:
    plan = plan_boards(job)
    check_plan(job, plan)
    return plan


def fits_one_board(length: float, *parts: Part) -> bool:
    job = job_of(F(length).limit_denominator(10**6), *parts)
    plan = planned(job)
    return not plan.unplaced and len(plan.boards) == 1


def shortest_by_trying_all(parts: list[Part]) -> float:
    """The shortest board for some pieces: every order, every way to turn each piece."""
    pieces = [part for part in parts for _ in range(part.quantity)]
    w, t, k = float(WIDTH) / 2, float(THICKNESS) / 2, float(EIGHTH)
    corners = list(product((-w, w), (-t, t)))

    def ways(part: Part) -> list[tuple[tuple[float, ...], tuple[float, ...]]]:
        ends = tuple(map(float, part.first)), tuple(map(float, part.second))
        (a, b), (c, d) = ends
        found = [((a, b), (c, d)), ((-c, d), (-a, b))]
        if part.turns_over:
            found += [((-a, -b), (-c, -d)), ((c, -d), (a, -b))]
        return found

    def reach(end: tuple[float, ...]) -> float:
        return max(end[0] * y + end[1] * z for y, z in corners)

    def kerf(end: tuple[float, ...]) -> float:
        return k * sqrt(1 + end[0] ** 2 + end[1] ** 2)

    best = float("inf")
    for order in set(permutations(range(len(pieces)))):
        for lies in product(*(ways(pieces[i]) for i in order)):
            total = reach(lies[0][0]) + reach(lies[-1][1])
            total += sum(float(p.length) for p in pieces)
            for (_, one), (other, _) in pairwise(lies):
                apart = max((one[0] + other[0]) * y + (one[1] + other[1]) * z for y, z in corners)
                total += apart + max(kerf(one), kerf(other))
            best = min(best, total)
    return best


def test_parallel_ends_share_one_slanted_cut() -> None:
    legs = parallel("leg", 20, 30, 4)
    run = 4 * 20 + 3 * 0.125 / sqrt(3) * 2 + 3.5 * tan(radians(30))
    assert fits_one_board(run + 0.05, legs)
    assert not fits_one_board(run - 0.01, legs)


def test_opposed_ends_alternate_head_to_tail() -> None:
    sides = opposed("side", 20, 45, 4)
    run = 4 * 20 + 3 * 0.125 * sqrt(2) + 3.5
    assert fits_one_board(run + 0.05, sides)
    assert not fits_one_board(run - 0.01, sides)


def test_miters_alternate_even_with_a_show_face() -> None:
    sides = opposed("side", 20, 45, 4, turns_over=False)
    assert fits_one_board(4 * 20 + 3 * 0.125 * sqrt(2) + 3.5 + 0.05, sides)


def test_bevels_with_a_show_face_do_not_alternate() -> None:
    run = 4 * 20 + 3 * 0.125 * sqrt(2) + 0.75
    assert fits_one_board(run + 0.05, beveled("side", 20, 45, 4))
    shown = beveled("side", 20, 45, 4, turns_over=False)
    assert not fits_one_board(run + 0.05, shown)
    assert fits_one_board(run + 3 * 0.75 + 0.05, shown)


def test_a_piece_with_one_slanted_end_shares_it_with_its_neighbor() -> None:
    part = Part("brace", F(20), 2, Slant(F(0), F(0)), Slant(F(1), F(0)))
    run = 2 * 20 + 0.125 * sqrt(2)
    assert fits_one_board(run + 0.02, part)
    assert not fits_one_board(run - 0.01, part)


@pytest.mark.parametrize("seed", range(60))
def test_no_order_and_no_turn_of_few_pieces_is_shorter(seed: int) -> None:
    r = Random(seed)
    kind = r.choice([parallel, opposed, beveled])
    angle, over = r.choice([10.0, 30.0, 45.0]), r.random() < 0.7
    count = r.randint(1, 3)
    parts = [kind(f"s{i}", r.randint(8, 20), angle, 1, turns_over=over) for i in range(count)]
    parts += [Part(f"q{i}", F(r.randint(8, 20))) for i in range(r.randint(0, 4 - count))]
    shortest = shortest_by_trying_all(parts)
    assert not fits_one_board(shortest - 0.001, *parts)
    assert fits_one_board(shortest + float(ROUNDING) * (len(parts) + 1), *parts)


@pytest.mark.parametrize("seed", range(40))
def test_mixed_angles_are_cut_as_planned(seed: int) -> None:
    r = Random(1000 + seed)
    kinds = [parallel, opposed, beveled]
    parts = [
        r.choice(kinds)(f"s{i}", F(r.randint(40, 160), 8), r.choice([5.0, 22.5, 45.0]),
                        r.randint(1, 4), turns_over=r.random() < 0.5)
        for i in range(r.randint(1, 3))
    ]  # fmt: skip
    parts += [Part(f"q{i}", F(r.randint(40, 240), 8), r.randint(1, 4)) for i in range(2)]
    job = Job(tuple(parts), (sold(96, "8.00"), sold(72, "6.50")), kerf=EIGHTH,
              width=WIDTH, thickness=THICKNESS)  # fmt: skip
    plan = planned(job)
    assert plan.unplaced == ()
    assert plan.cost <= plan_tip_to_tip(job).cost


def test_what_nesting_saves_is_the_difference_to_square_blanks() -> None:
    job = job_of(F(96), opposed("side", F(45, 2), 45, 4))
    plan, blanks = planned(job), plan_tip_to_tip(job)
    check_plan(job_of(F(96), Part("side", F(45, 2) + F(7, 2), 4)), blanks)
    assert (plan.cost, blanks.cost) == (Decimal("8.00"), Decimal("16.00"))


def test_square_parts_are_planned_alike_with_or_without_a_width() -> None:
    job = job_of(F(96), Part("a", F(31), 3), Part("b", F(12), 2))
    assert plan_boards(job) == plan_boards(replace(job, width=F(0), thickness=F(0)))


def test_many_kinds_of_angle_are_best_only_where_less_wood_would_not_do() -> None:
    parts = [parallel(f"s{i}", 20, 10.0 + 5 * i, 2) for i in range(5)]
    plan = planned(job_of(F(96), *parts))  # ten times 20 in: more than two boards
    assert plan.status == "optimal" and len(plan.boards) == 3 and plan.unplaced == ()
    parts = [parallel(f"s{i}", F(184, 10), 10.0 + 5 * i, 2) for i in range(5)]
    plan = planned(job_of(F(96), *parts))  # two boards hold them by their length alone
    assert plan.bound <= Decimal("16.00") and plan.unplaced == ()
