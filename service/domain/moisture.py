"""How much water wood holds, and how far it moves when that changes.

Moisture contents are percent of the oven-dry mass. Movement is across the grain only.
"""

from typing import TYPE_CHECKING

from service.domain.material import FIBER_SATURATION
from service.domain.values import dataclass
from service.domain.wood_values import MovingValues

if TYPE_CHECKING:
    from service.domain.catalog import Catalog


ROOM = 68.0  # degrees Fahrenheit of a heated room, where no temperature is given


@dataclass(frozen=True, slots=True)
class Swing:
    """Moistures between which wood settles over the year, percent, and the rows behind them."""

    low: float
    high: float
    rests_on: tuple[str, ...]


def equilibrium(humidity: float, celsius: float) -> float:
    """Moisture content, percent, at which wood rests in air of a humidity (percent) and warmth.

    Source: wood-handbook-2021-ch4, equation 4-5, temperature in degrees Celsius.
    """
    h, t = humidity / 100, celsius
    w = 349 + 1.29 * t + 0.0135 * t**2
    k = 0.805 + 0.000736 * t - 0.00000273 * t**2
    k1 = 6.27 - 0.00938 * t - 0.000303 * t**2
    k2 = 1.91 + 0.0407 * t - 0.000293 * t**2
    bound = k * h / (1 - k * h)
    layered = (k1 * k * h + 2 * k1 * k2 * (k * h) ** 2) / (1 + k1 * k * h + k1 * k2 * (k * h) ** 2)
    return 1800 / w * (bound + layered)


def most_moisture(gravity_green: float) -> float:
    """Moisture content, percent, of wood that is full of water; from its green specific gravity.

    Source: wood-handbook-2021-ch4, equation 4-3; 1.54 is the specific gravity of the cell wall.
    """
    return 100 * (1.54 - gravity_green) / (1.54 * gravity_green)


def movement(width: float, coefficient: float, moisture_from: float, moisture_to: float) -> float:
    """How far a width changes, in its own unit; negative when drying.

    `coefficient` is per percentage point; holds from 6 to 14 percent moisture.
    Source: wood-handbook-2010-ch13, equation 13-2.
    """
    return width * coefficient * (moisture_to - moisture_from)


def coefficient(shrinkage: float, fiber_saturation: float = FIBER_SATURATION) -> float:
    """Change in width per percentage point, from percent shrinkage green to oven-dry.

    `fiber_saturation` is in percent: 30, or 22 for the woods that the handbook names.
    The shrinkage is spread evenly over the points below fiber saturation, and taken of the width
    at 10 percent moisture instead of the green width.
    Source: wood-handbook-2010-table-13-5, whose values it reproduces.
    """
    return shrinkage / (100 * fiber_saturation - (fiber_saturation - 10) * shrinkage)


def framing_shrinkage(moisture: float) -> tuple[float, float]:
    """Percent by which framing lumber has shrunk from green, in width and in thickness.

    For most softwood species, 8 to 19 percent moisture. Source: fpl-rp-489, abstract.
    """
    return 6.031 - 0.215 * moisture, 5.062 - 0.181 * moisture


def celsius(fahrenheit: float) -> float:
    """Degrees Celsius."""
    return (fahrenheit - 32) / 1.8


def swing(catalog: "Catalog", where: str | None, humidity: float | None, warmth: float) -> Swing:
    """Between which moistures wood settles over the year, in percent, at a place.

    Heated rooms unless the place says otherwise. A humidity that is stated stands for the drier or
    the damper end, whichever it is past; `warmth` is in degrees Fahrenheit.
    """
    key = {"damp": "moisture.damp", "covered": "moisture.covered", "outdoors": "moisture.covered"}
    row = catalog.standing[key.get(where or "indoors", "moisture.indoors")]
    low, high = float(row.low or 0), float(row.high or 0)
    if humidity is not None:
        rests = equilibrium(humidity, celsius(warmth))
        low, high = min(low, rests), max(high, rests)
    return Swing(low, high, (row.row,))


def moves(values: MovingValues, width: float, low: float, high: float) -> tuple[float, float]:
    """How far a width changes between two moistures: quarter sawn and flat sawn, in its own unit.

    Below 30 percent only: above it wood no longer moves.
    """
    change = abs(min(high, FIBER_SATURATION) - min(low, FIBER_SATURATION))
    one = width * values.quarter.value * change
    other = width * values.flat.value * change
    return min(one, other), max(one, other)
