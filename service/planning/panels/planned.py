"""The answer about sheets: what is bought, where panels lie, the cuts in order. Inches."""

from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from typing import Literal, NamedTuple

from service.planning.panels.asking import Sheet


class Area(NamedTuple):
    """A rectangle on a sheet: its near corner along the length and the width, and its size."""

    x: Fraction
    y: Fraction
    length: Fraction
    width: Fraction

    @property
    def size(self) -> Fraction:
        """Square inches."""
        return self.length * self.width


@dataclass(frozen=True, slots=True)
class Placed:
    """One panel on a sheet, as it lies; `copy` counts the panels of one id from 1."""

    panel: str
    copy: int
    area: Area
    turned: bool


@dataclass(frozen=True, slots=True)
class Cut:
    """One cut, right across the piece in hand.

    `across` is the dimension of the sheet that the cut divides; `at` is read on the tape from the
    near edge of the piece in hand: the near part keeps that size and the kerf follows. `by` marks
    what the store can do before the pieces go home. A `trim` squares a raw edge and `keeps` one
    part: where that is the far one, it begins at `at`, and the kerf lies before it.
    """

    order: int
    across: Literal["length", "width"]
    at: Fraction
    piece: Area
    by: Literal["store", "home"]
    trim: bool = False
    keeps: Literal["near", "far", "both"] = "both"


@dataclass(frozen=True, slots=True)
class Rest:
    """What is left over as one rectangle, and whether it is worth keeping."""

    area: Area
    keep: bool


@dataclass(frozen=True, slots=True)
class CutSheet:
    """One sheet and what comes out of it; `turns` is how often its cutting turns."""

    sheet: Sheet
    panels: tuple[Placed, ...]
    cuts: tuple[Cut, ...]
    rests: tuple[Rest, ...]
    turns: int


@dataclass(frozen=True, slots=True)
class Unplaced:
    """Panels that the plan leaves out, and why."""

    panel: str
    quantity: int
    why: Literal["larger than every sheet", "not enough sheets"]


@dataclass(frozen=True, slots=True)
class SheetPlan:
    """A plan, and what is proved about it.

    `optimal` only where no cheaper purchase can yield the panels that are placed; else `feasible`
    with `bound`, below which no purchase can cost. `enough` says whether the sheets to be had
    yield every panel: "no" is proved, "unknown" is not. `deadline_met` says that the clock, not
    the counted work, ended the search: another run may then find another plan. `off_by` is 0
    except where sizes share no grid: panels were then planned larger by less than that, and the
    cuts leave them so.
    """

    status: Literal["optimal", "feasible"]
    cost: Decimal
    bound: Decimal
    sheets: tuple[CutSheet, ...]
    unplaced: tuple[Unplaced, ...]
    enough: Literal["yes", "no", "unknown"]
    deadline_met: bool
    work: int
    off_by: Fraction

    @property
    def gap_percent(self) -> float:
        """By how much, in percent of the cost, the plan might be too dear."""
        return 0.0 if self.cost == 0 else float(100 * (self.cost - self.bound) / self.cost)
