"""Slanted ends along a board: which neighbors share a cut, and what a change of angle costs.

The geometry. An end is a plane: where it lies along the board is linear in the height (across, y,
from the middle of the width) and the depth (through, z, from the middle of the thickness): x =
center + a y + b z. A cut takes a kerf square to that plane, so along the board it takes

    kerf(a, b) = kerf * sqrt(1 + a^2 + b^2).

Neighbors with the same slope share one cut: their centers lie kerf(a, b) apart. Neighbors with
other slopes need two cuts, and only their nearest corners decide: between the centers lie

    max of the two kerfs + |a - a'| width / 2 + |b - b'| thickness / 2.

At a board's end the nearest corner touches the end: |a| width / 2 + |b| thickness / 2.

A piece may be turned end for end, which leaves its front up: its left end becomes its right, and
b changes sign. Where its front may lie down (no show face), it may be turned over, too: a and b
change sign. So pieces with parallel ends follow each other as they are; pieces with opposed
miters alternate head to tail; opposed bevels can do that only turned over.

The model. Pieces that can lie in the same ways form a group; square ones are a group as well. On a
board every group is cut in one run, so that the saw is set once; a run's pieces share cuts as
described, and the order of the runs is the best of all orders. A run costs its pieces' center
lengths with a kerf each, whatever their order; what is left over (overhangs, changes of angle)
depends only on which groups are on the board, and for runs that alternate on whether their number
is odd or even: that is the board's profile (`problem.Nest`). All lengths are upper bounds, rounded
up to the unit once for a piece and once for a profile: what is planned can be cut.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from math import isqrt, prod
from typing import NamedTuple

from service.domain.deadline import kept_time
from service.domain.ends import Slant
from service.planning.job import Part

FINE = 10**12
MOST_GROUPS = 4


class Lie(NamedTuple):
    """How a piece lies: the slopes of its left and its right end, along the board."""

    left: Slant
    right: Slant
    turned: bool = False
    over: bool = False


@dataclass(frozen=True, slots=True)
class Wood:
    """What the geometry needs to know of the board and the saw, inches."""

    width: Fraction
    thickness: Fraction
    kerf: Fraction

    def kerf_along(self, slope: Slant) -> Fraction:
        """What a cut takes along the board, rounded up by less than a millionth of a millionth."""
        return _kerf_along(self.kerf, slope)

    def overhang(self, slope: Slant) -> Fraction:
        """From a cut's middle to its outermost corner, along the board."""
        return (abs(slope.across) * self.width + abs(slope.through) * self.thickness) / 2

    def gap(self, right: Slant, left: Slant) -> Fraction:
        """Between the middles of two ends that face each other."""
        return _gap(self, right, left)

    def figured_gap(self, right: Slant, left: Slant) -> Fraction:
        """The same, figured."""
        if right == left:
            return self.kerf_along(right)
        turn = Slant(right.across - left.across, right.through - left.through)
        return max(self.kerf_along(right), self.kerf_along(left)) + self.overhang(turn)


@lru_cache(maxsize=4096)
def _kerf_along(kerf: Fraction, slope: Slant) -> Fraction:
    if not any(slope):
        return kerf
    square = (kerf * FINE) ** 2 * (1 + slope.across**2 + slope.through**2)
    whole = -(-square.numerator // square.denominator)
    return Fraction(isqrt(whole - 1) + 1 if whole else 0, FINE)


@lru_cache(maxsize=4096)
def _gap(wood: Wood, right: Slant, left: Slant) -> Fraction:
    return wood.figured_gap(right, left)


def lies(part: Part) -> tuple[Lie, ...]:
    """All ways in which a piece may lie on the board, the plain one first."""
    left = Slant(-part.first.across, -part.first.through)
    right = Slant(part.second.across, part.second.through)
    return _turns(Lie(left, right), part.turns_over)


def _spun(lie: Lie) -> Lie:
    """Turned end for end, front up."""
    left, right = lie.right, lie.left
    return Lie(
        Slant(left.across, -left.through), Slant(right.across, -right.through),
        not lie.turned, lie.over,
    )  # fmt: skip


def _flipped(lie: Lie) -> Lie:
    """Turned over along its length, front down."""
    left, right = lie.left, lie.right
    return Lie(
        Slant(-left.across, -left.through), Slant(-right.across, -right.through),
        lie.turned, not lie.over,
    )  # fmt: skip


def _turns(lie: Lie, over: bool) -> tuple[Lie, ...]:
    ways = [lie, _spun(lie)]
    if over:
        ways += [_flipped(way) for way in ways]
    return tuple(ways)


class Run(NamedTuple):
    """The ends of a group's run, how its pieces lie in turn, and the kerf it does not need."""

    left: Slant
    right: Slant
    in_turn: tuple[Lie, Lie]
    unused: Fraction


@dataclass(frozen=True, slots=True)
class Group:
    """Parts whose pieces can lie in the same ways: (left, right) slopes, all of them."""

    ways: tuple[tuple[Slant, Slant], ...]
    over: bool

    def _cycle(self, wood: Wood) -> tuple[Lie, Lie, Fraction]:
        """How pieces lie in turn in a run that goes on and on, and their mean gap."""
        first = Lie(*self.ways[0])
        options = []
        for second in (first, *(Lie(*way) for way in self.ways)):
            gaps = wood.gap(first.right, second.left) + wood.gap(second.right, first.left)
            options.append((gaps / 2, second != first, second))
        mean, _, second = min(options)
        return first, second, mean

    def each(self, wood: Wood) -> Fraction:
        """The gap that every piece of a run brings along, the mean of its two neighbors'."""
        return self._cycle(wood)[2]

    def counts(self, wood: Wood) -> bool:
        """Whether it matters if a run has an odd or an even number of pieces."""
        odd, even = ({(r.left, r.right): r.unused for r in self.runs(wood, n)} for n in (1, 2))
        return odd != even

    def runs(self, wood: Wood, parity: int) -> Iterator[Run]:
        """All runs of an odd (1) or even (2) number of pieces, by their ends."""
        first, second, mean = self._cycle(wood)
        known = set[tuple[Slant, Slant]]()
        for start, other in ((first, second), (second, first)):
            last = start if parity == 1 else other
            unused = mean if parity == 1 else wood.gap(other.right, start.left)
            turns = [(start, other), (_spun(last), _spun(start if last == other else other))]
            if self.over:
                turns += [(_flipped(a), _flipped(b)) for a, b in turns]
            for a, b in turns:
                ends = a.left, (a if parity == 1 else b).right
                if ends not in known:
                    known.add(ends)
                    yield Run(*ends, (a, b), unused)


def group_of(part: Part) -> Group:
    """The group that a part belongs to: the same for all that can lie in the same ways."""
    ways = {(lie.left, lie.right) for lie in lies(part)}
    return Group(tuple(sorted(ways)), part.turns_over and not part.square)


class Order(NamedTuple):
    """Runs from left to right: (group, run), and what the board needs beyond the pieces' own."""

    setup: Fraction
    runs: tuple[tuple[int, Run], ...]


# The groups laid, as bits, and the last run: the setup so far, and the runs from the left.
_Laid = dict[tuple[int, int], tuple[Fraction, tuple[int, ...]]]


@lru_cache(maxsize=1024)
def best_order(groups: tuple[Group, ...], parities: tuple[int, ...], wood: Wood) -> Order:
    """The shortest order of the runs of the groups on a board; parity 0 is a group not on it.

    The setup counts one kerf more than the board has room for: the supply counts it as well.
    Found group by group: of all ways to lay the same groups that end with the same run, only the
    shortest goes on (Held and Karp).
    """
    runs = [
        (g, run) for g, parity in enumerate(parities) if parity
        for run in groups[g].runs(wood, parity)
    ]  # fmt: skip
    shortest: _Laid = {
        (1 << g, n): (wood.kerf + wood.overhang(run.left) - run.unused, (n,))
        for n, (g, run) in enumerate(runs)
    }
    for _ in range(sum(map(bool, parities)) - 1):
        shortest = _one_more(shortest, runs, wood)
    setup, path = min(
        (setup + wood.overhang(runs[last][1].right), path)
        for (_, last), (setup, path) in shortest.items()
    )
    return Order(setup, tuple(runs[n] for n in path))


def _one_more(shortest: _Laid, runs: Sequence[tuple[int, Run]], wood: Wood) -> _Laid:
    """The shortest ways with one more group laid, by the groups laid and the last run."""
    longer: _Laid = {}
    for (laid, last), (setup, path) in shortest.items():
        right = runs[last][1].right
        for n, (g, run) in enumerate(runs):
            if laid >> g & 1:
                continue
            found = setup + wood.gap(right, run.left) - run.unused, (*path, n)
            key = laid | 1 << g, n
            if key not in longer or found < longer[key]:
                longer[key] = found
    return longer


@lru_cache(maxsize=64)
def setups(groups: tuple[Group, ...], wood: Wood) -> tuple[tuple[int, ...], tuple[Fraction, ...]]:
    """The states of each group, and what a board needs beyond its pieces' own, by profile.

    A group whose runs have the same ends, odd or even, has two states; others have three.
    """
    states = tuple(3 if group.counts(wood) else 2 for group in groups)
    found = []
    for profile in kept_time(range(prod(states))):
        rest, parities = profile, list[int]()
        for number in states:
            parities.append(rest % number)
            rest //= number
        found.append(best_order(groups, tuple(parities), wood).setup if profile else Fraction(0))
    return states, tuple(found)


def tip_to_tip(part: Part, wood: Wood) -> Fraction:
    """The length of the square blank that a piece would need if nothing were shared."""
    lie = lies(part)[0]
    return part.length + _reach(lie, wood)


def _reach(lie: Lie, wood: Wood) -> Fraction:
    """What the outermost points add to the center length."""
    left, right = wood.overhang(lie.left), wood.overhang(lie.right)
    return left + right
