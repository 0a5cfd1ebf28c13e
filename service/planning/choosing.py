"""Whole numbers of listed patterns that cover the demand within given numbers of boards."""

from collections.abc import Sequence

from service.planning.completing import Packing
from service.planning.lp import Program, solve_whole
from service.planning.problem import Column, Cut, Problem


def choose(
    problem: Problem,
    columns: Sequence[Column],
    counts: Sequence[int],
    *,
    nodes: int,
    seconds: float | None,
) -> Packing:
    """Columns, each a whole number of times, from at most `counts` boards of each supply.

    "none" says only that these columns don't do it.
    """
    items = len(problem.lengths)
    entries, most = [], []
    for supply, pattern in columns:
        often = max(-(-problem.demands[item] // count) for item, count in pattern)
        most.append(float(min(often, counts[supply])))
        entry = [(item, float(count)) for item, count in pattern]
        entries.append([*entry, (items + supply, 1.0)])
    program = Program(
        costs=[0.0] * len(columns),
        most=most,
        entries=entries,
        row_low=[*map(float, problem.demands), *[-float("inf")] * len(counts)],
        row_high=[*[float("inf")] * items, *map(float, counts)],
    )
    answer = solve_whole(program, nodes=nodes, seconds=seconds, first_only=True)
    if answer.amounts is not None:
        cuts = tuple(
            Cut(*column, amount)
            for column, amount in zip(columns, answer.amounts, strict=True)
            if amount
        )
        return Packing("found", cuts)
    return Packing("none" if answer.status == "impossible" else "open")
