"""Rules about cuts: can they be made, on which saw, and what is left to hold."""

from collections.abc import Iterator
from fractions import Fraction

from service.domain.build import Cutout
from service.domain.findings import Mend, Spot, rule
from service.domain.parts import ResolvedPart
from service.domain.resolving import ResolvedBuild
from service.domain.sawing import Cut, Stop, cuts_of, stops
from service.domain.solid import Crossed, Rod, Solid, Unclear
from service.domain.tape import plain

NOTHING = Fraction(0)
OPEN = frozenset({"hole", "notch"})  # cutouts that may go through
POWERED = frozenset({"miter-saw", "table-saw"})


@rule(
    "cut.points-cross",
    title="The two cuts meet before the part is as wide as it should be",
    severity="fault",
    numbers={"by": "length"},
)
def points_cross(build: ResolvedBuild) -> Iterator[Spot]:
    """Steep cuts on a short, wide part run into each other, and no such part exists.

    Make the part longer or narrower, or the angles smaller; or check whether the angles are
    meant from the edge instead of off square.
    """
    for part in build.parts:
        if isinstance(part.solid, Crossed):
            yield Spot(
                at=f"{part.at}/ends",
                detail=(
                    f"On {part.part.id} the cuts overlap by {plain(part.solid.by, build.metric)} "
                    f"along the {part.solid.arris}."
                ),
                numbers={"by": part.solid.by},
                mend=Mend("Lengthen the part, or give the angles off square, not off the edge."),
            )


@rule("cut.measured-unclear", title="It is not clear what the length is measured to",
      severity="warn", numbers={"words": "words"})  # fmt: skip
def measured_unclear(build: ResolvedBuild) -> Iterator[Spot]:
    """Each angled end has a long and a short point, and a length must say which two it joins.

    Where both long points lie on one edge, long to short means nothing; where they lie on
    different edges, it is the length along one edge.
    """
    leaning = {p.at for one in build.shapes for p in one.problems if p.kind == "lean"}
    for part in build.parts:
        if leaning & {part.at, f"{part.at}/ends_lean"}:
            continue  # the cuts lean the wrong way; the right way the words have a meaning
        if isinstance(part.solid, Unclear):
            words = part.solid.words
            choice = f" These have a meaning here: {', '.join(words)}." if words else ""
            yield Spot(
                at=f"{part.at}/measured",
                detail=f"{part.part.id}: {part.solid.reason}{choice}",
                numbers={"words": words},
                mend=Mend("Say from which point to which point the length goes."),
            )


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
    "cut.beyond-saw",
    title="None of the saws listed makes this cut",
    severity="warn",
    numbers={"limit": "word", "wants": "word", "reaches": "word"},
)
def beyond_saw(build: ResolvedBuild) -> Iterator[Spot]:
    """A saw turns, tilts and reaches only so far.

    Judged against the caller's own figures for the saws, or the most that saws of the kind reach.
    There is always another way that keeps hands and guards where they belong: the store's panel
    saw, a hand saw along a squared line, a circular saw along a clamped straightedge, or the
    board turned over for a second cut from the other side. Never stand a part on end or remove
    a guard for it.
    """
    shop = build.build.shop
    if not shop.saws:
        return
    judged: dict[tuple[object, ...], list[Stop]] = {}  # many cuts of a build are alike
    for part in build.parts:
        for index, cut in enumerate(cuts_of(part)):
            # Whole numbers are quicker to look up than fractions.
            alike = (cut.end, *cut.width.as_integer_ratio(), *cut.thickness.as_integer_ratio())
            if alike not in judged:
                judged[alike] = stops(shop.saws, cut, build.catalog, build.build.region)
            if stopped := judged[alike]:
                yield beyond(part, index, cut, stopped, build.metric)
                break


def beyond(part: ResolvedPart, index: int, cut: Cut, stopped: list[Stop], metric: bool) -> Spot:
    """The finding for a cut that every saw stops at: the saw that comes nearest tells it."""
    nearest = max(stopped, key=lambda stop: stop.reaches / stop.wants)
    angled = nearest.limit in ("miter", "bevel")

    def said(value: float) -> str:
        size = Fraction(value).limit_denominator(1000)
        return f"{value:g} degrees" if angled else plain(size, metric)

    at = f"{part.at}/ends/{index}" if angled else part.at
    return Spot(
        at=at,
        detail=(
            f"{part.part.id} needs a {nearest.limit} of {said(nearest.wants)}; "
            f"the {nearest.saw.kind} goes to {said(nearest.reaches)}."
        ),
        numbers={
            "limit": nearest.limit,
            "wants": said(nearest.wants),
            "reaches": said(nearest.reaches),
        },
        mend=Mend(another_way(nearest, cut)),
        rests_on=nearest.rests_on,
        basis="geometry" if nearest.own else "practice",
        severity="fault" if all(stop.own for stop in stopped) else None,
    )


def another_way(stop: Stop, cut: Cut) -> str:
    """A way to make the cut that keeps hands clear and guards on."""
    if stop.limit == "width" and cut.end.is_square and cut.width <= 2 * stop.reaches:
        return (
            "Cut from one edge, turn the board over against a stop and finish from the other; or "
            "have the store cut it, or use a hand saw along a squared line."
        )
    if stop.limit in ("miter", "bevel"):
        return (
            "Mark the line with a protractor and cut it with a hand saw, the part clamped flat; "
            "or change the design to a smaller angle."
        )
    return (
        "Have the store cut it on its panel saw, use a circular saw along a clamped straightedge, "
        "or a hand saw along a squared line."
    )


@rule(
    "cut.too-short-to-hold",
    title="The part is too short to hold at a powered saw",
    severity="warn",
    basis="practice",
    numbers={"length": "length", "shortest": "length"},
)
def too_short_to_hold(build: ResolvedBuild) -> Iterator[Spot]:
    """Hands stay well away from the blade, so a short piece is cut off a long one.

    Shops differ on how short is too short to hold by hand; under the range it is a warning, within
    the range a note. Clamp it, or use a hand saw. Said only where the saws listed are powered.
    """
    kinds = {
        build.catalog.key("saw", build.build.region, saw.kind) for saw in build.build.shop.saws
    }
    held = [limit for limit in build.catalog.saws if limit.item == "shortest-held"]
    if not held or not kinds or not kinds <= POWERED:
        return
    low, high = min(limit.low for limit in held), max(limit.high for limit in held)
    for part in build.parts:
        solid = part.solid
        if not isinstance(solid, Solid | Rod) or solid.blank_length >= high:
            continue
        yield Spot(
            at=f"{part.at}/length",
            detail=(
                f"{part.part.id} is {plain(solid.blank_length, build.metric)} long; shops hold "
                f"nothing by hand that is under {plain(low, build.metric)} to "
                f"{plain(high, build.metric)}."
            ),
            numbers={"length": solid.blank_length, "shortest": low},
            mend=Mend(
                "Cut it from a piece long enough to hold or clamp, never the short piece in the "
                "hand; or use a hand saw and a bench hook."
            ),
            rests_on=tuple(limit.row for limit in held),
            severity=None if solid.blank_length < low else "note",
        )


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
