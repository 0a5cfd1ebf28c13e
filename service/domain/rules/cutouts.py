"""Rules about cutouts by themselves: do they lie on the part, and is wood left behind them."""

from collections.abc import Iterator
from fractions import Fraction

from service.domain.build import Cutout
from service.domain.findings import Mend, Spot, rule
from service.domain.parts import ResolvedPart
from service.domain.resolving import ResolvedBuild
from service.domain.tape import plain

NOTHING = Fraction(0)
OPEN = frozenset({"hole", "notch"})  # cutouts that may go through


@rule(
    "cut.goes-through",
    title="A cutout is as deep as the part",
    severity="fault",
    numbers={"depth": "length", "wood": "length"},
)
def goes_through(build: ResolvedBuild) -> Iterator[Spot]:
    """A slot, dado, rabbet or lap that is as deep as the wood cuts the part in two.

    Two that lie across from each other, on the face and on the back, do so together. A hole
    without a depth goes through and is meant to; a notch takes a whole corner.
    """
    for part in build.parts:
        for index, cutout in enumerate(part.part.cutouts):
            yield from meets_another(build, part, index)
            wood = wood_behind(part, cutout.on)
            if wood is None or cutout.depth is None or cutout.kind in OPEN:
                continue
            thin, listed = wood
            if cutout.depth >= thin:
                yield Spot(
                    at=f"{part.at}/cutouts/{index}/depth",
                    detail=(
                        f"The {cutout.kind} in {part.part.id} is "
                        f"{plain(cutout.depth, build.metric)} deep in wood of "
                        f"{plain(listed, build.metric)}."
                    ),
                    numbers={"depth": cutout.depth, "wood": listed},
                    mend=Mend("Make it shallower; a third to a half of the wood is usual."),
                    rests_on=part.rests_on,
                    severity=None if cutout.depth >= listed else "warn",
                )


def meets_another(build: ResolvedBuild, part: ResolvedPart, index: int) -> Iterator[Spot]:
    """An earlier cutout on the opposite face that together with this one takes all of the wood."""
    cutouts, wood = part.part.cutouts, wood_behind(part, "face")
    second = cutouts[index]
    for place, first in enumerate(cutouts[:index]):
        if wood is None or first.depth is None or second.depth is None:
            continue
        thin, listed = wood
        alone = max(first.depth, second.depth) < thin
        together = first.depth + second.depth
        if alone and together >= thin and cross_each_other(first, second):
            yield Spot(
                at=f"{part.at}/cutouts/{index}/depth",
                also_at=f"{part.at}/cutouts/{place}/depth",
                detail=(
                    f"On {part.part.id} the {first.kind} on the {first.on} and the {second.kind} "
                    f"on the {second.on} lie across from each other and are "
                    f"{plain(together, build.metric)} deep together, in wood of "
                    f"{plain(listed, build.metric)}."
                ),
                numbers={"depth": together, "wood": listed},
                mend=Mend("Make both shallower, or move one of them along the part."),
                rests_on=part.rests_on,
                severity=None if together >= listed else "warn",
            )
            return


def cross_each_other(first: Cutout, second: Cutout) -> bool:
    """Whether two cutouts across a part lie on its two faces at the same place."""
    if {first.on, second.on} != {"face", "back"} or not {first.kind, second.kind}.isdisjoint(OPEN):
        return False
    if "along" in (first.runs, second.runs) or first.size is None or second.size is None:
        return False
    one, other = first.size, second.size
    return any(min(a + one, b + other) > max(a, b) for a in first.at for b in second.at)


def wood_behind(part: ResolvedPart, on: str) -> tuple[Fraction, Fraction] | None:
    """How much wood lies behind a surface, at the thin end and as listed."""
    if part.sized is None:
        return None
    if on == "end":
        length = part.part.length
        return (length, length) if length is not None else None
    size = part.sized.width if on == "edge" else part.sized.thickness
    return (size.low, size.listed) if size else None


@rule(
    "cut.off-part",
    title="A cutout does not lie on the part",
    severity="fault",
    numbers={"reaches": "length", "part": "length"},
)
def off_part(build: ResolvedBuild) -> Iterator[Spot]:
    """A slot or a hole has to lie within the part, and a hole be narrower than it.

    `at` is the near side of a slot and the center of a hole, from the first end. A slot across the
    part that begins on it must end on it too; a rabbet or a lap may end at the part's end.
    """
    for part in build.parts:
        for index, cutout in enumerate(part.part.cutouts):
            for place, reaches, room in beyond_part(part, cutout):
                past = (
                    f"reaches {plain(-reaches, build.metric)} past the first end of {part.part.id}."
                    if reaches < 0
                    else f"reaches {plain(reaches, build.metric)} on {part.part.id}, which has "
                    f"{plain(room, build.metric)} there."
                )
                yield Spot(
                    at=f"{part.at}/cutouts/{index}/{place}",
                    detail=f"The {cutout.kind} {past}",
                    numbers={"reaches": reaches, "part": room},
                    mend=Mend("Measure it again from the first end of the part."),
                    rests_on=part.rests_on,
                )
                break


def beyond_part(part: ResolvedPart, cutout: Cutout) -> Iterator[tuple[str, Fraction, Fraction]]:
    """Where a cutout leaves the part: the field, how far it reaches, and how far the part does.

    Below 0 it reaches past the first end.
    """
    length, sized, size = part.part.length, part.sized, cutout.size
    if length is None or sized is None or cutout.on == "end" or cutout.runs == "along":
        return
    across = sized.width if cutout.on in ("face", "back") else sized.thickness
    if cutout.kind == "hole" and size is not None and across and size > across.high:
        yield "diameter", size, across.listed
    for at in cutout.at:
        radius = (size or NOTHING) / 2 if cutout.kind == "hole" else NOTHING
        end = at + (radius or size or NOTHING)
        if end > length:
            yield "at", end, length
        elif at < radius:
            yield "at", at - radius, NOTHING
