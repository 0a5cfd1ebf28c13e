"""The cutting problem in whole numbers: items, supplies to cut them from, cuts as the answer.

One step is the problem's common unit of length. The kerf is folded in: every item is its length
and one kerf, every supply its usable length and one kerf, so that k pieces take k - 1 kerfs when
the last one ends the board and k when a rest is left. Prices are whole numbers, too.
"""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from math import prod
from typing import NamedTuple

Pattern = tuple[tuple[int, int], ...]
"""What is cut from one board: (item, how many of it), by item."""


class Column(NamedTuple):
    """A supply and a pattern that fits it."""

    supply: int
    pattern: Pattern


@dataclass(frozen=True, slots=True)
class Supply:
    """Boards alike: steps of usable length (one kerf more), price, how many there are (None: any).

    `single` holds one piece of any length: a place for pieces that must be left out.
    `ways` are the ways to rip the board: for each, the width class of every strip that it gives.
    Empty: the board is not ripped.
    """

    capacity: int
    price: int
    limit: int | None = None
    single: bool = False
    ways: tuple[tuple[int, ...], ...] = ()


@dataclass(frozen=True, slots=True)
class Nest:
    """What slanted ends cost a board beyond the items' own steps.

    `groups` gives each item's group of angles. `setups` gives the steps by a board's profile: the
    state of every group, the first one counting least. A group of two states is on the board or
    not (1 or 0); one of three is not on it, an odd number of times or an even one (0, 1, 2).
    """

    groups: tuple[int, ...]
    states: tuple[int, ...]
    setups: tuple[int, ...]

    @property
    def relief(self) -> int:
        """The most steps that a setup gives back: items may exceed a board by so much."""
        return max(0, -min(self.setups))

    def state(self, group: int, total: int) -> int:
        """The state of a group with so many pieces on the board."""
        if total == 0:
            return 0
        return 2 - total % 2 if self.states[group] == 3 else 1

    def unit(self, group: int) -> int:
        """What one state of a group counts in a profile."""
        return prod(self.states[:group])

    def profile(self, pattern: Pattern) -> int:
        """The profile of a board cut by a pattern."""
        totals: dict[int, int] = {}
        for item, count in pattern:
            group = self.groups[item]
            totals[group] = totals.get(group, 0) + count
        return sum(self.unit(group) * self.state(group, n) for group, n in totals.items())


@dataclass(frozen=True, slots=True)
class Problem:
    """Items by length, longest first, each wanted `demands` times; and the supplies.

    `widths` gives each item's width class where boards are ripped: an item comes out of a strip
    of its own class or a wider one (a lower number is a narrower strip).
    """

    lengths: tuple[int, ...]
    demands: tuple[int, ...]
    supplies: tuple[Supply, ...]
    nest: Nest | None = None
    widths: tuple[int, ...] = ()

    @property
    def ripped(self) -> bool:
        """Whether any board may be ripped into strips."""
        return any(supply.ways for supply in self.supplies)

    @property
    def relief(self) -> int:
        """Steps by which items may exceed a board, because a setup gives them back."""
        return 0 if self.nest is None else self.nest.relief

    @property
    def plain(self) -> bool:
        """Whether a pattern fits as soon as its lengths add up to no more than the board."""
        return self.nest is None and not self.ripped

    @property
    def pieces(self) -> int:
        """How many pieces are wanted in all."""
        return sum(self.demands)

    def steps(self, pattern: Iterable[tuple[int, int]]) -> int:
        """The steps that a pattern takes of a board that is not ripped."""
        pattern = tuple(pattern)
        own = sum(self.lengths[item] * count for item, count in pattern)
        return own if self.nest is None else own + self.nest.setups[self.nest.profile(pattern)]

    def priced(self, prices: Iterable[int]) -> "Problem":
        """The same problem at other prices."""
        supplies = tuple(
            replace(supply, price=price)
            for supply, price in zip(self.supplies, prices, strict=True)
        )
        return replace(self, supplies=supplies)


class Cut(NamedTuple):
    """One pattern, cut from `times` boards of one supply."""

    supply: int
    pattern: Pattern
    times: int


Cuts = tuple[Cut, ...]


def cost_of(problem: Problem, cuts: Cuts) -> int:
    """What the boards of some cuts cost."""
    return sum(problem.supplies[cut.supply].price * cut.times for cut in cuts)


def serves(problem: Problem, cuts: Cuts) -> bool:
    """Whether cuts yield all items, fit their boards, and use no more boards than there are.

    The strips of ripped boards are not looked at: their patterns come from strips.
    """
    left = list(problem.demands)
    stock = [supply.limit for supply in problem.supplies]
    for k, pattern, times in cuts:
        supply, limit = problem.supplies[k], stock[k]
        for item, count in pattern:
            left[item] -= count * times
        stock[k] = None if limit is None else limit - times
        pieces = sum(count for _, count in pattern)
        fits = pieces <= 1 if supply.single else problem.steps(pattern) <= supply.capacity
        if not (fits or supply.ways) or times < 0:
            return False
    enough = all(limit is None or limit >= 0 for limit in stock)
    return enough and all(count <= 0 for count in left)


def trimmed(problem: Problem, cuts: Cuts) -> Cuts:
    """The cuts without the pieces that nobody asked for, taken off the emptiest boards first.

    Boards are counted one by one, in a fixed order; boards left without a piece are dropped.
    """
    over = [-demand for demand in problem.demands]
    for cut in cuts:
        for item, count in cut.pattern:
            over[item] += count * cut.times
    boards = [(cut.supply, cut.pattern) for cut in cuts for _ in range(cut.times)]
    boards.sort(key=lambda board: -_rest(problem, board))
    kept: dict[Column, int] = {}
    for supply, pattern in boards:
        counts = dict(pattern)
        for item in sorted(counts, key=lambda item: -problem.lengths[item]):
            drop = min(counts[item], max(0, over[item]))
            counts[item] -= drop
            over[item] -= drop
        left = tuple((item, count) for item, count in sorted(counts.items()) if count)
        if left:
            column = Column(supply, left)
            kept[column] = kept.get(column, 0) + 1
    return tuple(Cut(*column, times) for column, times in sorted(kept.items()))


def _rest(problem: Problem, board: tuple[int, Pattern]) -> int:
    supply, pattern = board
    return problem.supplies[supply].capacity - problem.steps(pattern)
