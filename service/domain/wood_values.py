"""What the tables know of a wood that bends, moves and rots: values with the rows behind them.

Values of clear, straight-grained wood are kept apart from those of graded lumber: the first are
of small pieces without a knot, the second of whole pieces that a grader has looked at.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

Condition = Literal["12%", "green"]
Resistance = Literal["resistant", "moderate", "slight"]


@dataclass(frozen=True, slots=True)
class Known:
    """One value: of which species, grade or panel it is, and the rows that it rests on."""

    value: float
    of: str
    rests_on: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class BendingValues:
    """Stiffness and strength in bending, psi, by moisture condition.

    `stiffness` and `rupture` are averages of clear wood, for a group those of its weakest member,
    for a panel the lower end of its range (under ``12%``: panels are tested dry). `graded` is the
    stiffness of lumber by its grade, in plain lower case.
    """

    stiffness: Mapping[Condition, Known] = field(default_factory=dict)
    rupture: Mapping[Condition, Known] = field(default_factory=dict)
    graded: Mapping[str, Known] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class MovingValues:
    """Change in width per percentage point of moisture, flat sawn and quarter sawn.

    For a group those of the member that moves most.
    """

    flat: Known
    quarter: Known


@dataclass(frozen=True, slots=True)
class CautionText:
    """A caution of the tables, in words, with its figures where it has any."""

    row: str
    words: str
    low: float | None = None
    high: float | None = None


@dataclass(frozen=True, slots=True)
class Resists:
    """How well the heartwood of a wood resists decay; of a group the member that does worst."""

    resistance: Resistance
    of: str
    rests_on: tuple[str, ...]
