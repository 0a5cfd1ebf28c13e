"""The problem in whole steps: kinds of panels, stocks of sheets, and trees of cuts.

One step is the problem's common unit of length. The kerf is folded in: every panel is its size
and one kerf each way, every sheet its usable size and one kerf, so that neighbors are a kerf
apart and the last panel may end at the edge. `width` runs along the sheet's length (axis 0),
`height` across it (axis 1).
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import NamedTuple


class Pose(NamedTuple):
    """A kind as it may lie."""

    width: int
    height: int
    kind: int
    turned: bool


@dataclass(frozen=True, slots=True)
class Kind:
    """Panels alike, `count` of them."""

    width: int
    height: int
    count: int
    turns: bool = False

    @property
    def area(self) -> int:
        """Square steps of one, its kerfs included."""
        return self.width * self.height


@dataclass(frozen=True, slots=True)
class Stock:
    """Sheets alike: usable size, price, how many there are (None: any)."""

    width: int
    height: int
    price: int
    limit: int | None = None
    grained: bool = True

    @property
    def area(self) -> int:
        """Square steps of one."""
        return self.width * self.height


@dataclass(frozen=True, slots=True)
class Lot:
    """What is wanted and what there is; `turns` as in `asking.Cutting`."""

    kinds: tuple[Kind, ...]
    stocks: tuple[Stock, ...]
    turns: int | None = None

    @property
    def pieces(self) -> int:
        """How many panels are wanted."""
        return sum(kind.count for kind in self.kinds)

    @property
    def area(self) -> int:
        """Square steps of all panels wanted."""
        return sum(kind.area * kind.count for kind in self.kinds)

    @property
    def counts(self) -> tuple[int, ...]:
        """How many of each kind."""
        return tuple(kind.count for kind in self.kinds)

    def wanting(self, counts: tuple[int, ...]) -> "Lot":
        """The same lot with other counts."""
        kinds = (replace(kind, count=n) for kind, n in zip(self.kinds, counts, strict=True))
        return replace(self, kinds=tuple(kinds))

    def some(self, kinds: Sequence[int], counts: Sequence[int], taken: Sequence[int]) -> "Lot":
        """A lot of some kinds only, some sheets being taken already."""
        stocks = (
            stock if stock.limit is None else replace(stock, limit=stock.limit - taken.count(place))
            for place, stock in enumerate(self.stocks)
        )
        few = (replace(self.kinds[kind], count=n) for kind, n in zip(kinds, counts, strict=True))
        return Lot(tuple(few), tuple(stocks), self.turns)

    def poses(self, grained: bool) -> list[Pose]:
        """Every way in which a kind may lie on a sheet with or without grain."""
        found = []
        for place, kind in enumerate(self.kinds):
            found.append(Pose(kind.width, kind.height, place, False))
            if kind.width != kind.height and (kind.turns or not grained):
                found.append(Pose(kind.height, kind.width, place, True))
        return found

    def fits(self, pose: Pose, stock: Stock) -> bool:
        """Whether a pose lies within a sheet."""
        return pose.width <= stock.width and pose.height <= stock.height


@dataclass(frozen=True, slots=True)
class Node:
    """A piece in hand: a panel (`kind`), a rest (neither), or cut across `axis` into two."""

    width: int
    height: int
    kind: int = -1
    turned: bool = False
    axis: int = -1
    near: "Node | None" = None
    far: "Node | None" = None

    @property
    def halves(self) -> tuple["Node", ...]:
        """The two pieces after the cut; none of a panel or a rest."""
        return (self.near, self.far) if self.near and self.far else ()


class Laid(NamedTuple):
    """One sheet of a stock and how it is cut."""

    stock: int
    root: Node


Layout = tuple[Laid, ...]


def cut(axis: int, near: Node, far: Node) -> Node:
    """Two pieces as they lay before the cut across an axis."""
    if axis == 0:
        return Node(near.width + far.width, near.height, axis=0, near=near, far=far)
    return Node(near.width, near.height + far.height, axis=1, near=near, far=far)


def kinds_in(node: Node) -> list[int]:
    """The kinds of the panels in a piece, near ones first."""
    found, waiting = [], [node]
    while waiting:
        piece = waiting.pop()
        if piece.kind >= 0:
            found.append(piece.kind)
        waiting.extend(reversed(piece.halves))
    return found


def turns_of(node: Node, axis: int = -1) -> int:
    """How often the cutting turns, at most, on the way to a panel; `axis` of the cut before."""
    if not node.halves:
        return 0
    change = int(axis >= 0 and node.axis != axis)
    inner = [turns_of(half, node.axis) for half in node.halves]
    return change + max(inner)


def cost_of(lot: Lot, layout: Layout) -> int:
    """What the sheets of a layout cost."""
    return sum(lot.stocks[laid.stock].price for laid in layout)


def pattern_of(node: Node) -> dict[int, int]:
    """How many panels of each kind a piece holds."""
    found: dict[int, int] = {}
    for kind in kinds_in(node):
        found[kind] = found.get(kind, 0) + 1
    return found


def renamed(node: Node, names: Sequence[int]) -> Node:
    """The same cuts with kinds named otherwise; -1 makes a rest of a panel."""
    if node.kind >= 0:
        name = names[node.kind]
        return replace(node, kind=name, turned=node.turned and name >= 0)
    if not node.near or not node.far:
        return node
    return replace(node, near=renamed(node.near, names), far=renamed(node.far, names))
