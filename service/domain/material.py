"""How heavy wood is: density from specific gravity and moisture."""

from service.domain.catalog import Spread, Wood

WATER_LB_FT3 = 62.4  # density of water, the constant printed with the equation below
FIBER_SATURATION = 30.0  # percent moisture, the handbook's round figure for the equation below
FIBER_AND_CHIPS = frozenset({"mdf", "particleboard", "hardboard"})  # no grain; swell in the wet
GRAINLESS = FIBER_AND_CHIPS | {"osb", "foam"}  # sheets that may be turned either way
EDGE_GLUED = "edge-glued"  # the panel of boards glued edge to edge, which is solid wood
AS_SOLD = 12.0  # percent moisture at which the handbook prints dry specific gravities


def gravity_at(green: float, moisture: float) -> float:
    """Specific gravity on the volume at `moisture` percent, from the green (basic) one.

    Above fiber saturation the volume no longer changes, nor does the gravity.
    Source: wood-handbook-2021-ch4, equation 4-13.
    """
    dried = max(0.0, 1 - moisture / FIBER_SATURATION)
    return green / (1 - 0.265 * green * dried)


def density_of(gravity: float, moisture: float) -> float:
    """Pounds per cubic foot of wood with that specific gravity at `moisture` percent.

    `gravity` must be on the volume at the same moisture.
    Source: wood-handbook-2021-ch4, equation 4-14.
    """
    return WATER_LB_FT3 * gravity * (1 + moisture / 100)


def density(wood: Wood, moisture: float | None = None) -> Spread | None:
    """Pounds per cubic foot of a wood at a moisture in percent (12 where None), as a range.

    Panels have the density of their table row, whatever the moisture. None where the tables
    hold neither.
    """
    if wood.density is not None:
        return wood.density
    percent = AS_SOLD if moisture is None else moisture
    if wood.gravity_12 is not None and percent == AS_SOLD:
        dry = wood.gravity_12
        return Spread(density_of(dry.low, percent), density_of(dry.high, percent), dry.rests_on)
    if wood.gravity_green is not None:
        green = wood.gravity_green
        low, high = (gravity_at(g, percent) for g in (green.low, green.high))
        return Spread(density_of(low, percent), density_of(high, percent), green.rests_on)
    return None


def pounds(volume: float, per_cubic_foot: float) -> float:
    """The mass of a volume in cubic inches of a stuff that weighs so much a cubic foot."""
    return volume / 12**3 * per_cubic_foot
