"""A long part on a narrow page: both ends to one scale, the plain middle left out between them."""

from dataclasses import dataclass

from service.domain.drawing import Path
from service.handouts.drawings.pens import FIELD, MARGIN, torn

LEFT = MARGIN + 14
ROOM = FIELD - 2 * LEFT
GAP = 16.0
TALL, LARGEST = 96.0, 36.0
"""Points: how high a part's width may stand, and how long an inch may be."""

WHOLE = 0.5  # a part is shown whole where that makes it no less than half as large


@dataclass(frozen=True, slots=True)
class Fold:
    """Where inches along a part come on paper; `near` to `far` is left out (equal: nothing is)."""

    scale: float
    near: float
    far: float

    @property
    def breaks(self) -> bool:
        """Whether a middle is left out."""
        return self.far > self.near

    def x(self, at: float) -> float:
        """A place along the part. What lies in the middle that is left out falls in the gap."""
        if not self.breaks or at <= self.near:
            return LEFT + at * self.scale
        if at < self.far:
            share = (at - self.near) / (self.far - self.near)
            return LEFT + self.near * self.scale + share * GAP
        return LEFT + self.near * self.scale + GAP + (at - self.far) * self.scale

    def torn(self, top: float, foot: float) -> tuple[Path, ...]:
        """The two sides of the gap."""
        if not self.breaks:
            return ()
        return tuple(torn(self.x(at), top, foot) for at in (self.near, self.far))


def fold(length: float, high: float, first: float, second: float) -> Fold:
    """How to show a part `length` inches long and `high` wide, whose ends take so many inches."""
    scale = min(TALL / high, LARGEST)
    if ROOM / length >= WHOLE * scale:
        return Fold(min(scale, ROOM / length), 0.0, 0.0)
    shown = (ROOM - GAP) / scale
    if first + second > shown:
        scale = max(ROOM / length, (ROOM - GAP) / (first + second))
        if length * scale <= ROOM + 1e-6:
            return Fold(scale, 0.0, 0.0)
        shown = (ROOM - GAP) / scale
    spare = (shown - first - second) / 2
    return Fold(scale, first + spare, length - second - spare)
