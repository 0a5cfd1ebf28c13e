"""Several sheets, one after the other: one is filled well, the others are decided for what is left.

What is left is fewer panels, so that the same number of pieces kept goes much further. Which
sheet is filled first, and with what, changes from attempt to attempt, by a seeded generator.
"""

from collections.abc import Iterator, Sequence
from typing import NamedTuple

import numpy as np

from service.planning.panels.deciding import Decision, Question, decide
from service.planning.panels.growing import Grown
from service.planning.panels.lots import Laid, Layout, Lot
from service.planning.panels.trees import tree_of
from service.planning.panels.work import Work

SAME_PIECES = 4
"""Attempts that share one list of grown pieces."""


class Steps(NamedTuple):
    """How to go about it: pieces kept of a level, attempts, sheets at last decided together."""

    most: int
    seed: int
    attempts: int
    together: int = 3


def decide_stepwise(
    lot: Lot, counts: Sequence[int], fills: Sequence[int], steps: Steps, work: Work
) -> Decision:
    """As `decide`, by attempts; never "no"."""
    question = Question(lot, counts, fills)
    if not question.packing.possible or question.spare < 0 or sum(counts) < 2:
        return Decision("open")
    for place, laid, rest in _firsts(question, steps, work):
        fewer = [n - (place == other) for other, n in enumerate(counts)]
        if sum(fewer) > steps.together:
            again = steps._replace(attempts=1, seed=steps.seed + 1)
            decision = decide_stepwise(rest, fewer, fills, again, work)
        else:
            decision = decide(rest, fewer, fills, most=steps.most, seed=steps.seed, work=work)
        if decision.answer == "yes":
            return Decision("yes", (*laid, *decision.layout))
    return Decision("open")


def _firsts(question: Question, steps: Steps, work: Work) -> Iterator[tuple[int, Layout, Lot]]:
    """A first sheet's stock, how it is cut, and what is left to cut from the others."""
    lot, counts = question.lot, question.counts
    chance = np.random.default_rng(steps.seed)
    largest = max((place for place, n in enumerate(counts) if n), key=lambda p: lot.stocks[p].area)
    grown: dict[bool, Grown | None] = {}
    for attempt in range(steps.attempts):
        if attempt % SAME_PIECES == 0:
            grown = {}
        place = largest
        if attempt:
            place = int(chance.choice([place for place, n in enumerate(counts) if n]))
        grained = lot.stocks[place].grained
        if grained not in grown:
            grown[grained] = question.grow(grained, steps.most, steps.seed + attempt, work)
        pieces = grown[grained]
        filling = question.filling(place, pieces) if pieces else None
        if pieces is None or filling is None or not len(filling.content):
            continue
        weights = [kind.area * (1 + 0.1 * chance.random()) for kind in lot.kinds]
        best = int(question.packing.weigh(filling.content, weights).argmax())
        taken = question.packing.unpack(int(filling.content[best]))
        rest = lot.wanting(tuple(n - m for n, m in zip(lot.counts, taken, strict=True)))
        yield place, _laid(lot, place, pieces, int(filling.piece[best])), rest


def _laid(lot: Lot, place: int, grown: Grown, piece: int) -> Layout:
    stock = lot.stocks[place]
    if piece < 0:
        return ()
    return (Laid(place, tree_of(grown, piece, stock.width, stock.height, lot.turns)),)
