"""Every joint of a build: its two parts, what the plan says of it, and what is wrong with it."""

from collections.abc import Mapping
from fractions import Fraction

from service.domain.build import Joint
from service.domain.catalog import Catalog, Interval
from service.domain.deadline import kept_time
from service.domain.fastening.adjusting import DRY_UP_TO
from service.domain.fastening.choosing import Want
from service.domain.fastening.fixing import Fixing, fixing_of
from service.domain.fastening.flaws import flaws
from service.domain.fastening.meeting import WALL, Meeting, Side, meet
from service.domain.fastening.surroundings import MARGIN, Flaw, Surroundings
from service.domain.fastening.tooling import tools_of
from service.domain.fastening.wall_joints import AtWall, at_wall
from service.domain.parts import ResolvedPart
from service.domain.stocks import Sizing
from service.domain.tape import pair
from service.domain.values import dataclass, replace

SPECIAL = frozenset({"bolt", "hinge", "clip", "lap"})  # what the joint takes is told, not proposed


@dataclass(frozen=True, slots=True)
class Wishes:
    """What a question about joints may say besides the build: inches.

    `keep` is the wood to leave past a point, `across` the width of the joint.
    """

    keep: Fraction = MARGIN
    across: Fraction | None = None


@dataclass(frozen=True, slots=True)
class JudgedJoint:
    """A joint, and what is wrong with it. `meeting` is None where nothing can be said.

    `made_wet` says that one of its parts is stated to hold more water than dry wood.
    """

    index: int
    joint: Joint
    meeting: Meeting | None
    fixing: Fixing | None
    flaws: tuple[Flaw, ...]
    want: Want
    around: Surroundings
    wall: AtWall | None = None
    made_wet: bool = False

    @property
    def key(self) -> tuple[object, ...]:
        """What it shares with every joint of which the same is to be said."""
        if self.wall is not None:
            stated = self.fixing.length if self.fixing else None
            return (*alike_on_wall(self.wall, self.want, self.around), *pair(stated))
        return alike(self.joint, self.meeting, self.fixing, self.want, self.around)

    @property
    def at(self) -> str:
        return f"#/joints/{self.index}"


def judge_joints(
    sizing: Sizing, by_id: Mapping[str, ResolvedPart], wishes: Wishes
) -> tuple[JudgedJoint, ...]:
    """Every joint of the build, in its order."""
    build, catalog = sizing.build, sizing.catalog
    place = build.place
    warmth = None if place.temperature is None else float(place.temperature)
    around = Surroundings(
        catalog, place.where, build.units == "mm", wishes.keep, place.humidity, warmth
    )
    notes = {id: sizing.note_for(part.part) for id, part in by_id.items()}
    treated = {id: bool(note.treated) for id, note in notes.items()}
    wet = {id for id, note in notes.items() if note.moisture and note.moisture > DRY_UP_TO}
    tools = tools_of(build.shop.tools, build.region, catalog)
    visible = {id: "front" in part.part.shows for id, part in by_id.items()}
    judged, flush = [], Want(tools).sunk
    for index, joint in kept_time(enumerate(build.joints)):
        want = Want(
            tools=tools,
            glue="none" if joint.lets_move else glue_key(joint.glue, build.region, catalog),
            visible=visible.get(joint.through, False),
            across=wishes.across,
            sunk=joint.sunk or flush,
            slope=joint.slope or 0.0,
            edge_distance=joint.edge_distance,
        )
        one = judge_joint(index, joint, meet(joint, by_id, treated), want, around)
        if {joint.through, joint.into} & wet:
            one = replace(one, made_wet=True)
        if joint.into == WALL:
            one = replace(one, wall=at_wall(joint, by_id, treated, place.wall))
        judged.append(one)
    return tuple(judged)


def glue_key(name: str | None, region: str, catalog: Catalog) -> str | None:
    """The kind of glue that a name stands for; ``none`` stays what it is."""
    if name is None or name == "none":
        return name
    return catalog.key("glue", region, name) or name


def judge_joint(
    index: int, joint: Joint, meeting: Meeting | None, want: Want, around: Surroundings
) -> JudgedJoint:
    """One joint. Nothing grave is found where the surface entered, or the method, is not said."""
    fixing = fixing_of(joint, around.catalog)
    if meeting is None or fixing is None:
        return JudgedJoint(index, joint, meeting, fixing, (), want, around)
    found = tuple(flaws(meeting, fixing, around))
    if not meeting.enters_stated or joint.method is None:
        found = tuple(replace(flaw, severity="note") for flaw in found)
    return JudgedJoint(index, joint, meeting, fixing, found, want, around)


def alike(
    joint: Joint,
    meeting: Meeting | None,
    fixing: Fixing | None,
    want: Want,
    around: Surroundings,
) -> tuple[object, ...]:
    """What two joints must share for the same to be said of both, but for the parts' names.

    Fractions are taken apart: whole numbers are quicker to look up.
    """
    if meeting is None:
        return (None, joint.into == WALL, joint.method)
    stated: tuple[object, ...] = ()
    if fixing is not None:
        stated = (
            fixing.method, *pair(fixing.length), *pair(fixing.diameter), fixing.gauge,
            fixing.thread, fixing.coating, fixing.pilot, *pair(fixing.end_distance),
            fixing.has_fastener,
        )  # fmt: skip
    return (
        *of_side(meeting.through), *of_side(meeting.into), *pair(meeting.layers), meeting.lean,
        *sizes(meeting.lean_across), meeting.enters_stated, *stated, joint.method,
        joint.crosses == 0, joint.lets_move, want.tools, want.glue, joint.glue, want.visible,
        *pair(want.across), *pair(want.sunk), want.slope, *pair(want.edge_distance),
        around.where, around.metric, *pair(around.keep), *more_of(joint, meeting, around),
    )  # fmt: skip


def more_of(joint: Joint, meeting: Meeting, around: Surroundings) -> tuple[object, ...]:
    """What else counts for a joint that proposed fasteners do not hold."""
    if joint.method not in SPECIAL:
        return ()
    return (
        around.humidity, around.warmth,
        *(n for side in (meeting.through, meeting.into) for size in (side.whole, side.across)
          for n in sizes(size)),
    )  # fmt: skip


def alike_on_wall(wall: AtWall, want: Want, around: Surroundings) -> tuple[object, ...]:
    """What two parts on a wall must share for the same to be said of both."""
    return (
        WALL, *of_side(wall.through), *pair(wall.layers), wall.kind, *pair(wall.studs),
        *pair(wall.board), *pair(wall.rail), want.tools, want.glue, *pair(want.sunk), want.slope,
        *pair(want.edge_distance), around.where, around.metric, *pair(around.keep),
    )  # fmt: skip


def of_side(side: Side) -> tuple[object, ...]:
    """A part without its name."""
    return (
        side.surface, *sizes(side.thickness), *sizes(side.depth), *sizes(side.narrow),
        *sizes(side.wide), side.panel, side.wood.key if side.wood else None, side.treated,
        *side.rests_on,
    )  # fmt: skip


def sizes(interval: Interval | None) -> tuple[object, ...]:
    """An interval in whole numbers, so marked that a row of them reads in one way only."""
    if interval is None:
        return (None,)
    if interval.low is interval.high:
        return ("=", *interval.low.as_integer_ratio())
    return (
        *pair(interval.low),
        *pair(interval.listed),
        *pair(interval.high),
    )


def can_propose(judged: JudgedJoint) -> bool:
    """Whether the joint is one that fasteners hold: not a wall, a hinge or a fit left loose."""
    method = judged.joint.method
    return judged.meeting is not None and method not in SPECIAL and method != "loose"
