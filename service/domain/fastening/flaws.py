"""What is wrong with a way to fasten a joint: the same judgment for plans and for proposals.

One mistake gives one flaw: what follows from it is left out.
"""

from collections.abc import Iterator

from service.domain.fastening.driving import Driven
from service.domain.fastening.fixing import DRIVEN, TIPPED, Fixing, placed
from service.domain.fastening.grain import of_weather, of_wood
from service.domain.fastening.meeting import Meeting
from service.domain.fastening.reach import of_sizes
from service.domain.fastening.surroundings import Flaw, Surroundings, said

LONGEST = 12  # in; longer than any screw, nail or dowel of a furniture shop; own


def flaws(meeting: Meeting, fixing: Fixing, around: Surroundings) -> Iterator[Flaw]:
    """Everything wrong with a fixing, the causes only."""
    return flaws_at(meeting, fixing, placed(meeting, fixing), around)


def flaws_at(
    meeting: Meeting, fixing: Fixing, here: Driven | None, around: Surroundings
) -> Iterator[Flaw]:
    """The same where it is known already where the point ends up."""
    contradiction = contradicted(meeting, fixing)
    if contradiction:
        yield contradiction
        return
    yield from of_sizes(meeting, fixing, here, around)
    yield from of_wood(meeting, fixing, around)
    yield from of_weather(meeting, fixing, around)


def is_sound(meeting: Meeting, fixing: Fixing, here: Driven | None, around: Surroundings) -> bool:
    """Whether a check would give no fault and no warning."""
    return all(flaw.severity == "note" for flaw in flaws_at(meeting, fixing, here, around))


def contradicted(meeting: Meeting, fixing: Fixing) -> Flaw | None:
    """A method that the joint itself rules out."""
    through = meeting.through
    told = None
    if fixing.method == "pocket-screw" and through.surface == "face":
        told = (
            f"A pocket is drilled into a face and comes out of an edge or an end; {through.name} "
            "touches with its face."
        )
    elif fixing.method in DRIVEN and through.surface == "end" and not fixing.slope:
        told = (
            f"A straight {said(fixing.method)} would have to pass the whole length of "
            f"{through.name}, which touches with its end."
        )
    elif fixing.method in ("glue", "loose") and fixing.has_fastener:
        told = f"The method is {fixing.method}, yet a fastener is named."
    elif fixing.method == "glue" and fixing.glue == "none":
        told = "The method is glue, and the glue is none."
    elif fixing.method == "loose" and fixing.glue not in (None, "none"):
        told = "The method is loose, yet a glue is named."
    if told:
        return Flaw("mismatch", "warn", "method", told, {"method": fixing.method})
    if fixing.length is not None and fixing.length > LONGEST and fixing.method in TIPPED:
        told = f"No {said(fixing.method)} over {LONGEST} inches is made for wood like this."
        return Flaw("mismatch", "warn", "fastener/length", told, {"method": fixing.method})
    return None
