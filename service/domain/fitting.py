"""Cutouts and the parts that go into them."""

from collections.abc import Iterator, Sequence
from fractions import Fraction
from typing import Literal

from service.domain.build import Cutout
from service.domain.catalog import Interval
from service.domain.parts import ResolvedPart
from service.domain.stocks import Sized
from service.domain.values import dataclass


@dataclass(frozen=True, slots=True)
class Fit:
    """A cutout as wide as `size`, and the part that goes into it, `inside` wide (inches).

    `nominal` says that the cutout is as wide as the number in the other part's name.
    """

    at: str
    field: Literal["width", "diameter"]
    owner: ResolvedPart
    cutout: Cutout
    other: ResolvedPart
    size: Fraction
    inside: Interval
    nominal: bool
    rests_on: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Lap:
    """Two cutouts that house each other. Depths in inches; flush when they make up a part.

    `through` is the depth of wood that the two together must take away. Of parts that are not
    alike it is that of either, as one side or the other comes flush: the nearer one.
    """

    at: str
    other_at: str
    owner: ResolvedPart
    other: ResolvedPart
    depths: tuple[Fraction, Fraction]
    through: Interval
    rests_on: tuple[str, ...]


def find_fits(parts: Sequence[ResolvedPart]) -> tuple[Fit, ...]:
    """Every slot, dado, lap, notch and hole whose partner is named and has a size."""
    by_id = {part.part.id: part for part in reversed(parts)}
    return tuple(fit for part in parts for fit in fits_of(part, by_id))


def fits_of(owner: ResolvedPart, by_id: dict[str, ResolvedPart]) -> Iterator[Fit]:
    """The fits of one part's cutouts.

    A rabbet is open on one side: nothing can bind in it. A hole takes a round; to what the end of
    a board is worked for it no document says.
    """
    for index, cutout in enumerate(owner.part.cutouts):
        other = by_id.get(cutout.fits or "")
        if other is None or other.sized is None or cutout.size is None or cutout.kind == "rabbet":
            continue
        if cutout.kind == "hole" and other.sized.form != "round":
            continue
        inside, nominal = taken_in(cutout, other, other.sized)
        yield Fit(
            at=f"{owner.at}/cutouts/{index}",
            field="diameter" if cutout.kind == "hole" else "width",
            owner=owner,
            cutout=cutout,
            other=other,
            size=cutout.size,
            inside=inside,
            nominal=nominal == cutout.size != inside.listed,
            rests_on=other.rests_on,
        )


def taken_in(cutout: Cutout, other: ResolvedPart, sized: Sized) -> tuple[Interval, Fraction | None]:
    """What of a part lies in a cutout, and what its name says that is.

    A part whose end or edge is rabbeted, on one face or both, goes in with the tongue that is left
    where that comes nearer.
    """
    if across(cutout, sized) == "width" and sized.width is not None:
        return sized.width, sized.nominal_width
    off: dict[str, Fraction] = {}
    for one in other.part.cutouts:
        if one.kind in ("rabbet", "lap") and one.on in ("face", "back") and one.depth is not None:
            off[one.on] = max(off.get(one.on, Fraction(0)), one.depth)
    thick, size = sized.thickness, cutout.size or Fraction(0)
    less = min((Fraction(0), *off.values(), sum(off.values(), Fraction(0))),
               key=lambda less: abs(thick.listed - less - size))  # fmt: skip
    if not less:
        return thick, sized.nominal_thickness
    return Interval(thick.low - less, thick.listed - less, thick.high - less), None


def across(cutout: Cutout, sized: Sized) -> Literal["thickness", "width"]:
    """Which size of a part lies across the cutout that takes it: the one that comes nearer.

    Shelves and halved strips stand in a cutout with their thickness; the other half of a lap, and
    a rail let into a post, lie in it with their width.
    """
    if sized.width is None or cutout.size is None:
        return "thickness"
    thin, wide = (abs(cutout.size - size.listed) for size in (sized.thickness, sized.width))
    return "width" if wide < thin or (wide == thin and cutout.kind == "lap") else "thickness"


HALVED = frozenset({"lap", "slot", "notch"})  # cutouts in which alike pieces cross each other
CROSSED = HALVED | {"dado"}


def find_laps(parts: Sequence[ResolvedPart]) -> Iterator[Lap]:
    """Every pair of cutouts made for each other, once, where both depths are given.

    On the faces the two depths share the thickness, on the edges (a grid of halved strips) the
    width. Alike pieces that cross each other have the same cutout, or one on either face.
    """
    by_id = {part.part.id: part for part in reversed(parts)}
    for part in parts:
        for index, cutout in enumerate(part.part.cutouts):
            other = by_id.get(cutout.fits or "")
            if other is None or other.index < part.index:
                continue
            if other is part and (cutout.kind not in HALVED or part.part.quantity < 2):
                continue
            answer = _answer(part, cutout, other)
            if answer is not None and (other is not part or answer >= index):
                yield from _lap(part, index, other, answer)


def _answer(part: ResolvedPart, cutout: Cutout, other: ResolvedPart) -> int | None:
    """Which cutout of the other part takes what this one leaves, where one does."""
    found = [
        place
        for place, answer in enumerate(other.part.cutouts)
        if answer.fits == part.part.id
        and (answer.on == "edge") == (cutout.on == "edge")
        and (answer.kind == cutout.kind or {answer.kind, cutout.kind} <= CROSSED)
    ]
    if other is part:  # turned over: the cutout on the other face, else the same one
        found.sort(key=lambda place: (other.part.cutouts[place].on == cutout.on,
                                      other.part.cutouts[place] is not cutout))  # fmt: skip
    return found[0] if found else None


def _lap(part: ResolvedPart, index: int, other: ResolvedPart, place: int) -> Iterator[Lap]:
    """The lap of two cutouts; nothing where a depth or a size is not known."""
    cutout, answer = part.part.cutouts[index], other.part.cutouts[place]
    if cutout.depth is None or answer.depth is None or part.sized is None or other.sized is None:
        return
    taken = cutout.depth + answer.depth
    sizes = [s.width if cutout.on == "edge" else s.thickness for s in (part.sized, other.sized)]
    known = [size for size in sizes if size is not None]
    if known:
        yield Lap(
            at=f"{part.at}/cutouts/{index}",
            other_at=f"{other.at}/cutouts/{place}",
            owner=part,
            other=other,
            depths=(cutout.depth, answer.depth),
            through=min(known, key=lambda size: abs(size.listed - taken)),
            rests_on=(*part.rests_on, *other.rests_on),
        )


@dataclass(frozen=True, slots=True)
class Overlap:
    """Two cutouts of a part that want the same wood: which, and over how many inches."""

    at: str
    other_at: str
    part: ResolvedPart
    cutouts: tuple[Cutout, Cutout]
    by: Fraction


def find_overlaps(parts: Sequence[ResolvedPart]) -> Iterator[Overlap]:
    """Cutouts across one surface of a part that run into each other.

    A cutout all of which lies in another is a step, as in a rabbet with two depths: nothing is
    said of it unless the two are made for different parts, or are the same cut twice.
    """
    for part in parts:
        seen: list[tuple[int, Cutout, Fraction]] = []
        for index, cutout in enumerate(part.part.cutouts):
            if cutout.kind == "hole" or cutout.runs == "along" or cutout.size is None:
                continue
            if cutout.on == "end":
                continue
            for start in cutout.at:
                for place, earlier, begun in seen:
                    by = _shared(cutout, start, earlier, begun)
                    if by > 0:
                        at, other = (f"{part.at}/cutouts/{n}" for n in (index, place))
                        yield Overlap(at, other, part, (earlier, cutout), by)
                        break
                seen.append((index, cutout, start))


def _shared(one: Cutout, start: Fraction, other: Cutout, begun: Fraction) -> Fraction:
    """Inches along the part that two cutouts both take and should not, 0 where they may."""
    if one.on != other.on or one.size is None or other.size is None:
        return Fraction(0)
    ends = start + one.size, begun + other.size
    by = min(ends) - max(start, begun)
    inside = by == min(one.size, other.size)
    stepped = one.depth != other.depth and (one.fits is None or other.fits in (None, one.fits))
    return Fraction(0) if inside and stepped else by
