"""Quick plans as poor as can be, one panel a sheet, so that the search itself has to do better."""

from collections.abc import Iterator

from service.planning.panels.lots import Laid, Layout, Lot, Node, turns_of


def poor_plans(lot: Lot, *_: object) -> Iterator[tuple[Layout, list[int]]]:
    """One plan: every panel on a sheet of its own, as long as there are any."""
    left, there = list(lot.counts), [stock.limit for stock in lot.stocks]
    layout: list[Laid] = []
    for kind in range(len(left)):
        while left[kind]:
            laid = _alone(lot, kind, there)
            if laid is None:
                break
            left[kind] -= 1
            limit = there[laid.stock]
            there[laid.stock] = None if limit is None else limit - 1
            layout.append(laid)
    yield tuple(layout), left


def _alone(lot: Lot, kind: int, there: list[int | None]) -> Laid | None:
    for place, stock in enumerate(lot.stocks):
        for pose in lot.poses(stock.grained):
            if there[place] != 0 and pose.kind == kind and lot.fits(pose, stock):
                root = _set(Node(pose.width, pose.height, kind, pose.turned), stock)
                if lot.turns is None or turns_of(root) <= lot.turns:
                    return Laid(place, root)
    return None


def _set(node: Node, stock) -> Node:
    beside, above = stock.width - node.width, stock.height - node.height
    if beside:
        rest = Node(beside, node.height)
        node = Node(stock.width, node.height, axis=0, near=node, far=rest)
    if above:
        rest = Node(stock.width, above)
        node = Node(stock.width, stock.height, axis=1, near=node, far=rest)
    return node
