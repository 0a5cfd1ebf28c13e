"""What can be wrong between a part and its shape, before it becomes a finding."""

from collections.abc import Mapping
from dataclasses import field
from fractions import Fraction
from typing import Literal

from service.domain.build import Shape
from service.domain.findings import Change
from service.domain.parts import ResolvedPart
from service.domain.tape import plain
from service.domain.values import dataclass

Kind = Literal["length", "angle", "lean", "unlike", "blank", "uneven"]
Numbers = Mapping[str, Fraction | float | int | str]


@dataclass(frozen=True, slots=True)
class Problem:
    """One thing that is wrong: its kind is the second word of the finding's code."""

    kind: Kind
    at: str
    detail: str
    numbers: Numbers
    words: str
    changes: tuple[Change, ...] = ()
    also_at: str | None = None
    rests_on: tuple[str, ...] = field(default=())


@dataclass(frozen=True, slots=True)
class Held:
    """The shape that parts are held against: its place, how near counts, and in which units."""

    index: int
    shape: Shape
    within: Fraction
    metric: bool

    @property
    def at(self) -> str:
        """The shape's place in the document."""
        return f"#/shapes/{self.index}"

    @property
    def id(self) -> str:
        """What the shape is called."""
        return self.shape.id

    def said(self, size: Fraction) -> str:
        """A length in words."""
        return plain(size, self.metric)

    def place(self, name: str) -> str:
        """The place of a measure, or of the shape where the measure is not given."""
        return f"{self.at}/{name}" if name in self.shape.fields else self.at


def unlike(held: Held, part: ResolvedPart, other: ResolvedPart, how: str) -> Problem:
    """Two parts that should be alike."""
    return Problem(
        "unlike",
        part.at,
        f"{part.part.id} and {other.part.id} should be alike in {held.id}, and differ {how}.",
        {"wanted": other.part.id, "stated": part.part.id},
        "Make them alike, or put them in shapes of their own.",
        also_at=other.at,
    )


def miscounted(held: Held, at: str, told: str, wanted: int, stated: int) -> Problem:
    """A number of parts that the shape does not have."""
    return Problem(
        "unlike", at, told, {"wanted": str(wanted), "stated": str(stated)},
        "List as many as the shape has.", also_at=None if at == held.at else held.at,
    )  # fmt: skip
