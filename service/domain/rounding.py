"""From exact sizes to what a tape shows, and which parts are cut to the list or last, to fit.

A part that goes between fixed faces is rounded down, so that it goes in; an overall size goes to
the nearest mark; the sides of a frame go the same way all together, so that the corners still meet.
"""

from collections.abc import Iterable, Sequence
from fractions import Fraction
from typing import Literal

from service.domain.tape import MM, nearest
from service.domain.values import dataclass

Rounding = Literal["between", "overall", "alike"]
Fit = Literal["to-list", "to-fit"]

WHY = {
    "between": "between fixed faces, so rounded down",
    "overall": "rounded to nearest",
    "alike": "all sides of a frame rounded the same way",
}
CUT_WHY = {
    "between": "it goes between faces that are fixed by then: hold it up and mark it from the "
    "piece",
    "overall": "nothing else decides its length: cut all of them to one stop",
    "alike": "sides of a frame are cut to one stop, opposite sides together",
}


@dataclass(frozen=True, slots=True)
class Rounded:
    """A size on a tape, what it was, and how it came there. Inches."""

    size: Fraction
    was: Fraction
    how: Rounding

    @property
    def off_by(self) -> Fraction:
        """The rounded size less the exact one."""
        return self.size - self.was


@dataclass(frozen=True, slots=True)
class Turn:
    """One part in the order of cutting: to the list, or last, to fit."""

    part: str
    fit: Fit
    why: str


def finest(metric: bool) -> Fraction:
    """The step that figured lengths are rounded to: 1/32 in, or half a millimeter.

    Half of what answers read a tape to, because a mark can be split by eye and the error of
    several parts stays within what a run allows.
    """
    return MM / 2 if metric else Fraction(1, 32)


def rounded(sizes: Sequence[tuple[Fraction, Rounding]], to: Fraction) -> tuple[Rounded, ...]:
    """Every size on the marks of a tape, in the order given; `to` in inches."""
    alike = [size for size, how in sizes if how == "alike"]
    together: Literal["down", "up"] = "down" if _leans_down(alike, to) else "up"
    modes: dict[Rounding, Literal["nearest", "down", "up"]] = {
        "between": "down",
        "overall": "nearest",
        "alike": together,
    }
    return tuple(Rounded(nearest(size, to, modes[how]), size, how) for size, how in sizes)


def _leans_down(sizes: Sequence[Fraction], to: Fraction) -> bool:
    """Whether a whole set comes nearer to its marks by going down than by going up."""
    down = sum(size - nearest(size, to, "down") for size in sizes)
    up = sum(nearest(size, to, "up") - size for size in sizes)
    return down <= up


def cutting_order(parts: Iterable[tuple[str, Rounding]]) -> tuple[Turn, ...]:
    """Parts in the order in which to cut them: those of the list first, those to fit last."""
    turns = [
        Turn(part, "to-fit" if how == "between" else "to-list", CUT_WHY[how]) for part, how in parts
    ]
    return tuple(sorted(turns, key=lambda turn: turn.fit == "to-fit"))
