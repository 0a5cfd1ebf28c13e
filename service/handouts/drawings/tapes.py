"""Marks of a tape along an edge: figures that stand clear of each other, ticks to the edge."""

from collections.abc import Sequence
from dataclasses import replace
from typing import NamedTuple

from service.domain.drawing import HAIR, SMALL, Anchor, Path, Shape, Text, breadth
from service.handouts.drawings.pens import FIELD, MARGIN

TICK = 4.0
APART = 3.0


class Mark(NamedTuple):
    """A figure at a place along the edge."""

    x: float
    words: str


def tape_marks(marks: Sequence[Mark], edge: float, *, below: bool) -> tuple[list[Shape], float]:
    """The figures with their ticks, and how many points they stand off the edge.

    Level where they find room, else upright; a figure that would still stand on another is left
    to the marks in words.
    """
    if not marks:
        return [], 0.0
    ordered = sorted(dict.fromkeys(marks))
    level = _level(ordered, edge, below)
    if level is not None:
        return level, TICK + SMALL + 2
    return _upright(ordered, edge, below)


def moved(shape: Shape, down: float) -> Shape:
    """The same shape, so many points further down."""
    if isinstance(shape, Text):
        return replace(shape, at=(shape.at[0], shape.at[1] + down))
    if isinstance(shape, Path):
        return replace(shape, spots=tuple((x, y + down) for x, y in shape.spots))
    return replace(shape, center=(shape.center[0], shape.center[1] + down))


def _level(marks: Sequence[Mark], edge: float, below: bool) -> list[Shape] | None:
    drawn: list[Shape] = []
    free = 0.0
    for mark in marks:
        long = breadth(mark.words, SMALL)
        left = min(max(mark.x - long / 2, MARGIN), FIELD - MARGIN - long)
        if left < free:
            return None
        free = left + long + APART
        y = edge + TICK + SMALL if below else edge - TICK - 2
        drawn += [_tick(mark.x, edge, below), Text((left, y), mark.words, size=SMALL)]
    return drawn


def _upright(marks: Sequence[Mark], edge: float, below: bool) -> tuple[list[Shape], float]:
    drawn: list[Shape] = []
    free, far = 0.0, 0.0
    for mark in marks:
        x = min(mark.x + 0.35 * SMALL, FIELD - 0.3 * SMALL)
        if x - 0.8 * SMALL < free:
            continue
        free = x + 0.25 * SMALL
        far = max(far, breadth(mark.words, SMALL))
        y = edge + TICK + 1 if below else edge - TICK - 1
        anchor: Anchor = "end" if below else "start"
        drawn.append(_tick(mark.x, edge, below))
        drawn.append(Text((x, y), mark.words, anchor, SMALL, upright=True))
    return drawn, TICK + far + 3


def _tick(x: float, edge: float, below: bool) -> Path:
    return Path(((x, edge), (x, edge + (TICK if below else -TICK))), "tick", weight=HAIR)
