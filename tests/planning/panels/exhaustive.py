"""The cheapest sheets by trying everything, for a handful of panels; apart from the planner."""

from fractions import Fraction
from functools import cache
from itertools import combinations


def cheapest(panels, sheets, cutting):
    """The least money that cuts every panel; None when the sheets don't yield them."""
    pieces = [panel for panel in panels for _ in range(panel.quantity)]
    everything = frozenset(range(len(pieces)))
    holds = [held_by(sheet, pieces, cutting) for sheet in sheets]

    @cache
    def least(left, place):
        if not left:
            return Fraction(0)
        if place == len(sheets):
            return None
        sheet = sheets[place]
        limit = len(pieces) if sheet.at_most is None else sheet.at_most
        best = None
        for rest, used in leftovers(holds[place], left, limit):
            after = least(rest, place + 1)
            if after is not None:
                cost = after + used * Fraction(sheet.price)
                best = cost if best is None else min(best, cost)
        return best

    return least(everything, 0)


def leftovers(held, left, limit):
    """What can be left after some sheets of one kind, and the fewest sheets that do it."""
    best = {left: 0}
    layer = {left}
    for used in range(1, limit + 1):
        following = {
            rest - some for rest in layer for some in held if some and some <= rest
        } - best.keys()
        for rest in following:
            best[rest] = used
        layer = following
        if not layer:
            break
    return best.items()


def subsets(everything):
    for size in range(len(everything) + 1):
        yield from map(frozenset, combinations(sorted(everything), size))


def held_by(sheet, pieces, cutting) -> set[frozenset[int]]:
    """All sets of pieces that edge-to-edge cuts, with few enough turns, free from one sheet."""
    size = (whole(sheet.length - 2 * cutting.trim), whole(sheet.width - 2 * cutting.trim))
    sawing = Sawing(tuple(ways_of(panel, sheet) for panel in pieces), whole(cutting.kerf))
    turns = 99 if cutting.turns is None else cutting.turns
    return {
        some for some in subsets(range(len(pieces))) if sawing.cuttable(some, size, None, turns)
    }


def whole(size: Fraction) -> int:
    """A size of the tiny cases, all multiples of a half, in halves."""
    assert size * 2 == int(size * 2)
    return int(size * 2)


def ways_of(panel, sheet) -> frozenset[tuple[int, int]]:
    either = panel.turns or not sheet.grain
    size = (whole(panel.length), whole(panel.width))
    return frozenset({size, size[::-1]} if either else {size})


class Sawing:
    """Tries every cut at every sum of panel sizes; remembers what it has tried."""

    def __init__(self, ways, kerf) -> None:
        self.ways, self.kerf = ways, kerf
        self.known: dict = {}
        self.sums: dict = {}

    def cuttable(self, wanted, size, axis, left) -> bool:
        """Whether a piece of a size yields panels, `axis` being the cut before."""
        if not wanted:
            return True
        if min(size) <= 0:
            return False
        if len(wanted) == 1 and size in self.ways[min(wanted)]:
            return True
        key = (wanted, size, axis, left)
        if key not in self.known:
            self.known[key] = any(
                self.parted(wanted, size, across, left - int(axis not in (None, across)))
                for across in (0, 1)
            )
        return self.known[key]

    def parted(self, wanted, size, axis, left) -> bool:
        if left < 0:
            return False
        for at in self.positions(wanted, axis):
            rest = size[axis] - at - self.kerf
            near, far = (
                ((at, size[1]), (rest, size[1])) if axis == 0 else ((size[0], at), (size[0], rest))
            )
            if at < size[axis] and any(
                self.cuttable(part, near, axis, left)
                and self.cuttable(wanted - part, far, axis, left)
                for part in subsets(wanted)
                if part
            ):
                return True
        return False

    def positions(self, wanted, axis):
        if (wanted, axis) not in self.sums:
            sums = {-self.kerf}
            for place in sorted(wanted):
                sums |= {s + self.kerf + way[axis] for s in sums for way in self.ways[place]}
            self.sums[wanted, axis] = sorted(s for s in sums if s > 0)
        return self.sums[wanted, axis]
