"""Proofs that no purchase is cheaper: followed in whole numbers; spoiled ones are caught."""

from dataclasses import replace

import pytest

from service.planning.effort import Clock, Effort
from service.planning.filling import by_rules_of_thumb
from service.planning.problem import Problem, Supply, cost_of
from service.planning.proof import Box, Proof, check_proof
from service.planning.scaling import scaled
from service.planning.search import Outcome, solve
from tests.planning.jobs import hobby_job

SEEDS = range(120)


def solved(problem: Problem) -> Outcome:
    return solve(problem, Clock(20), Effort())


def hobby(seed: int) -> Problem:
    return scaled(hobby_job(seed)).problem


def test_proofs_of_hobby_jobs_are_followed_without_the_solver() -> None:
    followed = 0
    for seed in SEEDS:
        problem = hobby(seed)
        outcome = solved(problem)
        assert outcome.optimal and outcome.proof is not None and outcome.cost is not None
        followed += check_proof(problem, outcome.proof, outcome.cost)
    assert followed >= 0.99 * len(SEEDS)


def test_no_proof_holds_for_a_cent_more() -> None:
    for seed in SEEDS:
        problem = hobby(seed)
        outcome = solved(problem)
        assert outcome.proof is not None and outcome.cost is not None
        assert not check_proof(problem, outcome.proof, outcome.cost + 1)


def test_a_planner_that_calls_its_first_plan_the_best_is_caught() -> None:
    caught = 0
    for seed in SEEDS:
        problem = hobby(seed)
        outcome, thumb = solved(problem), by_rules_of_thumb(problem)
        assert outcome.proof is not None and outcome.cost is not None and thumb is not None
        cost = cost_of(problem, thumb)
        if cost > outcome.cost:
            caught += 1
            assert not check_proof(problem, outcome.proof, cost)
    assert caught > 20


@pytest.mark.parametrize("seed", range(12))
def test_a_proof_without_one_of_its_boxes_does_not_hold(seed: int) -> None:
    problem = hobby(seed)
    outcome = solved(problem)
    assert outcome.proof is not None and outcome.cost is not None
    boxes = outcome.proof.boxes
    needed = [
        place
        for place in range(len(boxes))
        if not check_proof(problem, Proof(boxes[:place] + boxes[place + 1 :]), outcome.cost)
    ]
    assert needed


@pytest.mark.parametrize("seed", range(12))
def test_worths_that_a_board_cannot_pay_for_are_found_out(seed: int) -> None:
    problem = hobby(seed)
    outcome = solved(problem)
    assert outcome.proof is not None and outcome.cost is not None
    dear = [replace(b, worth=tuple(4 * w for w in b.worth)) for b in outcome.proof.boxes]
    assert not check_proof(problem, Proof(tuple(dear)), 2 * outcome.cost)


def test_a_proof_of_another_job_does_not_hold() -> None:
    cheap = Problem((30,), (3,), (Supply(96, 800), Supply(60, 600)))
    dear = replace(cheap, supplies=(Supply(96, 900), Supply(60, 600)))
    outcome = solved(dear)
    assert outcome.proof is not None and outcome.cost == 900
    assert not check_proof(cheap, outcome.proof, 900)


def test_boxes_closed_by_trying_are_not_passed_off_as_worths() -> None:
    problem = hobby(0)
    outcome = solved(problem)
    assert outcome.proof is not None and outcome.cost is not None
    tried = replace(outcome.proof, searched=(Box((0,), (1,)),))
    assert not check_proof(problem, tried, outcome.cost)
