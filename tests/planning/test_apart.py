"""Planners in processes of their own: who works, what comes back, and who is ended when."""

import io
import json
import subprocess
import sys
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest

from service.domain.ratio import Ratio
from service.planning.boards import plan_boards
from service.planning.job import Job
from service.planning.parcels import put, take
from tests.bench.boards import hobby_job

PROJECT = Path(__file__).resolve().parents[2]


@pytest.fixture(scope="module")
def told() -> dict[str, Any]:
    done = subprocess.run(
        [sys.executable, "-m", "tests.planning.behind_the_door"],
        cwd=PROJECT, capture_output=True, text=True, timeout=120, check=True,
    )  # fmt: skip
    return {key: it for line in done.stdout.splitlines() for key, it in json.loads(line).items()}


def test_without_a_door_the_work_is_done_in_place(told: dict[str, Any]) -> None:
    assert told["in place"]


def test_behind_the_door_another_process_works_and_is_kept_for_the_next_plan(
    told: dict[str, Any],
) -> None:
    assert told["apart"]
    assert told["kept"]
    assert told["exact"]


def test_each_thread_has_a_process_to_itself(told: dict[str, Any]) -> None:
    assert told["threads"] == 4


def test_what_goes_wrong_there_is_told_here(told: dict[str, Any]) -> None:
    assert "of all things" in told["wrong"]
    assert told["late"].startswith("OutOfTime(")


def test_a_planner_that_crashes_takes_nobody_with_it(told: dict[str, Any]) -> None:
    assert told["crashed"].startswith("RuntimeError('the process apart has ended")
    assert told["after a crash"]


def test_one_that_has_grown_is_not_kept(told: dict[str, Any]) -> None:
    assert told["let go"] < 10


def test_one_that_looks_at_no_clock_is_left_at_the_deadline_and_ended_soon_after(
    told: dict[str, Any],
) -> None:
    assert told["stuck"].startswith("OutOfTime(")
    assert 0.4 < told["took"] < 5
    assert told["ended"] < 10


def test_a_door_that_is_opened_anew_shuts_the_old_one(told: dict[str, Any]) -> None:
    assert told["anew"]
    assert told["the old one"] < 10


@dataclass(frozen=True, slots=True)
class Held:
    """A value with one of each."""

    number: Fraction
    ratio: Ratio
    money: Decimal
    more: tuple["Held", ...] = ()


def sent(value: Any) -> Any:
    stream = io.BytesIO()
    put(stream, value)
    stream.seek(0)
    return take(stream)


def test_what_is_sent_arrives_alike_kind_for_kind() -> None:
    one = Held(Fraction(-22, 7), Ratio(3, 4), Decimal("1.10"))
    value = Held(Fraction(0), Ratio(12), Decimal(0), (one, one))
    found = sent(value)
    assert found == value
    assert type(found.more[0].number) is Fraction
    assert type(found.ratio) is Ratio
    assert str(found.more[1].money) == "1.10"
    assert found.more[0].number + found.ratio == Fraction(62, 7)


@pytest.mark.parametrize("seed", range(3))
def test_jobs_and_plans_arrive_alike(seed: int) -> None:
    job = hobby_job(seed)
    found: Job = sent(job)
    assert found == job
    plan = plan_boards(job, seconds=20)
    assert sent(plan) == plan
    assert plan_boards(found, seconds=20) == plan


def test_nothing_more_comes_is_said() -> None:
    with pytest.raises(EOFError):
        take(io.BytesIO())
