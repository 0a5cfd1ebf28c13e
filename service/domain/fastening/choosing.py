"""What a joint asks for, which methods are out at once, and how a size would be driven."""

from collections.abc import Mapping
from fractions import Fraction
from functools import lru_cache

from service.domain.fastening.candidates import Made
from service.domain.fastening.driving import Driven
from service.domain.fastening.fixing import DRIVEN, NONE, Fixing
from service.domain.fastening.grain import thread_for
from service.domain.fastening.meeting import Meeting
from service.domain.fastening.surroundings import WET, Surroundings
from service.domain.fastening.tooling import Tools, needs_of, words
from service.domain.gluing import glue_for as common_glue
from service.domain.values import dataclass

TOE = 30.0  # degrees off square for a toe-driven nail or screw; practice
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


@dataclass(frozen=True, slots=True)
class Choice:
    """A fastener with its length, and the fixing it makes; None for glue alone. `here` is where
    its point ends up."""

    made: Made | None
    fixing: Fixing
    tools: tuple[str, ...]
    here: Driven | None = None


@dataclass(frozen=True, slots=True)
class Way:
    """How a shop goes about a method: whether it drives what goes in by hand, and what a machine
    drives; the tools that each of the two lacks and takes; whether it drills a pilot."""

    hands: tuple[bool, ...]
    lacking: Mapping[bool, frozenset[str] | None]
    tools: Mapping[bool, tuple[str, ...]]
    bored: bool


@dataclass(frozen=True, slots=True)
class RuledOut:
    """A method that is out, and why."""

    method: str
    why: str


@lru_cache(maxsize=1024)  # shops are few, and each is asked for every method of every joint
def way_of(method: str, tools: Tools) -> Way:
    """What a shop can do by a method."""
    lacking = {by_hand: lacks(method, by_hand, tools) for by_hand in (True, False)}
    bored = bores(method, tools)
    taken = {by_hand: tools.chosen(needs_of(method, by_hand, bored)) for by_hand in (True, False)}
    return Way(tuple(hand for hand in lacking if lacking[hand] is None), lacking, taken, bored)


def lacks(method: str, by_hand: bool, tools: Tools) -> frozenset[str] | None:
    """The tools that a size of a method needs, driven by hand or not, and the shop lacks."""
    if method == "brad" and by_hand and tools.named is not None:
        return None if "hammer" in tools.named and tools.has("hammer") else frozenset({"hammer"})
    if method == "finish-nail" and not by_hand:
        return None if tools.has("finish-nailer") else frozenset({"finish-nailer"})
    if method == "dowel":
        return tools.lacking((*needs_of("dowel", True, False), needs_of("glue", True, False)[0]))
    return tools.lacking(needs_of(method, by_hand, False))


def refused(meeting: Meeting, method: str, glue: str, way: Way) -> str | None:
    """Why a method is out before any size is tried, with that glue and those tools."""
    if glue == "none" and method in ("glue", "brad", "dowel"):
        return "it holds by its glue, and the joint has none"
    if method == "glue":
        lacking = way.lacking[True]
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
    return want.glue or common_glue(around.where)


def bores(method: str, tools: Tools) -> bool:
    """Whether the shop drills a pilot for what it drives: for every screw, where it has a drill."""
    return method == "screw" and tools.lacking(needs_of("screw", True, True)) is None


def fixing_for(
    meeting: Meeting, made: Made, bored: bool, want: Want, around: Surroundings
) -> Fixing:
    """How a size would be driven here, its length still open."""
    method = made.method
    toed = method in DRIVEN and meeting.through.surface == "end"
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


def lowered(sentence: str) -> str:
    """A sentence to go on with: no capital, no full stop."""
    return sentence[:1].lower() + sentence[1:].rstrip(".")
