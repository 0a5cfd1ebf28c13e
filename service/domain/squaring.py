"""Rectangles that a build is known to have, and their diagonals: alike, the corners are square."""

from collections.abc import Iterator
from fractions import Fraction
from math import isqrt

from service.domain.parts import ResolvedPart
from service.domain.resolving import ResolvedBuild
from service.domain.runs import PieceSize, ResolvedRun
from service.domain.solid import Solid
from service.domain.values import dataclass

FINE = 10**6


@dataclass(frozen=True, slots=True)
class Rectangle:
    """Parts alike that stand opposite each other, or the sides of a mitered frame. Inches.

    `along` is how long they are, `across` how far apart over all.
    """

    parts: tuple[str, ...]
    where: str
    along: Fraction
    across: Fraction

    @property
    def diagonal(self) -> Fraction:
        """Corner to corner, rounded down to a millionth of an inch."""
        square = self.along**2 + self.across**2
        return Fraction(isqrt(square.numerator * FINE**2 // square.denominator), FINE)


def rectangles(build: ResolvedBuild) -> tuple[Rectangle, ...]:
    """Every rectangle that the runs and frames make known, each size once."""
    found: dict[tuple[Fraction, Fraction], Rectangle] = {}
    for one in (*_of_runs(build), *_of_frames(build)):
        low, high = sorted((one.along, one.across))
        found.setdefault((low, high), one)
    return tuple(found.values())


def _of_runs(build: ResolvedBuild) -> Iterator[Rectangle]:
    """Square parts of one kind that begin and end a run which closes."""
    for judged in build.runs:
        run = judged.run
        if judged.judgment.verdict != "closes" or run.total is None or run.angled:
            continue
        for piece in run.pieces:
            part = build.by_id.get(piece.piece.part or "")
            if part is not None and part.part.length is not None and _opposite(run, piece, part):
                yield Rectangle((part.part.id,), run.run.id, part.part.length, run.total.listed)


def _opposite(run: ResolvedRun, piece: PieceSize, part: ResolvedPart) -> bool:
    """Whether the pieces of this part lie at both ends of the run, with the others between them.

    As many others as gaps between them at most; and a gap, or others wider together than the
    pieces: boards laid on each other are no rectangle to measure.
    """
    others = [one for one in run.pieces if one is not piece]
    taken = piece.times * piece.each.listed
    between = sum((one.times * one.each.listed for one in others), Fraction(0))
    return (
        piece.piece.along in ("width", "thickness")
        and piece.times >= 2
        and not piece.piece.let_in
        and not piece.piece.overlap
        and all(one.times > 0 for one in others)
        and sum(one.times for one in others) <= piece.times - 1
        and (between > taken or any(one.piece.gap for one in others))
        and isinstance(part.solid, Solid)
        and part.solid.is_square
    )


def _of_frames(build: ResolvedBuild) -> Iterator[Rectangle]:
    """Mitered frames of four sides: long point to long point is the outside."""
    for shape in build.build.shapes:
        if shape.shape != "mitered-frame":
            continue
        ids = tuple(dict.fromkeys(id for named in shape.parts.values() for id in named))
        solids = [build.by_id[id].solid for id in ids if id in build.by_id]
        long = {s.lengths()["long-to-long"] for s in solids if isinstance(s, Solid)}
        if len(solids) == len(ids) and 1 <= len(long) <= 2:
            yield Rectangle(ids, shape.id, max(long), min(long))
