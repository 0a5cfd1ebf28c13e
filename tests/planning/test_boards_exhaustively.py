"""Plans for boards against an exhaustive search, on thousands of tiny jobs."""

import pytest

from service.planning.boards import plan_boards
from tests.planning.independent import best_by_trying_all, check_plan, longest_rest
from tests.planning.jobs import tiny_job

CASES, LOTS = 2400, 12


@pytest.mark.parametrize("lot", range(LOTS))
def test_trying_all_finds_nothing_better_by_any_goal(lot: int) -> None:
    for seed in range(lot, CASES, LOTS):
        job = tiny_job(seed)
        plan = plan_boards(job)
        check_plan(job, plan)
        left_out = sum(part.quantity for part in plan.unplaced)
        bought = sum(row.count for row in plan.buy)
        found = left_out, plan.cost, bought, longest_rest(job, plan)
        assert found == best_by_trying_all(job), (seed, job, plan)
        assert plan.status == "optimal" and plan.bound == plan.cost
