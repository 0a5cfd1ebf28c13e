"""From a tree of cuts to what the shop does: pieces where they lie, cuts in order, rests.

The store cuts first, on the whole sheet, until the pieces can be carried or it has made all the
cuts that it makes. At home each piece that still has a raw edge is trimmed; then all cuts that
run the same way are made before the pieces are turned.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Literal, NamedTuple

from service.planning.panels.asking import Cutting, Sheet
from service.planning.panels.lots import Node, cut, kinds_in
from service.planning.panels.planned import Area, Cut, Rest


class Leaf(NamedTuple):
    """A panel's kind and where one of it lies."""

    kind: int
    area: Area


class _Hand(NamedTuple):
    """A piece in hand: the tree of its cuts and where it starts, in steps; `raw` until trimmed."""

    node: Node
    x: int
    y: int
    raw: bool


@dataclass(slots=True)
class Bench:
    """One sheet on the bench."""

    sheet: Sheet
    root: Node
    unit: Fraction
    cutting: Cutting
    leaves: list[Leaf] = field(default_factory=list)
    cuts: list[Cut] = field(default_factory=list)
    rests: list[Rest] = field(default_factory=list)

    def work(self) -> None:
        """Make every cut, and lay aside panels and rests."""
        pieces = self._at_store(_Hand(self.root, 0, 0, True))
        for piece in pieces:
            self._at_home(piece)

    def _end(self, axis: int) -> Fraction:
        """Where the trimmed sheet ends: at a panel that ends the tree, else at the trim."""
        size = self.sheet.length if axis == 0 else self.sheet.width
        if not _touches(self.root, axis):
            return size - self.cutting.trim
        steps = self.root.width if axis == 0 else self.root.height
        return self.cutting.trim + steps * self.unit - self.cutting.kerf

    def _span(self, hand: _Hand, axis: int) -> tuple[Fraction, Fraction]:
        """From where to where a piece reaches along an axis."""
        start, steps, whole = (
            (hand.x, hand.node.width, self.root.width)
            if axis == 0
            else (hand.y, hand.node.height, self.root.height)
        )
        trim = self.cutting.trim
        low = trim + start * self.unit
        high = trim + (start + steps) * self.unit - self.cutting.kerf
        if start + steps == whole:
            high = self._end(axis)
        if hand.raw:
            low = Fraction(0) if start == 0 else low
            if start + steps == whole:
                high = self.sheet.length if axis == 0 else self.sheet.width
        return low, high

    def _area(self, hand: _Hand) -> Area:
        (x, x_end), (y, y_end) = self._span(hand, 0), self._span(hand, 1)
        return Area(x, y, x_end - x, y_end - y)

    def _at_store(self, whole: _Hand) -> list[_Hand]:
        """The pieces that go home; the largest piece that can't be carried is cut first."""
        left = self.cutting.store_cuts
        done: list[_Hand] = []
        waiting = [whole]
        while waiting:
            waiting.sort(key=lambda hand: self._area(hand).size)
            hand = waiting.pop()
            parts = _strips(hand.node)
            if left == 0 or len(parts) < 2 or self._carried(self._area(hand)):
                done.append(hand)
                continue
            left = None if left is None else left - 1
            near, far = self._split(hand, parts)
            self._cut(hand, near, "store")
            waiting += [near, far]
        return sorted(done, key=lambda hand: (hand.x, hand.y))

    def _carried(self, area: Area) -> bool:
        if self.cutting.carry is None:
            return True
        one, two = sorted(self.cutting.carry)
        low, high = sorted((area.length, area.width))
        return low <= one and high <= two

    def _split(self, hand: _Hand, parts: Sequence[Node]) -> tuple[_Hand, _Hand]:
        """The cut that leaves the largest near piece that can be carried, else the middle one."""
        ways = [_parted(hand, parts, place) for place in range(1, len(parts))]
        carried = [way for way in ways if self._carried(self._area(way[0]))]
        if carried:
            return carried[-1]
        return min(ways, key=lambda way: max(self._area(half).size for half in way))

    def _at_home(self, hand: _Hand) -> None:
        if not kinds_in(hand.node):
            self._rest(hand)
            return
        if hand.raw:
            hand = self._trimmed(hand)
        if hand.node.kind >= 0:
            self.leaves.append(Leaf(hand.node.kind, self._area(hand)))
            return
        parts, aside = _strips(hand.node), []
        while len(parts) > 1:
            near, hand = _parted(hand, parts, 1)
            self._cut(_joined(near, hand), near, "home")
            aside.append(near)
            parts = parts[1:]
        for piece in [*aside, hand]:
            self._at_home(piece)

    def _trimmed(self, hand: _Hand) -> _Hand:
        """The piece without its raw edges."""
        done = hand._replace(raw=False)
        area = self._area(hand)
        for axis, across in ((0, "length"), (1, "width")):
            (low, high), (start, end) = self._span(hand, axis), self._span(done, axis)
            if start > low:
                self._trim("length" if across == "length" else "width", start - low, area, "far")
                area = _shrunk(area, axis, start, high)
            if end < high:
                self._trim("length" if across == "length" else "width", end - start, area, "near")
                area = _shrunk(area, axis, start, end)
        return done

    def _trim(
        self, across: Literal["length", "width"], at: Fraction, area: Area,
        keeps: Literal["near", "far"],
    ) -> None:  # fmt: skip
        self.cuts.append(Cut(len(self.cuts) + 1, across, at, area, "home", trim=True, keeps=keeps))

    def _cut(self, hand: _Hand, near: _Hand, by: Literal["store", "home"]) -> None:
        axis = hand.node.axis
        at = self._span(near, axis)[1] - self._span(hand, axis)[0]
        across: Literal["length", "width"] = "length" if axis == 0 else "width"
        self.cuts.append(Cut(len(self.cuts) + 1, across, at, self._area(hand), by))

    def _rest(self, hand: _Hand) -> None:
        area = self._area(hand._replace(raw=False))
        if area.length > 0 and area.width > 0:
            least = self.cutting.keep_at_least
            self.rests.append(Rest(area, area.length >= least and area.width >= least))


def _shrunk(area: Area, axis: int, start: Fraction, end: Fraction) -> Area:
    if axis == 0:
        return area._replace(x=start, length=end - start)
    return area._replace(y=start, width=end - start)


def _touches(node: Node, axis: int) -> bool:
    """Whether some panel ends where the piece does along an axis."""
    if not node.halves:
        return node.kind >= 0
    near, far = node.halves
    if node.axis == axis:
        return _touches(far, axis)
    return _touches(near, axis) or _touches(far, axis)


def _strips(node: Node) -> list[Node]:
    """The pieces that all cuts running the same way as the first part a piece into."""

    def flat(piece: Node) -> Iterator[Node]:
        if piece.halves and piece.axis == node.axis:
            for half in piece.halves:
                yield from flat(half)
        else:
            yield piece

    return list(flat(node))


def _parted(hand: _Hand, parts: Sequence[Node], place: int) -> tuple[_Hand, _Hand]:
    """The piece cut before one of its strips."""
    axis = hand.node.axis
    near, far = _chain(axis, parts[:place]), _chain(axis, parts[place:])
    x = hand.x + (near.width if axis == 0 else 0)
    y = hand.y + (near.height if axis == 1 else 0)
    return hand._replace(node=near), _Hand(far, x, y, hand.raw)


def _chain(axis: int, parts: Sequence[Node]) -> Node:
    node = parts[-1]
    for part in reversed(parts[:-1]):
        node = cut(axis, part, node)
    return node


def _joined(near: _Hand, far: _Hand) -> _Hand:
    axis = 0 if far.x > near.x else 1
    return near._replace(node=cut(axis, near.node, far.node))
