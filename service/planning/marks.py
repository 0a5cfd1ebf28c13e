"""The last resort for hard boards: one whole program over every mark where a cut may lie.

A board is a path from its left end to its right end; a step along it is an item or waste.
"""

from itertools import pairwise

from service.planning.lp import Program, solve_whole
from service.planning.problem import Column, Cut, Cuts, Pattern, Problem

MOST_STEPS = 30_000


def solve_by_marks(
    problem: Problem, nodes: int, seconds: float | None, ceiling: int | None
) -> tuple[Cuts | None, int]:
    """(the cheapest cuts found or None, a floor under the cost of every plan)."""
    capacity = max((s.capacity for s in problem.supplies if not s.single), default=0)
    steps = _steps(problem, capacity)
    if len(steps) > MOST_STEPS or any(s.single for s in problem.supplies):
        return None, 0
    answer = solve_whole(_program(problem, steps), nodes=nodes, seconds=seconds, first_only=False)
    if answer.status == "impossible":
        return None, 0 if ceiling is None else ceiling
    cuts = None if answer.amounts is None else _cuts(problem, steps, answer.amounts)
    floor = int(-(-(answer.floor - 1e-6) // 1)) if answer.floor > 0 else 0
    return cuts, floor


def _steps(problem: Problem, capacity: int) -> list[tuple[int, int, int]]:
    """(from, to, item): items longest first, so that no order is counted twice; -1 is waste."""
    marks = {0}
    found: list[tuple[int, int, int]] = []
    for item, length in enumerate(problem.lengths):
        current, seen = sorted(marks), set[int]()
        for _ in range(min(problem.demands[item], capacity // length)):
            current = [m for m in current if m + length <= capacity and m not in seen]
            seen.update(current)
            found.extend((m, m + length, item) for m in current)
            current = [m + length for m in current]
            marks.update(current)
    ends = sorted(marks | {supply.capacity for supply in problem.supplies})
    found.extend((a, b, -1) for a, b in pairwise(ends))
    return found


def _program(problem: Problem, steps: list[tuple[int, int, int]]) -> Program:
    marks = sorted({mark for a, b, _ in steps for mark in (a, b)})
    row = {mark: place for place, mark in enumerate(marks)}
    pieces = float(problem.pieces)
    entries: list[list[tuple[int, float]]] = []
    most: list[float] = []
    for a, b, item in steps:
        entry = [(row[a], -1.0), (row[b], 1.0)]
        if item >= 0:
            entry.append((len(marks) + item, 1.0))
        entries.append(entry)
        most.append(float(problem.demands[item]) if item >= 0 else pieces)
    for supply in problem.supplies:
        entries.append([(row[supply.capacity], -1.0), (row[0], 1.0)])
        most.append(pieces if supply.limit is None else float(supply.limit))
    zeros = [0.0] * len(marks)
    return Program(
        costs=[0.0] * len(steps) + [float(s.price) for s in problem.supplies],
        most=most,
        entries=entries,
        row_low=[*zeros, *map(float, problem.demands)],
        row_high=[*zeros, *[float("inf")] * len(problem.demands)],
    )


def _cuts(problem: Problem, steps: list[tuple[int, int, int]], amounts: list[int]) -> Cuts:
    """The flow taken apart into boards, each from its right end back to the left."""
    into: dict[int, list[list[int]]] = {}
    for (a, b, item), amount in zip(steps, amounts, strict=False):
        if amount:
            into.setdefault(b, []).append([amount, a, item])
    boards = amounts[len(steps) :]
    counts: dict[Column, int] = {}
    for k, supply in enumerate(problem.supplies):
        for _ in range(boards[k]):
            column = Column(k, _path(into, supply.capacity))
            counts[column] = counts.get(column, 0) + 1
    return tuple(Cut(*column, times) for column, times in counts.items() if column.pattern)


def _path(into: dict[int, list[list[int]]], at: int) -> Pattern:
    counts: dict[int, int] = {}
    while at:
        step = next(step for step in into[at] if step[0])
        step[0] -= 1
        at = step[1]
        if step[2] >= 0:
            counts[step[2]] = counts.get(step[2], 0) + 1
    return tuple(sorted(counts.items()))
