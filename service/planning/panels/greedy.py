"""A plan at once: panels set one by one into the free rectangles of a sheet, edge to edge.

Each panel goes where it wastes least; the rectangle it went into is cut in two. Repeated with
other orders and other rules, drawn from a seeded generator, the cheapest plan is kept.
"""

from collections.abc import Iterator, Sequence
from random import Random

from service.planning.panels.lots import Laid, Layout, Lot, Node, Pose, Stock
from service.planning.panels.work import Work

PAIRS_A_KIND = 600
"""Counted work of trying one kind on one sheet."""


class _Spot:
    """A rectangle in the making: free, a panel, or cut in two. `turns`, `axis` count turns."""

    __slots__ = ("axis", "far", "height", "last", "near", "pose", "turns", "width")

    def __init__(self, width: int, height: int, turns: int, last: int) -> None:
        self.width, self.height, self.turns, self.last = width, height, turns, last
        self.pose: Pose | None = None
        self.near: _Spot | None = None
        self.far: _Spot | None = None
        self.axis = -1

    def cut(self, axis: int, at: int) -> "_Spot":
        """Cut in two across an axis; the near half comes back."""
        turns = self.turns + int(self.last >= 0 and self.last != axis)
        self.axis = axis
        if axis == 0:
            self.near = _Spot(at, self.height, turns, axis)
            self.far = _Spot(self.width - at, self.height, turns, axis)
        else:
            self.near = _Spot(self.width, at, turns, axis)
            self.far = _Spot(self.width, self.height - at, turns, axis)
        return self.near

    def node(self) -> Node:
        """The same as a tree of cuts."""
        if self.near and self.far:
            near, far = self.near.node(), self.far.node()
            return Node(self.width, self.height, axis=self.axis, near=near, far=far)
        if self.pose:
            return Node(self.width, self.height, kind=self.pose.kind, turned=self.pose.turned)
        return Node(self.width, self.height)

    def axes_for(self, pose: Pose, turns: int | None) -> list[int]:
        """Which cut may come first to free a pose; -1 where none is needed."""
        beside, above = self.width > pose.width, self.height > pose.height
        first = [axis for axis, needed in ((0, beside), (1, above)) if needed] or [-1]
        if turns is None:
            return first
        return [axis for axis in first if self._turns_for(axis, beside and above) <= turns]

    def _turns_for(self, axis: int, both: bool) -> int:
        change = int(axis >= 0 and self.last >= 0 and self.last != axis)
        return self.turns + change + int(both)


class Rules:
    """One way to set panels: in which order, where, and which cut comes first."""

    def __init__(self, chance: Random, attempt: int) -> None:
        self.attempt = attempt
        self.key = chance.randrange(5)
        self.noise = chance.choice((0.0, 0.0, 0.15, 0.4))
        self.snug = chance.randrange(3)
        self.split = chance.randrange(3)
        self.chance = chance

    def order(self, pose: Pose) -> float:
        """Panels with the highest figure come first."""
        w, h = pose.width, pose.height
        figure = (w * h, max(w, h), w + h, w, h)[self.key]
        return figure * (1 + self.noise * (self.chance.random() - 0.5))

    def waste(self, spot: _Spot, pose: Pose) -> int:
        """How badly a pose fits a free rectangle."""
        beside, above = spot.width - pose.width, spot.height - pose.height
        if self.snug == 0:
            return min(beside, above)
        return spot.width * spot.height if self.snug == 1 else max(beside, above)

    def first(self, spot: _Spot, pose: Pose, axes: Sequence[int]) -> int:
        """Which of the possible cuts comes first."""
        if len(axes) == 1:
            return axes[0]
        beside, above = spot.width - pose.width, spot.height - pose.height
        if self.split == 0:
            return 0 if beside >= above else 1
        if self.split == 1:
            return 0 if beside < above else 1
        larger = max(beside * spot.height, pose.width * above)
        return 0 if larger >= max(beside * pose.height, spot.width * above) else 1


def fill(lot: Lot, stock: Stock, left: list[int], rules: Rules) -> Node | None:
    """One sheet filled; what it holds is taken off `left`. None when nothing fits."""
    poses: dict[int, list[Pose]] = {}
    for pose in lot.poses(stock.grained):
        if left[pose.kind] and lot.fits(pose, stock):
            poses.setdefault(pose.kind, []).append(pose)
    figures = {kind: rules.order(ways[0]) for kind, ways in poses.items()}
    root = _Spot(stock.width, stock.height, 0, -1)
    free, before = [root], sum(left)
    for kind in sorted(poses, key=lambda kind: (-figures[kind], kind)):
        while left[kind] and _set(free, poses[kind], rules, lot.turns):
            left[kind] -= 1
    return root.node() if sum(left) < before else None


def _set(free: list[_Spot], ways: Sequence[Pose], rules: Rules, turns: int | None) -> bool:
    best = None
    for place, spot in enumerate(free):
        for way, pose in enumerate(ways):
            if pose.width <= spot.width and pose.height <= spot.height:
                axes = spot.axes_for(pose, turns)
                if axes:
                    found = (rules.waste(spot, pose), place, way, axes)
                    best = found if best is None or found < best else best
    if best is None:
        return False
    _, place, way, axes = best
    spot, pose = free.pop(place), ways[way]
    first = rules.first(spot, pose, axes)
    for axis in (first, 1 - first) if first >= 0 else ():
        at, size = (pose.width, spot.width) if axis == 0 else (pose.height, spot.height)
        if at < size:
            near = spot.cut(axis, at)
            if spot.far:
                free.append(spot.far)
            spot = near
    spot.pose = pose
    return True


def plans(lot: Lot, seed: int, tries: int, work: Work) -> Iterator[tuple[Layout, list[int]]]:
    """Plans one after the other, each with the panels that found no sheet.

    The first is plain and always made; the others end when the work is spent.
    """
    chance = Random(seed)
    for attempt in range(tries):
        rules = Rules(chance, attempt)
        if attempt == 0:
            rules.key = rules.snug = rules.split = 0
            rules.noise = 0.0
        layout, left = _plan(lot, rules)
        yield layout, left
        if not work.can(PAIRS_A_KIND * len(lot.kinds) * len(layout)):
            return


def _plan(lot: Lot, rules: Rules) -> tuple[Layout, list[int]]:
    left = list(lot.counts)
    there = [stock.limit for stock in lot.stocks]
    layout: list[Laid] = []
    barren: set[int] = set()
    while any(left):
        able = [k for k, n in enumerate(there) if k not in barren and (n is None or n > 0)]
        choice = _choose(lot, left, able, rules)
        if choice is None:
            break
        node = fill(lot, lot.stocks[choice], left, rules)
        if node is None:
            barren.add(choice)
            continue
        limit = there[choice]
        there[choice] = None if limit is None else limit - 1
        layout.append(Laid(choice, node))
    return tuple(layout), left


def _choose(lot: Lot, left: Sequence[int], able: Sequence[int], rules: Rules) -> int | None:
    """The next sheet: free ones first, then one that could hold all that is left, then thrift."""
    if not able:
        return None
    stocks = lot.stocks
    free = [k for k in able if stocks[k].price == 0]
    if free:
        return min(free, key=lambda k: stocks[k].area)
    if rules.attempt % 3 == 2:
        return rules.chance.choice(able)
    area = sum(kind.area * n for kind, n in zip(lot.kinds, left, strict=True))
    room = area * (1.0 if rules.attempt == 0 else rules.chance.uniform(1.0, 1.3))
    large = [k for k in able if stocks[k].area >= room]
    if large:
        return min(large, key=lambda k: (stocks[k].price, k))
    luck = rules.chance
    return min(able, key=lambda k: stocks[k].price / stocks[k].area * luck.uniform(0.85, 1.15))
