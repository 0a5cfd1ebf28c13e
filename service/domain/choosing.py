"""The best fastener of one method for a joint, chosen by geometry from the sizes that are made."""

from bisect import bisect_left
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from service.domain.candidates import Made, candidates
from service.domain.driving import POCKET_ADVANCE, pocket_seat, toe_reach
from service.domain.fixing import DRIVEN, NONE, Fixing, placed
from service.domain.flaws import flaws, is_sound
from service.domain.grain import thread_for
from service.domain.meeting import Meeting
from service.domain.reach import bite_wanted
from service.domain.surroundings import WET, Surroundings, said
from service.domain.tooling import Tools, needs_of, words

TOE = 30.0  # degrees off square for a toe-driven nail or screw; practice
DEEPEST = Fraction(3, 2)  # in; more bite than that is not looked for; own
DEEPER = Fraction(1, 4)  # in; so much more where the wood behind an edge or an end is deep; own
INTO_END = Fraction(1, 2)  # in; a screw into end grain is so much longer; practice
POCKET_OVER = Fraction(1, 16)  # in; a pocket screw bites at most the thickness and this; own
# How long a fastener may be against what it passes, and the least it may go beyond; own, from the
# rules of thumb screw-length.face-to-face, nail-length.thin-to-thick, brad-length.trim and
# staple-leg.overall.
STRETCH = {
    "screw": (Fraction(5, 2), Fraction(1, 2)),
    "nail": (Fraction(3), Fraction(1, 2)),
    "finish-nail": (Fraction(3), Fraction(1, 2)),
    "brad": (Fraction(5, 2), Fraction(3, 8)),
    "staple": (Fraction(3), Fraction(3, 8)),
}
GLUE_INDOORS, GLUE_WET = "pva-interior", "pva-waterproof"
COATING_OUTSIDE = "exterior"


@dataclass(frozen=True, slots=True)
class Want:
    """What the joint asks for, and the shop it is made in.

    `glue` is the kind stated or None; `across` the joint's width where stated.
    """

    tools: Tools
    glue: str | None = None
    visible: bool = False
    across: Fraction | None = None
    sunk: Fraction = NONE
    slope: float = 0.0
    edge_distance: Fraction | None = None
    hinged: bool = False


@dataclass(frozen=True, slots=True)
class Choice:
    """A fastener with its length, and the fixing it makes; None for glue alone."""

    made: Made | None
    fixing: Fixing
    tools: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class RuledOut:
    """A method that is out, and why."""

    method: str
    why: str


def choose(meeting: Meeting, method: str, want: Want, around: Surroundings) -> Choice | RuledOut:
    """The best fastener of a method, or why there is none."""
    refusal = refused(meeting, method, want, around)
    if refusal:
        return RuledOut(method, refusal)
    if method == "glue":
        fixing = Fixing("glue", glue=glue_for(want, around))
        return Choice(None, fixing, want.tools.chosen(needs_of("glue", True, False)))
    tried = candidates(around.catalog, method, meeting, around.metric)
    reachable = [made for made in tried if lacks(made, want.tools) is None]
    if not reachable:
        lacking = lacks(tried[0], want.tools) if tried else None
        return RuledOut(method, f"no {words(lacking)} at hand" if lacking else "none are made")
    best = best_of(meeting, method, reachable, want, around)
    return best or RuledOut(method, why_none(meeting, method, reachable, want, around))


def lacks(made: Made, tools: Tools) -> frozenset[str] | None:
    """The tools that a size needs and the shop lacks."""
    if made.method == "brad" and made.by_hand and tools.named is not None:
        return None if "hammer" in tools.named and tools.has("hammer") else frozenset({"hammer"})
    if made.method == "finish-nail" and not made.by_hand:
        return None if tools.has("finish-nailer") else frozenset({"finish-nailer"})
    if made.method == "dowel":
        return tools.lacking((*needs_of("dowel", True, False), needs_of("glue", True, False)[0]))
    return tools.lacking(needs_of(made.method, made.by_hand, False))


def refused(meeting: Meeting, method: str, want: Want, around: Surroundings) -> str | None:
    """Why a method is out before any size is tried."""
    glue = glue_for(want, around)
    if glue == "none" and method in ("glue", "brad", "dowel"):
        return "it holds by its glue, and the joint has none"
    if method == "glue":
        lacking = want.tools.lacking(needs_of("glue", True, False))
        if lacking:
            return f"no {words(lacking)} at hand"
        ends = [s for s in (meeting.through, meeting.into) if s.surface == "end" and not s.panel]
        if ends:
            return f"glue alone holds little on the end grain of {ends[0].name}"
    if method == "dowel" and "face" == meeting.through.surface == meeting.into.surface:
        return "faces that lie on each other are held by screws or glue; dowels only line them up"
    if method == "staple" and meeting.through.surface != "face":
        return f"a staple holds a panel by its face; {meeting.through.name} touches with its " + (
            f"{meeting.through.surface}"
        )
    return None


def glue_for(want: Want, around: Surroundings) -> str:
    """The kind that is stated, else the usual one for the place."""
    return want.glue or (GLUE_WET if around.where in WET else GLUE_INDOORS)


def best_of(
    meeting: Meeting, method: str, tried: Sequence[Made], want: Want, around: Surroundings
) -> Choice | None:
    """The first sound length. Screws and dowels: the usual size first; nails: any size.

    Of the lengths the longest that is wished for comes first, then what goes least beyond.
    """
    pattern = fixing_for(meeting, tried[0], want, around)
    low, likely, high = bounds(meeting, pattern, around)
    found: list[tuple[tuple[int, float, int], Made, Fraction]] = []
    size_counts = method in ("screw", "dowel")
    wished = float(likely)  # a float is enough to put lengths in order of liking
    place = 0
    for order, made in enumerate(tried):
        place += order > 0 and made.diameter != tried[order - 1].diameter
        for length, rough in made.between(low, high):
            over = rough - wished
            liking = (place if size_counts else 0, over if over > 0 else -UNDER - over, order)
            found.append((liking, made, length))
    for _, made, length in sorted(found, key=lambda one: one[0]):
        fixing = replace(pattern, length=length, diameter=made.diameter, gauge=made.gauge)
        if is_sound(meeting, fixing, around):
            needs = needs_of(made.method, made.by_hand, bool(fixing.pilot))
            return Choice(made, fixing, want.tools.chosen(needs))
    return None


def bounds(
    meeting: Meeting, fixing: Fixing, around: Surroundings
) -> tuple[Fraction, Fraction, Fraction]:
    """Shortest length that bites, longest that is wished for, longest that stays inside."""
    wanted = bite_wanted(meeting, fixing)
    depth, passed, thickness = meeting.into.depth, meeting.passed, meeting.through.thickness
    most = FARTHEST if depth is None else depth.low
    if fixing.method == "pocket-screw":
        seat = pocket_seat(thickness.listed)
        longest = seat + most / POCKET_ADVANCE
        return seat + wanted, seat + thickness.listed + POCKET_OVER, longest
    if fixing.method == "dowel":
        return NONE, 2 * DEEPEST, 2 * most
    if meeting.through.surface == "end":
        each = toe_reach(fixing.slope)
        likely = min(2 * DEEPEST, STRETCH["screw"][0] * thickness.listed)
        return wanted / each, likely, most / each
    if passed is None:
        return FARTHEST, FARTHEST, NONE
    times, beyond = STRETCH[fixing.method]
    more = INTO_END if meeting.into.surface == "end" and fixing.method == "screw" else NONE
    if meeting.into.surface != "face":
        beyond += DEEPER
    likely = max(times * passed.listed, passed.listed + beyond) + more
    likely = min(likely, passed.listed + DEEPEST + more)
    if fixing.slope:
        return wanted, likely, 2 * (passed.high + most)
    sunk = fixing.sunk
    return passed.listed + wanted - sunk, likely, passed.low + most - around.keep - sunk


UNDER = 1000.0
FARTHEST = Fraction(1000)  # in; as good as no limit


def fixing_for(meeting: Meeting, made: Made, want: Want, around: Surroundings) -> Fixing:
    """How a size would be driven here, its length still open."""
    method = made.method
    toed = method in DRIVEN and meeting.through.surface == "end"
    bored = method == "screw" and want.tools.lacking(needs_of("screw", True, True)) is None
    wet = around.where in WET or meeting.through.treated or meeting.into.treated
    return Fixing(
        method=method,
        diameter=made.diameter,
        gauge=made.gauge,
        thread=thread_for(meeting) if method == "pocket-screw" else None,
        coating=COATING_OUTSIDE if wet and method not in ("dowel", "glue") else None,
        sunk=NONE if toed or method in ("pocket-screw", "dowel") else want.sunk,
        slope=TOE if toed else want.slope if method in DRIVEN else 0.0,
        pilot=True if bored else None,
        edge_distance=want.edge_distance,
        glue=glue_for(want, around),
        has_fastener=True,
    )


def why_none(
    meeting: Meeting, method: str, tried: list[Made], want: Want, around: Surroundings
) -> str:
    """Why no size of a method is right here: what is wrong with the nearest."""
    made = tried[0]
    fixing = fixing_for(meeting, made, want, around)
    contradiction = next(flaws(meeting, fixing, around), None)
    if contradiction is not None and contradiction.severity != "note":
        return lowered(contradiction.detail)
    told = []
    for length in around_the_bounds(meeting, made, fixing, around):
        grave = (f for f in flaws(meeting, replace(fixing, length=length), around))
        flaw = next((f for f in grave if f.severity != "note"), None)
        if flaw is not None and lowered(flaw.detail) not in told:
            told.append(lowered(flaw.detail))
    return "; ".join(told[:2]) or f"no {said(method)} of a length that is made fits"


def around_the_bounds(
    meeting: Meeting, made: Made, fixing: Fixing, around: Surroundings
) -> Iterator[Fraction]:
    """The longest length under the least that bites, and the shortest at or over it."""
    low = bounds(meeting, fixing, around)[0]
    place = bisect_left(made.lengths, low)
    yield from made.lengths[place : place + 1]
    yield from made.lengths[max(0, place - 1) : place]


def lowered(sentence: str) -> str:
    """A sentence to go on with: no capital, no full stop."""
    return sentence[:1].lower() + sentence[1:].rstrip(".")


def clearance(meeting: Meeting, fixing: Fixing) -> Fraction | None:
    """The wood past the point where the parts are as thin as their tolerance lets them be."""
    here = placed(meeting, fixing, thin=True)
    return None if here is None else here.clear
