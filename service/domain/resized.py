"""What a resize works on and gives: sizes by pointer, changes with their reasons, refusals."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from fractions import Fraction

from service.domain.build import Build, Part, Piece, Run
from service.domain.errors import Complaint, DryfitError
from service.domain.rounding import Turn

Sizes = Mapping[str, Fraction]


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


def part_size(build: Build, index: int, name: str) -> Fraction | None:
    """The stated length or width of a part."""
    part = build.parts[index]
    return part.length if name == "length" else part.width


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
