"""A top held by clips that let it move: room across the grain, screws that stay under the surface.

The top is the part that meets the joint with its face, and of two faces the one that the screw
ends in.
"""

from functools import partial

from service.domain.fastening.fixing import Fixing
from service.domain.fastening.hinging import judged, longest
from service.domain.fastening.inside import longest_inside, under_a_plate
from service.domain.fastening.meeting import Meeting, Side
from service.domain.fastening.particular import Particular, Particulars
from service.domain.fastening.surroundings import Surroundings
from service.domain.loads import inches
from service.domain.moisture import ROOM, moves, swing
from service.domain.tape import tape

NEVER_GLUED = (
    "Never glue the top to what holds it, nor screw it fast across its width: it has to move "
    "across the grain."
)
UNJUDGED = (
    "How the clips are made and what they bear is not judged: go by what their maker says, and "
    "never lift the piece by its top."
)


def clipping(meeting: Meeting, fixing: Fixing, around: Surroundings) -> Particulars:
    """Everything to know for a top on clips."""
    top, under = top_and_under(meeting)
    yield from movement(top, around)
    yield from screws(top, fixing, around)
    yield from groove(under, around)
    spacing = around.catalog.practice.get("clip.spacing")
    near = partial(tape, metric=around.metric)
    if spacing and spacing.low and spacing.high:
        yield Particular(
            "spacing",
            f"Put a clip every {near(spacing.low)} to {near(spacing.high)} along each rail.",
            spacing.low,
            spacing.high,
            rests_on=(spacing.row,),
        )
    yield Particular("never-glued", NEVER_GLUED, rests_on=around.rows("top.never-glued"))
    yield Particular("not-judged", UNJUDGED)


def top_and_under(meeting: Meeting) -> tuple[Side, Side]:
    """The top, and the rail that the clips sit in."""
    through, into = meeting.through, meeting.into
    turned = through.surface == "face" and into.surface != "face"
    return (through, into) if turned else (into, through)


def movement(top: Side, around: Surroundings) -> Particulars:
    """How far the top moves over the year, and the room that leaves it free."""
    if top.panel is not None:
        told = f"{top.name} is a panel: it hardly moves, and may be screwed down."
        yield Particular("movement", told)
        return
    values = around.catalog.moving.get(top.wood.key) if top.wood else None
    if values is None or top.across is None:
        why = "how wide it is across the grain" if top.across is None else "how its wood moves"
        told = f"How far {top.name} moves is not figured: it is not known {why}."
        yield Particular("movement", told)
        return
    warmth = ROOM if around.warmth is None else around.warmth
    year = swing(around.catalog, around.where, around.humidity, warmth)
    least, most = (
        inches(size) for size in moves(values, float(top.across.high), year.low, year.high)
    )
    yield Particular(
        "movement",
        f"{top.name} is {around.say(top.across.listed)} across the grain: between {year.low:.0f} "
        f"and {year.high:.0f} % moisture it changes by up to {around.say(most)} flat sawn, "
        f"{around.say(least)} quarter sawn. Leave the clips along its long sides so much way in "
        "and out of their slots, and a slotted hole so much longer than the screw is thick; held "
        "in the middle, half of it is needed on each side.",
        least,
        most,
        rests_on=(*values.flat.rests_on, *values.quarter.rests_on, *year.rests_on),
    )


def screws(top: Side, fixing: Fixing, around: Surroundings) -> Particulars:
    """The longest screw up into the top."""
    meeting = under_a_plate(top)
    found = longest_inside(meeting, around)
    rows = (*top.rests_on, *around.rows("tip-clearance.any"))
    if found is not None:
        told = f"Up into {top.name} {longest(found, around)} under its surface."
        drilled = found.drilling.rests_on if found.drilling else ()
        yield Particular(
            "screws",
            told,
            most=found.fixing.length,
            rests_on=(*rows, *found.made.rests_on, *drilled),
        )
    elif top.depth is not None:
        told = f"No screw that is made stays inside {top.name}."
        yield Particular("screws", told, rests_on=rows)
    if fixing.length is not None:
        yield from judged(meeting, fixing.length, around)


def groove(under: Side, around: Surroundings) -> Particulars:
    """Where the slot for the clips goes."""
    rule = around.catalog.practice.get("clip.groove-below")
    if rule is None or rule.low is None:
        return
    yield Particular(
        "slot",
        f"Press a clip flat on the bench and measure its step: cut the slot in {under.name} "
        f"{around.say(rule.low)} farther than that from its top edge, so that the screw pulls the "
        "top down.",
        rule.low,
        rests_on=(rule.row,),
    )
