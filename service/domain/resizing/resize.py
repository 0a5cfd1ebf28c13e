"""The same piece in another size, of other stock, or in another region's sizes.

Sizes of runs are solved together, exactly; then shapes are figured again, and what stands at a
place or spans a distance follows. Nothing is rounded unless it is asked for.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from fractions import Fraction

from service.domain.build import Build
from service.domain.catalog import Catalog
from service.domain.errors import Complaint
from service.domain.parts import ResolvedPart
from service.domain.resizing.answer import (
    CannotResize,
    Changed,
    NothingGives,
    NothingLeft,
    Resized,
    Resizing,
    RunsContradict,
    SeveralCanGive,
    UnknownInResize,
    tidy,
    with_sizes,
)
from service.domain.resizing.equations import (
    ANGLED,
    Sums,
    followers,
    name_at,
    reason_at,
    stated_at,
    sums_of,
    target_path,
    terms_of,
    tiers_of,
)
from service.domain.resizing.following import Moved, linked_openings, moved_sizes, settle_details
from service.domain.resizing.kept import kept_sizes
from service.domain.resizing.measures import measures_asked, measures_of, sizes_named
from service.domain.resizing.refiguring import refigured
from service.domain.resizing.regions import restocked
from service.domain.resizing.solving import Equation, ManySolutions, NoSolution, solve
from service.domain.resizing.taping import taped
from service.domain.resolving import resolve
from service.domain.rounding import Turn
from service.domain.stocks import Sizing
from service.domain.tape import plain
from service.domain.values import replace

MOST_ROUNDS = 6  # openings and shapes that follow, and runs solved again after them


@dataclass
class _Work:
    """A resize under way: the build as it was, with its new stock, and the sizes found so far.

    `fixed` are sizes that nothing may change any more, `why` the reason for each size.
    """

    asked: Resizing
    before: Sums
    stocked: Build
    catalog: Catalog
    measures: Mapping[str, Fraction] = field(default_factory=dict)
    sizes: dict[str, Fraction] = field(default_factory=dict)
    fixed: set[str] = field(default_factory=set)
    why: dict[str, str] = field(default_factory=dict)
    resolved: dict[int, ResolvedPart] = field(default_factory=dict)
    fields: dict[str, Changed] = field(default_factory=dict)

    @property
    def now(self) -> Sums:
        """The build with everything that is found so far."""
        return sums_of(Sizing(with_sizes(self.stocked, self.sizes), self.catalog), self.resolved)

    def put(self, path: str, size: Fraction, why: str) -> None:
        """State a size that nothing may change any more."""
        self.sizes[path] = size
        self.fixed.add(path)
        self.why[path] = why


def resize(build: Build, asked: Resizing, catalog: Catalog) -> Resized:
    """The build in the size asked for. Raises CannotResize in one of its kinds, and UnknownName."""
    resolve(build, catalog)  # refuses names that no table has
    before = sums_of(Sizing(build, catalog))
    restock = restocked(build, asked, catalog)
    work = _Work(asked, before, restock.build, catalog, measures_asked(build, asked.to))
    for path, why in (*_cut_already(before, asked), *_as_wide_as_stock(restock.changed)):
        work.fixed.add(path)
        work.why[path] = why
    for index, run in enumerate(build.runs):
        if run.id in asked.to:
            _ask(work, index)
    _refuse_unknown(build, asked)
    _settle(work)
    order = taped(work.now, before, work.sizes, work.why) if asked.round_to_tape else ()
    return _answer(work, restock.changed, order)


def _refuse_unknown(build: Build, asked: Resizing) -> None:
    known = {run.id for run in build.runs} | {name for name, _ in measures_of(build)}
    parts = {part.id for part in build.parts}
    complaints = [
        Complaint(f"#/to/{id}", f"There is no run {id!r}; {sizes_named(build)}.")
        for id in asked.to
        if id not in known
    ]
    complaints += [
        Complaint("#/cut", f"There is no part {id!r}.") for id in sorted(asked.cut - parts)
    ]
    if complaints:
        raise UnknownInResize(*complaints)


def _cut_already(sums: Sums, asked: Resizing) -> Iterator[tuple[str, str]]:
    for id in asked.cut:
        if id in sums.parts:
            at = sums.parts[id].at[1:]
            yield f"{at}/length", "it is cut already"
            yield f"{at}/width", "it is cut already"


def _as_wide_as_stock(changed: tuple[Changed, ...]) -> Iterator[tuple[str, str]]:
    """Widths that stood in no document: what stands in for the stock keeps them, and gives none."""
    for change in changed:
        if change.path.endswith("/width") and change.was is None and change.is_now is not None:
            yield change.path, change.why


def _ask(work: _Work, index: int) -> None:
    """State the new size of a run at the place that holds it."""
    run, want = work.stocked.runs[index], work.asked.to[work.stocked.runs[index].id]
    now = work.now
    path = target_path(index, run, now)
    if path is None or path in work.fixed:
        held = "a part that is cut already" if path else "a size that comes from its stock"
        raise NothingGives(
            Complaint(f"#/to/{run.id}", f"The run {run.id} must equal {held}, so it can't change.")
        )
    if path.startswith("/runs/"):
        work.put(path, want, "asked for")
        return
    resolved = now.runs[index]
    if resolved.equals is None:
        raise NothingGives(Complaint(f"#/to/{run.id}", f"A size along {run.id} is missing."))
    gain = -terms_of(index, replace(run, pieces=()), now)[path]
    old = stated_at(now, path)
    each = want - resolved.equals.times * resolved.equals.each.listed
    work.put(path, old + each / gain, f"asked for: the run {run.id} must equal it")


def _settle(work: _Work) -> None:
    """Solve the runs, let shapes and openings follow, and solve again until nothing moves."""
    for _ in range(MOST_ROUNDS):
        _solve(work)
        moved = moved_sizes(work.before, work.now)
        again = _follow_shapes(work, moved)
        for path, size, why in linked_openings(work.before, moved, frozenset(work.fixed)):
            work.put(path, size, why)
            again = True
        if not again:
            return


def _follow_shapes(work: _Work, moved: tuple[Moved, ...]) -> bool:
    again = False
    for found in refigured(work.before, work.now, moved, work.measures):
        for changed in found.fields:
            again = again or work.fields.get(changed.path) != changed
            work.fields[changed.path] = changed
        for path, size, why in found.sizes:
            if path in work.fixed and work.sizes.get(path) != size and why not in work.why[path]:
                continue
            again = again or work.sizes.get(path) != size
            work.put(path, size, why)
    return again


def _solve(work: _Work) -> None:
    """Close every run that what is asked for, or other stock, has opened."""
    now = work.now
    equations = list(_equations(work, now))
    try:
        changes = solve(equations)
    except NoSolution as none:
        raise _refusal(work, none.names) from None
    except ManySolutions as many:
        raise _unsure(work, many) from None
    for path, by in changes.items():
        size = tidy(stated_at(now, path) + by)
        if size <= 0:
            name = name_at(now, path)
            said = plain(size, now.metric)
            raise NothingLeft(Complaint(f"#/build{path}", f"{name} would come out at {said}."))
        work.sizes[path] = size
        work.why.setdefault(path, reason_at(now, path))


def _equations(work: _Work, now: Sums) -> Iterator[Equation]:
    fixed = frozenset(work.fixed)
    for index, run in enumerate(work.stocked.runs):
        off, was = now.off(index), work.before.off(index)
        if off is None or was is None:
            continue
        wanted = _wanted(now, index, off, was, run.id in work.asked.to)
        tiers = tiers_of(index, run, now, fixed)
        path = target_path(index, run, now)
        if path and path.startswith("/runs/") and path not in fixed and _may_follow(work, index):
            tiers = (*tiers, (path,))
        angled = now.runs[index].angled
        terms = {p: f for p, f in terms_of(index, run, now).items() if p not in fixed}
        yield Equation(
            run.id, terms, wanted - off, tiers,
            firm=run.fits is None or run.id in work.asked.to,
            play=max(ANGLED, run.within) if angled else Fraction(0),
        )  # fmt: skip
        for follower in followers(index, run, now):
            if not set(follower.terms) & fixed:
                yield follower


def _wanted(now: Sums, index: int, off: Fraction, was: Fraction, asked: bool) -> Fraction:
    """What a run may be off in the end.

    One that nothing touches stays as it is; an opening keeps the room to spare that it had; a sum
    with an angle in it, which is never exact, stays off by as little as it was.
    """
    run = now.runs[index]
    if off == was and not asked:
        return was
    if run.run.fits is not None:
        return min(was, Fraction(0))
    return was if run.angled and abs(was) <= run.run.within else Fraction(0)


def _may_follow(work: _Work, index: int) -> bool:
    """Whether the size that a run comes to may change without being asked for.

    Where only stock changes, a sum of stock comes out as it comes out. Where sizes are asked for,
    only one that says again what another run said that was asked.
    """
    if not work.asked.to:
        return True
    mine = work.before.runs[index].target
    targets = [r.target for r in work.before.runs if r.run.id in work.asked.to]
    return mine is not None and any(t is not None and t.listed == mine.listed for t in targets)


def _refusal(work: _Work, names: tuple[str, ...]) -> CannotResize:
    places = {run.id: index for index, run in enumerate(work.stocked.runs)}
    names = tuple(dict.fromkeys(names))
    if len(names) == 1 and names[0] not in work.asked.to and work.asked.to:
        names = (*work.asked.to, *names)
    if len(names) > 1:
        listed = " and ".join(names)
        told = f"The runs {listed} contradict each other in the new size: give all of them in `to`."
        return RunsContradict(
            *(Complaint(f"#/build/runs/{places[n]}", told) for n in names if n in places)
        )
    given = work.stocked.runs[places[names[0]]].gives
    said = f"{', '.join(given)} can't" if given else "it has no length, gap or size that may change"
    told = f"Nothing along the run {names[0]} can take up the difference: {said}."
    return NothingGives(Complaint(f"#/build/runs/{places[names[0]]}", told))


def _unsure(work: _Work, many: ManySolutions) -> SeveralCanGive:
    index = next(i for i, run in enumerate(work.stocked.runs) if run.id == many.name)
    names = ", ".join(name_at(work.now, path) for path in many.paths)
    told = f"Several sizes could take up the difference in {many.name}: {names}. Say it in `gives`."
    return SeveralCanGive(Complaint(f"#/build/runs/{index}/gives", told))


def _answer(work: _Work, restock: tuple[Changed, ...], order: tuple[Turn, ...]) -> Resized:
    now = work.now
    sized = [
        Changed(path, stated_at(work.before, path), size, work.why[path])
        for path, size in work.sizes.items()
        if size != stated_at(work.before, path)
    ]
    moved = moved_sizes(work.before, now)
    details = settle_details(work.before, now, moved)
    found: Mapping[str, Changed] = {
        c.path: c for c in (*restock, *sized, *work.fields.values(), *details)
    }
    changed = tuple(c for c in found.values() if c.was != c.is_now)
    kept = kept_sizes(work.before, now, work.asked, frozenset(found), work.why)
    return Resized(now.build, changed, kept, order)
