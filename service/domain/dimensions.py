"""Lines of sizes on a drawing: their arrows, their order beside the wood, which side is free."""

from collections.abc import Iterable, Iterator, Sequence
from math import hypot
from typing import NamedTuple

from service.domain.drawing import HAIR, SMALL, Path, Shape, Spot, Text, breadth

ARROW, THICK, TAIL = 5.0, 1.8, 9.0
NARROW = 14.0
"""Points: in a shorter line the arrows stand outside and point inward."""


ROOM = 356.0
"""Points to which words may stand beside a short line."""

STEP = 17.0
"""Points from one line of sizes to the next, and from the wood to the first."""


class Level(NamedTuple):
    """A size along one side of a drawing: from, to, its words and how wide they are, points.

    `ends` are the two spots on the wood that it is measured between; `middle` is where the words
    stand: between the arrows, or beside them where they are too close together.
    """

    low: float
    high: float
    words: str
    wide: float
    ends: tuple[Spot, Spot]
    middle: float

    @property
    def taken(self) -> tuple[float, float]:
        """What it takes of its row: its line and its words."""
        half = self.wide / 2
        return min(self.low, self.middle - half), max(self.high, self.middle + half)


def stacked(levels: Iterable[Level]) -> list[list[Level]]:
    """Rows, the nearest first, the shortest sizes in it: none stands on another of its row."""
    rows: list[list[Level]] = []
    for one in sorted(levels, key=lambda level: (level.high - level.low, level.low)):
        low, high = one.taken
        row = next((row for row in rows if all(high + 4 < o.taken[0] or o.taken[1] + 4 < low
                                               for o in row)), None)  # fmt: skip
        if row is None:
            rows.append([one])
        else:
            row.append(one)
    return rows


def level(ends: tuple[Spot, Spot], words: str, *, upright: bool = False) -> Level:
    """A size between two spots on paper, along the page or, `upright`, up it."""
    low, high = sorted(end[1 if upright else 0] for end in ends)
    wide, middle = breadth(words, SMALL), (low + high) / 2
    if not upright and high - low < wide + 4:
        off = wide / 2 + (TAIL if high - low < NARROW else 0) + 3
        middle = high + off if high + off + wide / 2 < ROOM else low - off
    return Level(low, high, words, wide, ends, middle)


def beside(one: Level, at: float, away: int, room: float, *, upright: bool = False,
           of: str = "") -> Iterator[Shape]:  # fmt: skip
    """A size beside the wood, its line at `at`: thin lines lead to what it measures.

    `away` is 1 to the right of the wood or below it, else -1; `room` is how far words may reach.
    """

    def turned(along: float, across: float) -> Spot:
        return (across, along) if upright else (along, across)

    yield from arrows(turned(one.low, at), turned(one.high, at), of)
    for x, y in one.ends:
        along, across = (y, x) if upright else (x, y)
        spots = turned(along, across + away * 3), turned(along, at + away * 3)
        yield Path(spots, "extension", weight=HAIR)
    half = one.wide / 2
    middle = min(max(one.middle, half + 2), room - half)
    inside = one.low <= one.middle <= one.high
    off = (-3.5 if away < 0 else 10.5) if inside else 3.5
    yield Text(turned(middle, at + off), one.words, "middle", SMALL, upright=upright, strong=True)


def arrows(first: Spot, second: Spot, of: str = "") -> Iterator[Path]:
    """A line with an arrow at each end; where it is short, the arrows stand outside."""
    long = hypot(second[0] - first[0], second[1] - first[1])
    if not long:
        return
    along = (second[0] - first[0]) / long, (second[1] - first[1]) / long
    inward = 1 if long >= NARROW else -1
    yield Path((first, second), "size", of, weight=HAIR)
    for end, way in ((first, -1), (second, 1)) if inward < 0 else ():
        yield Path((end, _moved(end, along, way * TAIL)), "tail", weight=HAIR)
    for tip, way in ((first, inward), (second, -inward)):
        back = _moved(tip, along, ARROW * way)
        aside = along[1] * THICK, -along[0] * THICK
        head = (tip, (back[0] + aside[0], back[1] + aside[1]),
                (back[0] - aside[0], back[1] - aside[1]))  # fmt: skip
        yield Path(head, "arrow", closed=True, filled=True)


def _moved(spot: Spot, along: Spot, by: float) -> Spot:
    return spot[0] + along[0] * by, spot[1] + along[1] * by


def outside_of(
    span: tuple[Spot, Spot], outlines: Sequence[Sequence[Spot]]
) -> tuple[tuple[float, Spot], float]:
    """How far from a line the wood reaches on its freer side, in inches, and which way that is.

    Only what lies beside the line counts. The second number is the reach on the other side.
    """
    (x, y), (a, b) = span
    long = hypot(a - x, b - y)
    along = (a - x) / long, (b - y) / long
    across = -along[1], along[0]
    reach = {1: 0.0, -1: 0.0}
    for spot in (spot for outline in outlines for spot in outline):
        beside = (spot[0] - x) * along[0] + (spot[1] - y) * along[1]
        if -0.02 * long <= beside <= 1.02 * long:
            off = (spot[0] - x) * across[0] + (spot[1] - y) * across[1]
            reach[1], reach[-1] = max(reach[1], off), max(reach[-1], -off)
    way = 1 if reach[1] < reach[-1] else -1
    return (reach[way], (across[0] * way, across[1] * way)), reach[-way]
