"""Costs of middling jobs against a general solver that is given every full pattern."""

from collections.abc import Iterator
from fractions import Fraction

import numpy as np
import pytest
from scipy.optimize import Bounds, LinearConstraint, milp

from service.planning.boards import plan_boards
from service.planning.job import Job, Part
from tests.planning.independent import check_plan
from tests.planning.jobs import hobby_job


def patterns(job: Job, room: Fraction, at: int = 0) -> Iterator[tuple[int, ...]]:
    """All numbers of the parts from one on that fit a usable length and a kerf."""
    if at == len(job.parts):
        yield ()
        return
    need = job.parts[at].length + job.kerf
    for count in range(min(job.parts[at].quantity, int(room // need)) + 1):
        for rest in patterns(job, room - count * need, at + 1):
            yield (count, *rest)


def least_cost(job: Job) -> float:
    """The optimum of the choice among all patterns."""
    columns, prices, kinds = [], [], []
    boards = [(b.length, float(b.price), None) for b in job.for_sale]
    boards += [(own.length, 0.0, own.quantity) for own in job.on_hand]
    for kind, (length, price, _) in enumerate(boards):
        for pattern in patterns(job, length - 2 * job.end_trim + job.kerf):
            columns.append(pattern)
            prices.append(price)
            kinds.append(kind)
    wanted = [part.quantity for part in job.parts]
    enough = LinearConstraint(np.array(columns).T, lb=wanted)
    limits = [limit if limit is not None else np.inf for _, _, limit in boards]
    rows = np.array([[kind == k for kind in kinds] for k in range(len(boards))], dtype=float)
    answer = milp(prices, constraints=[enough, LinearConstraint(rows, ub=limits)],
                  integrality=np.ones(len(prices)), bounds=Bounds(0, np.inf),
                  options={"mip_rel_gap": 0})  # fmt: skip
    assert answer.status == 0
    return float(answer.fun)


@pytest.mark.parametrize("seed", range(24))
def test_the_cost_is_the_general_solvers(seed: int) -> None:
    drawn = hobby_job(seed)
    parts = sorted(drawn.parts, key=lambda part: -part.length)[:4]
    few = tuple(Part(part.id, max(part.length, Fraction(14)), min(part.quantity, 5))
                for part in parts)  # fmt: skip
    job = Job(few, drawn.for_sale, drawn.on_hand, drawn.kerf, drawn.end_trim)
    plan = plan_boards(job)
    check_plan(job, plan)
    assert float(plan.cost) == pytest.approx(least_cost(job), abs=1e-6)
