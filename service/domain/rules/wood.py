"""Rules about wood that moves, wood that is wet, and wood that stays outdoors."""

from collections.abc import Iterator
from fractions import Fraction

from service.domain.crossing import Crossing, crossings
from service.domain.findings import Mend, Spot, rule
from service.domain.loads import inches
from service.domain.material import FIBER_AND_CHIPS
from service.domain.moisture import ROOM, Swing, moves, swing
from service.domain.parts import ResolvedPart
from service.domain.resolving import ResolvedBuild
from service.domain.tape import plain

WAYS = "slots for the screws, clips that slide in a groove, or a loose joint held in the middle"


def swing_of(build: ResolvedBuild) -> Swing:
    """Between which moistures the wood of a build settles where it will be."""
    place = build.build.place
    warmth = float(place.temperature) if place.temperature is not None else ROOM
    return swing(build.catalog, place.where, place.humidity, warmth)


@rule(
    "wood.crossed-grain",
    title="Solid wood is held fast across its width",
    severity="warn",
    basis="handbook",
    numbers={"width": "length", "moves_least": "length", "moves_most": "length"},
)
def crossed_grain(build: ResolvedBuild) -> Iterator[Spot]:
    """Wood swells and shrinks across its grain with the seasons, and hardly at all along it.

    Where another piece holds a wide board fast across that direction, one of the two gives: the
    board splits, or the joint does. How far it would move is figured for flat and for quarter sawn
    boards. Panels hardly move and narrow pieces move little; of those nothing is said.
    """
    spare = build.catalog.standing["crossed.change"]
    year, much = swing_of(build), float(spare.high or 0)
    for one in crossings(build):
        values = build.catalog.moving.get(one.part.wood.key) if one.part.wood else None
        if values is None:
            continue
        least, most = moves(values, float(one.width), year.low, year.high)
        if most <= much:
            continue
        yield Spot(
            at=f"{one.at}/crosses" if one.stated else one.at,
            detail=_says(build, one, least, most, year),
            numbers={
                "width": one.width,
                "moves_least": inches(least),
                "moves_most": inches(most),
            },
            mend=Mend(f"Let it move: {WAYS}. Say lets_move where it does."),
            rests_on=(*values.flat.rests_on, *values.quarter.rests_on, *year.rests_on, spare.row),
            severity=None if one.sure else "note",
        )


def _says(build: ResolvedBuild, one: Crossing, least: float, most: float, year: Swing) -> str:
    metric = build.metric
    how = "holds" if one.sure else "may hold"
    known = "" if one.stated else " (worked out from the surfaces that meet)"
    return (
        f"The joint {one.joint.id} {how} {one.part.part.id} fast over {plain(one.width, metric)} "
        f"across its grain{known}. Between {year.low:.0f} and {year.high:.0f} % moisture that "
        f"width changes by up to {plain(inches(most), metric)} flat sawn, "
        f"{plain(inches(least), metric)} quarter sawn."
    )


@rule(
    "wood.wet",
    title="The wood is wet",
    severity="warn",
    basis="handbook",
    numbers={"moisture": "count", "limit": "count", "shrinks": "length"},
)
def wet(build: ResolvedBuild) -> Iterator[Spot]:
    """Wet wood shrinks after it is built in, glues badly, and can rot while it stays wet.

    Decay stops at a moisture that a meter shows; furniture wants it drier, near what the place
    brings it to.
    """
    limit = build.catalog.standing["moisture.decay"]
    most = float(limit.high or 0)
    year = swing_of(build)
    for part in build.parts:
        moisture = build.sizing.note_for(part.part).moisture
        if moisture is None or moisture <= most:
            continue
        shrinks = _shrinks(build, part, moisture, year)
        word = f", and {plain(shrinks, build.metric)} narrower" if shrinks else ""
        yield Spot(
            at=f"{part.at}/moisture" if part.part.known.moisture is not None else part.at,
            detail=(
                f"{part.part.id} holds {moisture:g} % of water. Decay stops at {most:g} %; in its "
                f"place it comes to {year.low:.0f} to {year.high:.0f} %{word}."
            ),
            numbers={
                "moisture": round(moisture, 1),
                "limit": round(most),
                "shrinks": shrinks,
            },
            mend=Mend("Let it dry, stacked with air between, before it is cut to size."),
            rests_on=(limit.row, *year.rests_on),
        )


def _shrinks(build: ResolvedBuild, part: ResolvedPart, moisture: float, year: Swing) -> Fraction:
    values = build.catalog.moving.get(part.wood.key) if part.wood else None
    if values is None or part.sized is None or part.sized.width is None:
        return Fraction(0)
    _, most = moves(values, float(part.sized.width.listed), year.low, moisture)
    return inches(most)


@rule(
    "wood.outdoors",
    title="The wood does not last outdoors",
    severity="warn",
    basis="handbook",
    numbers={"resistance": "word"},
)
def outdoors(build: ResolvedBuild) -> Iterator[Spot]:
    """Untreated wood that stays wet rots, sooner or later by its kind.

    The heartwood of some species resists; the sapwood of none does. Boards of fiber and chips
    swell and fall apart when they get wet.
    """
    if build.build.place.where != "outdoors":
        return
    for part in build.parts:
        if part.wood is None or build.sizing.note_for(part.part).treated:
            continue
        resists = build.catalog.decay.get(part.wood.key)
        if part.wood.key in FIBER_AND_CHIPS:
            detail = f"{part.part.id} is {part.wood.name}, which swells and falls apart outdoors."
            rows: tuple[str, ...] = ()
            mend, worst, sure = "Use treated or resistant solid wood.", "none", True
        elif resists is None or resists.resistance == "resistant":
            continue
        else:
            worst, rows = resists.resistance, resists.rests_on
            sure = worst == "slight"
            name = build.catalog.woods[resists.of].name
            detail = f"{part.part.id}: {name} resists decay {HOW[worst]}, and is not treated."
            mend = "Use treated wood, or heartwood of a species that resists decay."
        yield Spot(
            at=part.at,
            detail=detail,
            numbers={"resistance": worst},
            mend=Mend(mend),
            rests_on=rows,
            severity=None if sure else "note",
            basis="practice" if worst == "none" else None,
        )


HOW = {"slight": "hardly or not at all", "moderate": "moderately"}
