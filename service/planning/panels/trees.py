"""From grown pieces to the tree of cuts of a sheet."""

from collections.abc import Iterator

from service.planning.panels.growing import Grown
from service.planning.panels.lots import Node, cut, turns_of


def tree_of(grown: Grown, piece: int, width: int, height: int, turns: int | None) -> Node:
    """A sheet of a size cut so that it yields a grown piece, with at most that many turns.

    The rest is left in as large a rectangle as can be: without a limit on turns it is cut off
    before the piece is divided.
    """
    if turns is None:
        return largest_rest(_whole(grown, piece), width, height)
    ways = [_strip(grown, piece, width, height, axis) for axis in (0, 1)]
    return min(ways, key=lambda way: (turns_of(way), -_largest(way)))


def largest_rest(node: Node, width: int, height: int) -> Node:
    """A piece set into a corner of a larger one, the rest in as large a rectangle as can be."""
    beside, above = width - node.width, height - node.height
    if beside * height >= width * above:
        return _wider(_higher(node, height), width)
    return _higher(_wider(node, width), height)


def rests_in(node: Node) -> Iterator[Node]:
    """The rests of a tree."""
    if node.kind < 0 and not node.halves:
        yield node
    for half in node.halves:
        yield from rests_in(half)


def _largest(node: Node) -> int:
    return max((rest.width * rest.height for rest in rests_in(node)), default=0)


def _wider(node: Node, width: int) -> Node:
    return node if node.width == width else cut(0, node, Node(width - node.width, node.height))


def _higher(node: Node, height: int) -> Node:
    return node if node.height == height else cut(1, node, Node(node.width, height - node.height))


def _leaf(grown: Grown, piece: int) -> Node:
    pose = grown.poses[piece]
    return Node(pose.width, pose.height, kind=pose.kind, turned=pose.turned)


def _joined(grown: Grown, piece: int) -> tuple[int, int, int]:
    pieces = grown.pieces
    return int(pieces.axis[piece]), int(pieces.one[piece]), int(pieces.two[piece])


def _whole(grown: Grown, piece: int) -> Node:
    """A piece without a limit on turns: each rest comes off in one."""
    axis, one, two = _joined(grown, piece)
    if axis < 0:
        return _leaf(grown, piece)
    halves = [_whole(grown, one), _whole(grown, two)]
    if axis == 0:
        high = max(half.height for half in halves)
        return cut(0, *(_higher(half, high) for half in halves))
    wide = max(half.width for half in halves)
    return cut(1, *(_wider(half, wide) for half in halves))


def _strip(grown: Grown, piece: int, width: int, height: int, axis: int) -> Node:
    """A piece in a rectangle no smaller, the first cuts across `axis`, with few turns."""
    own, one, two = _joined(grown, piece)
    size = int(grown.pieces.width[piece]), int(grown.pieces.height[piece])
    if own == axis:
        node = _side_by_side(grown, (one, two), (width, height), axis)
    elif own < 0:
        node = _leaf(grown, piece)
        node = _higher(node, height) if axis == 0 else _wider(node, width)
    elif axis == 0:
        node = _strip(grown, piece, size[0], height, own)
    else:
        node = _strip(grown, piece, width, size[1], own)
    return _wider(node, width) if axis == 0 else _higher(node, height)


def _side_by_side(grown: Grown, halves: tuple[int, int], room: tuple[int, int], axis: int) -> Node:
    """Two pieces as strips across `axis`, each as wide as it is, as high as the room."""
    strips = []
    for half in halves:
        own = int(grown.pieces.axis[half])
        width, height = int(grown.pieces.width[half]), int(grown.pieces.height[half])
        room_of = (width, room[1]) if axis == 0 else (room[0], height)
        strips.append(_strip(grown, half, *room_of, own if own >= 0 else axis))
    return cut(axis, *strips)
