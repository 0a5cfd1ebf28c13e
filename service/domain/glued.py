"""Joints that are glued: which glue, which grain, and which step of the work closes them."""

from collections.abc import Sequence

from service.domain.build import Joint, Step
from service.domain.glues import Glue
from service.domain.gluing import NONE
from service.domain.resolving import ResolvedBuild
from service.domain.values import dataclass


@dataclass(frozen=True, slots=True)
class Glued:
    """A joint with the glue that it states."""

    index: int
    joint: Joint
    glue: Glue

    @property
    def at(self) -> str:
        """Pointer to the joint."""
        return f"#/joints/{self.index}"


def glued(build: ResolvedBuild) -> tuple[Glued, ...]:
    """Every joint whose glue is stated and is one."""
    return tuple(
        Glued(index, joint, glue)
        for index, joint in enumerate(build.build.joints)
        if (glue := glue_in(build, joint)) is not None
    )


def glue_in(build: ResolvedBuild, joint: Joint) -> Glue | None:
    """The glue of a joint, where the tables have it."""
    if joint.glue is None:
        return None
    known: dict[str, Glue | None] = build.shared.setdefault("glues", {})
    if joint.glue not in known:
        key = build.catalog.key("glue", build.build.region, joint.glue)
        known[joint.glue] = build.catalog.glues.get(key) if key else None
    return known[joint.glue]


def is_none(build: ResolvedBuild, joint: Joint) -> bool:
    """Whether the joint says that it has no glue."""
    return (
        joint.glue is not None and build.catalog.key("glue", build.build.region, joint.glue) == NONE
    )


def glued_in(step: Step, known: Sequence[Glued]) -> list[Glued]:
    """The glued joints that a step closes: those it names, those of its parts, or all."""
    if step.do not in ("glue", "assemble"):
        return []
    if step.joints:
        return [one for one in known if one.joint.id in step.joints]
    if step.parts:
        parts = set(step.parts)
        return [one for one in known if {one.joint.through, one.joint.into} <= parts]
    return list(known)


def is_panel(build: ResolvedBuild, id: str) -> bool:
    """Whether the part is of a sheet product."""
    part = build.by_id.get(id)
    return part is not None and part.panel is not None


def is_housed(build: ResolvedBuild, joint: Joint) -> bool:
    """Whether one part sits in a cutout of the other."""
    for holder, held in ((joint.into, joint.through), (joint.through, joint.into)):
        part = build.by_id.get(holder)
        if part is not None and any(cutout.fits == held for cutout in part.part.cutouts):
            return True
    return False


def end_grain_part(build: ResolvedBuild, joint: Joint) -> str | None:
    """The solid part whose end grain is glued, if one is."""
    for id, surface in ((joint.through, joint.touches), (joint.into, joint.enters)):
        part = build.by_id.get(id)
        if part is None or part.panel is not None:
            continue
        ends = {"length": "end", "width": "edge"}.get(part.part.grain)
        if surface is not None and surface == ends:
            return id
    return None
