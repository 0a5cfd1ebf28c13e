"""Ripped boards: one board gives several narrower strips, each cut to length on its own.

A strip serves parts of its own width and, with one more rip, narrower ones. The board is ripped
from end to end first, then every strip is cut like a board of its own. The saw takes a kerf between
strips; what is left beside the last one may be anything from nothing up.
"""

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction
from itertools import islice
from math import lcm

from service.domain.deadline import keep_time
from service.planning.problem import Pattern, Problem

MOST_WAYS = 1000

Way = tuple[int, ...]
"""The width class of every strip that a board is ripped into, narrowest first."""


def ways_to_rip(
    widths: Sequence[Fraction], board: Fraction, kerf: Fraction
) -> tuple[tuple[Way, ...], bool]:
    """Ways to rip a board so full that no further strip fits, and whether they are all.

    `widths` are those that parts need, narrowest first; a width class is a place among them. The
    whole board, unripped, is the way with the widest class alone, if it serves full width.
    """
    under = lcm(board.denominator, kerf.denominator, *(width.denominator for width in widths))
    needs = [int((width + kerf) * under) for width in widths]
    room = int((board + kerf) * under)
    found = list(islice(_full_ways(needs, room, len(needs) - 1), MOST_WAYS + 1))
    if len(found) <= MOST_WAYS:
        return tuple(sorted(found)), True
    few: set[Way] = set()
    for way in _plain_ways(needs, room):
        few.add(way)
        if len(few) == MOST_WAYS:
            break
    return tuple(sorted(few)), False


def _full_ways(needs: Sequence[int], room: int, top: int) -> Iterator[Way]:
    """Every way that leaves no room for the narrowest strip, the widest strips set first."""
    if room < needs[0]:
        yield ()
        return
    for place in range(top, -1, -1):
        if needs[place] <= room:
            for rest in _full_ways(needs, room - needs[place], place):
                yield (*rest, place)


def _plain_ways(needs: Sequence[int], room: int) -> Iterator[Way]:
    """As many strips of one width as fit, then one fewer and so on, the rest filled with others.

    Every width has its turn before any has a second one.
    """
    for fewer in range(room // needs[0]):
        for apart in range(len(needs)):
            for first in range(len(needs) - 1, apart - 1, -1):
                count = room // needs[first] - fewer
                if count > 0:
                    yield _filled(first, count, needs, room, first - apart)


def _filled(first: int, count: int, needs: Sequence[int], room: int, top: int) -> Way:
    """Strips of one width, and the widest others that still fit, from another width down."""
    way, room = [first] * count, room - count * needs[first]
    for place in range(top, -1, -1):
        more, room = divmod(room, needs[place])
        way += [place] * more
    return tuple(sorted(way))


def split(problem: Problem, supply: int, pattern: Pattern) -> tuple[tuple[int, Pattern], ...]:
    """The strips of a board, (width class, pattern) each, that hold a pattern together.

    Most boards are filled as rules of thumb fill them; only for others is every load tried.
    """
    board = problem.supplies[supply]
    ways = [way for way in board.ways if _has_room(problem, board.capacity, pattern, way)]
    for way in ways:
        loads = longest_first(problem, dict(pattern), way, board.capacity)
        if sum(count for load in loads for _, count in load) == sum(n for _, n in pattern):
            return tuple(zip(way, loads, strict=True))
    items = tuple(item for item, _ in pattern)
    for way in ways:
        found = _Splitter(problem, items, board.capacity).fill(tuple(n for _, n in pattern), way)
        if found is not None:
            return tuple(zip(way, found, strict=True))
    raise ValueError("the pattern does not come out of the board")


def longest_first(
    problem: Problem, wanted: Mapping[int, int], way: Way, capacity: int
) -> list[Pattern]:
    """The strips of a way, narrowest first, each filled with the longest pieces that still fit."""
    left, loads = dict(wanted), list[Pattern]()
    for width in way:
        room, load = capacity, list[tuple[int, int]]()
        for item, count in left.items():
            fits = room // problem.lengths[item] if problem.widths[item] <= width else 0
            if taken := min(count, fits):
                left[item] -= taken
                room -= taken * problem.lengths[item]
                load.append((item, taken))
        loads.append(tuple(load))
    return loads


def _has_room(problem: Problem, capacity: int, pattern: Pattern, way: Way) -> bool:
    """Whether, for every width, the strips no narrower are long enough for the pieces that wide."""
    return all(
        sum(problem.lengths[item] * n for item, n in pattern if problem.widths[item] >= width)
        <= capacity * sum(own >= width for own in way)
        for width in {problem.widths[item] for item, _ in pattern}
    )


class _Splitter:
    """Fills strip after strip; remembers what did not come out."""

    def __init__(self, problem: Problem, items: tuple[int, ...], capacity: int) -> None:
        self.problem, self.items, self.capacity = problem, items, capacity
        self.failed: set[tuple[int, tuple[int, ...]]] = set()

    def fill(self, left: tuple[int, ...], way: tuple[int, ...]) -> list[Pattern] | None:
        """Patterns for the strips of a way, narrowest first; None if they do not hold all."""
        keep_time()
        if not any(left):
            return [()] * len(way)
        if not way or (len(way), left) in self.failed:
            return None
        for taken in self._loads(0, left, way[0], self.capacity):
            rest = tuple(a - b for a, b in zip(left, taken, strict=True))
            found = self.fill(rest, way[1:])
            if found is not None:
                pattern = tuple((i, n) for i, n in zip(self.items, taken, strict=True) if n)
                return [pattern, *found]
        self.failed.add((len(way), left))
        return None

    def _loads(
        self, at: int, left: tuple[int, ...], width: int, room: int
    ) -> Iterator[tuple[int, ...]]:
        """All loads of one strip, the fullest of each item first."""
        if at == len(self.items):
            yield ()
            return
        item = self.items[at]
        length = self.problem.lengths[item]
        most = min(left[at], room // length) if self.problem.widths[item] <= width else 0
        for count in range(most, -1, -1):
            for rest in self._loads(at + 1, left, width, room - count * length):
                yield (count, *rest)
