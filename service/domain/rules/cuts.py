"""Rules about cuts: can they be made, on which saw, and what is left to hold."""

from collections.abc import Iterator
from fractions import Fraction

from service.domain.findings import Mend, Spot, rule
from service.domain.parts import ResolvedPart
from service.domain.resolving import ResolvedBuild
from service.domain.sawing import Cut, Stop, cuts_of, stops
from service.domain.solid import Crossed, Rod, Solid, Unclear
from service.domain.tape import plain

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
