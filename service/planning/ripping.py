"""Ripped boards: one board gives several narrower strips, each cut to length on its own.

A strip serves parts of its own width and, with one more rip, narrower ones. The board is ripped
from end to end first, then every strip is cut like a board of its own. The saw takes a kerf between
strips; what is left beside the last one may be anything from nothing up.
"""

from collections.abc import Iterator, Sequence
from fractions import Fraction

from service.planning.job import Job
from service.planning.problem import Pattern, Problem


def widths_of(job: Job) -> list[Fraction]:
    """The widths that parts of a job need, narrowest first; a width class is a place here."""
    return sorted({part.width or job.width for part in job.parts
                   if part.width is None or part.width <= job.width})  # fmt: skip


def ways_to_rip(job: Job, classes: Sequence[int]) -> tuple[tuple[int, ...], ...]:
    """All ways to rip a board so full that no further strip fits; as width classes.

    The whole board, unripped, is the way with the widest class alone, if it serves full width.
    """
    order = widths_of(job)
    found: set[tuple[int, ...]] = set()

    def go(way: tuple[int, ...], left: Fraction, top: int) -> None:
        full = True
        for place in classes:
            need = order[place] + (job.kerf if way else 0)
            if need <= left:
                full = False
                if place <= top:
                    go((*way, place), left - need, place)
        if full and way:
            found.add(tuple(sorted(way)))

    go((), job.width, max(classes, default=0))
    return tuple(sorted(found))


def split(problem: Problem, supply: int, pattern: Pattern) -> tuple[tuple[int, Pattern], ...]:
    """The strips of a board, (width class, pattern) each, that hold a pattern together."""
    board = problem.supplies[supply]
    items = tuple(item for item, _ in pattern)
    left = tuple(count for _, count in pattern)
    for way in board.ways:
        found = _Splitter(problem, items, board.capacity).fill(left, way)
        if found is not None:
            return tuple(zip(way, found, strict=True))
    raise ValueError("the pattern does not come out of the board")


class _Splitter:
    """Fills strip after strip; remembers what did not come out."""

    def __init__(self, problem: Problem, items: tuple[int, ...], capacity: int) -> None:
        self.problem, self.items, self.capacity = problem, items, capacity
        self.failed: set[tuple[int, tuple[int, ...]]] = set()

    def fill(self, left: tuple[int, ...], way: tuple[int, ...]) -> list[Pattern] | None:
        """Patterns for the strips of a way, narrowest first; None if they do not hold all."""
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
