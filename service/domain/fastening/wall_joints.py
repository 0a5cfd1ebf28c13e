"""A part screwed to a wall: screws that pass it and the wall covering and sit in a wooden stud.

What hangs there, how hard it pulls, and what is in the wall are not judged.
"""

from collections.abc import Iterator, Mapping
from fractions import Fraction

from service.domain.build import Joint, Wall
from service.domain.catalog import BoardSize, Catalog
from service.domain.fastening.candidates import Made, candidates, stouts_for
from service.domain.fastening.choosing import Choice, RuledOut, Want, bores, fixing_for, lacks
from service.domain.fastening.counting import Row
from service.domain.fastening.fixing import Fixing, placed
from service.domain.fastening.flaws import is_sound
from service.domain.fastening.holding import Hold
from service.domain.fastening.meeting import Meeting, Side, side_of
from service.domain.fastening.particular import Particular, Particulars
from service.domain.fastening.proposing import Compared, Option, complete
from service.domain.fastening.searching import Search
from service.domain.fastening.surroundings import Surroundings
from service.domain.fastening.tooling import needs_of, words
from service.domain.hanging import ALWAYS, USUAL_BOARD, bite_of, bite_wanted, studs_met
from service.domain.parts import ResolvedPart
from service.domain.tape import tape
from service.domain.values import dataclass, replace

STUD, STUD_REGION = "2x4", "us"  # what a wooden stud is taken to be
STUD_TAKEN = "the wall stands on wooden studs: find one before anything is drilled"
STUD_SIZE_TAKEN = f"studs are {STUD}"
UNJUDGED = (
    "Masonry, metal studs, hollow walls without a stud there, plaster on laths, and what else is "
    "in the wall are not judged; nor is the weight that hangs there."
)
NEVER_BLIND = (
    "Never drill where a cable or a pipe may run, and no deeper than the screw goes. Who cannot "
    "tell where they run asks a competent person."
)
MASONRY = (
    "masonry takes a fixing made for that wall and that weight, by what its maker says; nothing is "
    "judged here"
)
NOT_COMPARED = "screws into a wall are not compared: the wall is not judged"


@dataclass(frozen=True, slots=True)
class AtWall:
    """A part that lies on a wall: inches; None where the plan does not say.

    `layers` lie between the part and the wall covering, `board` is that covering, `rail` how long
    the part is.
    """

    through: Side
    layers: Fraction
    kind: str
    studs: Fraction | None
    board: Fraction | None
    rail: Fraction | None

    @property
    def assumed(self) -> Iterator[str]:
        """What is taken for granted about the wall."""
        if self.kind == "masonry":
            return
        if self.kind != "studs":
            yield STUD_TAKEN
        yield STUD_SIZE_TAKEN
        if self.board is None:
            yield f"the wall is covered with gypsum board {USUAL_BOARD} in thick"


@dataclass(frozen=True, slots=True)
class OnStuds:
    """What holds on a wall."""

    options: tuple[Option, ...] = ()
    ruled_out: tuple[RuledOut, ...] = ()
    particulars: tuple[Particular, ...] = ()
    cautions: tuple[str, ...] = ()
    rests_on: tuple[str, ...] = ()


def at_wall(
    joint: Joint,
    by_id: Mapping[str, ResolvedPart],
    treated: Mapping[str, bool],
    wall: Wall | None,
) -> AtWall | None:
    """The part of a joint to the wall; None where it, or its stock, is not known."""
    part = by_id.get(joint.through)
    if part is None or part.sized is None:
        return None
    return AtWall(
        through=side_of(part, joint.touches or "face", joint.into, treated),
        layers=sum(joint.layers, Fraction(0)),
        kind=wall.kind if wall else "unknown",
        studs=wall.studs if wall else None,
        board=wall.board if wall else None,
        rail=part.part.length,
    )


def on_studs(wall: AtWall, stated: Fraction | None, want: Want, around: Surroundings) -> OnStuds:
    """Screws into studs; for masonry nothing but why. `stated` is the length that the plan says."""
    catalog = around.catalog
    told = [catalog.cautions[key] for key in ALWAYS if key in catalog.cautions]
    cautions = (NEVER_BLIND, *(caution.words for caution in told))
    rows = tuple(caution.row for caution in told)
    if wall.kind == "masonry":
        return OnStuds(ruled_out=(RuledOut("screw", MASONRY),), cautions=cautions, rests_on=rows)
    want = replace(want, glue="none")  # nothing is glued to a wall
    meeting = meeting_with_stud(wall, catalog)
    found = None if meeting is None else screw_for(meeting, wall, want, around)
    particulars = (*known_of(wall, meeting, around), *short(wall, stated, want, around))
    if meeting is None or not isinstance(found, Choice):
        out = (found,) if isinstance(found, RuledOut) else ()
        return OnStuds((), out, particulars, cautions, rows)
    option = in_wall(next(complete(Search(meeting, want, around), [found])), wall, around)
    return OnStuds((option,), (), particulars, cautions, rows)


def meeting_with_stud(wall: AtWall, catalog: Catalog) -> Meeting | None:
    """The part and a stud behind the covering, as two parts that meet."""
    stud = next(iter(catalog.stocked(STUD_REGION, STUD)), None)
    if not isinstance(stud, BoardSize) or stud.width is None or wall.through.depth is None:
        return None
    behind = Side(
        name="the stud",
        surface="edge",
        thickness=stud.thickness,
        depth=stud.width,
        narrow=stud.thickness,
        wide=None,
        panel=None,
        wood=None,
        treated=False,
        rests_on=stud.rests_on,
    )
    layers = wall.layers + covering(wall)
    return Meeting(wall.through, behind, layers, 0.0, None, (), enters_stated=True)


def covering(wall: AtWall) -> Fraction:
    """Inches of wall covering: as stated, else the usual board."""
    return USUAL_BOARD if wall.board is None else wall.board


def screw_for(
    meeting: Meeting, wall: AtWall, want: Want, around: Surroundings
) -> Choice | RuledOut:
    """The screw with the most bite that shops ask for; where none is made so, the least over it."""
    if wall.through.surface == "end":
        return RuledOut("screw", "it would have to pass the whole length of the part")
    lacking = lacks("screw", True, want.tools)
    if lacking:
        return RuledOut("screw", f"no {words(lacking)} at hand")
    bored = bores("screw", want.tools)
    made = candidates(around.catalog, "screw", stouts_for(meeting, around.metric))
    for one, fixing in sorted_by_bite(made, meeting, wall, want, around):
        here = placed(meeting, fixing)
        if is_sound(meeting, fixing, here, around):
            needed = want.tools.chosen(needs_of("screw", one.by_hand, bored))
            return Choice(one, fixing, needed, here)
    return RuledOut("screw", "none that is made reaches a stud far enough")


def sorted_by_bite(
    made: tuple[Made, ...], meeting: Meeting, wall: AtWall, want: Want, around: Surroundings
) -> Iterator[tuple[Made, Fixing]]:
    """Sizes that bite enough: those within the range that shops ask for, the deepest first."""
    wanted = bite_wanted(around.catalog)
    least, most = wanted.low or Fraction(0), wanted.high or Fraction(0)
    passed = wall.through.depth
    if passed is None:
        return
    bored = bores("screw", want.tools)
    usual = list(dict.fromkeys(one.diameter for one in made))  # of the gauges the usual one first
    within, over = [], []
    for one in made:
        place = usual.index(one.diameter)
        pattern = fixing_for(meeting, one, bored, want, around)
        for length in one.lengths:
            bite = bite_of(length + pattern.sunk, passed.high, covering(wall), (wall.layers,))
            sized = (one, replace(pattern, length=length))
            if least <= bite <= most:
                within.append((place, -bite, sized))
            elif bite > most:
                over.append((bite, place, sized))
    yield from (sized for *_, sized in sorted(within, key=lambda found: found[:2]))
    yield from (sized for *_, sized in sorted(over, key=lambda found: found[:2]))


def in_wall(option: Option, wall: AtWall, around: Surroundings) -> Option:
    """The option as it stands on a wall: one screw a stud, and its strength not spoken of."""
    rail = wall.rail or Fraction(0)
    count = studs_met(rail, wall.studs).least if wall.studs and rail else 0
    between = wall.studs if wall.studs and count > 1 else Fraction(0)
    return replace(
        option,
        row=Row(rail, count, between, Fraction(0)),
        hold=Hold(why_not=(NOT_COMPARED,)),
        compared=Compared(None, None, (NOT_COMPARED,)),
        usual=((), ()),
        why=why(option, around),
    )


def why(option: Option, around: Surroundings) -> str:
    """One sentence on the screws, with their own numbers."""
    fixing, here = option.choice.fixing, option.here
    if here is None or fixing.length is None:
        return "They hold in the studs, not in the wall covering."
    return (
        f"{around.say(fixing.length)} bite {around.say(here.bite)} of the stud: the screws hold in "
        "the studs, not in the wall covering."
    )


def known_of(wall: AtWall, meeting: Meeting | None, around: Surroundings) -> Particulars:
    """What to know before a screw goes into a stud."""
    wanted = bite_wanted(around.catalog)
    if wanted.low and wanted.high:
        yield Particular(
            "bite",
            f"Past the part and {around.say(covering(wall))} of wall covering "
            f"{tape(wanted.low, metric=around.metric)} to "
            f"{tape(wanted.high, metric=around.metric)} go into the stud.",
            wanted.low,
            wanted.high,
            rests_on=(wanted.row,),
        )
    if meeting is not None:
        edge = meeting.into.thickness.listed
        yield Particular(
            "stud",
            f"A stud shows {around.say(edge)} of edge: drive into the middle of it, "
            f"{around.say(edge / 2)} from either side.",
            edge,
            rests_on=meeting.into.rests_on,
        )
    yield from studs_of(wall, around)
    yield Particular("not-judged", UNJUDGED)


def short(wall: AtWall, stated: Fraction | None, want: Want, around: Surroundings) -> Particulars:
    """A stated screw that hardly reaches the stud, where that hangs on what is assumed of the wall.

    Where the wall is known in full the rule hang.bite finds it.
    """
    wanted, passed = bite_wanted(around.catalog), wall.through.depth
    if stated is None or passed is None or wanted.low is None:
        return
    if wall.kind == "studs" and wall.board is not None:
        return
    bite = bite_of(stated + want.sunk, passed.high, covering(wall), (wall.layers,))
    if bite < wanted.low:
        reach = f"leaves {around.say(bite)} in the stud" if bite > 0 else "does not reach a stud"
        told = f"The {around.say(stated)} screw stated {reach}, behind such a covering."
        yield Particular("stated", told, stated, rests_on=(wanted.row,))


def studs_of(wall: AtWall, around: Surroundings) -> Particulars:
    """How many studs the part meets, or how far apart they usually are."""
    if wall.studs and wall.rail:
        met = studs_met(wall.rail, wall.studs)
        many = f"{met.least}" if met.least == met.most else f"{met.least} to {met.most}"
        yield Particular(
            "studs",
            f"{wall.through.name} is {around.say(wall.rail)} long and meets {many} studs, "
            f"{around.say(wall.studs)} apart, wherever it is put: put screws into each of them.",
            wall.studs,
        )
        return
    key = "hang.stud-spacing.metric" if around.metric else "hang.stud-spacing"
    usual = around.catalog.standing.get(key)
    if usual and usual.low and usual.high:
        yield Particular(
            "studs",
            f"Studs usually stand {around.say(usual.low)} or {around.say(usual.high)} apart, "
            "center to center; with their spacing they are counted.",
            usual.low,
            usual.high,
            rests_on=(usual.row,),
        )
