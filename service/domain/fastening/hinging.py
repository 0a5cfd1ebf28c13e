"""The screws of a hinge: as long as the part behind each leaf allows."""

from fractions import Fraction

from service.domain.fastening.fastener_words import drill_words
from service.domain.fastening.fixing import Fixing, placed
from service.domain.fastening.inside import Inside, longest_inside, under_a_plate
from service.domain.fastening.meeting import BOARDLIKE, Meeting, Side
from service.domain.fastening.particular import Particular, Particulars
from service.domain.fastening.reach import beyond
from service.domain.fastening.surroundings import Surroundings
from service.domain.tape import plain

UNJUDGED = (
    "Size and number of the hinges, the gauge that the holes of their leaves take, and the gap "
    "around the door are not judged, and no load is figured: go by what the maker of the hinge "
    "says for the size and weight of the door."
)
LEAF_COUNTED_AS_NOTHING = (
    "The leaf of the hinge is counted as having no thickness: a screw ends a little less deep."
)


def hinging(meeting: Meeting, fixing: Fixing, around: Surroundings) -> Particulars:
    """Everything to know for the screws of a hinge, in each of the two parts."""
    for side in (meeting.through, meeting.into):
        yield from screws_into(side, fixing.length, around)
    yield Particular("leaf", LEAF_COUNTED_AS_NOTHING)
    yield Particular("not-judged", UNJUDGED)


def screws_into(side: Side, stated: Fraction | None, around: Surroundings) -> Particulars:
    """The longest screw for the leaf on one part, and whether one that is stated stays in it."""
    meeting = under_a_plate(side)
    found = longest_inside(meeting, around)
    rows = (*side.rests_on, *around.rows("tip-clearance.any", "hinge-screw.short-of"))
    behind = "" if side.depth is None else f" ({around.say(side.depth.listed)} of wood)"
    if side.depth is None:
        told = f"How deep {side.name} is behind its {side.surface} is not known."
        yield Particular("screws", told, rests_on=side.rests_on)
    elif found is None:
        told = f"No screw that is made stays inside the {side.surface} of {side.name}{behind}."
        yield Particular("screws", told, rests_on=rows)
    else:
        told = f"Into the {side.surface} of {side.name}{behind} {longest(found, around)}"
        length = found.fixing.length
        drilled = found.drilling.rests_on if found.drilling else ()
        yield Particular(
            "screws",
            f"{told} past its point.",
            most=length,
            rests_on=(*rows, *found.made.rests_on, *drilled),
        )
    if stated is not None:
        yield from judged(meeting, stated, around)
    if side.into_panel_edge and side.panel in BOARDLIKE:
        told = f"The edge of {side.name} comes apart in layers: put the leaf on its face."
        yield Particular("panel-edge", told, rests_on=around.rows("panel-edge.holds-less"))


def longest(found: Inside, around: Surroundings) -> str:
    """A screw in words, with its pilot and the wood that is left past it."""
    metric, fixing = around.metric, found.fixing
    gauge = f"#{fixing.gauge}" if fixing.gauge else plain(fixing.diameter or Fraction(0), metric)
    length = plain(fixing.length or Fraction(0), metric)
    pilot = found.drilling.pilot if found.drilling else None
    drill = f", pilot {drill_words(pilot.usual, metric)}" if pilot else ""
    return (
        f"a {gauge} {found.made.type} of {length} is the longest that is made and wanted{drill}; "
        f"it leaves {around.say(found.here.clear)} of wood"
    )


def judged(meeting: Meeting, length: Fraction, around: Surroundings) -> Particulars:
    """Whether a length that is stated comes out of the part, or nearly."""
    fixing = Fixing("screw", length)
    here, thin = placed(meeting, fixing), placed(meeting, fixing, thin=True)
    if here is None or thin is None:
        return
    for flaw in beyond(meeting, fixing, here, thin, around):
        yield Particular("stated", flaw.detail, length, rests_on=flaw.rests_on)
