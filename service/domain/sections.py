"""Cross sections in bending: second moment of area, section modulus, boards that work together.

Sizes are inches, stiffness psi. Source of the formulas: mechanics of beams, in
wood-handbook-2010-table-9-1's chapter as equation 9-3.
"""

from collections.abc import Sequence
from math import pi

from service.domain.values import dataclass


@dataclass(frozen=True, slots=True)
class Layer:
    """One piece of a section: `high` inches tall from `low` up, `wide` across, and how stiff.

    `round` layers are circles of that height.
    """

    wide: float
    high: float
    low: float = 0.0
    stiffness: float = 1.0
    round: bool = False

    @property
    def area(self) -> float:
        """Square inches."""
        return pi * self.high**2 / 4 if self.round else self.wide * self.high

    @property
    def inertia(self) -> float:
        """Second moment of area about the layer's own middle, inches to the fourth."""
        if self.round:
            return pi * self.high**4 / 64
        return self.wide * self.high**3 / 12

    @property
    def modulus(self) -> float:
        """Section modulus of the layer alone, cubic inches."""
        return self.inertia / (self.high / 2)

    @property
    def middle(self) -> float:
        return self.low + self.high / 2


@dataclass(frozen=True, slots=True)
class Section:
    """Layers that bend together.

    `rigidity` is stiffness times second moment, pound-square inches; `stress_a_moment` the stress
    in psi at the outer fiber of the first layer for each inch-pound of moment.
    """

    rigidity: float
    stress_a_moment: float
    neutral: float


def glued(layers: Sequence[Layer]) -> Section:
    """Layers joined so that nothing slips: the transformed section."""
    weight = sum(layer.stiffness * layer.area for layer in layers)
    neutral = sum(layer.stiffness * layer.area * layer.middle for layer in layers) / weight
    rigidity = sum(
        layer.stiffness * (layer.inertia + layer.area * (layer.middle - neutral) ** 2)
        for layer in layers
    )
    first = layers[0]
    outer = max(abs(first.low - neutral), abs(first.low + first.high - neutral))
    return Section(rigidity, first.stiffness * outer / rigidity, neutral)


def loose(layers: Sequence[Layer]) -> Section:
    """Layers that lie on or beside each other and slip: each bends about its own middle.

    What nails and screws add by holding layers together is left out, which is on the cautious side.
    """
    rigidity = sum(layer.stiffness * layer.inertia for layer in layers)
    first = layers[0]
    return Section(rigidity, first.stiffness * first.high / 2 / rigidity, first.middle)
