"""Single changes that put a build right, each tried on the sums before it is offered."""

from collections.abc import Iterator, Sequence
from fractions import Fraction

from service.domain.build import Build, Part, Piece, Run
from service.domain.deadline import kept_time
from service.domain.findings import Change
from service.domain.judging import Judgment, judge
from service.domain.parts import ResolvedPart, resolve_part
from service.domain.runs import ResolvedRun, add_up
from service.domain.stocks import Sizing, UnknownStock, size_part
from service.domain.supply import longest_piece
from service.domain.tape import exact, plain
from service.domain.values import dataclass, replace

MOST_MENDS = 25  # runs mended in one answer; further ones are described without a change
GOOD = ("closes", "not-judged")


@dataclass(frozen=True, slots=True)
class RunMend:
    """The change that makes a run close; `at` points to the size that is off."""

    at: str
    words: str
    changes: tuple[Change, ...]


@dataclass(frozen=True, slots=True)
class JudgedRun:
    """A run, its judgment, and the single change that mends it."""

    run: ResolvedRun
    judgment: Judgment
    mend: RunMend | None


@dataclass(frozen=True)
class Trial:
    """The build's parts and sums, for trying a change on them."""

    sizing: Sizing
    parts: Sequence[ResolvedPart]

    @property
    def build(self) -> Build:
        return self.sizing.build

    @property
    def metric(self) -> bool:
        return self.build.units == "mm"

    def by_id(self, changed: Sequence[Part] = ()) -> dict[str, ResolvedPart]:
        """Parts by id, some of them changed."""
        found = {part.part.id: part for part in reversed(self.parts)}
        for part in changed:
            found[part.id] = resolve_part(found[part.id].index, part, self.sizing)
        return found

    def judged(self, runs: Sequence[tuple[int, Run]], changed: Sequence[Part]) -> list[str]:
        """The verdict on each run with some parts changed."""
        parts = self.by_id(changed)
        return [judge(add_up(i, run, self.build, parts)).verdict for i, run in runs]

    def no_worse(self, changed: Sequence[Part], mends: int | None = None) -> bool:
        """Whether every run that closes still does, and run `mends` does now."""
        ids = {part.id for part in changed}
        runs = [(i, run) for i, run in enumerate(self.build.runs) if names_any(run, ids)]
        before = self.judged(runs, ())
        after = self.judged(runs, changed)
        return all(
            now in GOOD or (was not in GOOD and i != mends)
            for (i, _), was, now in zip(runs, before, after, strict=True)
        )

    def fits_stock(self, part: Part) -> bool:
        """Whether the part still comes out of a board that there is."""
        sized = size_part(part, self.sizing)
        if isinstance(sized, UnknownStock) or part.length is None or part.length <= 0:
            return False
        longest = longest_piece(self.sizing, sized)
        return longest is None or part.length <= longest.length


def names_any(run: Run, ids: set[str]) -> bool:
    """Whether a run has a piece of one of the parts."""
    pieces = (*run.pieces, run.equals) if isinstance(run.equals, Piece) else run.pieces
    return any(piece.part in ids for piece in pieces)


def judge_runs(sizing: Sizing, parts: Sequence[ResolvedPart]) -> tuple[JudgedRun, ...]:
    """Every run of the build, added up, judged, and mended where it is off."""
    trial = Trial(sizing, parts)
    by_id = trial.by_id()
    mended = 0
    judged: list[JudgedRun] = []
    for index, run in kept_time(enumerate(sizing.build.runs)):
        added = add_up(index, run, sizing.build, by_id)
        judgment = judge(added)
        mend = None
        if judgment.verdict not in GOOD and mended < MOST_MENDS:
            mended += 1
            mend = next(mends_of(added, judgment, trial), None)
        judged.append(JudgedRun(added, judgment, mend))
    return tuple(judged)


def mends_of(run: ResolvedRun, judgment: Judgment, trial: Trial) -> Iterator[RunMend]:
    """Changes that make the run close without opening another, the likeliest first.

    Into an opening the pieces have to go at the thick end of their tolerance too.
    """
    by = judgment.by
    if run.run.fits is not None and run.total is not None and run.target is not None:
        by = max(by, run.total.high - run.target.listed)
    yield from length_mends(run, by, trial)
    yield from equals_mends(run, by, trial)
    yield from stated_mends(run, by, trial)


def length_mends(run: ResolvedRun, by: Fraction, trial: Trial) -> Iterator[RunMend]:
    """Change the length of the parts that give, or of those that run along."""
    along: dict[str, int] = {}
    for size in run.pieces:
        if size.piece.part is not None and size.piece.along == "length":
            along[size.piece.part] = along.get(size.piece.part, 0) + size.times
    givers = [id for id in run.run.gives if along.get(id)] or [id for id, n in along.items() if n]
    for giver in givers:
        yield from relength(run, giver, -by / along[giver], trial)


def equals_mends(run: ResolvedRun, by: Fraction, trial: Trial) -> Iterator[RunMend]:
    """Change what the sum is held against: the part it must match, or the stated size."""
    held = run.run.equals
    if isinstance(held, Piece) and held.part and held.along == "length":
        yield from relength(run, held.part, by / held.count, trial)
    if isinstance(held, Fraction) and run.total is not None:
        yield stated_mend(f"{run.at[1:]}/equals", run.total.listed, "the whole", trial)


def stated_mends(run: ResolvedRun, by: Fraction, trial: Trial) -> Iterator[RunMend]:
    """Change a size or a gap that is stated in the run itself, or the opening."""
    for size in run.pieces:
        piece = size.piece
        if piece.part is None and piece.size is not None and piece.size > by / size.times:
            field = "gap" if piece.gap else "size"
            name = piece.name or field
            yield stated_mend(f"{size.at[1:]}/{field}", piece.size - by / size.times, name, trial)
    if run.run.fits is not None:
        yield stated_mend(f"{run.at[1:]}/fits", run.run.fits + by, "the opening", trial)
    elif run.total is not None and run.total.listed > 0:
        yield stated_mend(f"{run.at[1:]}/equals", run.total.listed, "the whole", trial)


def stated_mend(path: str, size: Fraction, name: str, trial: Trial) -> RunMend:
    """Write another size at a place in the run."""
    words = f"Make {name} {plain(size, trial.metric)}."
    return RunMend(f"#{path}", words, (Change(path, exact(size, trial.metric)),))


def relength(run: ResolvedRun, id: str, by: Fraction, trial: Trial) -> Iterator[RunMend]:
    """Make a part longer or shorter, and with it the giving parts that are as long as it is."""
    giver = next(part for part in trial.parts if part.part.id == id)
    old = giver.part.length
    if old is None:
        return
    changed = [
        part
        for part in trial.parts
        if part is giver or (part.part.id in run.run.gives and part.part.length == old)
    ]
    new = [replace(part.part, length=old + by) for part in changed]
    if old + by <= 0 or not all(map(trial.fits_stock, new)):
        return
    if trial.no_worse(new, run.index):
        names = " and ".join(part.part.id for part in changed)
        text = exact(old + by, trial.metric)
        yield RunMend(
            f"{giver.at}/length",
            f"Cut {names} {plain(old + by, trial.metric)} long instead of "
            f"{plain(old, trial.metric)}.",
            tuple(Change(f"{part.at[1:]}/length", text) for part in changed),
        )


def stock_changes(part: ResolvedPart, trial: Trial) -> tuple[Change, ...]:
    """The nearest stock name with which the part has room and no run gets worse."""
    if part.unknown is None:
        return ()
    for key in part.unknown.nearest:
        other = replace(part.part, stock=replace(part.part.stock, name=key))
        sized = size_part(other, trial.sizing)
        if isinstance(sized, UnknownStock) or not trial.fits_stock(other):
            continue
        room = all(
            told is None or bought is None or told <= bought.high
            for told, bought in (
                (other.thickness, sized.stock_thickness),
                (other.width, sized.stock_width),
            )
        )
        if room and trial.no_worse([other]):
            return (Change(f"{part.at[1:]}/stock", key),)
    return ()
