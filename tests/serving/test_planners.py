"""Who plans in the service as it is served: not its workers, whose memory stays small."""

import json
import time
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from flask.testing import FlaskClient

from tests.door.conftest import Asking
from tests.serving import processes
from tests.serving.adversaries import boards, panels
from tests.serving.live import PATIENCE, Live

MOST = 90.0  # megabytes resident in a worker
BUILDS = {"boards": boards(12, 3, 4), "slanted": boards(6, 2, 3, slant=1), "panels": panels(6, 2)}


@pytest.fixture
def live() -> Iterator[Live]:
    with Live(DRYFIT_WORKERS="1", MALLOC_ARENA_MAX="1") as live:
        yield live


def plan(live: Live, build: Any) -> Any:
    status, _, content = live.ask("/v1/cut-plan?deadline_s=20", json.dumps(build).encode())
    assert status == 200, content
    return json.loads(content)


def wait_until_gone(pids: list[int]) -> None:
    until = time.monotonic() + PATIENCE
    while left := [pid for pid in pids if processes.name(pid) == processes.PLANNER]:
        assert time.monotonic() < until, f"{left} are still there"
        time.sleep(0.02)


def libraries(pid: int) -> str:
    """What is mapped into a process."""
    return Path(f"/proc/{pid}/maps").read_text()


def test_plans_are_those_of_one_process_and_no_worker_grows_with_them(
    live: Live, asking: Asking
) -> None:
    here: FlaskClient = asking()
    for build in BUILDS.values():
        expected = here.post("/v1/cut-plan?deadline_s=20", json=build).get_json()
        assert plan(live, build) == expected
    (worker,) = live.workers
    assert "highspy" not in libraries(worker)
    assert any("highspy" in libraries(planner) for planner in live.planners)
    assert processes.resident(worker) <= MOST


def test_without_planners_a_worker_plans_itself(live: Live) -> None:
    expected = plan(live, BUILDS["boards"])
    for pid in live.planners:
        processes.kill(pid)
    wait_until_gone(live.planners)
    assert plan(live, BUILDS["boards"]) == expected


def test_a_reload_takes_new_planners_and_the_old_ones_end(live: Live) -> None:
    plan(live, BUILDS["boards"])
    old, worker = live.planners, live.workers
    live.reload()
    wait_until_gone(old)
    assert live.workers != worker
    plan(live, BUILDS["panels"])
    assert len(live.planners) == 2


def test_no_planner_outlives_the_service() -> None:
    with Live(DRYFIT_WORKERS="2") as live:
        plan(live, BUILDS["boards"])
        planners = live.planners
    assert len(planners) == 2
    wait_until_gone(planners)
    with Live(DRYFIT_WORKERS="1") as live:
        plan(live, BUILDS["boards"])
        planners = live.planners
        processes.kill(live.process.pid)
        wait_until_gone(planners)
