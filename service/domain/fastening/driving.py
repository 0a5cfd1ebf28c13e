"""Where a driven fastener ends up: how far it bites, and how much wood is left past its point.

Everything is measured in one plane: the one that holds the fastener and the direction in which it
leans. Depths are measured square to the surface that the fastener enters, bites along the
fastener. A head lies flush, or sunk by a stated depth. Without an angle every figure is exact.
"""

from fractions import Fraction
from math import cos, radians, sin, tan

from service.domain.ratio import ratio
from service.domain.values import dataclass

POCKET_ANGLE = 15  # degrees between pocket and face: how pocket jigs are built, by practice
SEAT_SHARE = Fraction(9, 10)  # of the thickness; see pocket_seat
POCKET_DRILL = Fraction(3, 8)  # in; the bit of a common pocket jig, by practice
TOE_SHARE = Fraction(1, 3)  # of the length; where a toe-driven nail starts, see toe
FINEST = 10**6  # denominator of lengths that come from an angle


@dataclass(frozen=True, slots=True)
class Driven:
    """A fastener in place, inches.

    `bite` is its length in the receiving part, negative where it does not get there. `far` is the
    wood left between the point and the far face, `aside` between the point and the side that it
    leans toward (None where it leans toward none); negative where it comes out.
    """

    bite: Fraction
    far: Fraction
    aside: Fraction | None = None

    @property
    def clear(self) -> Fraction:
        """The wood left past the point, whichever way is nearer."""
        return self.far if self.aside is None else min(self.far, self.aside)


@dataclass(frozen=True, slots=True)
class Line:
    """How a straight fastener lies: head `sunk`, `slope` degrees off square to the surface.

    `lean` is the receiving part's own lean against square (an end cut off square), `room` the
    distance from the fastener to that part's side, square to the side; None where it leans toward
    no side.
    """

    sunk: Fraction = Fraction(0)
    slope: float = 0.0
    lean: float = 0.0
    room: Fraction | None = None


SQUARE_ON = Line()


def exactly(value: float) -> Fraction:
    """A length that came from an angle, to a millionth of an inch."""
    return ratio(round(value * FINEST), FINEST)


def straight(length: Fraction, passed: Fraction, depth: Fraction, line: Line = SQUARE_ON) -> Driven:
    """A screw or nail driven through `passed` inches of wood into a part `depth` deep.

    Sloped, it passes more wood and goes less deep; in a part that leans against it, it drifts
    toward one side by the sine of the angle between them.
    """
    if not line.slope:
        bite = length + line.sunk - passed
        return Driven(bite, depth - bite, beside(bite, line))
    lean = cos(radians(line.slope))
    bite = exactly(float(length + line.sunk) - float(passed) / lean)
    return Driven(bite, exactly(float(depth) - float(bite) * lean), beside(bite, line))


def beside(bite: Fraction, line: Line) -> Fraction | None:
    """Wood left between the point and the side that the fastener drifts toward."""
    angle = abs(line.slope - line.lean)
    if line.room is None or not angle:
        return None
    return line.room - exactly(float(bite) * sin(radians(angle)))


def toe(length: Fraction, depth: Fraction, line: Line) -> Driven:
    """A nail or screw driven at a slope through the face of a part that stands on its end.

    It starts a third of its length up from the end, by the rule for toe-nails.
    Source: nds-2018, figure on toe-nailed connections, from memory of the drawing.
    """
    lean = cos(radians(line.slope))
    reach = float(length) * lean - float(length * TOE_SHARE)
    bite = exactly(reach / lean)
    return Driven(bite, exactly(float(depth) - reach), beside(bite, line))


def toe_reach(slope: float) -> Fraction:
    """How deep each inch of a toe-driven fastener goes into the other part."""
    return exactly(cos(radians(slope))) - TOE_SHARE


def toe_exit(length: Fraction, slope: float) -> Fraction:
    """How deep in the standing part a toe-driven fastener comes out of its end, from the face."""
    return exactly(float(length * TOE_SHARE) * tan(radians(slope)))


def pocket_seat(thickness: Fraction) -> Fraction:
    """Inches along the screw from its seat in the pocket to the joint.

    The pocket is drilled at 15 degrees so that the screw leaves in the middle of the thickness;
    the stop is set by the thickness. At nine tenths of it the head of a screw in 3/4 in stock is
    just under the face. This project's figure, from that geometry; jigs differ by about a tenth.
    """
    return SEAT_SHARE * thickness


_COS, _SIN = cos(radians(POCKET_ANGLE)), sin(radians(POCKET_ANGLE))
POCKET_ADVANCE, POCKET_DRIFT = exactly(_COS), exactly(_SIN)  # for each inch along the screw


def pocket(
    length: Fraction, thickness: Fraction, depth: Fraction, room: Fraction | None = None
) -> Driven:
    """A pocket screw from a part `thickness` thick into a part `depth` deep.

    `room` is half the thickness of a part whose edge or end it enters: there the screw, which
    still runs toward the back, may come out of the back.
    """
    bite = length - pocket_seat(thickness)
    aside = None if room is None else room - bite * POCKET_DRIFT
    return Driven(bite, depth - bite * POCKET_ADVANCE, aside)


def doweled(length: Fraction, depth: Fraction) -> Driven:
    """A dowel, half of its length in each part."""
    return Driven(length / 2, depth - length / 2)
