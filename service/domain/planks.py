"""The plank that bends: a part as it lies, what it is made of, and what stiffens it."""

from service.domain.bending import Creep, Material, Named, creep_of, material_of, named_stress
from service.domain.build import Load
from service.domain.material import FIBER_AND_CHIPS
from service.domain.parts import ResolvedPart
from service.domain.resolving import ResolvedBuild
from service.domain.sections import Layer, Section, glued, loose
from service.domain.values import dataclass, replace
from service.domain.wood_values import Condition

CUBIC_INCHES_A_FOOT3 = 1728


@dataclass(frozen=True, slots=True)
class Plank:
    """What bends: sizes as it lies (inches), its material, and its section with what stiffens it.

    `alone` is the section without stiffeners; `own` its weight in pounds an inch; `named` the
    stress that loads are held against.
    """

    wide: float
    high: float
    round: bool
    boards: int
    material: Material
    creep: Creep | None
    section: Section
    alone: Section
    own: float
    named: Named | None
    rests_on: tuple[str, ...]


def plank_of(build: ResolvedBuild, load: Load, part: ResolvedPart) -> Plank | str:
    """The part as it lies, with what stiffens it; or why it can't be figured."""
    sized, stated = part.sized, part.part
    if sized is None or sized.width is None:
        return "its width is not given"
    if stated.grain == "width" and not (sized.panel and sized.panel.material in FIBER_AND_CHIPS):
        return "its grain runs across the span, and the tables have no values for that"
    condition = condition_of(build, part)
    material = material_of(
        build.catalog, part.wood, condition=condition, grade=load.grade, stiffness=load.stiffness
    )
    if isinstance(material, str):
        return material
    thick, wide = float(sized.thickness.low), float(sized.width.low)
    if load.laid == "edge":
        thick, wide = wide, thick
    is_round = sized.form == "round"
    layer = Layer(wide * load.boards, thick, stiffness=material.stiffness.value, round=is_round)
    alone = loose([layer])
    if is_round and load.boards > 1:
        alone = replace(alone, rigidity=alone.rigidity * load.boards,
                        stress_a_moment=alone.stress_a_moment / load.boards)  # fmt: skip
    section, more, rows = _stiffened(build, load, layer, alone)
    heavy = part.density.high if part.density else 0.0
    own = (layer.area * (load.boards if is_round else 1)) * heavy / CUBIC_INCHES_A_FOOT3 + more
    rests_on = (*material.stiffness.rests_on, *part.rests_on, *rows)
    creep = creep_of(build.catalog, material, part.wood)
    return Plank(
        layer.wide,
        thick,
        is_round,
        load.boards,
        material,
        creep,
        section,
        alone,
        own,
        named_stress(build.catalog, material),
        rests_on,
    )


def condition_of(build: ResolvedBuild, part: ResolvedPart) -> Condition:
    """Whether the wood is wet in use: out of doors, or at a moisture at which wood decays."""
    moisture = build.sizing.note_for(part.part).moisture
    wet = float(build.catalog.standing["moisture.decay"].high or 0)
    outdoors = build.build.place.where == "outdoors"
    return "green" if outdoors or (moisture is not None and moisture > wet) else "12%"


def _stiffened(
    build: ResolvedBuild, load: Load, plank: Layer, alone: Section
) -> tuple[Section, float, tuple[str, ...]]:
    """The section with everything that stiffens it, their weight an inch, and rows used.

    A stiffener stands on edge beside the plank, its top flush with the plank's. What is glued
    counts with the plank as one; what is nailed or screwed adds only its own rigidity.
    """
    fast, slipping, weight, rows = [plank], 0.0, 0.0, list[str]()
    for id, joined in load.stiffened_by:
        part = build.by_id.get(id)
        if part is None or part.sized is None or part.sized.width is None:
            continue
        material = material_of(build.catalog, part.wood, condition=condition_of(build, part))
        if isinstance(material, str):
            continue
        high, wide = float(part.sized.width.low), float(part.sized.thickness.low)
        layer = Layer(wide, high, plank.high - high, material.stiffness.value)
        rows += [*material.stiffness.rests_on, *part.rests_on]
        weight += layer.area * (part.density.high if part.density else 0.0) / CUBIC_INCHES_A_FOOT3
        if "glue" in joined:
            fast.append(layer)
        else:
            slipping += layer.stiffness * layer.inertia
    whole = glued(fast) if len(fast) > 1 else alone
    share = whole.rigidity / (whole.rigidity + slipping)
    section = Section(whole.rigidity + slipping, whole.stress_a_moment * share, whole.neutral)
    return section, weight, tuple(rows)
