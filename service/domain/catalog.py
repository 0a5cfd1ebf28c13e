"""Reference data as frozen values, passed as an argument to every question.

The reference room builds one `Catalog` a process; a test builds a three-row one by hand.
"""

import difflib
from collections.abc import Hashable, Iterable, Mapping
from dataclasses import field
from fractions import Fraction
from functools import cached_property
from typing import Any, Literal

from service.domain.fasteners import AssignedGravity, Constant, Fasteners
from service.domain.finish_values import Figure, Finishing
from service.domain.glues import Glue, GlueClass
from service.domain.spelling import apart, sizes_in, spelled
from service.domain.values import dataclass, replace
from service.domain.wood_values import BendingValues, CautionText, MovingValues, Resists

Confidence = Literal["memory", "one-source", "cross-checked"]
Basis = Literal["standard", "handbook", "law", "study", "maker", "practice"]


@dataclass(frozen=True, slots=True)
class Interval:
    """A size between two limits, inches, both ends included; `listed` is the size by name."""

    low: Fraction
    listed: Fraction
    high: Fraction

    @classmethod
    def exactly(cls, size: Fraction) -> "Interval":
        return cls(size, size, size)

    @property
    def is_exact(self) -> bool:
        return self.low is self.high or self.low == self.high


@dataclass(frozen=True, slots=True)
class Cited:
    """Where a row of a reference table comes from. `row` is ``table/key``."""

    row: str
    source: str
    locator: str
    confidence: Confidence
    basis: Basis


@dataclass(frozen=True, slots=True)
class BoardSize:
    """A dressed size of sawn lumber that has a name.

    Nominal sizes are the numbers in the name, in inches, for regions that name boards by a size
    that is not the dressed one; None where the name is the size. Rows of tolerance that the
    limits rest on are in `rests_on`, the row itself first.
    """

    row: str
    region: str
    stock: str
    name: str
    kind: str
    condition: str
    thickness: Interval
    width: Interval | None
    nominal_thickness: Fraction | None
    nominal_width: Fraction | None
    lengths: tuple[Fraction, ...]
    lengths_from_memory: bool
    sold_by_default: bool
    rests_on: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class PanelSize:
    """A thickness of a sheet product. Sheets are (width, length) pairs, inches."""

    row: str
    region: str
    stock: str
    name: str
    material: str
    nominal_thickness: Fraction
    thickness: Interval
    sheets: tuple[tuple[Fraction, Fraction], ...]
    sheets_from_memory: bool
    sold_by_default: bool
    rests_on: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Spread:
    """A quantity given as a range; the unit is named by the field that holds it.

    `usual` is the value that the table names as typical, where it names one.
    """

    low: float
    high: float
    rests_on: tuple[str, ...]
    usual: float | None = None


@dataclass(frozen=True, slots=True)
class Wood:
    """A species, or a group sold under one name, or a panel material.

    `gravity_green` and `gravity_12` are specific gravity, oven-dry mass over volume green and at
    12 % moisture. A group has its members' lowest and highest; `members` are species keys.
    `density` (pounds per cubic foot, as sold) is given for panels instead.
    """

    key: str
    name: str
    kind: Literal["hardwood", "softwood", "group", "panel"]
    members: tuple[str, ...] = ()
    gravity_green: Spread | None = None
    gravity_12: Spread | None = None
    density: Spread | None = None


@dataclass(frozen=True, slots=True)
class SawLimit:
    """What one kind of saw can cut. Sizes in inches, angles in degrees, as low and high of a range.

    `item` is crosscut-width, crosscut-thickness, cut-depth, miter-angle, bevel-angle, rip-width,
    kerf, hand-distance or shortest-held; `condition` is square, miter-45 or bevel-45 where it
    matters, else empty. Where shops or makers disagree, one of the rows is preferred.
    """

    row: str
    kind: str
    blade: Fraction | None
    slides: bool | None
    item: str
    condition: str
    low: Fraction
    high: Fraction
    preferred: bool = True


@dataclass(frozen=True, slots=True)
class Practice:
    """A rule of thumb of the shop: a range with its unit, and whether the sources agree."""

    row: str
    key: str
    topic: str
    low: Fraction | None
    high: Fraction | None
    unit: str
    contested: bool


@dataclass(frozen=True, slots=True)
class Source:
    """A publication, or the kind of page, that values were read in."""

    id: str
    title: str
    publisher: str
    year: str
    kind: str


@dataclass(frozen=True)
class Catalog:
    """Every reference table that a question may ask, and the edition of the data.

    `names` maps (kind, region, spelling) to a key; kind is stock, wood, saw, tool, glue, finish,
    gauge; region ``any`` holds everywhere. `keys` lists the keys of each kind.
    """

    edition: str
    boards: tuple[BoardSize, ...] = ()
    panels: tuple[PanelSize, ...] = ()
    woods: Mapping[str, Wood] = field(default_factory=dict)
    saws: tuple[SawLimit, ...] = ()
    practice: Mapping[str, Practice] = field(default_factory=dict)
    standing: Mapping[str, Practice] = field(default_factory=dict)
    bending: Mapping[str, BendingValues] = field(default_factory=dict)
    moving: Mapping[str, MovingValues] = field(default_factory=dict)
    decay: Mapping[str, Resists] = field(default_factory=dict)
    cautions: Mapping[str, CautionText] = field(default_factory=dict)
    finishes: Mapping[str, Finishing] = field(default_factory=dict)
    grits: Mapping[str, Figure] = field(default_factory=dict)
    work_times: Mapping[str, Figure] = field(default_factory=dict)
    fasteners: Fasteners = field(default_factory=Fasteners)
    constants: Mapping[str, Constant] = field(default_factory=dict)
    gravities: Mapping[str, AssignedGravity] = field(default_factory=dict)
    glues: Mapping[str, Glue] = field(default_factory=dict)
    glue_classes: Mapping[str, GlueClass] = field(default_factory=dict)
    keys: Mapping[str, frozenset[str]] = field(default_factory=dict)
    unjudged_uses: frozenset[str] = frozenset()
    names: Mapping[tuple[str, str, str], str] = field(default_factory=dict)
    cited: Mapping[str, Cited] = field(default_factory=dict)
    sources: Mapping[str, Source] = field(default_factory=dict)
    worked_out: dict[Hashable, Any] = field(
        default_factory=dict, init=False, compare=False, repr=False
    )  # what questions keep, so that it is worked out once for these tables

    @cached_property
    def _stocks(self) -> Mapping[tuple[str, str], tuple[BoardSize | PanelSize, ...]]:
        """Sizes by region and stock key, what a shop sells by default first."""
        found: dict[tuple[str, str], list[BoardSize | PanelSize]] = {}
        sizes: list[BoardSize | PanelSize] = [*self.boards, *self.panels]
        for size in sorted(sizes, key=lambda size: (not size.sold_by_default, size.row)):
            found.setdefault((size.region, size.stock), []).append(size)
        return {named: tuple(same) for named, same in found.items()}

    @cached_property
    def _limits(self) -> Mapping[tuple[str, str, str], tuple[SawLimit, ...]]:
        """Preferred limits by kind of saw, item and condition."""
        found: dict[tuple[str, str, str], list[SawLimit]] = {}
        for limit in self.saws:
            if limit.preferred:
                found.setdefault((limit.kind, limit.item, limit.condition), []).append(limit)
        return {asked: tuple(limits) for asked, limits in found.items()}

    def saw_limits(self, kind: str, item: str, condition: str) -> tuple[SawLimit, ...]:
        """What saws of a kind reach; several rows where it differs by blade or slide."""
        return self._limits.get((kind, item, condition), ())

    def key(self, kind: str, region: str, name: str) -> str | None:
        """The key of that kind that a shop name stands for in a region, or None."""
        plain = spelled(name)
        if plain in self.keys.get(kind, ()):
            return plain
        for written in (plain, plain.replace("-", " ")):
            for where in (region, "any"):
                if key := self.names.get((kind, where, written)):
                    return key
        return None

    def stock_key(self, region: str, name: str) -> str | None:
        """The board or panel that a shop name stands for in a region, or None."""
        plain = spelled(name)
        if (region, plain) in self._stocks:
            return plain
        for written in (plain, plain.replace("-", " ")):
            for where in (region, "any"):
                key = self.names.get(("stock", where, written))
                if key and (region, key) in self._stocks:
                    return key
        return None

    def stocked(self, region: str, stock: str) -> tuple[BoardSize | PanelSize, ...]:
        """Every size that goes by that key, what a shop sells by default first."""
        return self._stocks.get((region, stock), ())

    def stocks_in(self, region: str) -> frozenset[str]:
        """Keys of every board and panel sold in a region."""
        return frozenset(stock for where, stock in self._stocks if where == region)

    def nearest(self, kind: str, region: str, name: str) -> tuple[str, ...]:
        """Up to three keys whose names look most like the one given, best first.

        A stock is told by its two sizes: those nearest in size come first, where any are near.
        """
        own = self.stocks_in(region) if kind == "stock" else self.keys.get(kind, frozenset())
        known = {key: key for key in own} | {
            alias: key
            for (name_kind, where, alias), key in self.names.items()
            if name_kind == kind and where in (region, "any") and key in own
        }
        plain = spelled(name)
        close = _near_in_size(plain, known) if kind == "stock" else []
        close += difflib.get_close_matches(plain, sorted(known), n=6, cutoff=0.5)
        return tuple(dict.fromkeys(known[alias] for alias in close))[:3]

    def from_memory(self, rows: Iterable[str]) -> tuple[str, ...]:
        """Those of the rows that nobody has read in print."""
        return tuple(row for row in rows if self.cited[row].confidence == "memory")

    def with_row_from_memory(self, row: str) -> "Catalog":
        """The same catalog with one row marked as remembered, for testing what rests on it."""
        marked = replace(self.cited[row], confidence="memory", source="memory")
        return replace(self, cited={**self.cited, row: marked})


NEAR = 0.7  # logarithm of about 2: both sizes of a stock together at most twice, or half; own


def _near_in_size(plain: str, known: Iterable[str]) -> list[str]:
    """Names of stocks with two sizes that are near those of a name, the nearest first.

    Of names with the same sizes the one that is written most like it counts.
    """
    sizes = sizes_in(plain)
    if len(sizes) != 2:
        return []
    found = [
        (off, -difflib.SequenceMatcher(None, plain, alias).ratio(), alias)
        for alias in known
        if len(told := sizes_in(alias)) == 2 and (off := round(apart(sizes, told), 6)) <= NEAR
    ]
    return [alias for _, _, alias in sorted(found)]
