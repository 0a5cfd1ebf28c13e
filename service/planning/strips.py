"""Settling a purchase of boards that are ripped: strips are chosen, and the ways that give them.

What a strip falls short of the best strip of its width counts toward what its board falls short
of the best board, so the same gap tells which strip patterns can matter (`listing`).
"""

from collections import defaultdict
from collections.abc import Sequence
from typing import NamedTuple

from service.planning.completing import Packing
from service.planning.listing import near_best
from service.planning.lp import Program, solve_whole
from service.planning.pricing import RippedPricing
from service.planning.problem import Cut, Pattern, Problem, Supply


class Strip(NamedTuple):
    """A pattern cut from a strip of one width class of one supply's boards."""

    supply: int
    width: int
    pattern: Pattern


def strips_near_best(
    problem: Problem, worth: Sequence[int], pricing: RippedPricing, gap: int,
    *, most: int, steps: int,
) -> list[Strip] | None:  # fmt: skip
    """All full strip patterns that fall short by no more than the gap; None if too many."""
    pricing.values(worth)
    found: list[Strip] = []
    for k, supply in enumerate(problem.supplies):
        for width in sorted({width for way in supply.ways for width in way}):
            items = [i for i, own in enumerate(problem.widths) if own <= width]
            part = Problem(
                tuple(problem.lengths[i] for i in items),
                tuple(problem.demands[i] for i in items),
                (Supply(supply.capacity, 0),),
            )
            value = pricing.strip_value(width, supply.capacity)
            own = [worth[i] for i in items]
            columns = near_best(part, own, [value], gap, most=most, steps=steps)
            if columns is None or len(found) > most:
                return None
            found.extend(
                Strip(k, width, tuple((items[i], n) for i, n in column.pattern))
                for column in columns
            )
    return found


def choose_strips(
    problem: Problem, strips: Sequence[Strip], counts: Sequence[int],
    *, nodes: int, seconds: float | None,
) -> Packing:  # fmt: skip
    """Strips that yield all items, from at most `counts` boards; "none" for these strips only."""
    ways = [(k, way) for k, supply in enumerate(problem.supplies) for way in supply.ways]
    singles = [k for k, supply in enumerate(problem.supplies) if supply.single]
    program = _program(problem, strips, ways, singles, counts)
    answer = solve_whole(program, nodes=nodes, seconds=seconds, first_only=True)
    if answer.amounts is None:
        return Packing("none" if answer.status == "impossible" else "open")
    return Packing("found", _boards(problem, strips, ways, singles, answer.amounts))


def _program(
    problem: Problem, strips: Sequence[Strip], ways: Sequence[tuple[int, tuple[int, ...]]],
    singles: Sequence[int], counts: Sequence[int],
) -> Program:  # fmt: skip
    items, pieces = len(problem.lengths), float(problem.pieces)
    rows = {key: items + n for n, key in enumerate(sorted({strip[:2] for strip in strips}))}
    limit = {k: items + len(rows) + k for k in range(len(problem.supplies))}
    entries = [
        [*((item, float(n)) for item, n in pattern), (rows[supply, width], 1.0)]
        for supply, width, pattern in strips
    ]
    for k, way in ways:
        given = [(rows[k, w], -float(way.count(w))) for w in sorted(set(way)) if (k, w) in rows]
        entries.append([*given, (limit[k], 1.0)])
    entries += [[(item, 1.0), (limit[k], 1.0)] for k in singles for item in range(items)]
    inf = float("inf")
    low = [*map(float, problem.demands), *[-inf] * (len(rows) + len(limit))]
    high = [*[inf] * items, *[0.0] * len(rows), *map(float, counts)]
    return Program([0.0] * len(entries), [pieces] * len(entries), entries, low, high)


def _boards(
    problem: Problem, strips: Sequence[Strip], ways: Sequence[tuple[int, tuple[int, ...]]],
    singles: Sequence[int], amounts: Sequence[int],
) -> tuple[Cut, ...]:  # fmt: skip
    """Strips put together to boards, in the order given."""
    ready: dict[tuple[int, int], list[Pattern]] = defaultdict(list)
    for strip, amount in zip(strips, amounts, strict=False):
        ready[strip[:2]].extend([strip.pattern] * amount)
    cuts = []
    for (k, way), amount in zip(ways, amounts[len(strips) :], strict=False):
        for _ in range(amount):
            counts: dict[int, int] = defaultdict(int)
            for width in way:
                for item, count in ready[k, width].pop() if ready[k, width] else ():
                    counts[item] += count
            if counts:
                cuts.append(Cut(k, tuple(sorted(counts.items())), 1))
    alone = amounts[len(strips) + len(ways) :]
    places = [(k, item) for k in singles for item in range(len(problem.lengths))]
    cuts += [Cut(k, ((i, 1),), n) for (k, i), n in zip(places, alone, strict=True) if n]
    return tuple(cuts)
