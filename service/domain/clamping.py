"""Clamps for a glued edge: how many, how far apart, and how hard.

Inches, pounds, psi. Makers name pressures by the density of the wood; many builders clamp only
until the joint closes and an even bead comes out, and an answer says both.
"""

import math
from fractions import Fraction

from service.domain.catalog import Catalog, Wood
from service.domain.gluing import Limit
from service.domain.values import dataclass

JUST_CLOSED = "clamp-practice.close-the-joint"  # the other school, in glue_classes


@dataclass(frozen=True, slots=True)
class Clamping:
    """Clamps for an edge glue-up: how many, how far apart, and the force of each.

    Forces are pounds, least to greatest; `pressure` is psi; `apart` and `from_ends` are ranges in
    inches. `clamp_force` is what the caller's clamps give, where stated.
    """

    count: int
    apart: Limit
    from_ends: Limit
    pressure: Limit
    force: tuple[float, float]
    force_each: tuple[float, float]
    area: Fraction
    assumed: tuple[str, ...]
    rests_on: tuple[str, ...]


# Woods by the pressure that makers name for them; the limits between are this project's own.
LIGHT_TO, MEDIUM_TO = 0.45, 0.60  # specific gravity at 12 % moisture


def pressure_for(catalog: Catalog, wood: Wood | None) -> tuple[Limit, tuple[str, ...]]:
    """Psi that makers name for the wood, and what was assumed about it."""
    gravity = wood.gravity_12 if wood is not None else None
    assumed: tuple[str, ...] = ()
    if gravity is None:
        key, assumed = "light", ("the wood's density is not known: light softwood is taken",)
    elif (gravity.low + gravity.high) / 2 <= LIGHT_TO:
        key = "light"
    else:
        key = "medium" if (gravity.low + gravity.high) / 2 <= MEDIUM_TO else "dense"
    return _class_limit(catalog, f"clamp-pressure.{key}"), assumed


def clamping(
    catalog: Catalog,
    length: Fraction,
    thickness: Fraction,
    *,
    pressure: Limit | None = None,
    wood: Wood | None = None,
    clamp_force: Fraction | None = None,
) -> Clamping:
    """Clamps for a glued edge of a length and thickness.

    With the force of a clamp stated, there are at least as many as reach the least pressure.
    """
    assumed: tuple[str, ...] = ()
    if pressure is None:
        pressure, assumed = pressure_for(catalog, wood)
    apart = _class_limit(catalog, "clamp-placing.apart")
    from_ends = _class_limit(catalog, "clamp-placing.ends")
    area = length * thickness
    force = float(area * pressure.low), float(area * pressure.high)
    count = clamps_along(length, apart.high, from_ends.high)
    if clamp_force is not None:
        count = max(count, math.ceil(area * pressure.low / clamp_force))
    return Clamping(
        count=count,
        apart=apart,
        from_ends=from_ends,
        pressure=pressure,
        force=force,
        force_each=(force[0] / count, force[1] / count),
        area=area,
        assumed=assumed,
        rests_on=(*pressure.rests_on, *apart.rests_on, *from_ends.rests_on),
    )


def clamps_along(length: Fraction, apart: Fraction, from_end: Fraction) -> int:
    """Clamps along an edge, the outer ones near its ends; one where it is too short for two."""
    between = length - 2 * from_end
    return 1 if between <= 0 else 1 + math.ceil(between / apart)


def _class_limit(catalog: Catalog, key: str) -> Limit:
    """A range of the table, whose rows these are: they can't be missing."""
    told = catalog.glue_classes[key]
    assert told.low is not None and told.high is not None
    return Limit(told.low, told.high, rests_on=(told.row,))
