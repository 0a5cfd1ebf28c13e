"""Proof that no purchase is cheaper: boxes of numbers of boards, each with worths of the items.

In a box, whole worths of the items (`scale` to the unit of money) bound every plan from below: the
items are worth so much, and a board can hold so much worth at most. A purchase in no box must
cost too much by its price alone. Everything here is whole numbers in plain Python: no solver, no
arrays. `check_proof` reads nothing but the problem and the proof.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import gcd

from service.planning.problem import Problem, Supply


@dataclass(frozen=True, slots=True)
class Box:
    """Numbers of boards of every supply, from `low` to `high` (None: any)."""

    low: tuple[int, ...]
    high: tuple[int | None, ...]


@dataclass(frozen=True, slots=True)
class Priced:
    """A box and the worths of the items that bound the cost in it; `scale` to the unit of money."""

    box: Box
    worth: tuple[int, ...]
    scale: int


@dataclass(frozen=True, slots=True)
class Proof:
    """Boxes that cover every purchase. `searched` boxes were closed by trying, not by worths."""

    boxes: tuple[Priced, ...]
    searched: tuple[Box, ...] = ()

    @property
    def by_worths_alone(self) -> bool:
        """Whether the checker can follow every step."""
        return not self.searched


def floor_under(
    problem: Problem, worth: Sequence[int], values: Sequence[int], scale: int, box: Box
) -> tuple[int, int, int]:
    """(bound, numerator, denominator): the cost bound in a box, rounded up to a whole unit.

    `values` is at least what one board of each supply can hold of worths. Where boards without
    a limit hold more than their price, all worths are scaled down by numerator/denominator.
    """
    top, under = 1, 1
    for supply, value, most in zip(problem.supplies, values, box.high, strict=True):
        price = supply.price * scale
        if most is None and value * top > price * under:
            top, under = price, value
    total = top * sum(a * b for a, b in zip(worth, problem.demands, strict=True))
    for k, supply in enumerate(problem.supplies):
        gain = top * values[k] - under * scale * supply.price
        most = box.high[k]
        total -= gain * (most if gain > 0 and most is not None else 0 if gain > 0 else box.low[k])
    return -(-total // (scale * under)), top, under


def check_proof(problem: Problem, proof: Proof, cost: int) -> bool:
    """Whether the proof shows, in whole numbers, that no plan costs less than `cost`."""
    if not proof.by_worths_alone:
        return False
    limits = tuple(supply.limit for supply in problem.supplies)
    uncovered = [Box((0,) * len(limits), limits)]
    totals = _totals(problem, cost)
    for priced in proof.boxes:
        if min(priced.worth, default=0) < 0 or priced.scale <= 0:
            return False
        values = [_most_worth(problem, supply, priced.worth) for supply in problem.supplies]
        bound, _, _ = floor_under(problem, priced.worth, values, priced.scale, priced.box)
        if bound < cost and totals >> max(0, bound):
            return False
        uncovered = [rest for box in uncovered for rest in _without(box, priced.box)]
    return all(_least_price(problem, box) >= cost for box in uncovered)


def _totals(problem: Problem, cost: int) -> int:
    """A bit for every total below `cost` that boards can add up to (limits left aside).

    Where that would be too many bits, every multiple of the prices' common measure counts.
    """
    prices = {supply.price for supply in problem.supplies if supply.price}
    if cost <= 0:
        return 0
    mask, bits = (1 << cost) - 1, 1
    step = gcd(*prices) if prices else cost
    for price in (step,) if cost > 4_000_000 * step else prices:
        shift = price
        while shift < cost:
            bits |= (bits << shift) & mask
            shift *= 2
    return bits


def _least_price(problem: Problem, box: Box) -> int:
    return sum(s.price * least for s, least in zip(problem.supplies, box.low, strict=True))


def _without(box: Box, taken: Box) -> Iterator[Box]:
    """A box less another one: disjoint boxes."""
    low, high = list(box.low), list(box.high)
    for k in range(len(low)):
        first, last = taken.low[k], taken.high[k]
        apart = (high[k] is not None and high[k] < first) or (last is not None and low[k] > last)  # type: ignore[operator]  # narrowed by the first half
        if apart:
            yield Box(tuple(low), tuple(high))
            return
        if low[k] < first:
            yield Box(tuple(low), (*high[:k], first - 1, *high[k + 1 :]))
            low[k] = first
        top = high[k]
        if last is not None and (top is None or top > last):
            yield Box((*low[:k], last + 1, *low[k + 1 :]), tuple(high))
            high[k] = last


def _most_worth(problem: Problem, supply: Supply, worth: Sequence[int]) -> int:
    """The most worth that one board holds, by trying all sums of lengths it has room for."""
    if supply.single:
        return max(worth)
    if supply.ways:
        widths = {width for way in supply.ways for width in way}
        best = {width: _strip(problem, supply.capacity, worth, width) for width in widths}
        return max(sum(best[width] for width in way) for way in supply.ways)
    if problem.nest is None:
        return _strip(problem, supply.capacity, worth, None)
    return _nested(problem, supply.capacity, worth)


def _strip(problem: Problem, capacity: int, worth: Sequence[int], width: int | None) -> int:
    best = {0: 0}
    for item, length in enumerate(problem.lengths):
        if worth[item] <= 0 or (width is not None and problem.widths[item] > width):
            continue
        new = dict(best)
        for used, value in best.items():
            for count in range(1, min(problem.demands[item], (capacity - used) // length) + 1):
                at, worthy = used + count * length, value + count * worth[item]
                if worthy > new.get(at, -1):
                    new[at] = worthy
        best = _undominated(new)
    return max(best.values())


def _undominated(best: dict[int, int]) -> dict[int, int]:
    """Only sums that are worth more than every shorter one."""
    kept, most = {}, -1
    for used in sorted(best):
        if best[used] > most:
            kept[used] = most = best[used]
    return kept


def _nested(problem: Problem, capacity: int, worth: Sequence[int]) -> int:
    nest = problem.nest
    assert nest is not None
    best = {(0, 0): 0}
    for item, length in enumerate(problem.lengths):
        if worth[item] <= 0:
            continue
        group = nest.groups[item]
        unit, states = nest.unit(group), nest.states[group]
        new = dict(best)
        for (profile, used), value in best.items():
            had = profile // unit % states
            room = capacity + nest.relief - used
            for count in range(1, min(problem.demands[item], room // length) + 1):
                shift = (nest.state(group, had + count) - had) * unit
                key = (profile + shift, used + count * length)
                new[key] = max(new.get(key, 0), value + count * worth[item])
        best = {
            (profile, used): value
            for profile in {profile for profile, _ in new}
            for used, value in _undominated(
                {used: v for (own, used), v in new.items() if own == profile}
            ).items()
        }
    return max(v for (p, used), v in best.items() if used + nest.setups[p] <= capacity)
