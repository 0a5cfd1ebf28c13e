"""Growing pieces from panels: every way to join two pieces along an edge, wasting little.

A piece is a rectangle that edge-to-edge cuts divide into panels and a little waste. Pieces of n
panels come from joining smaller ones side by side or one above the other. Of pieces with the
same panels only those count that no other undercuts in both sizes. Where nothing had to be
dropped, the list is complete: what is not in it can't be cut.
After Wang 1983 (joining under a bound on waste), from memory.
"""

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from service.planning.panels.lots import Pose
from service.planning.panels.packing import Flags, Packing, Places
from service.planning.panels.work import Work

BLOCK = 1 << 15
FAR = 1 << 40

PAIRS_A_BLOCK = 5000
"""Counted work of a block of pairs, however small."""


class Frame(NamedTuple):
    """A sheet that pieces must fit, and the least area of panels that it has to hold."""

    width: int
    height: int
    least: int


class Pieces(NamedTuple):
    """Pieces side by side in arrays: sizes, panels (packed) and their area, turns, how joined.

    `one` and `two` are places among all pieces; -1 for a panel, which `pose` names. `axis` 0
    joins side by side along the width, 1 one above the other. `turns` is what dividing the piece
    takes when the first cuts part `one` from `two`.
    """

    width: Places
    height: Places
    content: Places
    area: Places
    turns: Places
    one: Places
    two: Places
    axis: Places

    def take(self, places: NDArray[np.intp] | Flags) -> "Pieces":
        """The pieces at some places."""
        return Pieces(*(column[places] for column in self))

    @property
    def many(self) -> int:
        """How many pieces."""
        return int(self.width.shape[0])


class Grown(NamedTuple):
    """All pieces grown, panels first; `complete` when none had to be dropped."""

    pieces: Pieces
    poses: Sequence[Pose]
    complete: bool


class Grower:
    """Grows pieces level by level: the level is the number of panels in a piece."""

    def __init__(
        self, poses: Sequence[Pose], areas: Sequence[int], packing: Packing,
        frames: Sequence[Frame], turns: int | None,
    ) -> None:  # fmt: skip
        self._packing = packing
        self._frames = frames
        self._turns = turns
        self._wide = max(frame.width for frame in frames)
        self._high = max(frame.height for frame in frames)
        self._slack = max(frame.width * frame.height - frame.least for frame in frames)
        self.poses = [
            pose
            for pose in poses
            if packing.counts[pose.kind]
            and any(pose.width <= f.width and pose.height <= f.height for f in frames)
        ]
        self._areas = areas

    def grow(self, most: int | None, seed: int, work: Work) -> Grown:
        """Pieces of every level, at most `most` of each, the least wasteful kept."""
        chance = np.random.default_rng(seed)
        levels, starts = [self._panels()], [0, len(self.poses)]
        complete = True
        for level in range(2, sum(self._packing.counts) + 1):
            found = []
            for low in range(1, level // 2 + 1):
                pair = (levels[low - 1], levels[level - low - 1])
                offsets = (starts[low - 1], starts[level - low - 1])
                found += self._join(*pair, offsets, work)
            pieces = _least(_joined(found), self._turns is not None)
            if most is not None and pieces.many > most:
                complete = False
                pieces = _thriftiest(pieces, most, chance)
            levels.append(pieces)
            starts.append(starts[-1] + pieces.many)
            if not any(piece.many for piece in levels[level // 2 :]):
                break
        return Grown(_joined(levels), self.poses, complete)

    def _panels(self) -> Pieces:
        many = len(self.poses)
        none, zero = np.full(many, -1, dtype=np.int64), np.zeros(many, dtype=np.int64)
        return Pieces(
            width=_whole([pose.width for pose in self.poses]),
            height=_whole([pose.height for pose in self.poses]),
            content=_whole([self._packing.one(pose.kind) for pose in self.poses]),
            area=_whole([self._areas[pose.kind] for pose in self.poses]),
            turns=zero, one=none, two=none, axis=none,
        )  # fmt: skip

    def _join(self, one: Pieces, two: Pieces, offsets: tuple[int, int], work: Work) -> list[Pieces]:
        """Every join of a piece of one level and a piece of another that some frame can use."""
        if not one.many or not two.many:
            return []
        found = []
        step = max(1, BLOCK // two.many)
        for start in range(0, one.many, step):
            skip = start if one is two else 0  # a pair of one level needs weighing only once
            block = Pieces(*(column[start : start + step, None] for column in one))
            other = Pieces(*(column[skip:] for column in two))
            work.spend(block.width.shape[0] * other.many + PAIRS_A_BLOCK)
            clash = self._packing.clash(block.content, other.content)
            for axis in (0, 1):
                i, j = self._useful(block, other, clash, axis)
                places = (i + start, j + skip)
                found.append(self._kept(one, two, places, axis, offsets))
        return found

    def _useful(
        self, block: Pieces, other: Pieces, clash: Flags, axis: int
    ) -> tuple[NDArray[np.intp], NDArray[np.intp]]:
        width, height = _size(block, other, axis)
        useful = width * height - (block.area + other.area) <= self._slack
        useful &= ~clash
        useful &= (width <= self._wide) & (height <= self._high)
        i, j = np.nonzero(useful)
        return i, j

    def _kept(
        self, one: Pieces, two: Pieces, places: tuple[NDArray[np.intp], NDArray[np.intp]],
        axis: int, offsets: tuple[int, int],
    ) -> Pieces:  # fmt: skip
        i, j = places
        first, second = one.take(i), two.take(j)
        width, height = _size(first, second, axis)
        area = first.area + second.area
        turns = np.zeros(len(i), dtype=np.int64)
        if self._turns is not None:
            cross = height if axis == 0 else width
            turns = np.maximum(_needed(first, axis, cross), _needed(second, axis, cross))
        useful = np.zeros(len(i), dtype=np.bool_)
        for frame in self._frames:
            fits = (width <= frame.width) & (height <= frame.height)
            fits &= width * height - area <= frame.width * frame.height - frame.least
            useful |= fits
        if self._turns is not None:
            useful &= turns <= self._turns
        axes = np.full(len(i), axis, dtype=np.int64)
        content = first.content + second.content
        pieces = Pieces(width, height, content, area, turns, i + offsets[0], j + offsets[1], axes)
        return pieces.take(useful)


def _size(one: Pieces, two: Pieces, axis: int) -> tuple[Places, Places]:
    """Width and height of two pieces side by side (0) or one above the other (1)."""
    if axis == 0:
        return one.width + two.width, np.maximum(one.height, two.height)
    return np.maximum(one.width, two.width), one.height + two.height


def _needed(pieces: Pieces, axis: int, cross: Places) -> Places:
    """Turns inside a strip, cut off across `axis` and `cross` wide, that holds a piece.

    A piece whose own first cuts run the same way adds them to the strip's; each of its parts is
    then trimmed to size. One whose first cuts run the other way sheds the rest with them.
    """
    tight = (pieces.height if axis == 0 else pieces.width) == cross
    same, lone = pieces.axis == axis, pieces.axis < 0
    kept_on = np.where(tight, pieces.turns, np.maximum(pieces.turns, 1))
    turned = np.where(lone, np.where(tight, 0, 1), pieces.turns + 1)
    return np.where(same, kept_on, turned)


def _whole(numbers: Sequence[int]) -> Places:
    return np.array(numbers, dtype=np.int64)


def _joined(parts: Sequence[Pieces]) -> Pieces:
    if not parts:
        return Pieces(*(np.zeros(0, dtype=np.int64) for _ in Pieces._fields))
    return Pieces(*(np.concatenate(columns) for columns in zip(*parts, strict=True)))


def _least(pieces: Pieces, turning: bool) -> Pieces:
    """Of pieces with the same panels, those that none undercuts in both sizes.

    Where turns count, only pieces with the same turns and the same first cuts are compared.
    """
    group = pieces.content * 2 + pieces.axis if turning else pieces.content
    order = np.lexsort((pieces.height, pieces.width, pieces.turns, group))
    group, turns, height = group[order], pieces.turns[order], pieces.height[order]
    if not len(order):
        return pieces
    fresh = (group[1:] != group[:-1]) | (turns[1:] != turns[:-1])
    numbers = np.concatenate(([0], np.cumsum(fresh)))
    lowest = height - numbers * FAR
    before = np.minimum.accumulate(lowest)[:-1]
    keep = np.concatenate(([True], lowest[1:] < before))
    return pieces.take(order[keep])


def _thriftiest(pieces: Pieces, most: int, chance: np.random.Generator) -> Pieces:
    """The pieces with the least waste for their area, with much chance, for variety."""
    waste = (pieces.width * pieces.height - pieces.area) / pieces.area
    score = waste * (1 + chance.random(pieces.many))
    return pieces.take(np.sort(np.argpartition(score, most)[:most]))
