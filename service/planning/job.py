"""What to plan and what comes of it, in a builder's sizes: inches as fractions, money as decimals.

One job is one stock: boards of one thickness and one width. The planner turns it into whole
numbers (`scaling`) and back (`laying_out`).
"""

from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from typing import Literal

from service.domain.ends import Slant

ZERO = Fraction(0)
SQUARE = Slant(ZERO, ZERO)

WhyNot = Literal["longer-than-any-board", "too-long-to-carry", "wider-than-the-board",
                 "no-boards", "not-enough-boards"]  # fmt: skip


@dataclass(frozen=True, slots=True)
class Part:
    """`quantity` alike pieces; `length` along the board between the centers of the two ends.

    `first` and `second` say how far an end reaches out, per inch toward the top edge and toward
    the front. `turns_over`: the piece may be cut with its front down (no show face). `width` is
    less than the board's where the piece is ripped.
    """

    id: str
    length: Fraction
    quantity: int = 1
    first: Slant = SQUARE
    second: Slant = SQUARE
    turns_over: bool = True
    width: Fraction | None = None

    @property
    def square(self) -> bool:
        """Whether both ends are cut square."""
        return not (any(self.first) or any(self.second))


@dataclass(frozen=True, slots=True)
class ForSale:
    """A length that the store carries, its price for a board, and how many it has (None: any)."""

    length: Fraction
    price: Decimal
    at_most: int | None = None


@dataclass(frozen=True, slots=True)
class OnHand:
    """Boards that the builder has already: free. No part may span a defect (from, to)."""

    length: Fraction
    quantity: int = 1
    defects: tuple[tuple[Fraction, Fraction], ...] = ()


@dataclass(frozen=True, slots=True)
class Job:
    """Parts of one stock, and the boards that they may come from.

    `kerf` lies between neighbors. `end_trim` comes off both ends of every board. `longest` is the
    longest board for sale that the builder can carry. Rests of at least `keep_at_least` are kept.
    `spare` boards are bought on top. `width` and `thickness` of the boards matter for slanted
    ends; `rips` says that a saw may rip boards for narrower parts.
    """

    parts: tuple[Part, ...]
    for_sale: tuple[ForSale, ...] = ()
    on_hand: tuple[OnHand, ...] = ()
    kerf: Fraction = ZERO
    end_trim: Fraction = ZERO
    longest: Fraction | None = None
    keep_at_least: Fraction | None = None
    spare: int = 0
    width: Fraction = ZERO
    thickness: Fraction = ZERO
    rips: bool = False


@dataclass(frozen=True, slots=True)
class Piece:
    """One piece on a board: where its outermost points lie, inches from the board's left end.

    `left` and `right` are how far the ends reach out (as in `Part`), as the piece lies. `turned`:
    end for end; `over`: front down. `strip` is the strip of a ripped board, from 0.
    """

    part: str
    start: Fraction
    end: Fraction
    left: Slant = SQUARE
    right: Slant = SQUARE
    turned: bool = False
    over: bool = False
    strip: int = 0


@dataclass(frozen=True, slots=True)
class CutBoard:
    """One board and its pieces from left to right.

    `rests` are what is left after the last piece and between or after defects, each
    (from, to), usable wood only; `keep` says which are long enough to keep. `strips` are the
    widths that the board is ripped into first, where it is, and `rest_strips` tells the strip of
    each rest.
    """

    source: Literal["store", "on-hand"]
    length: Fraction
    price: Decimal
    pieces: tuple[Piece, ...]
    rests: tuple[tuple[Fraction, Fraction], ...]
    keep: tuple[bool, ...]
    strips: tuple[Fraction, ...] = ()
    entry: int = 0
    rest_strips: tuple[int, ...] = ()

    def kept(self, width: Fraction) -> Fraction:
        """Square inches of the rests to keep; `width` is that of the whole board."""
        wide = (
            [self.strips[n] for n in self.rest_strips] if self.strips else [width] * len(self.rests)
        )
        return sum(
            (
                (end - start) * across
                for (start, end), keep, across in zip(self.rests, self.keep, wide, strict=True)
                if keep
            ),
            ZERO,
        )


@dataclass(frozen=True, slots=True)
class Purchase:
    """Boards of one length to buy."""

    length: Fraction
    price: Decimal
    count: int
    spare: int = 0

    @property
    def total(self) -> Decimal:
        """What they cost together, spare boards included."""
        return self.price * (self.count + self.spare)


@dataclass(frozen=True, slots=True)
class Unplaced:
    """Pieces that no board yields, and why."""

    part: str
    quantity: int
    why: WhyNot


@dataclass(frozen=True, slots=True)
class Plan:
    """What to buy and how to cut it.

    `cost` is of the boards that the parts need, spare ones aside. `bound`: no plan costs less.
    `fewest` and `largest_rest` say whether the second and third goal are proved, too.
    `deadline_met` says that the clock, not the counted work, ended the search.
    """

    status: Literal["optimal", "feasible"]
    cost: Decimal
    bound: Decimal
    boards: tuple[CutBoard, ...]
    buy: tuple[Purchase, ...]
    unplaced: tuple[Unplaced, ...] = ()
    fewest: bool = False
    largest_rest: bool = False
    deadline_met: bool = False
    rechecked: bool | None = None

    @property
    def gap_percent(self) -> Decimal:
        """How far the cost may lie above the least, in percent of the cost; 0 when proved."""
        if self.cost <= self.bound:
            return Decimal(0)
        return 100 * (self.cost - self.bound) / self.cost

    @property
    def spare_cost(self) -> Decimal:
        """What the spare boards cost."""
        return sum((p.price * p.spare for p in self.buy), Decimal(0))
