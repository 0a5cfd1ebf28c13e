"""Hard jobs and short deadlines: a good plan with its bound, in time, while others go on."""

import itertools
import threading
import time

import pytest

from service.planning.boards import plan_boards
from service.planning.effort import Effort
from tests.planning.independent import check_plan
from tests.planning.jobs import hard_job, hobby_job

SLACK = 0.25  # seconds of work that a short deadline may be overrun by


@pytest.mark.parametrize("pieces", [60, 200, 600])
@pytest.mark.parametrize("seconds", [0.3, 1.5])
def test_a_hard_job_is_answered_by_its_deadline(pieces: int, seconds: float) -> None:
    job = hard_job(pieces, pieces)
    start = time.process_time()  # tests run side by side: their waiting is not our work
    plan = plan_boards(job, seconds=seconds)
    assert time.process_time() - start <= 1.1 * seconds + SLACK
    check_plan(job, plan)
    assert plan.unplaced == () and 0 <= plan.bound <= plan.cost


def test_the_answer_says_when_the_deadline_ended_the_search() -> None:
    plan = plan_boards(hard_job(3, 300), seconds=0.2)
    assert plan.deadline_met and plan.status == "feasible" and plan.gap_percent > 0


def test_with_no_time_at_all_there_is_still_a_plan() -> None:
    job = hobby_job(5)
    plan = plan_boards(job, seconds=0)
    check_plan(job, plan)
    assert plan.unplaced == () and plan.deadline_met


def test_counted_work_ends_a_search_before_the_deadline_does() -> None:
    short = Effort(nodes=1, patience=0, leaf_steps=1, leaf_nodes=(1, 1), listed=1,
                   listing_steps=1, flow_nodes=1)  # fmt: skip
    jobs = [hobby_job(seed) for seed in range(20)]
    plans = [plan_boards(job, effort=short) for job in jobs]
    assert not any(plan.deadline_met for plan in plans)
    assert any(plan.status == "feasible" for plan in plans)
    for job, plan in zip(jobs, plans, strict=True):
        check_plan(job, plan)
        assert plan.bound <= plan_boards(job).cost <= plan.cost


def test_other_threads_run_while_a_plan_is_made() -> None:
    beats: list[float] = []
    done = threading.Event()

    def beat() -> None:
        while not done.is_set():
            beats.append(time.monotonic())
            time.sleep(0.005)

    ticker = threading.Thread(target=beat)
    ticker.start()
    plan_boards(hard_job(11, 150), seconds=1.5)
    done.set()
    ticker.join()
    longest = max(b - a for a, b in itertools.pairwise(beats))
    assert len(beats) > 50 and longest < 0.5
