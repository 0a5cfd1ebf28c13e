"""The fastenings that suit a joint, ranked, each complete; and the ones that are out, with why."""

from collections.abc import Iterator
from fractions import Fraction

from service.domain.fasteners import ScrewSize
from service.domain.fastening.candidates import METHODS
from service.domain.fastening.choosing import Choice, RuledOut, Want
from service.domain.fastening.counting import Row, joint_width, row_of
from service.domain.fastening.driving import Driven
from service.domain.fastening.fixing import DRIVEN, NONE, Fixing, placed
from service.domain.fastening.grain import standing
from service.domain.fastening.holding import Hold
from service.domain.fastening.meeting import Meeting
from service.domain.fastening.pilot_holes import Drilling, drilling
from service.domain.fastening.reach import is_exact
from service.domain.fastening.resisting import hold_of
from service.domain.fastening.searching import Search
from service.domain.fastening.splitting import Distances, distances
from service.domain.fastening.surroundings import Surroundings, said
from service.domain.fastening.tooling import Tools
from service.domain.keeping import kept
from service.domain.tape import pair
from service.domain.values import dataclass, replace

# Methods from the likeliest to the least, by how the parts meet. Own judgment, from practice: what
# pulls a joint together comes first, then what glue needs only to be held by.
ORDER = {
    ("face", "face"): ("screw", "brad", "glue", "finish-nail", "nail", "staple", "pocket-screw"),
    ("face", "edge"): ("screw", "brad", "finish-nail", "dowel", "glue", "nail", "staple"),
    ("face", "end"): ("screw", "finish-nail", "brad", "dowel", "nail", "staple"),
    ("edge", "face"): ("pocket-screw", "glue", "dowel", "screw", "finish-nail", "nail", "brad"),
    ("edge", "edge"): ("glue", "dowel", "pocket-screw", "screw", "finish-nail", "nail", "brad"),
    ("edge", "end"): ("dowel", "screw", "finish-nail", "nail", "brad", "pocket-screw"),
    ("end", "face"): ("pocket-screw", "dowel", "glue", "finish-nail", "screw", "nail", "brad"),
    ("end", "edge"): ("pocket-screw", "dowel", "glue", "finish-nail", "screw", "nail", "brad"),
    ("end", "end"): ("dowel", "finish-nail", "screw", "brad", "nail", "pocket-screw"),
}
THIN_PANEL = Fraction(3, 8)
THIN_PANEL_ORDER = ("brad", "staple", "screw", "finish-nail", "nail", "glue")
SHOWS = frozenset({"screw", "nail", "staple"})  # heads that are seen
REASONS = {
    "screw": "it pulls the parts together and comes apart again",
    "pocket-screw": "it pulls an end tight without a clamp, and hides on the back",
    "dowel": "nothing shows, and it stands where screws find only end grain",
    "brad": "the glue holds, and the brads keep it while it sets",
    "finish-nail": "it goes in by hand and its head sinks out of sight",
    "nail": "it is quick and cheap; its head stays in sight",
    "staple": "two legs hold a thin panel without splitting it",
    "glue": "long grain on long grain is as strong as the wood",
}


@dataclass(frozen=True, slots=True)
class Compared:
    """Strength against the strongest option, for comparing only; None where no value exists."""

    sideways: float | None
    pulled: float | None
    why_not: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Option:
    """One way to fasten the joint, complete."""

    rank: int
    choice: Choice
    row: Row
    here: Driven | None
    thin: Driven | None
    distances: Distances | None
    drilling: Drilling | None
    hold: Hold
    compared: Compared
    usual: tuple[tuple[Fraction, ...], tuple[str, ...]]
    why: str
    rests_on: tuple[str, ...]

    @property
    def method(self) -> str:
        return self.choice.fixing.method

    @property
    def type(self) -> str:
        return self.choice.made.type if self.choice.made else said(self.method)


@dataclass(frozen=True, slots=True)
class Proposed:
    """The options, best first, and what is ruled out."""

    options: tuple[Option, ...]
    ruled_out: tuple[RuledOut, ...]


def ordered(meeting: Meeting, want: Want) -> tuple[str, ...]:
    """Every method, the likeliest first; heads that would be seen come last where they show."""
    through = meeting.through
    thin = through.surface == "face" and through.thickness.listed <= THIN_PANEL
    order = ORDER[through.surface, meeting.into.surface]
    if thin and meeting.into.surface != "end":
        order = THIN_PANEL_ORDER
    order = (*order, *(method for method in METHODS if method not in order))
    if want.visible:
        order = tuple(sorted(order, key=lambda method: method in SHOWS))
    return order


def propose(search: Search) -> Proposed:
    """Every method tried: what is sound, ranked; and why the others are out."""
    tools = search.want.tools
    found = [search.choose(method, tools) for method in ordered(search.meeting, search.want)]
    choices = [one for one in found if isinstance(one, Choice)]
    options = tuple(complete(search, choices))
    return Proposed(options, tuple(one for one in found if isinstance(one, RuledOut)))


def best(search: Search, tools: Tools) -> Choice | None:
    """The first method that is sound with those tools, without its details."""
    for method in ordered(search.meeting, search.want):
        found = search.find(method, tools)
        if found is not None:
            return found
    return None


def complete(search: Search, choices: list[Choice]) -> Iterator[Option]:
    """Choices with everything that follows from them."""
    meeting, around = search.meeting, search.around
    width = search.want.across or joint_width(meeting)
    rows = [count(meeting, choice, width) for choice in choices]
    holds = [hold_of(meeting, choice, around) for choice in choices]
    totals = [(total(h.sheared, r), total(h.pulled, r)) for h, r in zip(holds, rows, strict=True)]
    most = tuple(max((t[n] or 0.0 for t in totals), default=0.0) for n in (0, 1))
    exact = is_exact(meeting) and not meeting.lean
    for n, choice in enumerate(choices):
        made, fixing, here = choice.made, choice.fixing, choice.here
        drilled = drilling_for(meeting, choice, around)
        straight = exact and not fixing.slope
        yield Option(
            rank=n + 1,
            choice=choice,
            row=rows[n],
            here=here,
            thin=here if straight else placed(meeting, fixing, thin=True),
            distances=spaced(meeting, choice, around) if made else None,
            drilling=drilled,
            hold=holds[n],
            compared=compared(holds[n], totals[n], most),
            usual=usual_lengths(meeting, fixing, around),
            why=reason(meeting, choice, rows[n], here, around),
            rests_on=(*(made.rests_on if made else ()), *(drilled.rests_on if drilled else ())),
        )


Totals = tuple[float | None, float | None]


def compared(hold: Hold, totals: Totals, most: tuple[float, ...]) -> Compared:
    """An option's totals against the most of any."""
    ratios = [value / top if value and top else None for value, top in
              zip(totals, most, strict=True)]  # fmt: skip
    return Compared(ratios[0], ratios[1], hold.why_not)


def alone(option: Option, choice: Choice) -> Option:
    """An option as the only one, its tools those of another shop."""
    hold, row = option.hold, option.row
    totals = (total(hold.sheared, row), total(hold.pulled, row))
    own = compared(hold, totals, tuple(value or 0.0 for value in totals))
    return replace(option, rank=1, choice=choice, compared=own)


def total(each: float | None, row: Row) -> float | None:
    """Pounds of all fasteners of a row, for comparing."""
    return None if each is None else each * row.count


def count(meeting: Meeting, choice: Choice, width: Fraction) -> Row:
    """How many, and how far apart, along a joint so wide."""
    if choice.made is None:
        return Row(width, 0, NONE, NONE)
    return row_of(meeting, choice.fixing.method, width, NONE)


def spaced(meeting: Meeting, choice: Choice, around: Surroundings) -> Distances:
    """Distances from ends and edges, and between fasteners."""
    spot = standing(meeting, choice.fixing)
    thickness = () if spot.piloted or spot.hard else pair(spot.thickness)  # else it says nothing
    key = (
        "distances", *pair(spot.diameter), spot.piloted, *thickness, spot.spot, spot.material,
        spot.hard, spot.gauge,
    )  # fmt: skip
    return kept(around.catalog, key, lambda: distances(around.catalog, spot))


def drilling_for(meeting: Meeting, choice: Choice, around: Surroundings) -> Drilling | None:
    """What to drill for a screw; a pocket jig drills its own holes."""
    size = choice.made.size if choice.made else None
    if not isinstance(size, ScrewSize):
        return None
    into = meeting.into
    wood, spot = into.wood, into.surface
    return kept(
        around.catalog,
        ("drilling", size.key, wood.key if wood else None, spot),
        lambda: drilling(around.catalog, size, wood, spot),
    )


def usual_lengths(
    meeting: Meeting, fixing: Fixing, around: Surroundings
) -> tuple[tuple[Fraction, ...], tuple[str, ...]]:
    """Lengths that rules of thumb name for the part passed, and their rows: shown, never used."""
    if fixing.method == "pocket-screw":
        told = around.catalog.fasteners.pocket_lengths(meeting.through.thickness.listed)
        lengths = [length for row in told for length in row.lengths]
        return tuple(dict.fromkeys(lengths)), tuple(row.row for row in told)
    rule = around.catalog.practice.get("screw-length.face-to-face")
    passed = meeting.passed
    if fixing.method != "screw" or rule is None or passed is None or fixing.slope:
        return (), ()
    if rule.low is None or rule.high is None:
        return (), ()
    return (rule.low * passed.listed, rule.high * passed.listed), (rule.row,)


def reason(
    meeting: Meeting, choice: Choice, row: Row, here: Driven | None, around: Surroundings
) -> str:
    """One sentence on the option, with its own numbers."""
    fixing = choice.fixing
    why = REASONS[fixing.method]
    if fixing.method in DRIVEN and meeting.through.surface == "end":
        why = "driven at a slope it needs no jig and no clamp"
    elif meeting.into.surface == "end" and fixing.method in ("screw", "finish-nail", "nail"):
        why = "end grain holds little, so it goes in deep"
    elif fixing.method == "glue" and (meeting.through.panel or meeting.into.panel):
        why = "glue holds the whole of a panel's surface"
    if here is None or fixing.length is None:
        return f"{why[0].upper()}{why[1:]} along {around.say(row.width)} of joint."
    many = f"{row.count} of {around.say(fixing.length)}"
    return (
        f"{many} bite {around.say(here.bite)} of {meeting.into.name} and stop "
        f"{around.say(here.clear)} short of coming out: {why}."
    )
