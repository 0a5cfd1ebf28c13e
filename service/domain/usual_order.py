"""The order of work where the caller gives none: glue-ups no longer than the glue stays open."""

from collections.abc import Sequence

from service.domain.build import Joint, Step
from service.domain.fastening.fixing import NAILS
from service.domain.glued import glue_in
from service.domain.glues import Glue
from service.domain.gluing import GlueUp, Label, glue_up, working_time
from service.domain.resolving import ResolvedBuild

# What is driven holds a joint while its glue sets; common practice, brads too.
HELD = frozenset({"screw", "pocket-screw", "staple", *NAILS, "bolt", "clip", "hinge", "loose"})


def usual_order(build: ResolvedBuild, coats: tuple[Step, ...] = ()) -> tuple[Step, ...]:
    """Cut, sand, dry-fit, then the joints in the order of the document, glued together as they fit.

    Coats come last, or, where they leave the glue faces bare, before the joints.
    """
    joints = tuple(
        Step("glue" if glue_in(build, group[0]) else "assemble", joints=tuple(j.id for j in group))
        for group in together(build)
    )
    dry = (Step("dry-fit", joints=tuple(j.id for j in build.build.joints)),) if joints else ()
    first = tuple(step for step in coats if step.bare_at_joints)
    last = tuple(step for step in coats if not step.bare_at_joints)
    return (Step("cut"), Step("sand"), *dry, *first, *joints, *last)


def together(build: ResolvedBuild) -> list[list[Joint]]:
    """Joints in the order of the document; neighbors that only clamps hold are closed in one go
    as long as their glue stays open. The joints of one line are never parted here.
    """
    groups: list[list[Joint]] = []
    for joint in build.build.joints:
        glue = _clamped(build, joint)
        if glue is not None and groups and _clamped(build, groups[-1][0]) is glue:
            judged = _judged(build, glue, [*groups[-1], joint])
            if judged.groups is not None and len(judged.groups) == 1:
                groups[-1].append(joint)
                continue
        groups.append([joint])
    return groups


def goes(build: ResolvedBuild, joints: Sequence[Joint]) -> int:
    """How many glue-ups the joints take; 1 where the tables don't tell how long there is.

    Only those count that clamps alone hold: what is driven holds its joint at once.
    """
    clamped = [joint for joint in joints if _clamped(build, joint)]
    glue = _clamped(build, clamped[0]) if clamped else None
    if glue is None:
        return 1
    judged = _judged(build, glue, clamped)
    if judged.limit is None:
        return 1
    return len(judged.groups) if judged.groups else judged.joints


def _clamped(build: ResolvedBuild, joint: Joint) -> Glue | None:
    """The glue of a joint that nothing but clamps holds until it sets."""
    return None if joint.method in HELD else glue_in(build, joint)


def _judged(build: ResolvedBuild, glue: Glue, joints: Sequence[Joint]) -> GlueUp:
    """One pair of quick hands: the least minutes a joint that the tables tell."""
    each = build.catalog.work_times["glue-joint"].least
    limit = working_time(glue, Label(), build.build.place.temperature)
    return glue_up(sum(joint.quantity for joint in joints), each, 1, limit)
