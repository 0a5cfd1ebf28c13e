"""A lap: how deep each part is cut, how far, how it is glued, and screws that stay inside."""

from fractions import Fraction

from service.domain.catalog import Interval
from service.domain.fastening.choosing import Want, glue_for
from service.domain.fastening.fixing import placed
from service.domain.fastening.meeting import Meeting, Side, plus
from service.domain.fastening.particular import Particular, Particulars
from service.domain.fastening.searching import Search
from service.domain.fastening.surroundings import Surroundings
from service.domain.fastening.tooling import Tools
from service.domain.gluing import clamp_time
from service.domain.values import dataclass, replace

NO_ROOM = (
    "{part} is too thin to take in what the cut in the other part leaves: cut the other one deeper."
)
HALF = Fraction(1, 2)  # of the thickness; row lap.half


@dataclass(frozen=True, slots=True)
class Cut:
    """How deep a part is cut, inches, whether the plan says so, and what is left of it."""

    depth: Fraction
    stated: bool
    left: Interval


def lapping(meeting: Meeting, want: Want, around: Surroundings) -> Particulars:
    """Everything to know for a lap."""
    through, into = meeting.through, meeting.into
    cuts = cuts_of(through, into)
    if cuts is None:
        told = "A lap is cut into faces or edges whose depth is known: nothing is figured here."
        yield Particular("depth", told)
        return
    too_deep = next(
        (s for s, c in zip((through, into), cuts, strict=True) if c.left.low <= 0), None
    )
    if too_deep is not None:
        yield Particular("depth", NO_ROOM.format(part=too_deep.name), rests_on=meeting.rests_on)
        return
    for side, cut in zip((through, into), cuts, strict=True):
        yield depth(side, cut, around)
    yield from flush(meeting, cuts, around)
    for side, other in ((through, into), (into, through)):
        yield from shoulder(side, other, around)
    yield from glue(want, around)
    yield from screws(meeting, cuts, want, around)


def cuts_of(through: Side, into: Side) -> tuple[Cut, Cut] | None:
    """The depth of both cuts: as stated, else so that one face comes out flush.

    Where neither is stated each is half of the thinner part; where one is, the other takes in just
    what that leaves.
    """
    if through.whole is None or into.whole is None or "end" in (through.surface, into.surface):
        return None
    first, second = _stated(through), _stated(into)
    if first is None and second is None:
        half = HALF * min(through.whole.listed, into.whole.listed)
        return _cut(through.whole, half), _cut(into.whole, half)
    if first is None and second is not None:
        return _cut(through.whole, second.left.listed), second
    if second is None and first is not None:
        return first, _cut(into.whole, first.left.listed)
    return None if first is None or second is None else (first, second)


def _cut(whole: Interval, depth: Fraction, stated: bool = False) -> Cut:
    return Cut(depth, stated, plus(whole, -depth))


def _stated(side: Side) -> Cut | None:
    """The cut that a cutout for the other part states."""
    if side.whole is None or side.depth is None or side.depth.listed == side.whole.listed:
        return None
    return _cut(side.whole, side.whole.listed - side.depth.listed, stated=True)


def depth(side: Side, cut: Cut, around: Surroundings) -> Particular:
    """How deep one part is cut, and what is left."""
    whole = side.whole.listed if side.whole else cut.depth + cut.left.listed
    how = "is cut" if cut.stated else "Cut"
    name = side.name
    told = f"{name} {how}" if cut.stated else f"{how} {name}"
    return Particular(
        "depth",
        f"{told} {around.say(cut.depth)} deep in its {side.surface}, of {around.say(whole)}: "
        f"{around.say(cut.left.listed)} is left. Set the saw on scraps of these very boards.",
        cut.depth,
        rests_on=(*side.rests_on, *around.rows("lap.half")),
    )


def flush(meeting: Meeting, cuts: tuple[Cut, Cut], around: Surroundings) -> Particulars:
    """Where the two do not come out flush: which stands proud, and by how much."""
    first, second = cuts
    proud = (
        (meeting.through, meeting.into, first.left.listed - second.depth),
        (meeting.into, meeting.through, second.left.listed - first.depth),
    )
    for side, other, by in proud:
        if by > 0:
            told = f"{side.name} stands {around.say(by)} proud of {other.name} on its side."
        elif by < 0:
            told = f"{side.name} lies {around.say(-by)} below {other.name} on its side."
        else:
            continue
        yield Particular("flush", told, abs(by), rests_on=meeting.rests_on)


def shoulder(side: Side, other: Side, around: Surroundings) -> Particulars:
    """How far the cut goes: the other part is that wide."""
    if other.narrow is None:
        return
    wide = other.narrow.listed
    yield Particular(
        "shoulder",
        f"The cut in {side.name} is {around.say(wide)} wide, as {other.name} is: mark it from that "
        "piece itself, not from a rule.",
        wide,
        rests_on=other.rests_on,
    )


def glue(want: Want, around: Surroundings) -> Particulars:
    """The glue, how long it is clamped, and where."""
    kind = glue_for(want, around)
    if kind == "none":
        yield Particular("glue", "The plan says no glue: screws or bolts have to hold the lap.")
        return
    known = around.catalog.glues.get(kind)
    limit = clamp_time(known) if known else None
    hours = f" for {float(limit.low):g} to {float(limit.high):g} min" if limit else ""
    yield Particular(
        "glue",
        f"Glue the two wide faces ({kind}) and clamp them face to face{hours}, with a second clamp "
        "that pushes each shoulder home.",
        rests_on=limit.rests_on if limit else (),
    )


def screws(
    meeting: Meeting, cuts: tuple[Cut, Cut], want: Want, around: Surroundings
) -> Particulars:
    """Screws beside the glue, from either face, that do not come out of what is left."""
    first, second = cuts
    lapped = (
        replace(meeting.through, depth=first.left),
        replace(meeting.into, depth=second.left),
    )
    for through, into in (lapped, lapped[::-1]):
        pair = replace(meeting, through=through, into=into)
        found = Search(pair, want, around).find("screw", Tools(None))
        if found is None or found.fixing.length is None:
            told = f"No screw that is made holds through {through.name} and stays in {into.name}."
            yield Particular("screws", told, rests_on=meeting.rests_on)
            continue
        fixing, made = found.fixing, found.made
        here = placed(pair, fixing)
        assert here is not None and made is not None and fixing.length is not None
        size = f"#{fixing.gauge}" if fixing.gauge else around.say(made.diameter)
        yield Particular(
            "screws",
            f"If screws help: through {through.name} into {into.name} a {size} {made.type} of "
            f"{around.say(fixing.length)}; it stops {around.say(here.clear)} short of coming out.",
            most=fixing.length,
            rests_on=(*meeting.rests_on, *made.rests_on, *around.rows("tip-clearance.any")),
        )
