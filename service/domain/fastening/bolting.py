"""A bolt through two parts: its hole, its length, its washers, and how near to ends it may stand.

Connection design speaks of bolts that carry a building. Its distances are those at which a bolt
has its full value; furniture gets by with less, and they are told, never made a finding.
"""

from collections.abc import Iterator
from fractions import Fraction

from service.domain.fasteners import BoltSize, Constant
from service.domain.fastening.fixing import Fixing
from service.domain.fastening.meeting import Meeting, Side
from service.domain.fastening.particular import Particular, Particulars
from service.domain.fastening.pilot_holes import A_HAIR
from service.domain.fastening.surroundings import Surroundings
from service.domain.tape import MM, mixed, nearest, rounded, tape_step

NO_SIZE = (
    "No size of bolt is stated: what follows is in bolt diameters (D). Which size to take is not "
    "judged."
)
NEVER_THROUGH_AN_END = (
    "A bolt passes a face or an edge; {part} meets the joint with its end, so its length is not "
    "figured."
)
BETWEEN = Fraction(1, 2)  # in; inch bolts of every length are made in this step; bolt-length.step
BETWEEN_METRIC = 10 * MM  # the same in millimeters; bolt-length.step-metric


def bolting(meeting: Meeting, fixing: Fixing, around: Surroundings) -> Particulars:
    """Everything to know for the bolts of a joint."""
    diameter = fixing.diameter
    if diameter is None:
        yield Particular("size", NO_SIZE)
    yield from hole(diameter, around)
    yield from length(meeting, fixing, around)
    yield Particular(
        "washers",
        "Put a washer under the head and under the nut, no smaller than a standard cut washer: a "
        "bare head or nut sinks into the wood. A carriage bolt needs one under the nut only.",
        rests_on=around.rows("bolt.washers"),
    )
    yield from distances(meeting, diameter, around)
    yield Particular(
        "retighten",
        "Tighten the nuts again once the wood has dried in its place, and look at them now and "
        "then: it shrinks under the washers.",
        rests_on=around.rows("bolt.retighten"),
    )


def hole(diameter: Fraction | None, around: Surroundings) -> Particulars:
    """The drill for the bolt. Source: NDS 12.1.3.2, rows bolt.hole."""
    least, most = (around.catalog.constants.get(f"bolt.hole.{end}") for end in ("least", "most"))
    if least is None or most is None:
        return
    over = f"{around.say(least.value)} to {around.say(most.value)} more than the bolt"
    rows = (least.row, most.row)
    if diameter is None:
        yield Particular("hole", f"Drill {over}.", rests_on=rows)
        return
    low, high = diameter + least.value, diameter + most.value
    yield Particular(
        "hole",
        f"Drill {around.say(low)} to {around.say(high)}, {over}, square through both parts while "
        "they are clamped together.",
        low,
        high,
        drilled=True,
        rests_on=rows,
    )


def length(meeting: Meeting, fixing: Fixing, around: Surroundings) -> Particulars:
    """How long the bolt is: the wood, two washers, the nut, and a little thread past it."""
    grip = wood_between(meeting, fixing)
    if isinstance(grip, str):
        yield Particular("length", grip)
        return
    bolt = bolt_of(fixing.diameter, around)
    if bolt is None:
        told = f"It passes {around.say(grip)} of wood; washers, nut and two threads come on top."
        if fixing.diameter is not None:
            told += f" No nut or washer for {around.say(fixing.diameter)} is in the tables."
        yield Particular("length", told, grip, rests_on=meeting.rests_on)
        return
    least = needed(grip, bolt)
    made = nearest(least, step(bolt), "up")
    rows = (*meeting.rests_on, bolt.nut.row, bolt.washer.row, bolt.pitch.row)
    steps = f"bolt-length.step{'-metric' if is_metric(bolt) else ''}"
    yield Particular(
        "length",
        f"Take {around.say(made)}: {around.say(grip)} of wood, two washers, the nut and two "
        f"threads past it come to {upward(least, around)}.",
        made,
        rests_on=(*rows, *around.rows(steps, "bolt-length.past-nut")),
    )
    stated = fixing.length
    if stated is not None and stated < least:
        told = f"The {around.say(stated)} bolt is {upward(least - stated, around)} short of that."
        yield Particular("stated", told, stated, rests_on=rows)
    elif stated is not None and stated > made + step(bolt):
        told = (
            f"The {around.say(stated)} bolt stands {around.say(stated - made)} farther out than "
            f"one of {around.say(made)}, and its thread may end before the nut is tight."
        )
        yield Particular("stated", told, stated, rests_on=rows)


def wood_between(meeting: Meeting, fixing: Fixing) -> Fraction | str:
    """Inches of wood between head and nut, at most; or why they are not figured."""
    ends = [side for side in (meeting.through, meeting.into) if side.surface == "end"]
    if ends:
        return NEVER_THROUGH_AN_END.format(part=ends[0].name)
    passed, entered = meeting.passed, meeting.into.depth
    if passed is None or entered is None:
        return "Its length is not figured: a size that matters is not known."
    if fixing.slope:
        return "Its length is not figured: it runs at a slope."
    grip = passed.high + entered.high - fixing.sunk
    return grip if grip > 0 else "Its length is not figured: its head is sunk through all the wood."


def upward(size: Fraction, around: Surroundings) -> str:
    """A size to the next mark of a tape."""
    return around.say(nearest(size, tape_step(around.metric), "up"))


def needed(grip: Fraction, bolt: BoltSize) -> Fraction:
    """The shortest that will do, inches under the head."""
    return grip + 2 * bolt.washer.high + bolt.nut.high + 2 * bolt.pitch.high


def step(bolt: BoltSize) -> Fraction:
    """The step between the lengths that are made all along."""
    return BETWEEN_METRIC if is_metric(bolt) else BETWEEN


def is_metric(bolt: BoltSize) -> bool:
    """Whether a bolt is named and made by the millimeter."""
    return bolt.key.endswith("mm")


def bolt_of(diameter: Fraction | None, around: Surroundings) -> BoltSize | None:
    """The bolt of that diameter in the tables, to a tenth of a millimeter."""
    if diameter is None:
        return None
    bolts = around.catalog.fasteners.bolts
    found = min(bolts, key=lambda bolt: abs(bolt.diameter - diameter), default=None)
    return found if found and abs(found.diameter - diameter) <= A_HAIR else None


def distances(meeting: Meeting, diameter: Fraction | None, around: Surroundings) -> Particulars:
    """From ends, from edges and from bolt to bolt, for solid wood.

    Source: NDS tables 12.5.1A to C, rows bolt.end, bolt.edge and bolt.row.
    """
    sides = (meeting.through, meeting.into)
    if all(side.panel for side in sides):
        yield Particular("end-distance", "Connection design has no distances for panels.")
        return
    told = around.catalog.constants
    hard = all(side.hard for side in sides if side.panel is None)
    toward = told.get(f"bolt.end.toward.{'hardwood' if hard else 'softwood'}")
    away, across = told.get("bolt.end.away"), told.get("bolt.end.across")
    if toward and away and across:
        yield _distance(
            "end-distance",
            "from the end at least {0} where a load pulls the bolt toward the end, {1} "
            "where it pushes away from it, {2} where it acts across the grain",
            (toward, away, across),
            diameter,
            around,
        )
    along, loaded = told.get("bolt.edge.along"), told.get("bolt.edge.loaded")
    if along and loaded:
        yield _distance(
            "edge-distance",
            "from the edge at least {0}, and {1} from an edge that a load across the grain "
            "presses toward",
            (along, loaded),
            diameter,
            around,
        )
        yield from (
            _too_narrow(side, along, diameter, around) for side in narrow(sides, along, diameter)
        )
    apart = told.get("bolt.row")
    if apart:
        yield _distance("spacing", "{0} from bolt to bolt", (apart,), diameter, around)


def _distance(
    what: str,
    words: str,
    figures: tuple[Constant, ...],
    diameter: Fraction | None,
    around: Surroundings,
) -> Particular:
    """A distance in inches, or in diameters where no size is stated; the middle of the hole."""
    sizes = [None if diameter is None else one.value * diameter for one in figures]
    said = [
        f"{_times(one.value)} D" if size is None else around.say(size)
        for one, size in zip(figures, sizes, strict=True)
    ]
    told = words.format(*said)
    known = [size for size in sizes if size is not None]
    return Particular(
        what,
        f"{told[0].upper()}{told[1:]}, to the middle of the hole, for the full value of the code.",
        min(known, default=None),
        max(known) if len(known) > 1 else None,
        rests_on=tuple(one.row for one in figures),
    )


def _times(value: Fraction) -> str:
    return rounded(value, 2) if value.denominator > 2 else mixed(value)


def narrow(sides: tuple[Side, ...], along: Constant, diameter: Fraction | None) -> Iterator[Side]:
    """Parts too narrow for the bolt to keep its distance from both edges."""
    for side in sides:
        if diameter is None or side.narrow is None or side.panel is not None:
            continue
        if side.narrow.listed < 2 * along.value * diameter:
            yield side


def _too_narrow(
    side: Side, along: Constant, diameter: Fraction | None, around: Surroundings
) -> Particular:
    wants = 2 * along.value * (diameter or Fraction(0))
    wide = around.say(side.narrow.listed) if side.narrow else ""
    return Particular(
        "too-narrow",
        f"{side.name} is {wide} wide there, and a bolt of that size wants {around.say(wants)}: "
        "take a thinner bolt.",
        wants,
        rests_on=(along.row, *side.rests_on),
    )
