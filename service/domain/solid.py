"""What a part is once it is cut: its points, lengths, blank, volume and surface.

`shape` makes these values and states the convention for x, y and z. All numbers are exact
fractions of an inch (square and cubic inches); only the slopes that they are made from may be
rounded, to 1e-12, and then `exact` is false.
"""

from fractions import Fraction
from math import hypot, pi

from service.domain.build import Face, Measured
from service.domain.ends import Slant, readings
from service.domain.ratio import ratio
from service.domain.values import dataclass

Point = tuple[Fraction, Fraction, Fraction]

CORNERS = tuple(
    f"{end}-{edge}-{face}"
    for end in ("first", "second")
    for edge in ("bottom", "top")
    for face in ("back", "front")
)
ARRISES = ("bottom-back", "bottom-front", "top-back", "top-front")
FINE = 10**12  # roots and areas of circles are rounded to 1e-12


@dataclass(frozen=True, slots=True)
class Unclear:
    """The stated cuts can't be read: why, and the words for `measured` that would be clear."""

    reason: str
    words: tuple[Measured, ...] = ()


@dataclass(frozen=True, slots=True)
class Crossed:
    """The cuts meet before they leave the wood: nothing is left along `arris`.

    `arris` is one of `ARRISES`, or ``back`` or ``front`` where beveled edges leave no face, or
    ``shortest line`` of a round. `by` is how many inches too short it is; 0 is a bare point.
    """

    arris: str
    by: Fraction
    assumed: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Solid:
    """A board or panel part: eight corners, in the order of `CORNERS`, inside its blank.

    The blank is the box from (0, 0, 0) to (`blank_length`, `blank_width`, `thickness`): tip to
    tip, what must be there before the cuts.
    """

    points: tuple[Point, ...]
    blank_length: Fraction
    blank_width: Fraction
    thickness: Fraction
    is_square: bool
    exact: bool
    assumed: tuple[str, ...] = ()

    @property
    def corners(self) -> dict[str, Point]:
        """Corner by name, such as ``first-top-front``."""
        return dict(zip(CORNERS, self.points, strict=True))

    @property
    def arrises(self) -> dict[str, Fraction]:
        """The lengths of the four long corners of the part, by name."""
        return dict(zip(ARRISES, self._arrises(), strict=True))

    @property
    def section(self) -> Fraction:
        """Square inches of a square cut across the part."""
        back, front = self.face_widths
        return (back + front) / 2 * self.thickness

    @property
    def face_widths(self) -> tuple[Fraction, Fraction]:
        """Width of the back and of the front face; they differ where edges are beveled."""
        bottom_back, bottom_front, top_back, top_front = self.points[:4]
        return top_back[1] - bottom_back[1], top_front[1] - bottom_front[1]

    @property
    def center_length(self) -> Fraction:
        """Inches along the line through the centers of all sections: volume over `section`."""
        return self.blank_length if self.is_square else self.volume / self.section

    @property
    def volume(self) -> Fraction:
        """Cubic inches.

        Prismatoid formula, exact here: thickness / 6 x (back + 4 x middle + front areas).
        """
        if self.is_square:
            return _box_volume(self.blank_length, self.blank_width, self.thickness)
        (wide_back, wide_front), (long_back, long_front) = self.face_widths, self._face_lengths()
        middle = (wide_back + wide_front) * (long_back + long_front)
        ends = wide_back * long_back + wide_front * long_front
        return self.thickness / 6 * (ends + middle)

    @property
    def surface(self) -> Fraction:
        """Square inches over all six sides."""
        length, width, thickness = self.blank_length, self.blank_width, self.thickness
        if self.is_square:
            return _box_surface(length, width, thickness)
        (wide_back, wide_front), (long_back, long_front) = self.face_widths, self._face_lengths()
        faces = wide_back * long_back + wide_front * long_front
        ends = self.section * sum(_stretch(*slant) for slant in self.slants)
        return faces + self._edge_areas() + ends

    @property
    def slants(self) -> tuple[Slant, Slant]:
        """How far each end reaches out, per inch toward the top edge and toward the front."""
        if self.is_square:
            return Slant(Fraction(0), Fraction(0)), Slant(Fraction(0), Fraction(0))
        return self._slant(0, -1), self._slant(4, 1)

    def lengths(self, on: Face = "front") -> dict[Measured, Fraction]:
        """Every length that a tape reads on a face, by the word for `measured`.

        Where no end is mitered the words are read on the edge, and both faces answer alike.
        """
        face = 0 if on == "back" else 1
        near = self._arrises()[face]
        runs = self._runs(face, face + 2)
        if not any(runs):
            near, runs = self._arrises()[0], self._runs(0, 1)
        return {word: near + offset for word, offset in readings(*runs).items()}

    def _arrises(self) -> tuple[Fraction, ...]:
        return tuple(self.points[i + 4][0] - self.points[i][0] for i in range(4))

    def _face_lengths(self) -> tuple[Fraction, Fraction]:
        bottom_back, bottom_front, top_back, top_front = self._arrises()
        return (bottom_back + top_back) / 2, (bottom_front + top_front) / 2

    def _runs(self, near: int, far: int) -> tuple[Fraction, Fraction]:
        points = self.points
        return points[near][0] - points[far][0], points[far + 4][0] - points[near + 4][0]

    def _slant(self, corner: int, outward: int) -> Slant:
        bottom_back, bottom_front, top_back, _ = self.points[corner : corner + 4]
        across = (top_back[0] - bottom_back[0]) / (top_back[1] - bottom_back[1])
        aside = across * (bottom_front[1] - bottom_back[1])
        through = (bottom_front[0] - bottom_back[0] - aside) / self.thickness
        return Slant(outward * across, outward * through)

    def _edge_areas(self) -> Fraction:
        arrises, points = self._arrises(), self.points
        areas = Fraction(0)
        for back, front in ((0, 1), (2, 3)):
            slope = (points[front][1] - points[back][1]) / self.thickness
            mean_length = (arrises[back] + arrises[front]) / 2
            areas += mean_length * self.thickness * _stretch(slope)
        return areas


@dataclass(frozen=True, slots=True)
class Rod:
    """A round part: a cylinder with two square or slanted ends.

    `exact` is about lengths; areas and volume carry pi, rounded to 1e-12.
    """

    center_length: Fraction
    diameter: Fraction
    slants: tuple[Slant, Slant]
    exact: bool
    assumed: tuple[str, ...] = ()

    @property
    def blank_length(self) -> Fraction:
        """Tip to tip."""
        return self.center_length + sum(self.tips())

    @property
    def blank_width(self) -> Fraction:
        return self.diameter

    @property
    def thickness(self) -> Fraction:
        return self.diameter

    @property
    def is_square(self) -> bool:
        return not any(self.tips())

    @property
    def section(self) -> Fraction:
        """Square inches of a square cut."""
        return _rounded(pi) * self.diameter**2 / 4

    @property
    def volume(self) -> Fraction:
        """Cubic inches: what a slanted end lacks on one side it has on the other."""
        return self.section * self.center_length

    @property
    def surface(self) -> Fraction:
        """Square inches: the round side, and an ellipse at each end."""
        side = _rounded(pi) * self.diameter * self.center_length
        return side + self.section * sum(_stretch(*slant) for slant in self.slants)

    def lengths(self, on: Face = "front") -> dict[Measured, Fraction]:
        """Every length by the word for `measured`; a round has no faces to tell apart."""
        return {
            word: self.center_length + offset
            for word, offset in round_readings(self.slants, self.diameter).items()
        }

    def tips(self) -> tuple[Fraction, Fraction]:
        """How far each end's tip stands out past its center."""
        first, second = (_long(*slant) * self.diameter / 2 for slant in self.slants)
        return first, second


def round_readings(slants: tuple[Slant, Slant], diameter: Fraction) -> dict[Measured, Fraction]:
    """Each word that has meaning on a round, less the length along its center.

    One line along the round holds a long and a short point only where the slants are opposed.
    """
    first, second = slants
    one, other = (_long(*slant) * diameter / 2 for slant in slants)
    words: dict[Measured, Fraction] = {
        "long-to-long": one + other,
        "short-to-short": -one - other,
        "center": Fraction(0),
    }
    in_line = first.across * second.through == first.through * second.across
    if in_line and first.across * second.across + first.through * second.through < 0:
        words |= {"long-to-short": one - other, "short-to-long": other - one}
    elif one == other == 0:
        words |= {"long-to-short": one, "short-to-long": one}
    return words


def shortest_line(
    center_length: Fraction, diameter: Fraction, slants: tuple[Slant, Slant]
) -> Fraction:
    """Inches along the shortest line on a round's side; below 0 where its ends cross."""
    first, second = slants
    steepest = _long(first.across + second.across, first.through + second.through)
    return center_length - steepest * diameter / 2


def _rounded(number: float) -> Fraction:
    return Fraction(round(number * FINE), FINE)


def _long(across: Fraction, through: Fraction) -> Fraction:
    """Length of a slope with two parts; exact where one part is 0."""
    if across == 0 or through == 0:
        return abs(across + through)
    return _rounded(hypot(across, through))


def _stretch(across: Fraction, through: Fraction = Fraction(0)) -> Fraction:
    """Area of a tilted side over the area that it covers; exactly 1 where it is square."""
    if across == 0 and through == 0:
        return Fraction(1)
    return _rounded(hypot(1, across, through))


def _box_volume(a: Fraction, b: Fraction, c: Fraction) -> Fraction:
    """The product of three, reduced once."""
    return ratio(
        a.numerator * b.numerator * c.numerator, a.denominator * b.denominator * c.denominator
    )


def _box_surface(a: Fraction, b: Fraction, c: Fraction) -> Fraction:
    """Twice ab + bc + ca, in whole numbers over the three denominators, reduced once."""
    (x, p), (y, q), (z, r) = a.as_integer_ratio(), b.as_integer_ratio(), c.as_integer_ratio()
    return ratio(2 * (x * y * r + y * z * p + z * x * q), p * q * r)
