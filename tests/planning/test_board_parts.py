"""The planner's own tools, one by one, against plain enumeration."""

import subprocess
import sys
from itertools import product
from pathlib import Path
from random import Random

import pytest

from service.planning.completing import Completion
from service.planning.filling import by_rules_of_thumb
from service.planning.knapsack import Knapsack
from service.planning.listing import near_best
from service.planning.marks import solve_by_marks
from service.planning.problem import Cut, Problem, Supply, cost_of, serves
from service.planning.sums import Totals

PROJECT = Path(__file__).resolve().parents[2]


def drawn(seed: int) -> Problem:
    r = Random(seed)
    lengths = tuple(sorted(r.sample(range(3, 25), r.randint(2, 4)), reverse=True))
    demands = tuple(r.randint(1, 3) for _ in lengths)
    supplies = tuple(Supply(r.randint(25, 50), r.randint(5, 30)) for _ in range(2))
    return Problem(lengths, demands, supplies)


def all_patterns(problem: Problem, capacity: int) -> list[tuple[int, ...]]:
    counts = product(*(range(demand + 1) for demand in problem.demands))
    return [
        own for own in counts
        if sum(a * b for a, b in zip(own, problem.lengths, strict=True)) <= capacity
    ]  # fmt: skip


@pytest.mark.parametrize("seed", range(40))
def test_no_pattern_is_worth_more_than_the_knapsack_says(seed: int) -> None:
    problem, r = drawn(seed), Random(seed)
    worth = [r.randint(0, 50) for _ in problem.lengths]
    knapsack = Knapsack(problem.lengths, problem.demands, 50)
    knapsack.solve(worth)
    for capacity in range(0, 51, 7):
        options = all_patterns(problem, capacity)
        best = max(sum(a * b for a, b in zip(own, worth, strict=True)) for own in options)
        pattern = knapsack.pattern(capacity)
        assert knapsack.value(capacity) == best == sum(worth[i] * n for i, n in pattern)
        assert sum(problem.lengths[i] * n for i, n in pattern) <= capacity


@pytest.mark.parametrize("seed", range(40))
def test_the_list_holds_every_full_pattern_near_the_best(seed: int) -> None:
    problem, r = drawn(seed), Random(seed)
    worth = [r.randint(1, 50) for _ in problem.lengths]
    knapsack = Knapsack(problem.lengths, problem.demands, 50)
    knapsack.solve(worth)
    values = [knapsack.value(supply.capacity) for supply in problem.supplies]
    gap = r.randint(0, 40)
    listed = near_best(problem, worth, values, gap, most=10**6, steps=10**9)
    assert listed is not None
    for place, supply in enumerate(problem.supplies):
        options = all_patterns(problem, supply.capacity)
        full = {
            tuple((i, n) for i, n in enumerate(own) if n)
            for own in options
            if sum(a * b for a, b in zip(own, worth, strict=True)) >= values[place] - gap
            and not any(
                tuple(n + (i == j) for j, n in enumerate(own)) in options for i in range(len(own))
            )
        }
        assert {column.pattern for column in listed if column.supply == place} == full


@pytest.mark.parametrize("seed", range(40))
def test_boards_that_hold_all_are_told_from_boards_that_do_not(seed: int) -> None:
    problem = drawn(seed)
    completion = Completion(problem)
    dearest = max(supply.price for supply in problem.supplies)
    for counts in product(range(4), repeat=2):
        supplies = tuple(
            Supply(supply.capacity, 1, limit)
            for supply, limit in zip(problem.supplies, counts, strict=True)
        )
        limited = Problem(problem.lengths, problem.demands, supplies)
        cuts, floor = solve_by_marks(limited, 10_000, None, dearest)
        packing = completion.pack(counts, 10**6)
        assert packing.status == ("none" if cuts is None else "found")
        assert packing.status == "none" or serves(limited, packing.cuts)
        assert floor >= 0


def test_rules_of_thumb_give_whole_plans() -> None:
    for seed in range(60):
        problem = drawn(seed)
        cuts = by_rules_of_thumb(problem)
        assert cuts is not None and serves(problem, cuts) and cost_of(problem, cuts) > 0


@pytest.mark.parametrize("prices", [(6, 10), (7,), (4, 6), (5, 9, 12), (0, 3)])
def test_a_bound_rises_to_the_next_total_that_boards_can_have(prices: tuple[int, ...]) -> None:
    counts = product(*(range(30) for price in prices if price))
    own = [price for price in prices if price]
    sums = sorted({sum(a * b for a, b in zip(count, own, strict=True)) for count in counts})
    totals = Totals(prices, 60)
    for bound in range(41):
        assert totals.at_least(bound) == next(total for total in sums if total >= bound)


def test_cuts_that_overfill_a_board_or_leave_a_piece_do_not_serve() -> None:
    problem = Problem((20, 10), (1, 2), (Supply(30, 5, 2),))
    both, small, long = ((0, 1), (1, 1)), ((1, 1),), ((0, 1),)
    assert serves(problem, (Cut(0, both, 1), Cut(0, small, 1)))
    assert not serves(problem, (Cut(0, ((0, 1), (1, 2)), 1),))
    assert not serves(problem, (Cut(0, both, 1),))
    assert not serves(problem, (Cut(0, long, 1), Cut(0, small, 2)))


def test_only_one_module_of_boards_knows_the_solver() -> None:
    users = [
        path.name
        for path in sorted((PROJECT / "service" / "planning").glob("*.py"))
        if "import highspy" in path.read_text(encoding="utf-8")
    ]
    assert users == ["lp.py"]


def test_nothing_is_printed_while_a_plan_is_made() -> None:
    script = (
        "from service.planning.boards import plan_boards\n"
        "from tests.planning.jobs import hobby_job, hard_job\n"
        "plan_boards(hobby_job(3)); plan_boards(hard_job(1, 40), seconds=2)\n"
    )
    run = subprocess.run(
        [sys.executable, "-c", script], cwd=PROJECT, capture_output=True, check=True
    )
    assert run.stdout == run.stderr == b""
