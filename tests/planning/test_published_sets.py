"""Published cases of one length, read from the folder that DRYFIT_BENCHMARKS names."""

import csv
import os
from collections import Counter
from pathlib import Path

import pytest

from service.planning.effort import Clock, Effort
from service.planning.problem import Problem, Supply
from service.planning.search import solve

NAMED = os.environ.get("DRYFIT_BENCHMARKS", "")
FOLDER = Path(NAMED) / "1d"
pytestmark = pytest.mark.skipif(
    not NAMED or not FOLDER.is_dir(),
    reason="DRYFIT_BENCHMARKS names no folder with the published sets: nothing was compared",
)


def cases(name: str, every: int) -> list[tuple[str, Problem]]:
    """Every so manieth case of a set."""
    lines = (FOLDER / f"{name}.txt").read_text(encoding="utf-8").splitlines()
    found = []
    for at in range(1, 2 * int(lines[0]), 2 * every):
        case, capacity, _, _ = lines[at].split()
        counts = Counter(map(int, lines[at + 1].split()))
        lengths = tuple(sorted(counts, reverse=True))
        demands = tuple(counts[length] for length in lengths)
        found.append((case, Problem(lengths, demands, (Supply(int(capacity), 1),))))
    return found


@pytest.mark.parametrize(
    ("name", "every"),
    [("falkenauer_u", 8), ("falkenauer_t", 16), ("schwerin1", 10), ("schwerin2", 10),
     ("waescher", 2), ("scholl1", 40), ("scholl2", 60)],
)  # fmt: skip
def test_known_optima_are_reached_and_proved(name: str, every: int) -> None:
    with (FOLDER / "optima.csv").open(encoding="utf-8") as file:
        known = [row for row in csv.reader(file) if row[0] == name][::every]
    for (case, problem), row in zip(cases(name, every), known, strict=True):
        assert row[1] == case  # in the same order: some names come twice
        outcome = solve(problem, Clock(20), Effort())
        assert row[4] != "proven" or (outcome.optimal and outcome.cost == int(row[3])), case
