"""What follows when sizes change: openings, cutouts, spans, and the size of the whole piece."""

from collections.abc import Iterator, Sequence
from fractions import Fraction

from service.domain.build import Cutout, Load
from service.domain.fitting import across
from service.domain.parts import ResolvedPart
from service.domain.resizing.answer import Changed
from service.domain.resizing.equations import Sums
from service.domain.values import dataclass

NEAR = Fraction(1, 16)  # inches by which a cutout may be off the middle and still be meant there


@dataclass(frozen=True, slots=True)
class Moved:
    """A size that was one thing and is another now; `name` is what a sentence calls it."""

    name: str
    was: Fraction
    is_now: Fraction

    @property
    def by(self) -> Fraction:
        return self.is_now - self.was


def moved_sizes(before: Sums, now: Sums) -> tuple[Moved, ...]:
    """Every size of a run that has changed: the whole, the room in it, its pieces and gaps."""
    return tuple(moved for moved in _sizes(before, now) if moved.by)


def _sizes(before: Sums, now: Sums) -> Iterator[Moved]:
    for one, other in zip(before.runs, now.runs, strict=True):
        if one.target is None or other.target is None or len(one.pieces) != len(other.pieces):
            continue
        id = one.run.id
        fits_was, fits_now = one.run.fits, other.run.fits
        yield Moved(f"the run {id}", fits_was or one.target.listed, fits_now or other.target.listed)
        yield Moved(f"the room in {id}", _room(before, one.index), _room(now, other.index))
        for was, is_now in zip(one.pieces, other.pieces, strict=True):
            name = was.piece.part or was.piece.name or f"the gap in {id}"
            taken = was.piece.let_in + was.piece.overlap
            yield Moved(name, was.each.listed + taken, is_now.each.listed + taken)
    for index, (old, new) in enumerate(zip(before.build.parts, now.build.parts, strict=True)):
        if old.length is not None and new.length is not None:
            yield Moved(old.id, old.length, new.length)
        sized, resized = _at(before, index, old.id), _at(now, index, new.id)
        if sized and resized and sized.sized and resized.sized:
            wide, wider = sized.sized.width, resized.sized.width
            if wide and wider:
                yield Moved(f"{old.id} across", wide.listed, wider.listed)


def _at(sums: Sums, index: int, id: str) -> ResolvedPart | None:
    part = sums.parts.get(id)
    return part if part is not None and part.index == index else None


def _room(sums: Sums, index: int) -> Fraction:
    """What is clear between the thicknesses in a run, as if nothing were let in."""
    run = sums.runs[index]
    total = run.target.listed if run.target else Fraction(0)
    for size in run.pieces:
        if size.piece.along == "thickness" and size.piece.part is not None:
            total -= size.times * (size.each.listed + size.piece.let_in + size.piece.overlap)
    return total


def the_one(was: Fraction, moved: Sequence[Moved], within: Fraction = Fraction(0)) -> Moved | None:
    """The change of a size, where all sizes that were the same changed alike."""
    alike = [m for m in moved if m.was == was] or [m for m in moved if abs(m.was - was) <= within]
    return alike[0] if alike and len({m.by for m in alike}) == 1 else None


def linked_openings(
    before: Sums, moved: Sequence[Moved], fixed: frozenset[str]
) -> Iterator[tuple[str, Fraction, str]]:
    """Openings that were said to be as big as something that has changed."""
    for run in before.runs:
        path = f"/runs/{run.index}/fits"
        if run.run.fits is None or path in fixed:
            continue
        others = [m for m in moved if m.name != f"the run {run.run.id}"]
        found = the_one(run.run.fits, others)
        if found is not None:
            yield path, found.is_now, f"it was as big as {found.name}, and still is"


def settle_details(before: Sums, now: Sums, moved: Sequence[Moved]) -> Iterator[Changed]:
    """Cutouts, loads and the size of the whole, each where a size that it goes with changed."""
    for index, (old, new) in enumerate(zip(before.build.parts, now.build.parts, strict=True)):
        one, other = _at(before, index, old.id), _at(now, index, new.id)
        if one is not None and other is not None:
            for place, cutout in enumerate(old.cutouts):
                at = f"/parts/{index}/cutouts/{place}"
                yield from _cutout(at, cutout, (one, other), before, now)
    for index, load in enumerate(before.build.loads):
        yield from _load(f"/loads/{index}", load, before, now, moved)
    stands, every = before.build.stands, tuple(_sizes(before, now))
    for name in ("height", "width", "depth") if stands else ():
        size = getattr(stands, name)
        found = the_one(size, every) if size is not None else None
        if found is not None and found.by:
            yield Changed(f"/stands/{name}", size, found.is_now, f"it was as big as {found.name}")


Pair = tuple[ResolvedPart, ResolvedPart]


def _cutout(at: str, cutout: Cutout, owner: Pair, before: Sums, now: Sums) -> Iterator[Changed]:
    partner = cutout.fits
    if partner and partner in before.parts and partner in now.parts:
        yield from _partnered(at, cutout, owner, (before.parts[partner], now.parts[partner]))
    if cutout.runs == "along":
        places = _along_an_edge(cutout, owner)
    else:
        places = _across(cutout, owner, before, now)
    for index, (was, is_now) in enumerate(zip(cutout.at, places, strict=True)):
        if was != is_now and is_now >= 0:
            yield Changed(
                f"{at}/at/{index}", was, is_now, f"it goes with the size of {owner[0].part.id}"
            )


def _partnered(at: str, cutout: Cutout, owner: Pair, partner: Pair) -> Iterator[Changed]:
    """A cutout keeps its play around the part in it, and two halves of a lap stay halves."""
    was, is_now = _inside(cutout, partner)
    if cutout.size is not None and was is not None and is_now is not None and was != is_now:
        name = "diameter" if cutout.kind == "hole" else "width"
        why = f"{partner[0].part.id} is another size, and keeps the same play"
        yield Changed(f"{at}/{name}", cutout.size, cutout.size + is_now - was, why)
    answered = any(other.fits == owner[0].part.id for other in partner[0].part.cutouts)
    depths = [_deep(cutout, part) for part in owner]
    if answered and cutout.depth is not None and depths[0] and depths[1] and depths[0] != depths[1]:
        why = "halves of a lap stay flush"
        yield Changed(f"{at}/depth", cutout.depth, cutout.depth * depths[1] / depths[0], why)


def _inside(cutout: Cutout, partner: Pair) -> tuple[Fraction | None, Fraction | None]:
    """How wide the part in a cutout was and is now, at the thick end, so that it still goes in."""
    before, after = (part.sized for part in partner)
    if before is None or after is None:
        return None, None
    if across(cutout, before) == "width" and before.width and after.width:
        return before.width.high, after.width.high
    return before.thickness.high, after.thickness.high


def _deep(cutout: Cutout, part: ResolvedPart) -> Fraction | None:
    sized = part.sized
    size = None if sized is None else sized.width if cutout.on == "edge" else sized.thickness
    return size.listed if size is not None else None


def _along_an_edge(cutout: Cutout, owner: Pair) -> tuple[Fraction, ...]:
    """A cutout that ran out at the far edge still does."""
    wide, now = (part.sized.width if part.sized else None for part in owner)
    if wide is None or now is None or cutout.size is None:
        return cutout.at
    far = wide.listed - cutout.size
    return tuple(now.listed - cutout.size if one == far else one for one in cutout.at)


def _across(cutout: Cutout, owner: Pair, before: Sums, now: Sums) -> tuple[Fraction, ...]:
    """Where a run tells the places, there; else as far from the ends, or as much in the middle."""
    for one, other in zip(before.runs, now.runs, strict=True):
        held = one.run.equals
        same = getattr(held, "part", None) == owner[0].part.id
        count = len(cutout.at)
        if same and _places(before, one.index, cutout, count) == cutout.at:
            return _places(now, other.index, cutout, count)
    was, is_now = owner[0].part.length, owner[1].part.length
    if was is None or is_now is None or was == is_now or not cutout.at:
        return cutout.at
    return spread_again(cutout.at, cutout.size or Fraction(0), was, is_now, cutout.kind == "hole")


def _places(sums: Sums, index: int, cutout: Cutout, count: int) -> tuple[Fraction, ...]:
    """Where the run's pieces lie along the part: what leads, then pieces and gaps by turns."""
    run = sums.runs[index]
    thick = [s for s in run.pieces if s.piece.part is not None and s.piece.part == cutout.fits]
    gaps = [size for size in run.pieces if size.piece.gap]
    named = [s for s in run.pieces if s.piece.part is None and not s.piece.gap]
    step = (thick[0].each.listed if thick else Fraction(0)) + (
        gaps[0].each.listed if gaps else Fraction(0)
    )
    lead = named[0] if named else (gaps[0] if gaps and gaps[0].times == count + 1 else None)
    first = lead.each.listed if lead else Fraction(0)
    return tuple(first + n * step for n in range(count))


def spread_again(
    at: tuple[Fraction, ...], size: Fraction, was: Fraction, now: Fraction, centered: bool
) -> tuple[Fraction, ...]:
    """Places along a part that has become longer or shorter, inches from its first end.

    One in the middle stays there, another one keeps its distance from the first end. Of several,
    the first and last keep their distance from the ends, unless the gaps beside them are as wide
    as those between, in which case all gaps change alike.
    """
    half = Fraction(0) if centered else size / 2
    if len(at) == 1:
        in_middle = abs(at[0] + half - was / 2) <= NEAR
        return (at[0] + (now - was) / 2,) if in_middle else at
    first, last = at[0], at[-1]
    if first == last:
        return at
    ends = (first, was - last - (Fraction(0) if centered else size))
    between = at[1] - at[0] - (Fraction(0) if centered else size)
    if all(abs(end - between) <= NEAR for end in ends):
        each = (now - was) / (len(at) + 1)
        return tuple(one + each * (n + 1) for n, one in enumerate(at))
    return tuple(one + (now - was) * (one - first) / (last - first) for one in at)


def _load(
    at: str, load: Load, before: Sums, now: Sums, moved: Sequence[Moved]
) -> Iterator[Changed]:
    one, other = before.parts.get(load.part), now.parts.get(load.part)
    if one is None or other is None:
        return
    was, is_now = one.part.length, other.part.length
    grown = is_now - was if was is not None and is_now is not None else Fraction(0)
    if load.span is not None:
        found = the_one(load.span, moved)
        span = found.is_now if found else load.span + (grown if not load.supports else 0)
        if span > 0:
            yield Changed(f"{at}/span", load.span, span, f"{load.part} spans what is between")
    if load.supports and grown and was is not None and is_now is not None:
        places = spread_again(load.supports, Fraction(0), was, is_now, True)
        for index, (old, new) in enumerate(zip(load.supports, places, strict=True)):
            yield Changed(f"{at}/supports/{index}", old, new, f"{load.part} has another length")
