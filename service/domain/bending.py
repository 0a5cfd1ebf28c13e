"""What a wood, a grade or a panel gives in bending: stiffness, the stress to hold a load against,
creep, and the usual limits of sag."""

from fractions import Fraction
from functools import lru_cache
from statistics import NormalDist
from typing import Literal

from service.domain.build import Limit
from service.domain.catalog import Catalog, Practice, Wood
from service.domain.material import FIBER_AND_CHIPS
from service.domain.values import dataclass
from service.domain.wood_values import BendingValues, Condition, Known

Kind = Literal["clear wood", "graded lumber", "panel", "your own figure"]

SAID = {
    "clear wood": "the average of clear, straight-grained wood in a handbook; knots weaken a board",
    "graded lumber": "the average of lumber that bears the stamp of that grade",
    "panel": "the lower end of what a handbook gives for such panels",
    "your own figure": "your own figure",
}
LIMITS: tuple[tuple[str, str, Literal["first", "lasting"]], ...] = (
    ("shelf", "limit.shelf", "first"),
    ("eye", "limit.eye", "lasting"),
    ("floor", "limit.l-360", "first"),
    ("L/240", "limit.l-240", "lasting"),
    ("L/180", "limit.l-180", "first"),
)
NAMED = {name: (key, counts) for name, key, counts in LIMITS}


@dataclass(frozen=True, slots=True)
class Material:
    """Stiffness and breaking stress in psi; `rupture` is None where no table has it."""

    kind: Kind
    condition: Condition
    stiffness: Known
    rupture: Known | None


@dataclass(frozen=True, slots=True)
class Creep:
    """How many times the first sag a load that stays brings, from and to."""

    low: float
    high: float
    rests_on: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Allowed:
    """A limit of sag over one span: inches allowed, and whether the first or lasting sag counts."""

    name: str
    inches: float
    counts: Literal["first", "lasting"]
    rests_on: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Named:
    """The stress that a load is held against, psi, and how it comes about."""

    psi: float
    of: str
    factor: float
    rests_on: tuple[str, ...]


def material_of(
    catalog: Catalog,
    wood: Wood | None,
    *,
    condition: Condition = "12%",
    grade: str | None = None,
    stiffness: Fraction | None = None,
) -> Material | str:
    """The values to bend with, or why there are none.

    A group has its weakest member's. Graded values are given only where a grade is stated, and
    then without a breaking stress: the tables hold none for grades.
    """
    values = catalog.bending.get(wood.key) if wood else None
    rupture = values.rupture.get(condition) if values else None
    if stiffness is not None:
        own = Known(float(stiffness), "your own figure", ())
        return Material("your own figure", condition, own, rupture)
    if wood is None:
        return "its wood is not named"
    if values is None:
        return f"the tables have no stiffness for {wood.name}"
    if grade is not None:
        return _graded(wood, grade, values, condition)
    found = values.stiffness.get(condition)
    if found is None:
        which = f"wet {wood.name}" if wood.kind == "panel" else f"clear {wood.name}"
        return f"the tables have no stiffness for {which}"
    return Material("panel" if wood.kind == "panel" else "clear wood", condition, found, rupture)


def _graded(wood: Wood, grade: str, values: BendingValues, condition: Condition) -> Material | str:
    known = values.graded.get(grade.casefold())
    if known is not None:
        return Material("graded lumber", condition, known, None)
    grades = ", ".join(one.of.removesuffix(" lumber") for one in values.graded.values())
    has = f"; they have {grades}" if grades else ""
    return f"the tables have no grade {grade} of {wood.name}{has}"


def creep_of(catalog: Catalog, material: Material, wood: Wood | None) -> Creep | None:
    """What a load that stays adds; None for panels of fiber and chips, which creep most.

    Source: section 3.5.2 of the National Design Specification through awc-creep-page, and
    wood-handbook-2010-ch5.
    """
    if wood is not None and wood.kind == "panel":
        if wood.key in FIBER_AND_CHIPS:
            return None
        return _between(catalog, "creep.panels", "creep.panels")
    if material.condition == "green":
        return _between(catalog, "creep.unseasoned", "creep.most")
    return _between(catalog, "creep.seasoned", "creep.handbook")


def named_stress(catalog: Catalog, material: Material) -> Named | None:
    """The near-minimum strength of clear wood, lowered for years of load and a margin.

    That is the average less 1.645 standard deviations (5 percent of pieces fall short of it),
    divided by 1.62 and by 1.3. None for panels and grades, for which the tables have no strength
    that these factors are made for.
    Source: astm-d2555, wood-handbook-2010-ch7, strength-factor-column.
    """
    if material.rupture is None or material.kind not in ("clear wood", "your own figure"):
        return None
    if material.rupture.rests_on and material.rupture.rests_on[0].startswith("panel_values/"):
        return None
    rows = [catalog.standing[f"strength.{name}"] for name in
            ("exclusion", "variation", "duration", "margin")]  # fmt: skip
    exclusion, variation, duration, margin = (float(row.high or 0) for row in rows)
    factor = (1 + _deviations(exclusion) * variation) / (duration * margin)
    rests_on = (*material.rupture.rests_on, *(row.row for row in rows))
    return Named(material.rupture.value * factor, material.rupture.of, factor, rests_on)


@lru_cache(maxsize=16)
def _deviations(percent: float) -> float:
    """How many standard deviations from the average that share of pieces falls short of."""
    return NormalDist().inv_cdf(percent / 100)


def usual_limits(catalog: Catalog, span: float) -> tuple[Allowed, ...]:
    """Every usual limit over a span in inches: practice for furniture, whoever made it."""
    return tuple(
        Allowed(name, _inches(catalog.standing[key], span), counts, (catalog.standing[key].row,))
        for name, key, counts in LIMITS
    )


def allowed(catalog: Catalog, limit: Limit | None, span: float) -> Allowed:
    """The limit that was chosen, over a span in inches; what the eye notices where none was."""
    if limit is not None and limit.size is not None:
        return Allowed("your limit", float(limit.size), "lasting", ())
    if limit is not None and limit.share is not None:
        return Allowed(f"L/{limit.share.denominator}", span * float(limit.share), "lasting", ())
    name = (limit.name if limit else None) or "eye"
    key, counts = NAMED[name]
    return Allowed(name, _inches(catalog.standing[key], span), counts, (catalog.standing[key].row,))


def _inches(row: Practice, span: float) -> float:
    each = float(row.high or 0)
    return span * each / 12 if row.unit == "in per ft" else span * each


def _between(catalog: Catalog, low: str, high: str) -> Creep:
    rows = [catalog.standing[key] for key in dict.fromkeys((low, high))]
    return Creep(
        float(rows[0].high or 0), float(rows[-1].high or 0), tuple(row.row for row in rows)
    )
