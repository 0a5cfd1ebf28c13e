"""Rules about the list itself: what is named, named twice, or never used."""

import difflib
from collections import Counter
from collections.abc import Collection, Iterable, Iterator

from service.domain.build import Joint
from service.domain.fastening.fixing import TIPPED
from service.domain.findings import Change, Mend, Spot, rule
from service.domain.naming import (
    Reference,
    called_by_others,
    repeats,
    step_joint_references,
)
from service.domain.parts import ResolvedPart
from service.domain.resolving import ResolvedBuild


@rule(
    "part.duplicate-id",
    title="Two parts have the same id",
    severity="fault",
    numbers={"free": "word"},
)
def duplicate_id(build: ResolvedBuild) -> Iterator[Spot]:
    """Joints, runs and steps name parts by id, so an id can stand for one part only.

    Until it is mended, everything that names the id is taken to mean the first part that has it.
    """
    taken = {part.part.id for part in build.parts}
    called = called_by_others(build.build)
    for index, earlier in repeats(build.build).items():
        id = build.build.parts[index].id
        free = called.get(index) or next(
            f"{id}-{n}" for n in range(2, len(taken) + 3) if f"{id}-{n}" not in taken
        )
        taken.add(free)
        known = f"; what is named {free} elsewhere is not in the list" if index in called else ""
        yield Spot(
            at=f"#/parts/{index}/id",
            also_at=f"#/parts/{earlier}/id",
            detail=f"The id {id} stands for an earlier part already{known}.",
            numbers={"free": free},
            mend=Mend(f"Call this one {free}.", (Change(f"/parts/{index}/id", free),)),
        )


@rule(
    "joint.unknown-part",
    title="A joint names a part that is not in the list",
    severity="fault",
    numbers={"nearest": "words"},
)
def joint_unknown_part(build: ResolvedBuild) -> Iterator[Spot]:
    """A joint holds two parts of the list together, or one part to the wall.

    Nothing can be said of a joint when one of its parts is not there.
    """
    yield from unknown(build.references.by_joints, ids_in_use(build), "part")


@rule(
    "part.unknown",
    title="A part is named that is not in the list",
    severity="fault",
    numbers={"nearest": "words"},
)
def unknown_part(build: ResolvedBuild) -> Iterator[Spot]:
    """Runs, shapes, loads, steps and cutouts name parts by id, and each must be in the list.

    What names a missing part is not judged until the name is put right.
    """
    yield from unknown(build.references.by_others, ids_in_use(build), "part")


def ids_in_use(build: ResolvedBuild) -> set[str]:
    """Ids that parts have, or should have had where one was given twice."""
    return {*build.by_id, *called_by_others(build.build).values()}


@rule(
    "joint.unknown",
    title="A step names a joint that is not in the list",
    severity="fault",
    numbers={"nearest": "words"},
)
def unknown_joint(build: ResolvedBuild) -> Iterator[Spot]:
    """A step that glues or assembles names joints by id, and each must be in the list."""
    joints = {joint.id for joint in build.build.joints}
    yield from unknown(step_joint_references(build.build), joints, "joint")


def unknown(named: Iterable[Reference], known: Collection[str], kind: str) -> Iterator[Spot]:
    """Ids that stand for nothing, with the nearest that do."""
    for at, id in named:
        if id in known:
            continue
        near = tuple(difflib.get_close_matches(id, sorted(known), n=3, cutoff=0.5))
        hint = f"; nearest: {', '.join(near)}" if near else ""
        yield Spot(
            at=at,
            detail=f"No {kind} of this build has the id {id}{hint}.",
            numbers={"nearest": near},
            mend=Mend(f"Name a {kind} of the build, or add it."),
        )


@rule("part.unjoined", title="Nothing holds this part", severity="note")
def unjoined(build: ResolvedBuild) -> Iterator[Spot]:
    """A part that takes up room in a run, but is in no joint, has nothing to hold it.

    Loose shelves and lids are meant to be so: give them a joint with method `loose`.
    """
    joined = {id for _, id in build.references.by_joints}
    loose = {id for _, id in build.references.by_others} - joined
    for part in build.parts:
        if build.build.joints and part.part.id in loose:
            yield Spot(part.at, f"{part.part.id} is in no joint.")


@rule("part.unused", title="Nothing names this part", severity="note")
def unused(build: ResolvedBuild) -> Iterator[Spot]:
    """A part that no joint, run, shape, load or step names may be left over from an earlier plan.

    Only said where the build names its other parts, and not of a part with a cutout for another.
    """
    references = build.references
    named = {id for _, id in (*references.by_joints, *references.by_others)}
    known = named & set(build.by_id)
    for part in build.parts:
        takes = any(cutout.fits in build.by_id for cutout in part.part.cutouts)
        if known and part.part.id not in named and not takes:
            yield Spot(part.at, f"No joint, run, shape, load or step names {part.part.id}.")


@rule(
    "joint.to-itself",
    title="A joint holds a part to itself",
    severity="fault",
    numbers={"part": "word"},
)
def joint_to_itself(build: ResolvedBuild) -> Iterator[Spot]:
    """A joint takes two pieces. Alike pieces may be joined to each other, one alone can't be.

    One of the two names is a slip, or the list has one piece too few.
    """
    twice = {build.build.parts[index].id for index in repeats(build.build)}
    for index, joint in enumerate(build.build.joints):
        part = build.by_id.get(joint.through)
        if part is None or joint.into != joint.through or joint.through in twice:
            continue
        if part.part.quantity == 1:
            yield Spot(
                at=f"#/joints/{index}/into",
                also_at=part.at,
                detail=f"{joint.id} joins {joint.through} to itself, and the list has one of it.",
                numbers={"part": joint.through},
                mend=Mend("Name the other part, or list two of this one."),
            )


@rule("joint.turns", title="A single fastener lets a part turn", severity="note", basis="practice")
def joint_turns(build: ResolvedBuild) -> Iterator[Spot]:
    """One screw, nail or dowel is an axle: what nothing else holds turns about it.

    Two fasteners apart from each other, glue, or a dado that takes the part keep it where it is.
    Nothing is said where the plan leaves count or glue open, or lets the part move.
    """
    held = Counter[str]()
    for joint in build.build.joints:
        held[joint.through] += joint.quantity
        held[joint.into] += joint.quantity
    for index, joint in enumerate(build.build.joints):
        through, into = build.by_id.get(joint.through), build.by_id.get(joint.into)
        if through is None or into is None or not alone(joint) or let_in(joint, through, into):
            continue
        free = [p.part.id for p in (through, into) if held[p.part.id] <= p.part.quantity]
        if free:
            yield Spot(
                at=f"#/joints/{index}/count",
                detail=f"One fastener and no glue: {free[0]} can turn about it.",
                mend=Mend("Drive two, as far apart as the joint is wide, or glue it."),
            )


def alone(joint: Joint) -> bool:
    """Whether one fastener, and by the plan nothing else, is what a joint is held by."""
    single = joint.count == 1 and joint.method in TIPPED
    return single and joint.glue == "none" and not joint.lets_move


def let_in(joint: Joint, *pieces: ResolvedPart) -> bool:
    """Whether one of the two parts has a cutout for the other."""
    pair = {joint.through, joint.into}
    return any(cutout.fits in pair for piece in pieces for cutout in piece.part.cutouts)
