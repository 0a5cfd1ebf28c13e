"""Exact linear arithmetic over runs: which sizes change, and by how much, so that all runs close.

Each run is one equation in changes of sizes. A size that may change is an unknown; which ones may
is decided in tiers, the sizes that a builder would change first in front. Tiers are opened only as
far as it takes for all equations to hold together. Source: Gaussian elimination, in fractions.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction

from service.domain.deadline import kept_time

Row = dict[str, Fraction]
MOST_OPENED = 2000  # tiers opened before giving up; each equation has eight at most


@dataclass(frozen=True, slots=True)
class Equation:
    """The changes of the sizes at `terms` (JSON pointers), each times its factor, come to `by`.

    `tiers` are the pointers that may change, first those that should. An equation that is not
    `firm` is let go where it can't hold; `play` is by how much it may be off (inches).
    """

    name: str
    terms: Mapping[str, Fraction]
    by: Fraction
    tiers: tuple[tuple[str, ...], ...] = ()
    firm: bool = True
    play: Fraction = Fraction(0)


class NoSolution(Exception):
    """The equations named can't hold together, whatever gives."""

    def __init__(self, names: tuple[str, ...]) -> None:
        super().__init__(", ".join(names))
        self.names = names


class ManySolutions(Exception):
    """Several of the sizes at these pointers could change, and nothing says which."""

    def __init__(self, name: str, paths: tuple[str, ...]) -> None:
        super().__init__(name)
        self.name, self.paths = name, paths


@dataclass
class _Reduced:
    """One row of the system while it is solved, and the equations that went into it."""

    terms: Row
    by: Fraction
    came_from: frozenset[int]
    pivot: str = ""


@dataclass
class _Attempt:
    """How far each equation's tiers are open, and which equations are let go."""

    opened: list[int]
    let_go: set[int] = field(default_factory=set)


def solve(equations: Sequence[Equation]) -> Mapping[str, Fraction]:
    """The change of every size that changes, by pointer.

    Raises NoSolution where equations contradict each other or nothing may change, and
    ManySolutions where more than one size could take up a difference.
    """
    attempt = _Attempt([1] * len(equations))
    for _ in kept_time(range(MOST_OPENED)):
        allowed = _allowed(equations, attempt)
        rows, conflict = _reduced(equations, attempt, allowed)
        if conflict is None:
            return _read_off(equations, rows)
        if not _let(equations, attempt, conflict):
            raise NoSolution(tuple(equations[i].name for i in sorted(conflict.came_from)))
    raise NoSolution(tuple(equation.name for equation in equations))


def _allowed(equations: Sequence[Equation], attempt: _Attempt) -> frozenset[str]:
    return frozenset(
        path
        for equation, opened in zip(equations, attempt.opened, strict=True)
        for tier in equation.tiers[:opened]
        for path in tier
    )


def _reduced(
    equations: Sequence[Equation], attempt: _Attempt, allowed: frozenset[str]
) -> tuple[list[_Reduced], _Reduced | None]:
    """The rows in reduced form, or the first that can't hold."""
    rows: list[_Reduced] = []
    for index, equation in kept_time(enumerate(equations)):
        if index in attempt.let_go:
            continue
        terms = {path: factor for path, factor in equation.terms.items() if path in allowed}
        row = _Reduced({p: f for p, f in terms.items() if f}, equation.by, frozenset([index]))
        for other in rows:
            _subtract(row, other)
        if not row.terms:
            if row.by and abs(row.by) > max(equations[i].play for i in row.came_from):
                return rows, row
            continue
        _normalize(row)
        for other in rows:
            _subtract(other, row)
        rows.append(row)
    return rows, None


def _normalize(row: _Reduced) -> None:
    row.pivot = next(iter(row.terms))
    factor = row.terms[row.pivot]
    row.terms = {path: one / factor for path, one in row.terms.items()}
    row.by /= factor


def _subtract(row: _Reduced, other: _Reduced) -> None:
    """Take the other row's pivot out of a row."""
    factor = row.terms.get(other.pivot)
    if not factor:
        return
    for path, one in other.terms.items():
        left = row.terms.get(path, Fraction(0)) - factor * one
        if left:
            row.terms[path] = left
        else:
            row.terms.pop(path, None)
    row.by -= factor * other.by
    row.came_from |= other.came_from


def _let(equations: Sequence[Equation], attempt: _Attempt, conflict: _Reduced) -> bool:
    """Let go a row that is not firm, or open one more tier of a row in conflict."""
    soft = [i for i in conflict.came_from if not equations[i].firm and not equations[i].tiers]
    openable = [i for i in conflict.came_from if attempt.opened[i] < len(equations[i].tiers)]
    if not soft and openable:
        attempt.opened[min(openable, key=lambda i: (attempt.opened[i], i))] += 1
        return True
    soft = soft or [i for i in conflict.came_from if not equations[i].firm]
    if not soft:
        return False
    attempt.let_go.add(max(soft))
    return True


def _read_off(equations: Sequence[Equation], rows: Iterable[_Reduced]) -> Mapping[str, Fraction]:
    changes: dict[str, Fraction] = {}
    for row in rows:
        if not row.by:
            continue
        if len(row.terms) > 1:
            raise ManySolutions(equations[min(row.came_from)].name, tuple(row.terms))
        changes[row.pivot] = row.by
    return changes
