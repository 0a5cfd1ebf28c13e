"""Cutouts and the parts that go into them."""

from collections.abc import Iterator, Sequence
from fractions import Fraction
from typing import Literal

from service.domain.build import Cutout
from service.domain.catalog import Interval
from service.domain.parts import ResolvedPart
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
    """Two cutouts that house each other. Depths in inches; flush when they make up the part.

    `through` is the depth of wood that the two together must take away.
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
    """The fits of one part's cutouts. A rabbet is open on one side: nothing can bind in it."""
    for index, cutout in enumerate(owner.part.cutouts):
        other = by_id.get(cutout.fits or "")
        if other is None or other.sized is None or cutout.size is None or cutout.kind == "rabbet":
            continue
        sized = other.sized
        inside, nominal = sized.thickness, sized.nominal_thickness
        if cutout.kind == "lap" and sized.width is not None:
            inside, nominal = sized.width, sized.nominal_width
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


def find_laps(parts: Sequence[ResolvedPart]) -> Iterator[Lap]:
    """Every pair of cutouts made for each other, once, where both depths are given.

    On the faces the two depths share the thickness, on the edges (a grid of halved strips) the
    width.
    """
    by_id = {part.part.id: part for part in reversed(parts)}
    for part in parts:
        for index, cutout in enumerate(part.part.cutouts):
            other = by_id.get(cutout.fits or "")
            if other is None or other.index <= part.index or cutout.depth is None:
                continue
            yield from laps_between(part, index, cutout, other)


def laps_between(
    part: ResolvedPart, index: int, cutout: Cutout, other: ResolvedPart
) -> Iterator[Lap]:
    """The other part's cutouts that answer this one."""
    if cutout.depth is None or part.sized is None or other.sized is None:
        return
    edgewise = cutout.on == "edge"
    for place, answer in enumerate(other.part.cutouts):
        if answer.fits != part.part.id or answer.depth is None or (answer.on == "edge") != edgewise:
            continue
        sizes = [s.width if edgewise else s.thickness for s in (part.sized, other.sized)]
        through = max((size for size in sizes if size), key=lambda size: size.listed, default=None)
        if through is not None:
            yield Lap(
                at=f"{part.at}/cutouts/{index}",
                other_at=f"{other.at}/cutouts/{place}",
                owner=part,
                other=other,
                depths=(cutout.depth, answer.depth),
                through=through,
                rests_on=(*part.rests_on, *other.rests_on),
            )
        return


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
