"""How hard it is to pull or shear a fastener out of solid wood: the equations of connection design.

For comparing one fastening with another, never for the strength of a piece of furniture: pocket
screws, brads, end grain pulled apart, and edges of panels have no value, and screws and glue are
never summed. Inches, pounds, psi; G is specific gravity by oven-dry mass and volume. The code
prints its tables from these equations with G in two places.
"""

from collections.abc import Callable, Mapping
from fractions import Fraction
from math import cos, pi, radians, sin, sqrt
from typing import Literal

from service.domain.fasteners import Constant
from service.domain.values import dataclass

Kind = Literal["wood-screw", "nail", "lag-screw", "bolt"]
Constants = Mapping[str, Constant]
Withdrawal = Callable[[float, float], float]

LIGHTEST_FOR_SCREWS, DENSEST_FOR_SCREWS = 0.31, 0.73  # range of G; nds-2018, equation 12.2-2
THINNEST_NAIL, THICKEST_NAIL = 0.092, 0.375  # range of D for withdrawal; nds-2018, equation 12.2-3
THIN = 0.25  # inches: below it bearing does not ask for the grain; nds-2018, table 12.3.3
NEAREST_PSI = 50  # the code prints bearing strengths to so many psi; nds-2018, table 12.3.3
LEAST_BITE, FULL_BITE = 6, 10  # diameters of penetration; nds-2018, 12.1.5.6 and table 12L note 3
SMALL = 0.17  # inches up to which the reduction term is flat; nds-2018, table 12.3.1B


def screw_withdrawal(gravity: float, diameter: float) -> float:
    """Pounds per inch of thread in side grain that a wood screw resists being pulled.

    `diameter` is nominal. Source: nds-2018, equation 12.2-2.
    """
    return 2850 * gravity**2 * diameter


def nail_withdrawal(gravity: float, diameter: float) -> float:
    """Pounds per inch in side grain for a smooth nail. Source: nds-2018, equation 12.2-3."""
    return 1380 * float(gravity**2.5) * diameter


def lag_withdrawal(gravity: float, diameter: float) -> float:
    """Pounds per inch of thread, tip left out, for a lag screw. Source: nds-2018, eq. 12.2-1."""
    return 1800 * float(gravity**1.5 * diameter**0.75)


def pull_through(gravity: float, head: float, thickness: float) -> float:
    """Pounds that pull a round head through the part under it; not for countersunk heads.

    Source: nds-2018-tables, equations 12.2-6a and 12.2-6b.
    """
    if thickness <= 2.5 * head:
        return 690 * pi * head * gravity**2 * thickness
    return 1725 * pi * head**2 * gravity**2


def wood_bearing(gravity: float, diameter: float, across: bool = False) -> float:
    """Psi that wood bears under the side of a fastener; `diameter` is nominal.

    From 1/4 in up it matters whether the load runs along the grain or `across` it. To the 50 psi
    that the code prints. Source: nds-2018, table 12.3.3.
    """
    if diameter < THIN:
        psi = 16600 * float(gravity**1.84)
    elif across:
        psi = 6100 * float(gravity**1.45) / sqrt(diameter)
    else:
        psi = 11200 * gravity
    return NEAREST_PSI * round(psi / NEAREST_PSI)


def bending_strength(constants: Constants, diameter: Fraction) -> Constant | None:
    """Psi at which a nail or screw of that nominal diameter bends; None outside the table.

    The first band takes in its own lower edge. Source: nds-2018, table I1.
    """
    bands = sorted(
        (band.above, key, band)
        for key, band in constants.items()
        if key.startswith("yield-strength.d-") and band.above is not None
    )
    if bands and diameter == bands[0][0]:
        return bands[0][2]
    return next((band for _, _, band in bands if band.holds_for(diameter)), None)


@dataclass(frozen=True, slots=True)
class Dowel:
    """What the equations ask of a fastener.

    `diameter` is nominal; `bearing_diameter` that of the root for screws, else the same.
    `grain_angle` is the largest angle in degrees between load and grain in either part.
    """

    diameter: float
    bearing_diameter: float
    bending_psi: float
    threaded: bool
    grain_angle: float = 0.0


@dataclass(frozen=True, slots=True)
class Bearing:
    """How far the fastener bears in one part (inches), and what the part bears (psi)."""

    length: float
    psi: float


def reduction(dowel: Dowel) -> tuple[float, float, float]:
    """The reduction terms of bearing, rocking and bending. Source: nds-2018, table 12.3.1B."""
    thin = dowel.bearing_diameter
    small = 2.2 if thin <= SMALL else 10 * thin + 0.5
    if dowel.diameter < THIN:
        return small, small, small
    turned = 1 + 0.25 * dowel.grain_angle / 90
    if dowel.threaded and thin < THIN:
        return small * turned, small * turned, small * turned
    return 4 * turned, 3.6 * turned, 3.2 * turned


def yield_modes(dowel: Dowel, main: Bearing, side: Bearing) -> Mapping[str, float]:
    """Pounds sideways at each way that a joint in single shear gives; the smallest counts.

    Source: nds-2018, table 12.3.1A.
    """
    d, fyb = dowel.bearing_diameter, dowel.bending_psi
    lm, ls, fem = main.length, side.length, main.psi
    re, rt = main.psi / side.psi, main.length / side.length
    bearing, rocking, bending = reduction(dowel)
    k1 = (sqrt(re + 2 * re**2 * (1 + rt + rt**2) + rt**2 * re**3) - re * (1 + rt)) / (1 + re)
    k2 = -1 + sqrt(2 * (1 + re) + 2 * fyb * (1 + 2 * re) * d**2 / (3 * fem * lm**2))
    k3 = -1 + sqrt(2 * (1 + re) / re + 2 * fyb * (2 + re) * d**2 / (3 * fem * ls**2))
    return {
        "Im": d * lm * fem / bearing,
        "Is": d * ls * side.psi / bearing,
        "II": k1 * d * ls * side.psi / rocking,
        "IIIm": k2 * d * lm * fem / ((1 + 2 * re) * bending),
        "IIIs": k3 * d * ls * fem / ((2 + re) * bending),
        "IV": d**2 / bending * sqrt(2 * fem * fyb / (3 * (1 + re))),
    }


def lateral(dowel: Dowel, main: Bearing, side: Bearing) -> float:
    """Pounds sideways that one fastener in single shear resists: the weakest of the six ways."""
    return min(yield_modes(dowel, main, side).values())


def main_bearing_length(kind: Kind, penetration: float, diameter: float) -> float:
    """Inches that bear in the part that holds the point: half of the tip, of 2 D, is lost.

    A bolt bears in all of it; for lag screws `penetration` leaves the tip out.
    Source: nds-2018, 12.3.5.3.
    """
    return penetration - diameter if kind in ("wood-screw", "nail") else penetration


def penetration_share(penetration: float, diameter: float) -> float:
    """The share of the value sideways that a penetration, tip included, earns: none when shallow.

    Source: nds-2018, 12.1.5.6 and 12.1.6.4; tables 12L and 12N, note 3.
    """
    in_diameters = penetration / diameter
    return 0.0 if in_diameters < LEAST_BITE else min(1.0, in_diameters / FULL_BITE)


def combined(kind: Kind, pulled: float, sheared: float, angle: float) -> float:
    """Pounds at `angle` degrees from the surface, from the values straight out and sideways.

    Source: nds-2018, section 12.4.
    """
    along, out = cos(radians(angle)), sin(radians(angle))
    if kind in ("wood-screw", "lag-screw"):
        along, out = along**2, out**2
    return pulled * sheared / (pulled * along + sheared * out)
