"""Runs: lines along which sizes add up, with every size as an interval."""

from collections.abc import Mapping
from fractions import Fraction
from math import lcm

from service.domain.build import Build, Part, Piece, Run
from service.domain.catalog import Interval
from service.domain.leaning import lean_part
from service.domain.parts import ResolvedPart
from service.domain.ratio import ratio
from service.domain.solid import Rod, Solid
from service.domain.stocks import Sized
from service.domain.values import dataclass

NOTHING = Fraction(0)
Parts = Mapping[str, ResolvedPart]


@dataclass(frozen=True, slots=True)
class PieceSize:
    """One piece of a run: what one of them takes up, and how many times it counts (signed).

    `nominal` is what it would take up if the name of its stock told its size; None where it does
    not apply.
    """

    at: str
    piece: Piece
    stock: str
    each: Interval
    nominal: Fraction | None
    times: int
    rests_on: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class ResolvedRun:
    """A run added up. `total` and `target` are None where a piece has no size.

    `target` is what the sum must equal, or, for an opening, its size less the clearance.
    `unknown` holds (pointer, id) of pieces that name no part of the list.
    """

    index: int
    run: Run
    pieces: tuple[PieceSize, ...]
    equals: PieceSize | None
    total: Interval | None
    target: Interval | None
    unknown: tuple[tuple[str, str], ...]
    unsized: tuple[str, ...]

    @property
    def at(self) -> str:
        return f"#/runs/{self.index}"

    @property
    def angled(self) -> bool:
        """Whether an angle went into the sum, so that it is not exact."""
        return any(size.piece.along in ("rise", "reach") for size in self.pieces)

    @property
    def rests_on(self) -> tuple[str, ...]:
        pieces = (*self.pieces, self.equals) if self.equals else self.pieces
        return tuple(dict.fromkeys(row for piece in pieces for row in piece.rests_on))


def add_up(index: int, run: Run, build: Build, parts: Parts) -> ResolvedRun:
    """The sum of a run's pieces and what it is held against."""
    sizes: list[PieceSize] = []
    unknown: list[tuple[str, str]] = []
    unsized: list[str] = []
    equals: PieceSize | None = None
    places = [(piece, f"#/runs/{index}/pieces/{i}") for i, piece in enumerate(run.pieces)]
    if isinstance(run.equals, Piece):
        places.append((run.equals, f"#/runs/{index}/equals"))
    for piece, at in places:
        if piece.part is not None and piece.part not in parts:
            unknown.append((f"{at}/part", piece.part))
            continue
        size = piece_size(piece, at, build, parts)
        if size is None:
            unsized.append(piece.part or "")
        elif piece is run.equals:
            equals = size
        else:
            sizes.append(size)
    complete = not unknown and not unsized
    total = summed(sizes) if complete else None
    target = target_of(run, equals) if complete else None
    return ResolvedRun(
        index, run, tuple(sizes), equals, total, target, tuple(unknown), tuple(unsized)
    )


def target_of(run: Run, equals: PieceSize | None) -> Interval | None:
    """What the sum is held against."""
    if run.fits is not None:
        return Interval.exactly(run.fits - run.clearance)
    if equals is not None:
        return summed([equals])
    return Interval.exactly(run.equals) if isinstance(run.equals, Fraction) else None


def summed(sizes: list[PieceSize]) -> Interval:
    """The sum at the thin end, as listed and at the thick end of every tolerance."""
    if all(size.each.is_exact for size in sizes):  # one sum in place of three
        return Interval.exactly(_sum_of([(size.times, size.each.listed) for size in sizes]))
    low = listed = high = NOTHING
    for size in sizes:
        listed += size.times * size.each.listed
        thin, thick = sorted((size.times * size.each.low, size.times * size.each.high))
        low += thin
        high += thick
    return Interval(low, listed, high)


def _sum_of(terms: list[tuple[int, Fraction]]) -> Fraction:
    """Each size so many times, all together; reduced once, at the end."""
    total, under = 0, 1
    for times, size in terms:
        top, bottom = size.as_integer_ratio()
        common = lcm(under, bottom)
        total = total * (common // under) + times * top * (common // bottom)
        under = common
    return ratio(total, under)


def piece_size(piece: Piece, at: str, build: Build, parts: Parts) -> PieceSize | None:
    """What one piece takes up along the run, or None where its part has no such size."""
    times = -piece.count if piece.less else piece.count
    taken = piece.let_in + piece.overlap if piece.overlap else piece.let_in
    if piece.part is None:
        if piece.size is None:
            return None
        return PieceSize(at, piece, "", Interval.exactly(piece.size - taken), None, times, ())
    resolved = parts[piece.part]
    part, sized = resolved.part, resolved.sized
    each = extent(piece, resolved, build)
    if each is None:
        return None
    nominal = nominal_extent(piece, part, sized)
    rows = sized.rests_on if sized and piece.along in ("width", "thickness") else ()
    return PieceSize(
        at,
        piece,
        part.stock.name or "",
        Interval(each.low - taken, each.listed - taken, each.high - taken) if taken else each,
        nominal - taken if nominal is not None and taken else nominal,
        times,
        rows if each == (sized and bought(piece, sized)) else (),
    )


def bought(piece: Piece, sized: Sized) -> Interval | None:
    """The size along the run that the part has straight from its stock."""
    return sized.stock_thickness if piece.along == "thickness" else sized.stock_width


def extent(piece: Piece, resolved: ResolvedPart, build: Build) -> Interval | None:
    """A part's size along a run. Length is as stated, to the points that the part names."""
    part, sized, solid = resolved.part, resolved.sized, resolved.solid
    if piece.along == "length":
        return None if part.length is None else Interval.exactly(part.length)
    if sized is None:
        return None
    if piece.along in ("thickness", "width"):
        return sized.thickness if piece.along == "thickness" else sized.width
    lean = lean_of(piece, part, build)
    if lean is None or not isinstance(solid, Solid | Rod):
        return None
    leaning = lean_part(solid, lean)
    return Interval.exactly(leaning.rise if piece.along == "rise" else leaning.reach)


def lean_of(piece: Piece, part: Part, build: Build) -> float | None:
    """Degrees from vertical: on the piece, or from the shape that the part belongs to."""
    if piece.lean is not None:
        return piece.lean
    for shape in build.shapes:
        lean = shape.fields.get("lean")
        if isinstance(lean, float) and any(part.id in ids for ids in shape.parts.values()):
            return lean
    return None


def nominal_extent(piece: Piece, part: Part, sized: Sized | None) -> Fraction | None:
    """What the piece would take up if the stock's name were its size."""
    if sized is None:
        return None
    if piece.along == "thickness":
        stated, nominal = part.thickness, sized.named_thickness
    elif piece.along == "width" and part.glued_from is None:
        stated, nominal = part.width, sized.nominal_width
    else:
        return None
    if stated is not None and stated != nominal:
        return None
    real = extent_listed(piece, sized)
    return nominal if nominal != real else None


def extent_listed(piece: Piece, sized: Sized) -> Fraction | None:
    """The listed thickness or width."""
    size = sized.thickness if piece.along == "thickness" else sized.width
    return size.listed if size else None
