"""The cheapest sheets by trying everything; for a handful of panels. Written apart from the planner."""

from fractions import Fraction
from functools import cache
from itertools import combinations


def cheapest(panels, sheets, cutting):
    """The least money that cuts every panel; None when the sheets don't yield them."""
    pieces = [panel for panel in panels for _ in range(panel.quantity)]
    everything = frozenset(range(len(pieces)))
    holds = [
        {some for some in subsets(everything) if yields(pieces, some, sheet, cutting)}
        for sheet in sheets
    ]

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


def yields(pieces, some, sheet, cutting) -> bool:
    """Whether edge-to-edge cuts, with few enough turns, free some pieces from one sheet."""
    kerf = cutting.kerf
    length, width = sheet.length - 2 * cutting.trim, sheet.width - 2 * cutting.trim
    turns = 99 if cutting.turns is None else cutting.turns

    def ways(place):
        panel = pieces[place]
        found = {(panel.length, panel.width)}
        if panel.turns or not sheet.grain:
            found.add((panel.width, panel.length))
        return found

    @cache
    def cuttable(wanted, size, axis, left) -> bool:
        if not wanted:
            return True
        if size[0] <= 0 or size[1] <= 0:
            return False
        if len(wanted) == 1 and size in ways(min(wanted)):
            return True
        return any(
            parted(wanted, size, across, left - int(axis is not None and across != axis))
            for across in (0, 1)
        )

    def parted(wanted, size, axis, left) -> bool:
        if left < 0:
            return False
        for at in positions(wanted, axis):
            if at >= size[axis]:
                continue
            near = (at, size[1]) if axis == 0 else (size[0], at)
            rest = size[axis] - at - kerf
            far = (rest, size[1]) if axis == 0 else (size[0], rest)
            for some in subsets(wanted):
                if (
                    some
                    and cuttable(some, near, axis, left)
                    and cuttable(wanted - some, far, axis, left)
                ):
                    return True
        return False

    @cache
    def positions(wanted, axis):
        sums = {Fraction(-1)}
        for place in sorted(wanted):
            sums |= {s + way[axis] + (kerf if s >= 0 else 1) for s in sums for way in ways(place)}
        return sorted(s for s in sums if s > 0)

    return cuttable(some, (length, width), None, turns)
