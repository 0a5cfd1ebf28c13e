"""Runs as equations: what may change along each run, and what a builder would change first."""

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction

from service.domain.build import Build, Piece, Run
from service.domain.deadline import kept_time
from service.domain.parts import ResolvedPart, resolve_part
from service.domain.resizing.solving import Equation
from service.domain.runs import ResolvedRun, add_up, extent
from service.domain.stocks import Sizing
from service.domain.values import dataclass, replace

ANGLED = Fraction(1, 32)  # inches a run with an angle in it may be off: what `within` is by default


@dataclass(frozen=True)
class Sums:
    """A build with its runs added up."""

    sizing: Sizing
    parts: Mapping[str, ResolvedPart]
    runs: tuple[ResolvedRun, ...]

    @property
    def build(self) -> Build:
        return self.sizing.build

    @property
    def metric(self) -> bool:
        return self.build.units == "mm"

    def off(self, index: int) -> Fraction | None:
        """The sum of a run less what it should be; None where a size is missing."""
        run = self.runs[index]
        if run.total is None or run.target is None:
            return None
        return run.total.listed - run.target.listed


def sums_of(sizing: Sizing, known: dict[int, ResolvedPart] | None = None) -> Sums:
    """Every part resolved and every run added up. Of two parts with one id the first counts.

    `known` are parts by place that were resolved before: those that are the same are taken over,
    and what is resolved here is added.
    """
    known = {} if known is None else known
    for index, part in kept_time(enumerate(sizing.build.parts)):
        if index not in known or known[index].part is not part:
            known[index] = resolve_part(index, part, sizing)
    parts = {part.part.id: part for _, part in sorted(known.items(), reverse=True)}
    runs = tuple(
        add_up(i, run, sizing.build, parts) for i, run in kept_time(enumerate(sizing.build.runs))
    )
    return Sums(sizing, parts, runs)


def target_path(index: int, run: Run, sums: Sums) -> str | None:
    """Where the size that a run comes to is stated: in the run, or at the part it must match."""
    if run.fits is not None:
        return f"/runs/{index}/fits"
    if isinstance(run.equals, Piece):
        return piece_path(run.equals, f"/runs/{index}/equals", sums)
    return f"/runs/{index}/equals"


def piece_path(piece: Piece, at: str, sums: Sums) -> str | None:
    """Where a piece's size is stated; None where it comes from the stock."""
    if piece.part is None:
        return f"{at}/{'gap' if piece.gap else 'size'}"
    part = sums.parts.get(piece.part)
    if part is None:
        return None
    if piece.along in ("length", "rise", "reach"):
        return f"/parts/{part.index}/length" if part.part.length is not None else None
    stated = part.part.width if piece.along == "width" else None
    sized = part.sized
    names_stock = (
        part.part.glued_from is None
        and sized is not None
        and sized.stock_width is not None
        and stated == sized.stock_width.listed
    )
    return f"/parts/{part.index}/width" if stated is not None and not names_stock else None


def factor(piece: Piece, sums: Sums) -> Fraction:
    """By how much the piece's size along the run changes where its stated size does by one."""
    if piece.along not in ("rise", "reach") or piece.part is None:
        return Fraction(1)
    part = sums.parts[piece.part]
    length = part.part.length or Fraction(0)
    longer = resolve_part(part.index, replace(part.part, length=length + 1), sums.sizing)
    one, other = extent(piece, part, sums.build), extent(piece, longer, sums.build)
    return other.listed - one.listed if one and other else Fraction(1)


def terms_of(index: int, run: Run, sums: Sums) -> dict[str, Fraction]:
    """What each stated size adds to the sum less its target."""
    terms: dict[str, Fraction] = {}

    def add(path: str | None, times: Fraction) -> None:
        if path is not None:
            terms[path] = terms.get(path, Fraction(0)) + times

    for i, piece in enumerate(run.pieces):
        times = Fraction(-piece.count if piece.less else piece.count)
        add(piece_path(piece, f"/runs/{index}/pieces/{i}", sums), times * factor(piece, sums))
    path = target_path(index, run, sums)
    if isinstance(run.equals, Piece):
        add(path, -run.equals.count * factor(run.equals, sums))
    else:
        add(path, Fraction(-1))
    return {path: times for path, times in terms.items() if times}


def tiers_of(
    index: int, run: Run, sums: Sums, fixed: frozenset[str]
) -> tuple[tuple[str, ...], ...]:
    """What may change along a run, first what a builder would change first.

    What `gives` names; lengths of parts; gaps; widths cut from panels; the part that the run must
    match; ripped widths; named sizes. The size that a run comes to is none of these.
    """
    named = tuple(_given(index, run, sums))
    kinds: list[list[str]] = [[] for _ in range(6)]
    for i, piece in enumerate(run.pieces):
        path = piece_path(piece, f"/runs/{index}/pieces/{i}", sums)
        if path is not None:
            kinds[_kind(piece, path, sums)].append(path)
    if isinstance(run.equals, Piece):
        path = target_path(index, run, sums)
        kinds[3] += [path] if path else []
    tiers = [tuple(dict.fromkeys(p for p in kind if p not in fixed)) for kind in kinds]
    named = tuple(path for path in named if path not in fixed)
    return tuple(tier for tier in ([named] if named else tiers) if tier)


def _kind(piece: Piece, path: str, sums: Sums) -> int:
    if piece.part is None:
        return 1 if piece.gap else 5
    if path.endswith("/length"):
        return 0
    sized = sums.parts[piece.part].sized
    return 2 if sized is not None and sized.form == "panel" else 4


def _given(index: int, run: Run, sums: Sums) -> Iterator[str]:
    """Where the sizes of the parts that give are stated, of those along the run."""
    places = [(piece, f"/runs/{index}/pieces/{i}") for i, piece in enumerate(run.pieces)]
    if isinstance(run.equals, Piece):
        places.append((run.equals, f"/runs/{index}/equals"))
    for piece, at in places:
        path = piece_path(piece, at, sums)
        if piece.part in run.gives and path is not None:
            yield path


def followers(index: int, run: Run, sums: Sums) -> Iterator[Equation]:
    """Parts that give along a run, and change alike: those in it, and those beside it."""
    along = tuple(dict.fromkeys(_given(index, run, sums)))
    if not along:
        return
    for path in along[1:]:
        yield Equation(run.id, {path: Fraction(1), along[0]: Fraction(-1)}, Fraction(0), ((path,),))
    for id in run.gives:
        part = sums.parts.get(id)
        beside = not any(piece.part == id for piece in _all_pieces(run))
        if beside and part is not None and part.part.length is not None:
            own = f"{part.at[1:]}/length"
            terms = {own: Fraction(1), along[0]: Fraction(-1)}
            yield Equation(run.id, terms, Fraction(0), ((own,),), firm=False)


def _all_pieces(run: Run) -> Sequence[Piece]:
    return (*run.pieces, run.equals) if isinstance(run.equals, Piece) else run.pieces


def stated_at(sums: Sums, path: str) -> Fraction:
    """The size that stands at a pointer."""
    _, kind, index, *rest = path.split("/")
    size: object
    if kind == "parts":
        part = sums.build.parts[int(index)]
        size = part.length if rest[0] == "length" else part.width
    else:
        run = sums.build.runs[int(index)]
        size = run.fits if rest[0] == "fits" else run.equals
        if rest[0] == "pieces":
            size = run.pieces[int(rest[1])].size
    return size if isinstance(size, Fraction) else Fraction(0)


def name_at(sums: Sums, path: str) -> str:
    """What a size is called in a sentence."""
    _, kind, index, *rest = path.split("/")
    if kind == "parts":
        return f"{sums.build.parts[int(index)].id} ({rest[0]})"
    run = sums.build.runs[int(index)]
    if rest[0] != "pieces":
        return f"the run {run.id}"
    piece = run.pieces[int(rest[1])]
    return f"{piece.name or rest[-1]} in {run.id}"


def reason_at(sums: Sums, path: str) -> str:
    """Which run a size follows from, and whether the document or we said that it gives."""
    _, kind, index, *_ = path.split("/")
    if kind == "runs":
        return f"it takes up the difference in the run {sums.build.runs[int(index)].id}"
    id = sums.build.parts[int(index)].id
    for run in sums.build.runs:
        if id in run.gives:
            return f"it gives in the run {run.id}"
    for place, run in enumerate(sums.build.runs):
        if not run.gives and path in terms_of(place, run, sums):
            return f"the run {run.id} says no `gives`, and of its lengths only this can"
    return "it follows the runs"
