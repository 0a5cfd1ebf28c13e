"""Which of the usual cautions a build calls for: each is tied to something that the build says."""

from collections.abc import Iterator

from service.domain.parts import ResolvedPart
from service.domain.resolving import ResolvedBuild
from service.domain.values import dataclass
from service.domain.weight import weigh, whole

DUSTY = frozenset({"mdf", "particleboard", "hardboard"})
DRYING_OILS = frozenset(
    {"wiping-oil", "oil-stain", "oil-polyurethane", "gel-polyurethane", "gel-stain"}
)
SOLVENT = DRYING_OILS | {"paste-wax", "shellac", "shellac-primer"}
NAILED = frozenset({"brad", "finish-nail", "staple"})
PEOPLE = frozenset({"seat", "bench", "step", "bed"})
MONTHS_A_YEAR = 12
USED, PAINTED = "reclaimed.metal", "paint.old-lead"


@dataclass(frozen=True, slots=True)
class Called:
    """A caution that a build calls for: the place that does, what it is there, and its row."""

    at: str
    what: str
    caution: str


def dusty_parts(build: ResolvedBuild) -> Iterator[tuple[ResolvedPart, str]]:
    """Parts whose dust is worse than that of plain wood, and what they are of."""
    for part in build.parts:
        if part.wood is not None and part.wood.key in DUSTY:
            yield part, part.wood.name
        elif build.sizing.note_for(part.part).treated:
            yield part, "treated wood"


def used_before(build: ResolvedBuild) -> Iterator[tuple[str, str, str]]:
    """Wood that was used before or carries old paint: where, what it is called, its caution."""
    for part in build.parts:
        note = build.sizing.note_for(part.part)
        for said, caution in ((note.reclaimed, USED), (note.old_paint, PAINTED)):
            if said:
                yield part.at, part.part.id, caution
    for index, offcut in enumerate(build.build.buying.offcuts):
        for said, caution in ((offcut.reclaimed, USED), (offcut.old_paint, PAINTED)):
            if said:
                yield f"#/buying/offcuts/{index}", f"the {offcut.stock} on hand", caution


def finishes(build: ResolvedBuild) -> Iterator[tuple[str, str]]:
    """Every finish that the steps name: where, and its key."""
    for index, step in enumerate(build.build.steps):
        if step.finish is None:
            continue
        key = build.catalog.key("finish", build.build.region, step.finish)
        if key is not None:
            yield f"#/steps/{index}/finish", key


def nailed(build: ResolvedBuild) -> Iterator[str]:
    """Joints that a power nailer drives: those nailed, where the shop owns one."""
    tools = build.build.shop.tools or ()
    owned = {build.catalog.key("tool", build.build.region, tool) for tool in tools}
    if not any(tool and (tool.endswith("nailer") or tool == "stapler") for tool in owned):
        return
    for index, joint in enumerate(build.build.joints):
        if joint.method in NAILED:
            yield f"#/joints/{index}/method"


def small_children(build: ResolvedBuild) -> bool:
    """Whether a child of the age that rules on tipping furniture speak of is near."""
    months = float(build.catalog.standing["child.age"].high or 0)
    youngest = build.build.youngest
    return youngest is not None and youngest * MONTHS_A_YEAR < months


def uses(build: ResolvedBuild) -> Iterator[tuple[str, str]]:
    """Every use: where, and its key."""
    for index, name in enumerate(build.build.uses):
        key = build.catalog.key("use", build.build.region, name)
        if key is not None:
            yield f"#/uses/{index}", key


def heavy(build: ResolvedBuild, line: float) -> float | None:
    """Pounds of the whole piece where they are over a line."""
    weight = whole(weigh(build)).usual
    return weight if weight > line else None
