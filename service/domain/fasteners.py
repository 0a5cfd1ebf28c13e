"""The fasteners that are made: screws, nails, staples and bolts, and the holes drilled for them.

All sizes are inches. A size that no table tells is None. Each value says which row it rests on,
because the length of a thing may be read and its diameter remembered.
"""

from collections.abc import Mapping
from dataclasses import field
from fractions import Fraction
from functools import lru_cache
from typing import Literal

from service.domain.values import dataclass

ScrewFamily = Literal["wood-screw", "construction-screw", "chipboard-screw"]
Hole = Literal["pilot", "clearance"]
WoodHardness = Literal["soft", "hard"]

GAUGE_ZERO = Fraction("0.060")  # diameter of gauge 0; source: asme-b18.6.1, dimension table
GAUGE_STEP = Fraction("0.013")  # and what each gauge adds

# From these lengths on a screw is threaded in part; shorter ones are threaded to the head.
# From memory, as the rows thread-share of the two families in screw_values say.
THREADED_IN_PART_FROM: Mapping[str, Fraction] = {
    "wood-screw": Fraction(0),
    "construction-screw": Fraction(2),
    "chipboard-screw": Fraction(205, 127),  # over 40 mm; the next length made is 45
}

POWER_DRIVEN = frozenset({"brad", "collated-finish", "pin"})


def gauge_number(gauge: str) -> int:
    """The number of a gauge key such as ``no-8``."""
    return int(gauge.removeprefix("no-"))


@lru_cache(maxsize=64)
def gauge_diameter(number: int) -> Fraction:
    """Diameter in inches of a screw of that gauge: 0.060 + 0.013 N.

    Binding for wood screws; construction and deck screws are named by the same gauges, and their
    makers need not keep to it. Source: asme-b18.6.1, dimension table.
    """
    return GAUGE_ZERO + GAUGE_STEP * number


@dataclass(frozen=True, slots=True)
class Figure:
    """One printed value and the row it stands in. The unit is named by the field that holds it."""

    low: Fraction
    high: Fraction
    row: str
    usual: Fraction | None = None

    @property
    def value(self) -> Fraction:
        """The value to work with: the usual one, else the middle of the range."""
        return (self.low + self.high) / 2 if self.usual is None else self.usual


@dataclass(frozen=True, slots=True)
class Lengths:
    """The lengths that a thing is sold in, shortest first, and the row that lists them."""

    made: tuple[Fraction, ...]
    row: str


@dataclass(frozen=True, slots=True)
class ScrewSize:
    """A screw of one family in one gauge or diameter.

    `root` is the diameter at the bottom of the thread (rolled thread for wood screws); `head` the
    flat head, least to largest; `thread_share` the part of the length that is thread.
    """

    row: str
    key: str
    family: ScrewFamily
    name: str
    gauge: str | None
    diameter: Figure
    root: Figure | None
    head: Figure | None
    thread_share: Figure | None
    lengths: Lengths

    def thread_length(self, length: Fraction) -> Fraction:
        """Inches of thread on a screw of that length: all of it, on short ones of some families.

        Wood screws: two thirds of the length, and at least four diameters.
        Source: nds-2018, table L3 note 3.
        """
        if self.thread_share is None or length < THREADED_IN_PART_FROM[self.family]:
            return length
        share = self.thread_share.value * length
        if self.family == "wood-screw":
            share = max(share, 4 * self.diameter.value)
        return min(share, length)


@dataclass(frozen=True, slots=True)
class NailSize:
    """A nail or brad. Those driven by hand have one length, those in strips several."""

    row: str
    key: str
    type: str
    name: str
    pennyweight: str | None
    diameter: Figure
    head: Figure | None
    lengths: Lengths

    @property
    def driven_by_nailer(self) -> bool:
        return self.type in POWER_DRIVEN


@dataclass(frozen=True, slots=True)
class StapleSize:
    """A staple: width over the legs (crown), thickness of the wire, lengths of leg sold."""

    row: str
    key: str
    name: str
    crown: Figure
    wire: Figure
    lengths: Lengths


@dataclass(frozen=True, slots=True)
class BoltSize:
    """A bolt of one diameter: height of its nut, thickness of a washer, pitch of its thread."""

    row: str
    key: str
    name: str
    diameter: Fraction
    nut: Figure
    washer: Figure
    pitch: Figure


@dataclass(frozen=True, slots=True)
class DrillSize:
    """A hole for the thread (pilot) or the shank (clearance) of a screw, as a range of drills."""

    row: str
    screw: str
    hole: Hole
    wood: Literal["any", "soft", "hard"]
    low: Fraction
    high: Fraction
    usual: Fraction


@dataclass(frozen=True, slots=True)
class PocketPractice:
    """What shops use for pockets in stock of one thickness (None: any). Practice, never a rule.

    `lengths` are screw lengths; `words` the other values, such as gauges, heads and threads.
    """

    row: str
    thickness: Fraction | None
    item: str
    condition: str
    lengths: tuple[Fraction, ...]
    words: tuple[str, ...]
    preferred: bool


@dataclass(frozen=True, slots=True)
class Constant:
    """A number of a connection formula, and the range it holds in: over `above`, to `up_to`."""

    row: str
    value: Fraction
    above: Fraction | None = None
    up_to: Fraction | None = None

    def holds_for(self, quantity: Fraction) -> bool:
        """Whether the quantity lies in the range; the lower edge is left out."""
        over = self.above is None or quantity > self.above
        return over and (self.up_to is None or quantity <= self.up_to)


@dataclass(frozen=True, slots=True)
class AssignedGravity:
    """The specific gravity that connection design assigns to a combination of species.

    By oven-dry mass and volume: never the handbook's gravity at 12 % moisture.
    """

    row: str
    key: str
    name: str
    gravity: float
    kind: Literal["hardwood", "softwood"]


@dataclass(frozen=True)
class Fasteners:
    """Every fastener that the tables know, by kind."""

    screws: tuple[ScrewSize, ...] = ()
    nails: tuple[NailSize, ...] = ()
    staples: tuple[StapleSize, ...] = ()
    bolts: tuple[BoltSize, ...] = ()
    drills: Mapping[tuple[str, str, str], DrillSize] = field(default_factory=dict)
    pockets: tuple[PocketPractice, ...] = ()

    def screw(self, family: ScrewFamily, gauge: str) -> ScrewSize | None:
        """The screw of a family in a gauge such as ``no-8``."""
        return next((s for s in self.screws if (s.family, s.gauge) == (family, gauge)), None)

    def screws_of(self, family: ScrewFamily) -> tuple[ScrewSize, ...]:
        """Every size of a family, thinnest first."""
        return tuple(screw for screw in self.screws if screw.family == family)

    def nails_of(self, *types: str) -> tuple[NailSize, ...]:
        """Every size of those types (common, box, finish, brad, ...), thinnest first."""
        return tuple(nail for nail in self.nails if nail.type in types)

    def drill(self, gauge: str, hole: Hole, wood: WoodHardness) -> DrillSize | None:
        """The hole charted for the wood screw of a gauge, in that wood or in any."""
        screw = f"wood-screw.{gauge}"
        return self.drills.get((screw, hole, wood)) or self.drills.get((screw, hole, "any"))

    def pocket_lengths(self, thickness: Fraction) -> tuple[PocketPractice, ...]:
        """What shops use in stock of that very thickness, the usual length first."""
        told = [
            row
            for row in self.pockets
            if row.item == "screw-length" and row.thickness == thickness and row.preferred
        ]
        return tuple(sorted(told, key=lambda row: row.condition != "usual"))
