"""What is wrong with a way to fasten a joint: the same judgment for plans and for proposals.

Geometry decides. The few figures of judgment stand here, as this project's own, so that rules of
thumb may come and go in the tables; they are only shown beside. One mistake gives one flaw: what
follows from it is left out.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction

from service.domain.catalog import Catalog
from service.domain.driving import POCKET_DRILL, Driven, toe_exit
from service.domain.findings import Basis, Number, Severity
from service.domain.fixing import DRIVEN, NAILS, Fixing, before, placed
from service.domain.meeting import BOARDLIKE, Meeting
from service.domain.splitting import Standing, distances
from service.domain.tape import plain

MARGIN = Fraction(1, 8)  # in; wood to leave past a point; practice, row tip-clearance.any
SIDE_MARGIN = Fraction(1, 16)  # in; to leave where a screw runs slantwise past a side; own
BITE_SHARE = Fraction(2, 3)  # of what is passed; row thread-in-base.two-thirds
GLUED_BITE_SHARE = Fraction(1, 2)  # where glue carries and the fastener only holds it; own
LEAST_BITE, ENOUGH_BITE = Fraction(1, 4), Fraction(1)  # in; row bite.two-by-parts; own
POCKET_BITE = Fraction(3, 8)  # in; a pocket screw with less holds little; own
SLANTED_BITE = Fraction(3, 8)  # in; a toe-driven fastener with less holds little; own
LEAST_FOR_POCKET = Fraction(7, 16)  # in; half-inch stock is the thinnest in use; practice
THICKEST = Fraction(1, 4)  # of the wood across the fastener; row screw-diameter.edge
THICKEST_DOWEL = Fraction(1, 2)  # of the thickness; practice, a third to a half
WET = frozenset({"outdoors", "covered", "damp"})

Words = dict[str, Number]


@dataclass(frozen=True, slots=True)
class Flaw:
    """One thing wrong: its code and severity, the field of the joint it stands in, why."""

    code: str
    severity: Severity
    field: str
    detail: str
    numbers: Mapping[str, Number]
    basis: Basis = "geometry"
    rests_on: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Surroundings:
    """What else decides: the tables, where the piece will be, how sizes are said.

    `keep` is the wood that must be left past a point, inches.
    """

    catalog: Catalog
    where: str | None = None
    metric: bool = False
    keep: Fraction = MARGIN

    def say(self, size: Fraction) -> str:
        """A size in a sentence."""
        return plain(size, self.metric)

    def rows(self, *keys: str) -> tuple[str, ...]:
        """Those rules of thumb that the tables hold, as rows."""
        told = self.catalog.practice
        return tuple(told[key].row for key in keys if key in told)


def flaws(meeting: Meeting, fixing: Fixing, around: Surroundings) -> Iterator[Flaw]:
    """Everything wrong with a fixing, the causes only."""
    contradiction = next(contradictions(meeting, fixing), None)
    if contradiction:
        yield contradiction
        return
    yield from of_sizes(meeting, fixing, around)
    yield from of_wood(meeting, fixing, around)
    yield from of_weather(meeting, fixing, around)


def is_sound(meeting: Meeting, fixing: Fixing, around: Surroundings) -> bool:
    """Whether a check would give no fault and no warning."""
    return all(flaw.severity == "note" for flaw in flaws(meeting, fixing, around))


def contradictions(meeting: Meeting, fixing: Fixing) -> Iterator[Flaw]:
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
        yield Flaw("mismatch", "warn", "method", told, {"method": fixing.method})


def of_sizes(meeting: Meeting, fixing: Fixing, around: Surroundings) -> Iterator[Flaw]:
    """Length, thickness and where the point ends up: the gravest of them."""
    thin = next(too_thin_for_pocket(meeting, fixing, around), None)
    if thin:
        yield thin
        if thin.severity == "fault":
            return
    found = sorted(of_length(meeting, fixing, around), key=lambda flaw: flaw.severity != "fault")
    yield from found[:1]
    if not meeting.into.into_panel_edge or meeting.into.panel not in BOARDLIKE:
        yield from too_thick(meeting, fixing, around)


def too_thin_for_pocket(meeting: Meeting, fixing: Fixing, around: Surroundings) -> Iterator[Flaw]:
    """No pocket fits in a part that is no thicker than the bit is wide."""
    thickness = meeting.through.thickness
    if fixing.method != "pocket-screw" or thickness.high >= LEAST_FOR_POCKET:
        return
    never = thickness.listed <= POCKET_DRILL
    why = (
        f"the pocket itself is {around.say(POCKET_DRILL)} wide"
        if never
        else "half-inch stock is the thinnest that takes one by practice"
    )
    yield Flaw(
        "pocket-thin",
        "fault" if never else "warn",
        "method",
        f"{meeting.through.name} is {around.say(thickness.listed)} thick: {why}.",
        {"thickness": thickness.listed, "least": LEAST_FOR_POCKET},
        "geometry" if never else "practice",
        meeting.through.rests_on,
    )


def of_length(meeting: Meeting, fixing: Fixing, around: Surroundings) -> Iterator[Flaw]:
    """Where the point ends up."""
    here = placed(meeting, fixing)
    if here is None or fixing.length is None:
        return
    if here.bite <= 0:
        yield short(meeting, fixing, here, NOTHING, around)
        return
    if meeting.through.surface == "end" and fixing.slope:
        yield from leaves_early(meeting, fixing, around)
    thin = here if is_exact(meeting) else placed(meeting, fixing, thin=True)
    yield from beyond(meeting, fixing, here, thin or here, around)
    wanted = bite_wanted(meeting, fixing)
    if here.bite < wanted:
        yield short(meeting, fixing, here, wanted, around)


NOTHING = Fraction(0)


def is_exact(meeting: Meeting) -> bool:
    """Whether no size that matters has a tolerance."""
    passed, depth = meeting.through.depth, meeting.into.depth
    return (
        (passed is None or passed.is_exact)
        and (depth is None or depth.is_exact)
        and meeting.through.thickness.is_exact
        and meeting.into.thickness.is_exact
    )


def bite_wanted(meeting: Meeting, fixing: Fixing) -> Fraction:
    """Inches under which a fastener holds too little of the second part."""
    if fixing.method == "pocket-screw":
        return POCKET_BITE
    if meeting.through.surface == "end":
        return SLANTED_BITE
    passed = meeting.passed
    if fixing.method == "dowel" or passed is None:
        return LEAST_BITE
    glued = fixing.method in ("brad", "staple") and fixing.glue != "none"
    share = GLUED_BITE_SHARE if glued else BITE_SHARE
    return max(LEAST_BITE, min(ENOUGH_BITE, share * passed.listed))


def short(
    meeting: Meeting, fixing: Fixing, here: Driven, wanted: Fraction, around: Surroundings
) -> Flaw:
    """It does not reach the second part, or bites too little of it."""
    length = fixing.length or NOTHING
    passed = before(meeting, fixing) or NOTHING
    name = meeting.into.name
    numbers: Words = {"length": length, "passed": passed, "bite": here.bite, "wanted": wanted}
    used = f"{around.say(passed)} of the {around.say(length)} {said(fixing.method)} lie before"
    if not wanted:
        detail = f"{used} {name}: it does not get there."
        return Flaw(
            "too-short", "fault", "fastener/length", detail, numbers, rests_on=meeting.rests_on
        )
    code = "pocket-length" if fixing.method == "pocket-screw" else "too-short"
    return Flaw(
        code,
        "warn",
        "fastener/length",
        f"{used} {name}: it bites {around.say(here.bite)}, and wants {around.say(wanted)}.",
        numbers,
        "practice",
        (*meeting.rests_on, *around.rows("thread-in-base.two-thirds")),
    )


def beyond(
    meeting: Meeting, fixing: Fixing, here: Driven, thin: Driven, around: Surroundings
) -> Iterator[Flaw]:
    """The point comes out of the far face or of the side, or nearly."""
    length = fixing.length or NOTHING
    name = meeting.into.name
    ways = (
        ("pokes-out", "fastener/length", here.far, thin.far, around.keep, "far side"),
        ("breaks-out", aside_field(fixing), here.aside, thin.aside, SIDE_MARGIN, "side"),
    )
    for code, place, clear, least, keep, way in ways:
        if clear is None or least is None or (clear >= keep and least >= 0):
            continue
        out, thinly = clear < 0, clear >= 0 > least
        worst = least if thinly else clear
        if out or thinly:
            when = " at the thin end of its tolerance" if thinly else ""
            told = f"comes {around.say(-worst)} out of the {way} of {name}{when}"
        else:
            told = f"stops {around.say(clear)} short of the {way} of {name}"
        yield Flaw(
            code,
            "fault" if out else "warn",
            place,
            f"The {around.say(length)} {said(fixing.method)} {told}.",
            {
                "length": length,
                "bite": here.bite,
                "clearance": worst,
                "keep": keep,
                "fails_at": "thin end" if thinly else "every size",
            },
            "geometry" if out or thinly else "practice",
            (*meeting.rests_on, *(() if out or thinly else around.rows("tip-clearance.any"))),
        )


def aside_field(fixing: Fixing) -> str:
    """The field behind a point that comes out of a side."""
    return "slope" if fixing.slope else "fastener/length"


def too_thick(meeting: Meeting, fixing: Fixing, around: Surroundings) -> Iterator[Flaw]:
    """A fastener thicker than a quarter of the wood across it splits it; a dowel than half."""
    if fixing.diameter is None or fixing.method not in (*DRIVEN, "dowel"):
        return
    dowel = fixing.method == "dowel"
    share = THICKEST_DOWEL if dowel else THICKEST
    for side in (meeting.into, meeting.through):
        across = side.thickness if dowel else side.narrow
        if across is None or fixing.diameter <= share * across.listed:
            continue
        limit = share * across.listed
        yield Flaw(
            "too-thick",
            "warn",
            "fastener/gauge" if fixing.gauge is not None else "fastener/diameter",
            f"The {said(fixing.method)} is {around.say(fixing.diameter)} thick; the {side.surface} "
            f"of {side.name} is {around.say(across.listed)} across: {around.say(limit)} at most.",
            {"diameter": fixing.diameter, "across": across.listed, "limit": limit},
            "practice",
            (*side.rests_on, *around.rows("screw-diameter.edge")),
        )
        return


def of_wood(meeting: Meeting, fixing: Fixing, around: Surroundings) -> Iterator[Flaw]:
    """Threads, grain, splitting."""
    yield from pocket_thread(meeting, fixing, around)
    if fixing.method not in (*DRIVEN, "pocket-screw"):
        return
    panel_edge = next(into_panel_edge(meeting, fixing, around), None)
    if panel_edge:
        yield panel_edge
        return
    yield from end_grain(meeting, fixing)
    near = next(near_edge(meeting, fixing, around), None)
    if near:
        yield near
        return
    yield from no_pilot(meeting, fixing)


def pocket_thread(meeting: Meeting, fixing: Fixing, around: Surroundings) -> Iterator[Flaw]:
    """Coarse threads for softwood and panels, fine ones for hardwood."""
    wood, thread = meeting.into.wood, fixing.thread
    if fixing.method != "pocket-screw" or thread is None or wood is None:
        return
    wants = thread_for(meeting)
    if thread == wants:
        return
    kind = wood.kind if wood.kind in ("hardwood", "panel") else "softwood"
    yield Flaw(
        "pocket-thread",
        "warn",
        "fastener/thread",
        f"{meeting.into.name} is {wood.name}: a {kind} takes a {wants} thread, not a {thread} one.",
        {"thread": thread, "wants": wants},
        "practice",
        pocket_rows(around),
    )


def pocket_rows(around: Surroundings) -> tuple[str, ...]:
    """What the tables say of pocket threads."""
    return tuple(r.row for r in around.catalog.fasteners.pockets if r.item == "thread")


def thread_for(meeting: Meeting) -> str:
    """The thread for the wood that holds it."""
    return "fine" if meeting.into.hard else "coarse"


def into_panel_edge(meeting: Meeting, fixing: Fixing, around: Surroundings) -> Iterator[Flaw]:
    """The edge of a panel holds little and comes apart between its layers.

    Plywood is glued and screwed there every day; MDF and particleboard also want a pilot.
    """
    into = meeting.into
    if not into.into_panel_edge:
        return
    board = into.panel in BOARDLIKE
    unglued = fixing.glue == "none" or (board and fixing.glue is None)
    bored = fixing.pilot is True or (fixing.pilot is None and not board)
    needs_pilot = fixing.method == "screw"
    if not unglued and (bored or not needs_pilot):
        return
    lacks = "without glue" if unglued else "without a pilot"
    yield Flaw(
        "into-panel-edge",
        "warn",
        "enters",
        f"The {said(fixing.method)} enters the {into.surface} of {into.name}, a panel "
        f"{around.say(into.thickness.listed)} thick, {lacks}: layers part, and it holds little.",
        {"thickness": into.thickness.listed},
        "practice",
        around.rows("panel-edge.holds-less", "plywood.holds-less"),
    )


def end_grain(meeting: Meeting, fixing: Fixing) -> Iterator[Flaw]:
    """A fastener along the grain pulls out easily; nails without glue, and pocket screws, most."""
    into = meeting.into
    if into.surface != "end" or into.panel is not None:
        return
    weak = fixing.method == "pocket-screw" or (fixing.method in NAILS and fixing.glue == "none")
    why = "it pulls out of there easily, and glue adds little"
    yield Flaw(
        "end-grain",
        "warn" if weak else "note",
        "enters",
        f"The {said(fixing.method)} enters the end grain of {into.name}: {why}.",
        {"method": fixing.method},
        "practice" if weak else "standard",
    )


def near_edge(meeting: Meeting, fixing: Fixing, around: Surroundings) -> Iterator[Flaw]:
    """A stated distance under the one at which builders too expect a split."""
    side = meeting.through if meeting.through.surface == "face" else meeting.into
    given = {"end_distance": fixing.end_distance, "edge_distance": fixing.edge_distance}
    if fixing.diameter is None or fixing.method == "pocket-screw" or not any(given.values()):
        return
    least = distances(around.catalog, standing(meeting, fixing))
    for place, limit in (("end_distance", least.end), ("edge_distance", least.edge)):
        distance = given[place]
        if distance is None or distance >= limit.least:
            continue
        bored = "with" if fixing.pilot else "without"
        yield Flaw(
            "near-edge",
            "warn",
            place,
            f"{around.say(distance)} from the {place.partition('_')[0]} of {side.name}: {bored} a "
            f"pilot it wants {around.say(limit.least)}.",
            {"distance": distance, "least": limit.least},
            "practice",
            limit.rests_on,
        )


def standing(meeting: Meeting, fixing: Fixing) -> Standing:
    """The fastener in the part that is the likelier to split: the one under the head."""
    side = meeting.through if meeting.through.surface == "face" else meeting.into
    screw = fixing.method in ("screw", "pocket-screw") and fixing.gauge is not None
    return Standing(
        diameter=fixing.diameter or NOTHING,
        piloted=fixing.pilot is True,
        thickness=side.thickness.listed,
        spot=side.surface,
        material=side.panel,
        hard=side.hard,
        gauge=f"no-{fixing.gauge}" if screw else None,
    )


def no_pilot(meeting: Meeting, fixing: Fixing) -> Iterator[Flaw]:
    """A screw without a pilot where wood splits: dense wood, edges, ends."""
    if fixing.method != "screw" or fixing.pilot:
        return
    into = meeting.into
    hard = into.hard or meeting.through.hard or into.panel in BOARDLIKE
    if fixing.pilot is None and not hard and into.surface == "face":
        return
    spot = "dense wood" if hard else f"the {into.surface} of {into.name}"
    yield Flaw(
        "no-pilot",
        "note",
        "pilot",
        f"No pilot hole is stated, and the screw goes into {spot}.",
        {"into": spot},
        "practice",
    )


def of_weather(meeting: Meeting, fixing: Fixing, around: Surroundings) -> Iterator[Flaw]:
    """Plain steel rusts where it gets wet; zinc does outdoors and in treated wood."""
    treated = meeting.through.treated or meeting.into.treated
    outside = around.where == "outdoors" or treated
    if fixing.method not in (*DRIVEN, "pocket-screw") or not (outside or around.where in WET):
        return
    bad = ("plain", "zinc") if outside else ("plain",)
    if fixing.coating is not None and fixing.coating not in bad:
        return
    place = "in treated wood" if treated else f"{around.where}"
    stated = fixing.coating is not None
    yield Flaw(
        "corrodes",
        "warn" if stated else "note",
        "fastener/coating",
        f"A {fixing.coating} {said(fixing.method)} rusts {place}."
        if stated
        else f"No coating is stated; {place} a plain {said(fixing.method)} rusts.",
        {"coating": fixing.coating or "not stated", "where": place},
        "practice",
        around.rows("material.outdoors"),
    )


def said(method: str) -> str:
    """A method as a thing: pocket screw, finish nail."""
    return method.replace("-", " ")


def leaves_early(meeting: Meeting, fixing: Fixing, around: Surroundings) -> Iterator[Flaw]:
    """A toe-driven fastener so steep that it leaves the standing part before its end."""
    length, thickness = fixing.length or NOTHING, meeting.through.thickness
    across = toe_exit(length, fixing.slope)
    if across < thickness.low:
        return
    name = meeting.through.name
    yield Flaw(
        "breaks-out",
        "fault" if across >= thickness.listed else "warn",
        "slope",
        f"Driven {fixing.slope:g} degrees off square, the {around.say(length)} "
        f"{said(fixing.method)} comes out of the back of {name} before it gets to its end.",
        {
            "length": length,
            "bite": NOTHING,
            "clearance": thickness.low - across,
            "keep": SIDE_MARGIN,
            "fails_at": "every size" if across >= thickness.listed else "thin end",
        },
        rests_on=meeting.through.rests_on,
    )
