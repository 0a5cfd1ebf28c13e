"""What must hold whatever the job: scaling, order, more choice, fewer offcuts; and sameness."""

import json
import os
import subprocess
import sys
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from decimal import Decimal
from fractions import Fraction
from pathlib import Path

from hypothesis import given, settings
from hypothesis import strategies as st

from service.planning.boards import plan_boards, plan_longest_first
from service.planning.job import ForSale, Job, OnHand, Part, Plan
from tests.planning.independent import check_plan
from tests.planning.jobs import hobby_job

PROJECT = Path(__file__).resolve().parents[2]
SEEDS = st.integers(min_value=0, max_value=10**6)


def scaled_by(job: Job, factor: Fraction) -> Job:
    return Job(
        tuple(replace(part, length=part.length * factor) for part in job.parts),
        tuple(replace(board, length=board.length * factor) for board in job.for_sale),
        tuple(OnHand(own.length * factor, own.quantity) for own in job.on_hand),
        job.kerf * factor, job.end_trim * factor,
    )  # fmt: skip


def shape_of(plan: Plan) -> object:
    return [(b.source, b.entry, [p.part for p in b.pieces]) for b in plan.boards], plan.cost


@settings(max_examples=25)
@given(SEEDS, st.fractions(min_value=Fraction(1, 50), max_value=50, max_denominator=60))
def test_everything_larger_is_cut_in_the_same_way(seed: int, factor: Fraction) -> None:
    job = hobby_job(seed)
    assert shape_of(plan_boards(job)) == shape_of(plan_boards(scaled_by(job, factor)))


@settings(max_examples=25)
@given(SEEDS)
def test_the_order_of_the_parts_does_not_change_the_cost(seed: int) -> None:
    job = hobby_job(seed)
    plan, other = plan_boards(job), plan_boards(replace(job, parts=job.parts[::-1]))
    assert (plan.cost, len(plan.boards)) == (other.cost, len(other.boards))


@settings(max_examples=25)
@given(SEEDS)
def test_a_length_that_helps_nobody_changes_no_cost(seed: int) -> None:
    job = hobby_job(seed)
    short = min(part.length for part in job.parts) / 2
    useless = (ForSale(short, Decimal("0.01")), ForSale(job.for_sale[0].length, Decimal(999)))
    more = replace(job, for_sale=job.for_sale + useless)
    assert plan_boards(more).cost == plan_boards(job).cost


@settings(max_examples=25)
@given(SEEDS)
def test_without_an_offcut_it_is_never_cheaper(seed: int) -> None:
    job = hobby_job(seed)
    plan = plan_boards(job)
    for place in range(len(job.on_hand)):
        less = replace(job, on_hand=job.on_hand[:place] + job.on_hand[place + 1 :])
        assert plan_boards(less).cost >= plan.cost


@settings(max_examples=25)
@given(SEEDS)
def test_a_thicker_saw_is_never_cheaper(seed: int) -> None:
    job = hobby_job(seed)
    thick = plan_boards(replace(job, kerf=job.kerf * 2))
    assert thick.cost >= plan_boards(job).cost


@settings(max_examples=25)
@given(SEEDS)
def test_the_plan_checks_out_and_beats_the_plain_one(seed: int) -> None:
    job = hobby_job(seed)
    plan, plain = plan_boards(job), plan_longest_first(job)
    check_plan(job, plan)
    check_plan(job, plain)
    assert plan.status == "optimal" and plan.cost <= plain.cost


def test_a_part_split_into_two_lines_makes_no_difference() -> None:
    whole = Job((Part("slat", Fraction(20), 9),), hobby_job(1).for_sale, kerf=Fraction(1, 8))
    split = replace(whole, parts=(Part("a", Fraction(20), 4), Part("b", Fraction(20), 5)))
    assert plan_boards(whole).cost == plan_boards(split).cost


def test_plans_are_the_same_in_every_thread() -> None:
    jobs = [hobby_job(seed) for seed in range(16)]
    alone = [plan_boards(job) for job in jobs]
    with ThreadPoolExecutor(4) as pool:
        assert list(pool.map(plan_boards, jobs)) == alone


def test_plans_are_the_same_in_every_process() -> None:
    script = (
        "from service.planning.boards import plan_boards\n"
        "from tests.planning.jobs import hobby_job\n"
        "import json\n"
        "print(json.dumps([repr(plan_boards(hobby_job(seed))) for seed in range(12)]))\n"
    )
    answers = []
    for seed in ("1", "2"):
        run = subprocess.run(
            [sys.executable, "-c", script], cwd=PROJECT, text=True, capture_output=True,
            check=True, env={**os.environ, "PYTHONHASHSEED": seed},
        )  # fmt: skip
        answers.append(json.loads(run.stdout))
    assert answers[0] == answers[1] == [repr(plan_boards(hobby_job(n))) for n in range(12)]
