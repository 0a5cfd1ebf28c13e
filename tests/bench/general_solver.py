"""A general solver on cutting problems, in a process of its own: which board is each piece from?

Reads a JSON list of problems on standard input, each {"lengths", "demands", "supplies": [[capacity,
price, limit]], "boards": how many boards at most}; argument: seconds a case, then "ordered" for a
symmetry cut. Prints one line a problem: proven (0 or 1), cost, CPU seconds. The solver's package
and the planner's cannot share a process.
"""

import json
import sys
import time
from typing import Any

from ortools.sat.python import cp_model


def assigned(problem: dict[str, Any], seconds: float, ordered: bool) -> tuple[bool, int]:
    """(proven, cost) of a plain assignment model; `ordered`: boards by length."""
    model, boards, supplies = cp_model.CpModel(), problem["boards"], problem["supplies"]
    lengths, demands = problem["lengths"], problem["demands"]
    kind = [[model.NewBoolVar("") for _ in supplies] for _ in range(boards)]
    take = [[model.NewIntVar(0, d, "") for _ in range(boards)] for d in demands]
    rooms = [sum(s[0] * k for s, k in zip(supplies, row, strict=True)) for row in kind]
    for b in range(boards):
        model.AddAtMostOne(kind[b])
        model.Add(sum(n * take[i][b] for i, n in enumerate(lengths)) <= rooms[b])
    for row, demand in zip(take, demands, strict=True):
        model.Add(sum(row) >= demand)
    for k, (_, _, limit) in enumerate(supplies):
        if limit is not None:
            model.Add(sum(row[k] for row in kind) <= limit)
    if ordered:
        for b in range(boards - 1):
            model.Add(rooms[b] >= rooms[b + 1])
    model.Minimize(sum(s[1] * row[k] for row in kind for k, s in enumerate(supplies)))
    solver = cp_model.CpSolver()
    solver.parameters.max_time_in_seconds = seconds
    solver.parameters.num_workers = 1
    status = solver.Solve(model)
    known = status in {cp_model.OPTIMAL, cp_model.FEASIBLE}
    return status == cp_model.OPTIMAL, round(solver.ObjectiveValue()) if known else -1


if __name__ == "__main__":
    for case in json.load(sys.stdin):
        start = time.process_time()
        proven, cost = assigned(case, float(sys.argv[1]), "ordered" in sys.argv)
        print(int(proven), cost, time.process_time() - start, flush=True)
