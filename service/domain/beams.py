"""Straight beams over any supports under any loads: how far they sag and how hard they are bent.

The beam is cut at every support, point load and end of a spread load. Between cuts the deflection
is an exact polynomial, so nothing is approximated but the roots where it is greatest; the joints
are found by the stiffness method (one small linear system). Bending only: wood of furniture spans
adds a few percent of shear deflection, which its printed stiffness is lowered for.
"""

from collections.abc import Sequence
from functools import lru_cache
from itertools import pairwise

from service.domain.values import dataclass

CLOSE = 1e-4  # cuts nearer than this share of the length are one, or rounding would tell
BAND = 3  # of the system: two numbers a joint, its own and its neighbors'
STEPS = 16  # places a stretch is looked at before its peak is closed in on


@dataclass(frozen=True, slots=True)
class Support:
    """Where a beam is held; `fixed` also keeps it from turning there."""

    at: float
    fixed: bool = False


@dataclass(frozen=True, slots=True)
class Spread:
    """`weight` pounds an inch from one place to another."""

    start: float
    end: float
    weight: float


@dataclass(frozen=True, slots=True)
class Point:
    """Pounds at a place."""

    at: float
    weight: float


@dataclass(frozen=True, slots=True)
class Beam:
    """A beam `length` inches long, its supports and loads; places are inches from its left end."""

    length: float
    supports: tuple[Support, ...]
    spreads: tuple[Spread, ...] = ()
    points: tuple[Point, ...] = ()


@dataclass(frozen=True, slots=True)
class Bent:
    """The loaded beam. `sag` is for a rigidity of 1 pound-square inch: divide by the real one.

    `sag` is the greatest distance from straight, up or down (down is positive), `moment` the
    greatest in size, inch-pounds (positive where the lower side is stretched).
    """

    sag: float
    sag_at: float
    moment: float
    moment_at: float
    reactions: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class Stretch:
    """Part of a beam between two cuts. `poly` is the deflection as a polynomial of the distance
    from its start, for a rigidity of 1."""

    start: float
    length: float
    poly: tuple[float, float, float, float, float]

    def deflection(self, x: float) -> float:
        """Inches down at a distance from the start."""
        a, b, c, d, e = self.poly
        return a + x * (b + x * (c + x * (d + x * e)))

    def slope(self, x: float) -> float:
        """Inches down an inch."""
        _, b, c, d, e = self.poly
        return b + x * (2 * c + x * (3 * d + x * 4 * e))

    def moment(self, x: float) -> float:
        """Inch-pounds, positive where the lower side is stretched."""
        _, _, c, d, e = self.poly
        return -(2 * c + x * (6 * d + x * 12 * e))

    def peaks(self) -> list[float]:
        """Places where the deflection may be greatest: the ends, and where the slope turns over."""
        places = [0.0, self.length]
        marks = [self.length * step / STEPS for step in range(STEPS + 1)]
        slopes = [self.slope(mark) for mark in marks]
        for i in range(STEPS):
            if slopes[i] * slopes[i + 1] < 0:
                places.append(self._flat(marks[i], marks[i + 1]))
        return places

    def bends(self) -> list[float]:
        """Places where the moment may be greatest: the ends, and where the shear is nothing."""
        _, _, _, d, e = self.poly
        level = -d / (4 * e) if e else -1.0
        return [0.0, self.length] + ([level] if 0 < level < self.length else [])

    def _flat(self, left: float, right: float) -> float:
        falling = self.slope(left) > 0
        for _ in range(60):
            middle = (left + right) / 2
            if (self.slope(middle) > 0) == falling:
                left = middle
            else:
                right = middle
        return (left + right) / 2


def bend(beam: Beam) -> Bent:
    """The sag and the moment of a beam. Raises ValueError where nothing holds it up.

    It is figured one inch long under one pound and scaled, so that beams of one kind are figured
    once.
    """
    n = beam.length
    weight = sum(s.weight * (s.end - s.start) for s in beam.spreads) + sum(
        p.weight for p in beam.points
    )
    if weight <= 0:
        return Bent(0.0, n / 2, 0.0, n / 2, tuple(0.0 for _ in beam.supports))
    spreads: dict[tuple[float, float], float] = {}
    for s in beam.spreads:
        place = _short(s.start / n), _short(s.end / n)
        spreads[place] = spreads.get(place, 0.0) + s.weight * n / weight
    unit = Beam(
        1.0,
        tuple(Support(_short(s.at / n), s.fixed) for s in beam.supports),
        tuple(Spread(*place, _short(each)) for place, each in spreads.items()),
        tuple(Point(_short(p.at / n), _short(p.weight / weight)) for p in beam.points),
    )
    found = _bent(unit)
    return Bent(
        found.sag * weight * n**3,
        found.sag_at * n,
        found.moment * weight * n,
        found.moment_at * n,
        tuple(weight * each for each in found.reactions),
    )


def _short(number: float) -> float:
    return round(number, 13)


@lru_cache(maxsize=512)
def _bent(beam: Beam) -> Bent:
    cuts = _cuts(beam)
    moves = _joint_moves(beam, cuts)
    stretches = [
        _stretch(start, end - start, moves[2 * i : 2 * i + 4], _weight(beam, (start + end) / 2))
        for i, (start, end) in enumerate(pairwise(cuts))
    ]
    sags = [(s.deflection(x), s.start + x) for s in stretches for x in s.peaks()]
    moments = [(s.moment(x), s.start + x) for s in stretches for x in s.bends()]
    sag, sag_at = max(sags, key=lambda pair: abs(pair[0]))
    moment, moment_at = max(moments, key=lambda pair: abs(pair[0]))
    return Bent(sag, sag_at, moment, moment_at, _reactions(beam, cuts, moves))


def _stretch(start: float, n: float, ends: Sequence[float], weight: float) -> Stretch:
    """From deflection and slope at both ends, and the load spread between them."""
    down, slope, down_end, slope_end = ends
    w = weight / 24
    rise = down_end - down - slope * n - w * n**4
    turn = slope_end - slope - 4 * w * n**3
    cubic = (3 * rise - turn * n) / n**2, (turn * n - 2 * rise) / n**3
    return Stretch(start, n, (down, slope, *cubic, w))


def _cuts(beam: Beam) -> list[float]:
    marks = {0.0, beam.length, *(s.at for s in beam.supports), *(p.at for p in beam.points)}
    marks |= {place for spread in beam.spreads for place in (spread.start, spread.end)}
    cuts: list[float] = []
    for mark in sorted(marks):
        if not cuts or mark - cuts[-1] > CLOSE * beam.length:
            cuts.append(mark)
    return cuts


def _weight(beam: Beam, at: float) -> float:
    return sum(s.weight for s in beam.spreads if s.start <= at <= s.end)


def _joint_moves(beam: Beam, cuts: Sequence[float]) -> list[float]:
    """Deflection and slope at every cut, in turn."""
    matrix, loads = _system(beam, cuts)
    for support in beam.supports:
        joint = _nearest(cuts, support.at)
        for held in (2 * joint, 2 * joint + 1) if support.fixed else (2 * joint,):
            for other in range(len(loads)):
                matrix[held][other] = matrix[other][held] = 0.0
            matrix[held][held], loads[held] = 1.0, 0.0
    return _solved(matrix, loads)


def _system(beam: Beam, cuts: Sequence[float]) -> tuple[list[list[float]], list[float]]:
    """The stiffness of all joints, and the forces and moments on them; rigidity 1."""
    size = 2 * len(cuts)
    matrix, loads = [[0.0] * size for _ in range(size)], [0.0] * size
    for i, (start, end) in enumerate(pairwise(cuts)):
        n, w = end - start, _weight(beam, (start + end) / 2)
        for row, line in enumerate(_stiffness(n)):
            for place, value in enumerate(line):
                matrix[2 * i + row][2 * i + place] += value
        for row, force in enumerate((w * n / 2, w * n**2 / 12, w * n / 2, -w * n**2 / 12)):
            loads[2 * i + row] += force
    for point in beam.points:
        loads[2 * _nearest(cuts, point.at)] += point.weight
    return matrix, loads


def _stiffness(n: float) -> tuple[tuple[float, ...], ...]:
    """Of one stretch n inches long: forces and moments at its ends for unit moves of them."""
    a, b, c = 12 / n**3, 6 / n**2, 4 / n
    return (a, b, -a, b), (b, c, -b, c / 2), (-a, -b, a, -b), (b, c / 2, -b, c)


def _reactions(beam: Beam, cuts: Sequence[float], moves: Sequence[float]) -> tuple[float, ...]:
    """What each support carries, pounds, upward positive."""
    matrix, loads = _system(beam, cuts)
    rows = [2 * _nearest(cuts, support.at) for support in beam.supports]
    return tuple(
        loads[row] - sum(k * move for k, move in zip(matrix[row], moves, strict=True))
        for row in rows
    )


def _nearest(cuts: Sequence[float], at: float) -> int:
    return min(range(len(cuts)), key=lambda i: abs(cuts[i] - at))


def _solved(rows: list[list[float]], right: list[float]) -> list[float]:
    """Elimination inside the band: a joint is tied only to itself and to its two neighbors."""
    size = len(rows)
    least = [1e-12 * rows[i][i] for i in range(size)]
    for i in range(size):
        line, pivot = rows[i], rows[i][i]
        if pivot < least[i]:
            raise ValueError("nothing holds this beam up")
        end = min(i + BAND + 1, size)
        for r in range(i + 1, end):
            share = rows[r][i] / pivot
            if share:
                for c in range(i + 1, end):
                    rows[r][c] -= share * line[c]
                right[r] -= share * right[i]
    found = [0.0] * size
    for i in reversed(range(size)):
        line = rows[i]
        rest = sum(line[c] * found[c] for c in range(i + 1, min(i + BAND + 1, size)))
        found[i] = (right[i] - rest) / line[i]
    return found
