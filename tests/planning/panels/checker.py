"""Checks a plan of sheets from its numbers alone; shares nothing with the planner but its words."""

from collections import Counter
from decimal import Decimal
from fractions import Fraction
from itertools import pairwise

NEVER = 10**6

Box = tuple[Fraction, Fraction, Fraction, Fraction]
"""From x to x, from y to y."""


def box(area) -> Box:
    return (area.x, area.x + area.length, area.y, area.y + area.width)


def faults(panels, sheets, cutting, plan) -> list[str]:
    """Everything that is wrong with a plan; empty when nothing is."""
    found = missing_or_double(panels, plan)
    cost = Decimal(0)
    used: Counter = Counter()
    for number, cut in enumerate(plan.sheets):
        cost += cut.sheet.price
        used[sheets.index(cut.sheet)] += 1
        where = f"sheet {number}"
        found += [f"{where}: {fault}" for fault in sheet_faults(panels, cutting, cut, plan.off_by)]
    for place, sheet in enumerate(sheets):
        alike = sum(used[q] for q, other in enumerate(sheets) if other == sheet)
        there = [other.at_most for other in sheets if other == sheet]
        if None not in there and alike > sum(there):
            found.append(f"more of {sheet.id} than there are")
        assert place >= 0
    if cost != plan.cost:
        found.append(f"the sheets cost {cost}, the plan says {plan.cost}")
    if plan.bound > plan.cost:
        found.append("the bound is above the cost")
    if (plan.status == "optimal") != (plan.bound == plan.cost):
        found.append("optimal without proof, or proof without saying so")
    return found


def missing_or_double(panels, plan) -> list[str]:
    out = Counter()
    for one in plan.unplaced:
        out[one.panel] += one.quantity
    copies = Counter((p.panel, p.copy) for cut in plan.sheets for p in cut.panels)
    found = [f"{key} twice" for key, n in copies.items() if n > 1]
    wanted = Counter()
    for panel in panels:
        wanted[panel.id] += panel.quantity
    placed = Counter(name for name, _ in copies)
    placed.update(out)
    found += [f"{name}: {placed[name]} of {n}" for name, n in wanted.items() if placed[name] != n]
    return found + [f"{name} is nobody's" for name in placed if name not in wanted]


def sheet_faults(panels, cutting, cut, off_by) -> list[str]:
    sizes = {panel.id: panel for panel in panels}
    trim = cutting.trim
    room = (trim, cut.sheet.length - trim, trim, cut.sheet.width - trim)
    found, boxes = [], []
    for placed in cut.panels:
        panel, area = sizes[placed.panel], placed.area
        size = (panel.length, panel.width)
        if (area.length, area.width) != (size[::-1] if placed.turned else size):
            found.append(f"{panel.id} has another size")
        if placed.turned and cut.sheet.grain and not panel.turns:
            found.append(f"{panel.id} lies across the grain")
        boxes.append(box(area))
        if not inside(boxes[-1], room):
            found.append(f"{panel.id} reaches into the trim")
    for place, one in enumerate(boxes):
        found += [
            f"{cut.panels[place].panel} touches {cut.panels[q].panel}"
            for q in range(place)
            if not apart(one, boxes[q], cutting.kerf)
        ]
    turns = fewest_turns(boxes, room, cutting.kerf)
    if turns == NEVER:
        found.append("no edge-to-edge cuts free the panels")
    elif cutting.turns is not None and turns > cutting.turns:
        found.append(f"{turns} turns")
    return found + rest_faults(cut, boxes, room) + cut_faults(cutting, cut, off_by)


def inside(one: Box, room: Box) -> bool:
    return one[0] >= room[0] and one[1] <= room[1] and one[2] >= room[2] and one[3] <= room[3]


def apart(one: Box, other: Box, kerf: Fraction) -> bool:
    return any(one[a + 1] + kerf <= other[a] or other[a + 1] + kerf <= one[a] for a in (0, 2))


def groups(boxes: list[Box], axis: int, kerf: Fraction) -> list[list[Box]]:
    """The finest strips that straight cuts across an axis part the panels into."""
    low, high = 2 * axis, 2 * axis + 1
    found: list[list[Box]] = []
    end = None
    for one in sorted(boxes, key=lambda b: (b[low], b[high])):
        if end is None or one[low] >= end + kerf:
            found.append([])
            end = one[high]
        found[-1].append(one)
        end = max(end, one[high])
    return found


def fewest_turns(boxes: list[Box], room: Box, kerf: Fraction) -> int:
    """Turns on the way to the panel that takes the most, for the better first direction."""
    if not boxes:
        return 0
    return min(turns_after(boxes, room, axis, kerf, False) for axis in (0, 1))


def turns_after(boxes: list[Box], room: Box, axis: int, kerf: Fraction, stuck: bool) -> int:
    """Turns when the cuts across an axis come next; `stuck`: the cuts before parted nothing."""
    strips = groups(boxes, axis, kerf)
    low, high = 2 * axis, 2 * axis + 1
    most = 0
    for strip in strips:
        tight = list(room)
        tight[low] = min(b[low] for b in strip)
        tight[high] = max(b[high] for b in strip)
        cross = 2 - low
        done = len(strip) == 1 and (strip[0][cross], strip[0][cross + 1]) == (
            room[cross], room[cross + 1],
        )  # fmt: skip
        if done:
            continue
        idle = len(strips) == 1
        if idle and stuck and len(strip) > 1:
            return NEVER
        most = max(most, 1 + turns_after(strip, tuple(tight), 1 - axis, kerf, idle))
    return min(most, NEVER)


def rest_faults(cut, boxes: list[Box], room: Box) -> list[str]:
    rests = [box(rest.area) for rest in cut.rests]
    everything = boxes + rests
    clash = any(
        not apart(one, other, Fraction(0))
        for place, one in enumerate(everything)
        for other in everything[:place]
    )
    found = ["a rest lies over a panel or a rest"] if clash else []
    return found + ["a rest reaches into the trim" for rest in rests if not inside(rest, room)]


def cut_faults(cutting, cut, off_by) -> list[str]:
    """Follow the cuts: each divides a piece that is there, and in the end the panels lie free."""
    whole = (Fraction(0), cut.sheet.length, Fraction(0), cut.sheet.width)
    pieces, found, at_home = [whole], [], False
    for saw in cut.cuts:
        hand = box(saw.piece)
        if hand not in pieces:
            found.append(f"cut {saw.order}: the piece in hand is not there")
            continue
        pieces.remove(hand)
        at_home |= saw.by == "home"
        if saw.by == "store" and at_home:
            found.append(f"cut {saw.order}: back to the store")
        pieces += sawn(hand, saw, cutting.kerf)
    for placed in cut.panels:
        if not any(near(box(placed.area), piece, off_by) for piece in pieces):
            found.append(f"{placed.panel} {placed.copy} is not cut free")
    orders = [saw.order for saw in cut.cuts]
    if any(b != a + 1 for a, b in pairwise([0, *orders])):
        found.append("cuts out of order")
    stores = sum(saw.by == "store" for saw in cut.cuts)
    if cutting.store_cuts is not None and stores > cutting.store_cuts:
        found.append(f"{stores} cuts at the store")
    return found


def near(one: Box, other: Box, off_by: Fraction) -> bool:
    return all(abs(a - b) <= off_by for a, b in zip(one, other, strict=True))


def sawn(hand: Box, saw, kerf: Fraction) -> list[Box]:
    low = 0 if saw.across == "length" else 2
    start = hand[low] + saw.at
    near, far = list(hand), list(hand)
    near[low + 1], far[low] = start, start + kerf
    if saw.keeps == "far":
        near[low + 1], far[low] = start - kerf, start
    return [tuple(half) for half in (near, far) if half[low + 1] > half[low]]
