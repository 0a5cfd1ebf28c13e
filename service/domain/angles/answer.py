"""What figuring a shape gives: parts, figures, marks and a drawing, as frozen values."""

from collections.abc import Mapping
from dataclasses import field
from fractions import Fraction
from functools import cached_property
from typing import Literal

from service.domain.build import Part, Stock
from service.domain.errors import Complaint, DryfitError
from service.domain.ratio import ratio
from service.domain.rounding import Rounding
from service.domain.shape import shape_part
from service.domain.solid import Crossed, Solid, Unclear
from service.domain.values import dataclass

Seen = Literal["face", "edge"]
Spot = tuple[float, float]
FINE = 10**9


class NotFigured(DryfitError):
    """The shape can't be figured: a measure is missing, or no such shape exists."""

    def __init__(
        self, *complaints: Complaint, missing: bool = False, by: Fraction = Fraction(0)
    ) -> None:
        super().__init__("; ".join(complaint.detail for complaint in complaints))
        self.complaints = complaints
        self.missing = missing
        self.by = by


def impossible(name: str, why: str, by: float = 0.0) -> NotFigured:
    """The refusal of a shape that does not exist, at the measure that makes it so.

    `by` is how many inches too much that measure is, where that is known.
    """
    return NotFigured(Complaint(name, why), by=inches(by))


def inches(size: float) -> Fraction:
    """A length that came from an angle, rounded to a billionth of an inch."""
    return ratio(round(size * FINE), FINE)


@dataclass(frozen=True, slots=True)
class Stick:
    """What a part is cut from: real width and thickness in inches, and its name in a document."""

    width: Fraction
    thickness: Fraction
    stock: Stock

    def across(self, seen: Seen) -> Fraction:
        """The size that lies in the plane of the angle."""
        return self.width if seen == "face" else self.thickness


@dataclass(frozen=True)
class Wanted:
    """One part as the shape wants it, its length exact; None where the measures don't give it.

    `width` is set where the shape decides how wide the part is on its front face.
    """

    role: str
    part: Part
    stick: Stick
    rounding: Rounding
    width: Fraction | None = None

    @cached_property
    def solid(self) -> Solid | Crossed | Unclear | None:
        """The part as cut, nothing rounded."""
        if self.part.length is None:
            return None
        width = self.width or self.stick.width
        return shape_part(self.part, self.part.length, width, self.stick.thickness)


@dataclass(frozen=True, slots=True)
class Figure:
    """A named result: inches as a fraction, degrees as a float, or a count."""

    name: str
    value: Fraction | float | int


@dataclass(frozen=True, slots=True)
class Mark:
    """Where to make a mark: on what, how far (inches), and from and to which edge."""

    on: str
    at: Fraction
    words: str


Side = Literal["left", "right", "above", "below", "along", "through", "turn"]


@dataclass(frozen=True, slots=True)
class Letter:
    """A letter in a sketch and the size that it stands for: from where to where it is measured.

    `side` is where its line stands: upright to the left or right of everything, level above or
    below it, along the two spots just outside of the wood, or right through from spot to spot.
    A `turn` is an angle at the first spot, between plumb and the second.
    """

    letter: str
    span: tuple[Spot, Spot]
    name: str
    size: Fraction | float
    side: Side = "along"


@dataclass(frozen=True, slots=True)
class Sketch:
    """Closed outlines and letters, in inches, y upward; `grounds` are faces that parts meet."""

    outlines: tuple[tuple[Spot, ...], ...]
    letters: tuple[Letter, ...] = ()
    grounds: tuple[tuple[Spot, Spot], ...] = ()


@dataclass(frozen=True, slots=True)
class Figured:
    """A shape figured: everything but saw settings and rounding, which follow from the parts.

    `tilted` is the angle at which a board can lean in the saw as it will stand, with the table
    turned to `tilted_turn` and the blade upright: the third way to a compound cut.
    """

    wanted: tuple[Wanted, ...]
    figures: tuple[Figure, ...]
    marks: tuple[Mark, ...]
    trace: str
    test_cut: str
    axes: str
    formula: str
    drawing: Sketch
    assumed: tuple[str, ...] = ()
    tilted: float | None = None
    tilted_turn: float | None = None


@dataclass(frozen=True, slots=True)
class Asked:
    """The measures of one shape as read, and the sticks of its roles."""

    fields: Mapping[str, object]
    sticks: Mapping[str, Stick] = field(default_factory=dict)
    seen: Seen | None = None

    def stick(self, role: str) -> Stick:
        """The stick of a role; where it has none of its own, that of the whole shape."""
        found = self.sticks.get(role) or self.sticks.get("")
        found = found or next(iter(self.sticks.values()), None)
        if found is None:
            raise NotFigured(Complaint("stock", "Say stock, or width and thickness."), missing=True)
        return found

    def length(self, name: str) -> Fraction | None:
        """A length in inches, or None where it is not given."""
        value = self.fields.get(name)
        return value if isinstance(value, Fraction) else None

    def need(self, name: str) -> Fraction:
        """A length that the shape can't be figured without."""
        value = self.length(name)
        if value is None:
            raise NotFigured(Complaint(name, "This is required."), missing=True)
        return value

    def angle(self, name: str) -> float:
        """Degrees that the shape can't be figured without."""
        value = self.fields.get(name)
        if not isinstance(value, float):
            raise NotFigured(Complaint(name, "This is required."), missing=True)
        return value

    def optional_angle(self, name: str) -> float | None:
        """Degrees, or None where they are not given."""
        value = self.fields.get(name)
        return value if isinstance(value, float) else None

    def pair(self, name: str) -> tuple[Fraction, Fraction] | None:
        """Width and height, or None where they are not given."""
        value = self.fields.get(name)
        if not isinstance(value, tuple) or len(value) != 2:
            return None
        first, second = value
        if not isinstance(first, Fraction) or not isinstance(second, Fraction):
            return None
        return first, second

    def word(self, name: str, default: str) -> str:
        """A word, or the one that holds where none is given."""
        value = self.fields.get(name)
        return value if isinstance(value, str) else default

    def whole(self, name: str) -> int:
        """A count that the shape can't be figured without."""
        value = self.fields.get(name)
        if not isinstance(value, int) or isinstance(value, bool):
            raise NotFigured(Complaint(name, "This is required."), missing=True)
        return value

    def one_of(self, *names: str) -> str:
        """The one of some measures that is given. Raises NotFigured for none and for several."""
        given = [name for name in names if name in self.fields]
        if len(given) == 1:
            return given[0]
        listed = ", ".join(names[:-1]) + f" or {names[-1]}"
        if not given:
            raise NotFigured(Complaint(names[0], f"This needs {listed}."), missing=True)
        raise NotFigured(Complaint(given[-1], f"Say {listed}, not both."))

    def seen_as(self, default: Seen) -> Seen:
        """Whether face or edge of the stick shows: as stated, as the part shows, or as usual."""
        stated = self.fields.get("seen")
        if stated is None:
            return self.seen or default
        return "face" if stated == "face" else "edge"
