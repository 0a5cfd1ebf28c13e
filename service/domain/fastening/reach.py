"""Whether a fastener is of the right length and thickness for a joint.

Geometry decides. The few figures of judgment stand here, as this project's own, so that rules of
thumb may come and go in the tables; they are only shown beside.
"""

from collections.abc import Iterator
from fractions import Fraction

from service.domain.fastening.driving import POCKET_ADVANCE, POCKET_DRILL, Driven, toe_exit
from service.domain.fastening.fixing import DRIVEN, Fixing, before, placed
from service.domain.fastening.meeting import BOARDLIKE, Meeting
from service.domain.fastening.surroundings import MARGIN, Flaw, Surroundings, said
from service.domain.findings import Number

SIDE_MARGIN = Fraction(1, 16)  # in; to leave where a screw runs slantwise past a side; own
BITE_SHARE = Fraction(2, 3)  # of what is passed; row thread-in-base.two-thirds
GLUED_BITE_SHARE = Fraction(1, 2)  # where glue carries and the fastener only holds it; own
LEAST_BITE, ENOUGH_BITE = Fraction(1, 4), Fraction(1)  # in; row bite.two-by-parts; own
POCKET_BITE = Fraction(3, 8)  # in; a pocket screw with less holds little; own
POCKET_KEEP = Fraction(3, 4)  # of what is kept past other points; own
SLANTED_BITE = Fraction(3, 8)  # in; a toe-driven fastener with less holds little; own
LEAST_FOR_POCKET = Fraction(7, 16)  # in; half-inch stock is the thinnest in use; practice
THICKEST = Fraction(1, 4)  # of the wood across the fastener; row screw-diameter.edge
THICKEST_DOWEL = Fraction(1, 2)  # of the thickness; practice, a third to a half
NOTHING = Fraction(0)


def of_sizes(
    meeting: Meeting, fixing: Fixing, here: Driven | None, around: Surroundings
) -> Iterator[Flaw]:
    """Length, thickness and where the point ends up (`here`): the gravest of them."""
    if fixing.method == "pocket-screw":
        thin = next(too_thin_for_pocket(meeting, around), None)
        if thin:
            yield thin
            if thin.severity == "fault":
                return
    found = list(of_length(meeting, fixing, here, around))
    if found:
        yield min(found, key=lambda flaw: flaw.severity != "fault")
    if not meeting.into.into_panel_edge or meeting.into.panel not in BOARDLIKE:
        yield from too_thick(meeting, fixing, around)


def too_thin_for_pocket(meeting: Meeting, around: Surroundings) -> Iterator[Flaw]:
    """No pocket fits in a part that is no thicker than the bit is wide."""
    thickness = meeting.through.thickness
    if thickness.high >= LEAST_FOR_POCKET:
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


def of_length(
    meeting: Meeting, fixing: Fixing, here: Driven | None, around: Surroundings
) -> Iterator[Flaw]:
    """Where the point ends up."""
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
    depth = meeting.into.depth
    if fixing.method == "pocket-screw":
        most = POCKET_BITE if depth is None else BITE_SHARE * (depth.low - MARGIN) / POCKET_ADVANCE
        return max(LEAST_BITE, min(POCKET_BITE, most))
    if meeting.through.surface == "end":
        return SLANTED_BITE
    passed = meeting.passed
    if fixing.method == "dowel" or passed is None:
        return LEAST_BITE
    glued = fixing.method in ("brad", "staple") and fixing.glue != "none"
    share = GLUED_BITE_SHARE if glued else BITE_SHARE
    wanted = min(ENOUGH_BITE, share * passed.listed)
    if depth is not None and wanted > depth.low - MARGIN:
        wanted = BITE_SHARE * (depth.low - MARGIN)
    return max(LEAST_BITE, wanted)


def short(
    meeting: Meeting, fixing: Fixing, here: Driven, wanted: Fraction, around: Surroundings
) -> Flaw:
    """It does not reach the second part, or bites too little of it."""
    length = fixing.length or NOTHING
    passed = before(meeting, fixing) or NOTHING
    name = meeting.into.name
    numbers: dict[str, Number] = {
        "length": length,
        "passed": passed,
        "bite": here.bite,
        "wanted": wanted,
    }
    used = f"{around.say(passed)} of the {around.say(length)} {said(fixing.method)} lie before"
    if not wanted:
        detail = f"The {around.say(length)} {said(fixing.method)} has {around.say(passed)} to pass "
        detail += f"before {name}: it does not get there."
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
        ("pokes-out", "fastener/length", here.far, thin.far, keep_past(fixing, around), "far side"),
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
            told = told if clear else f"reaches just to the {way} of {name}"
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


def keep_past(fixing: Fixing, around: Surroundings) -> Fraction:
    """Wood to leave past a point; three quarters of it past a pocket screw, which goes in flat."""
    return POCKET_KEEP * around.keep if fixing.method == "pocket-screw" else around.keep


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
