"""What a resize works on and gives: sizes by pointer, changes with their reasons, refusals."""

from collections.abc import Mapping
from dataclasses import field
from fractions import Fraction

from service.domain.build import Build, Part, Piece, Run
from service.domain.errors import Complaint, DryfitError
from service.domain.rounding import Turn
from service.domain.tape import MM, nearest
from service.domain.values import dataclass, replace

Sizes = Mapping[str, Fraction]

# What angles leave is no exact number. It is written to FINE inches, and on a mark it comes near.
SNAP, FINE = Fraction(1, 10**6), Fraction(1, 10**4)
LARGEST_UNDER = 999_999  # the largest denominator that a document may hold


class CannotResize(DryfitError):
    """The piece can't be made in that size."""

    def __init__(self, *complaints: Complaint) -> None:
        super().__init__("; ".join(complaint.detail for complaint in complaints))
        self.complaints = complaints


class UnknownInResize(CannotResize):
    """The document has no run, stock or part of that name, or the tables no such region."""


class RunsContradict(CannotResize):
    """The runs contradict each other in the new size."""


class NothingGives(CannotResize):
    """Nothing along the run can take up the difference."""


class SeveralCanGive(CannotResize):
    """Several sizes could take up the difference, and nothing says which."""


class NothingLeft(CannotResize):
    """A size would come out at nothing or less."""


@dataclass(frozen=True, slots=True)
class Resizing:
    """What is asked: new sizes of runs, real sizes of stocks, another region, parts already cut.

    Lengths in inches; a stock's thickness or width is None where it stays as it was.
    """

    to: Mapping[str, Fraction] = field(default_factory=dict)
    stock: Mapping[str, tuple[Fraction | None, Fraction | None]] = field(default_factory=dict)
    region: str | None = None
    cut: frozenset[str] = frozenset()
    round_to_tape: bool = False


@dataclass(frozen=True, slots=True)
class Changed:
    """One change of the document: where, what stood there, what stands there now, and why.

    Lengths are fractions; anything else stands as the document holds it. `is_now` None takes the
    value out, `was` None puts it in.
    """

    path: str
    was: object
    is_now: object
    why: str


@dataclass(frozen=True, slots=True)
class Kept:
    """Something that stays as it was, and why."""

    path: str
    why: str


@dataclass(frozen=True, slots=True)
class Resized:
    """The changes in document order, what is kept, and in which order to cut after rounding."""

    build: Build
    changed: tuple[Changed, ...]
    kept: tuple[Kept, ...]
    order: tuple[Turn, ...] = ()


def tidy(size: Fraction) -> Fraction:
    """A size without the dust that a cosine leaves: 19 1/2 in, not 19.4999999999 in."""
    for step in (Fraction(1, 64), MM / 10):
        mark = nearest(size, step)
        if abs(mark - size) <= SNAP:
            return mark
    return size if size.denominator <= LARGEST_UNDER else nearest(size, FINE)


def with_sizes(build: Build, sizes: Sizes) -> Build:
    """The build with other lengths and widths of parts, and other sizes in its runs."""
    parts = tuple(_part(part, f"/parts/{i}", sizes) for i, part in enumerate(build.parts))
    runs = tuple(_run(run, f"/runs/{i}", sizes) for i, run in enumerate(build.runs))
    return replace(build, parts=parts, runs=runs)


def _part(part: Part, at: str, sizes: Sizes) -> Part:
    length = sizes.get(f"{at}/length", part.length)
    width = sizes.get(f"{at}/width", part.width)
    if (length, width) == (part.length, part.width):
        return part
    return replace(part, length=length, width=width)


def _run(run: Run, at: str, sizes: Sizes) -> Run:
    pieces = tuple(_piece(piece, f"{at}/pieces/{i}", sizes) for i, piece in enumerate(run.pieces))
    equals = run.equals
    if isinstance(equals, Fraction):
        equals = sizes.get(f"{at}/equals", equals)
    return replace(run, pieces=pieces, equals=equals, fits=sizes.get(f"{at}/fits", run.fits))


def _piece(piece: Piece, at: str, sizes: Sizes) -> Piece:
    size = sizes.get(f"{at}/{'gap' if piece.gap else 'size'}", piece.size)
    return piece if size == piece.size else replace(piece, size=size)
