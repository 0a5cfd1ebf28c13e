"""Whether given sheets yield every panel: a plan, a proof that they don't, or neither."""

from collections.abc import Iterator, Sequence
from itertools import accumulate
from typing import Literal, NamedTuple

import numpy as np

from service.planning.panels.growing import Frame, Grower, Grown, Pieces
from service.planning.panels.lots import Laid, Layout, Lot, Stock
from service.planning.panels.packing import Packing, Places
from service.planning.panels.trees import tree_of
from service.planning.panels.work import Work

MOST_REACHED = 400_000


class Decision(NamedTuple):
    """`yes` with a layout; `no`, proved; `open`: not found among the pieces that were kept."""

    answer: Literal["yes", "no", "open"]
    layout: Layout = ()


class Filling(NamedTuple):
    """What one sheet of a stock can hold: contents with their area, and the piece that does."""

    content: Places
    area: Places
    piece: Places


class _Stage(NamedTuple):
    """Contents of the sheets so far, which stage each comes from, and the last sheet's piece."""

    content: Places
    area: Places
    before: Places
    piece: Places


class Question:
    """Whether `counts` sheets of each stock yield the lot."""

    def __init__(self, lot: Lot, counts: Sequence[int], fills: Sequence[int]) -> None:
        self.lot, self.counts = lot, tuple(counts)
        self.packing = Packing(lot.counts)
        self.spare = sum(fill * n for fill, n in zip(fills, counts, strict=True)) - lot.area
        self.least = [fill - self.spare for fill in fills]

    def grow(self, grained: bool, most: int | None, seed: int, work: Work) -> Grown | None:
        """The pieces of the sheets with or without grain, at most `most` of a level."""
        frames = [
            Frame(stock.width, stock.height, self.least[place])
            for place, stock in enumerate(self.lot.stocks)
            if self.counts[place] and stock.grained == grained
        ]
        if not frames:
            return None
        areas = [kind.area for kind in self.lot.kinds]
        poses = self.lot.poses(grained)
        grower = Grower(poses, areas, self.packing, frames, self.lot.turns)
        return grower.grow(most, seed, work)

    def filling(self, place: int, grown: Grown) -> Filling:
        """The contents that a sheet can hold and must, each by one piece; empty where it may be."""
        stock, pieces = self.lot.stocks[place], grown.pieces
        fits = (pieces.width <= stock.width) & (pieces.height <= stock.height)
        fits &= pieces.area >= self.least[place]
        if self.lot.turns is not None:
            fits &= _turns(pieces, stock) <= self.lot.turns
        places = np.nonzero(fits)[0]
        content, first = np.unique(pieces.content[places], return_index=True)
        places = places[first]
        area = pieces.area[places]
        if self.least[place] <= 0:
            content, area, places = (
                np.concatenate(([none], column))
                for none, column in ((0, content), (0, area), (-1, places))
            )
        return Filling(content, area, places)


def _turns(pieces: Pieces, stock: Stock) -> Places:
    """Turns that cutting a piece out of a whole sheet takes."""
    across = np.where(pieces.axis == 0, pieces.height, pieces.width)
    room = np.where(pieces.axis == 0, stock.height, stock.width)
    lone = (pieces.width == stock.width) | (pieces.height == stock.height)
    tight = np.where(pieces.axis < 0, lone, across == room)
    return np.where(tight, pieces.turns, np.maximum(pieces.turns, 1))


def decide(
    lot: Lot, counts: Sequence[int], fills: Sequence[int],
    *, most: int | None, seed: int, work: Work,
) -> Decision:  # fmt: skip
    """Whether `counts` sheets of each stock yield the lot; `most` pieces of a level are kept.

    `fills` is the area of a sheet of each stock that panels can cover, at most.
    """
    question = Question(lot, counts, fills)
    if question.spare < 0:
        return Decision("no")
    if not question.packing.possible:
        return Decision("open")
    grown = {
        grained: pieces
        for grained in (True, False)
        if (pieces := question.grow(grained, most, seed, work)) is not None
    }
    order = sorted(
        (place for place, n in enumerate(counts) for _ in range(n)),
        key=lambda place: (-lot.stocks[place].area, place),
    )
    fillings = {
        place: question.filling(place, grown[lot.stocks[place].grained]) for place in set(order)
    }
    filled = accumulate(fills[place] for place in order)
    due = [area - question.spare for area in filled]
    stages, complete = _reach([fillings[place] for place in order], due, question.packing, work)
    if stages is None:
        sure = complete and all(one.complete for one in grown.values())
        return Decision("no" if sure else "open")
    return Decision("yes", tuple(_laid(lot, order, stages, grown)))


def _reach(
    fillings: Sequence[Filling], due: Sequence[int], packing: Packing, work: Work
) -> tuple[list[_Stage] | None, bool]:
    """Sheet by sheet, every content of the sheets so far, until all panels are cut.

    `due` is the area that the sheets so far must hold, so that the others can hold the rest.
    """
    zero = np.zeros(1, dtype=np.int64)
    stages, complete = [_Stage(zero, zero, zero, zero)], True
    for filling, least in zip(fillings[:-1], due[:-1], strict=True):
        stage = _next(stages[-1], filling, least, packing, work)
        if len(stage.content) > MOST_REACHED:
            complete = False
            stage = _fullest(stage, MOST_REACHED)
        stages.append(stage)
    last, before = fillings[-1], stages[-1]
    wanted = packing.full - before.content
    found = np.searchsorted(last.content, wanted)
    found = np.minimum(found, len(last.content) - 1)
    if not len(last.content):
        return None, complete
    hits = np.nonzero(last.content[found] == wanted)[0]
    if not len(hits):
        return None, complete
    hit = hits[int(np.argmax(before.area[hits]))]
    end = _Stage(*(np.array([value]) for value in (
        packing.full, 0, hit, last.piece[found[hit]])))  # fmt: skip
    return [*stages, end], complete


def _next(stage: _Stage, filling: Filling, due: int, packing: Packing, work: Work) -> _Stage:
    """The contents with one sheet more."""
    parts = [_Stage(*(column[:0] for column in stage))]
    step = max(1, (1 << 18) // max(1, len(filling.content)))
    for start in range(0, len(stage.content), step):
        content = stage.content[start : start + step, None]
        work.spend(content.shape[0] * len(filling.content))
        useful = stage.area[start : start + step, None] + filling.area >= due
        useful &= ~packing.clash(content, filling.content)
        i, j = np.nonzero(useful)
        both = content[i, 0] + filling.content[j]
        both, first = np.unique(both, return_index=True)
        i, j = i[first] + start, j[first]
        area = stage.area[i] + filling.area[j]
        parts.append(_Stage(both, area, i, filling.piece[j]))
    whole = _Stage(*(np.concatenate(columns) for columns in zip(*parts, strict=True)))
    _, first = np.unique(whole.content, return_index=True)
    return _Stage(*(column[first] for column in whole))


def _fullest(stage: _Stage, most: int) -> _Stage:
    keep = np.sort(np.argsort(-stage.area, kind="stable")[:most])
    return _Stage(*(column[keep] for column in stage))


def _laid(
    lot: Lot, order: Sequence[int], stages: Sequence[_Stage], grown: dict[bool, Grown]
) -> Iterator[Laid]:
    """The sheets of a chain of stages, last one first; empty sheets are left out."""
    at = 0
    for place, stage in zip(reversed(order), reversed(stages[1:]), strict=True):
        piece, at = int(stage.piece[at]), int(stage.before[at])
        stock = lot.stocks[place]
        if piece >= 0:
            root = tree_of(grown[stock.grained], piece, stock.width, stock.height, lot.turns)
            yield Laid(place, root)
