"""Glue: how long there is to work, how many joints go in one go, what cold and water do.

Times are minutes, temperatures degrees Fahrenheit. The label on the
bottle wins: its figures may be given, and take the place of the tables'.
"""

import math
import re
from collections.abc import Iterable
from fractions import Fraction
from typing import Literal

from service.domain.catalog import Catalog
from service.domain.errors import Complaint, UnknownName
from service.domain.glues import Glue, GlueFigure
from service.domain.known_names import known_key
from service.domain.values import dataclass

Where = Literal["indoors", "damp", "covered", "outdoors"]

LABEL_WINS = "the label on the bottle wins"
NONE = "none"

# What a class stands: nothing, damp air, water that comes often, weather under a good coating.
# Source: glue-class-sheet, class list (EN 204); glue-type-column, page text (ANSI/HPVA HP-1).
CLASS_LEVELS = {"none": 0, "D1": 0, "D2": 1, "Type III": 0, "D3": 2, "Type II": 2, "D4": 3,
                "Type I": 3}  # fmt: skip
NEEDED_LEVEL: dict[Where, int] = {"indoors": 0, "damp": 2, "covered": 2, "outdoors": 3}
CLASS_WANTED = {2: "Type II or D3", 3: "Type I or D4"}
FOR_INDOORS, FOR_OUTDOORS = "pva-interior", "pva-waterproof"

STANDARD_SHOP = Fraction(70)  # degrees F that times are printed for; construction-adhesive-page
COLD_SHOP = Fraction(50)  # and the temperature at which that page doubles them
WARM_SHOP = Fraction(75)  # above it an answer says that glue sets faster, without a figure


@dataclass(frozen=True, slots=True)
class Label:
    """What the bottle says, where the caller has read it: minutes and degrees Fahrenheit."""

    open_time: Fraction | None = None
    assembly_time: Fraction | None = None
    coldest: Fraction | None = None


@dataclass(frozen=True, slots=True)
class Limit:
    """A range to keep to, and where it comes from: the label, or rows of the tables."""

    low: Fraction
    high: Fraction
    from_label: bool = False
    rests_on: tuple[str, ...] = ()


def as_limit(figure: GlueFigure | None) -> Limit | None:
    """A printed range as a limit; where only one end is printed, that is both."""
    if figure is None:
        return None
    ends = [end for end in (figure.low, figure.high) if end is not None]
    return Limit(min(ends), max(ends), rests_on=(figure.row,)) if ends else None


def slowed(limit: Limit | None, glue: Glue, temperature: Fraction | None) -> Limit | None:
    """A time at a temperature, where the tables say how much the cold slows the glue.

    Straight between the two temperatures that the source prints; beyond them as at the nearer.
    """
    figure = glue.figure("slower-when-cold")
    if limit is None or figure is None or figure.high is None or temperature is None:
        return limit
    cold = (STANDARD_SHOP - temperature) / (STANDARD_SHOP - COLD_SHOP)
    factor = 1 + (figure.high - 1) * min(Fraction(1), max(Fraction(0), cold))
    return Limit(limit.low * factor, limit.high * factor, False, (*limit.rests_on, figure.row))


def working_time(glue: Glue, label: Label, temperature: Fraction | None = None) -> Limit | None:
    """Minutes from the first glue spread to the last joint closed; None where none is told.

    The assembly time of the label is that very time; its open time is until the parts touch,
    which is never longer. Without a label the table's open time counts.
    """
    stated = label.assembly_time or label.open_time
    if stated is not None:
        return Limit(stated, stated, from_label=True)
    known = as_limit(glue.figure("open-time")) or as_limit(glue.figure("bond-time"))
    return slowed(known, glue, temperature)


def coldest(glue: Glue, label: Label) -> Limit | None:
    """Degrees Fahrenheit below which the glue doesn't set as it should.

    Where pages differ the table names the one to keep to; where makers differ, the lowest counts,
    because only under it is every glue of the kind too cold.
    """
    if label.coldest is not None:
        return Limit(label.coldest, label.coldest, from_label=True)
    figure = glue.figure("lowest-temperature")
    known = as_limit(figure)
    if figure is not None and known is not None and figure.usual is not None:
        return Limit(figure.usual, figure.usual, rests_on=known.rests_on)
    return known


def too_cold(glue: Glue, label: Label, temperature: Fraction) -> Limit | None:
    """The limit that a temperature is below, or None."""
    limit = coldest(glue, label)
    return limit if limit is not None and temperature < limit.low else None


@dataclass(frozen=True, slots=True)
class GlueUp:
    """Joints glued in one go: how long it takes, how long there is, how to split it.

    `groups` are the joints of each go, as even as they come; None where no time is told, or where
    one joint alone takes longer.
    """

    joints: int
    minutes: Fraction
    limit: Limit | None
    most_at_once: int | None
    groups: tuple[int, ...] | None

    @property
    def too_slow(self) -> bool:
        """Longer than the longest time that is told."""
        return self.limit is not None and self.minutes > self.limit.high

    @property
    def close(self) -> bool:
        """Longer than the shortest time that is told, not than the longest."""
        return self.limit is not None and self.limit.low < self.minutes <= self.limit.high


def glue_up(joints: int, minutes_each: Fraction, people: int, limit: Limit | None) -> GlueUp:
    """So many joints at so many minutes each, shared by people, against the time there is.

    Joints are shared out whole: two people take three joints as long as two.
    """
    rounds = math.ceil(Fraction(joints, people))
    minutes = rounds * minutes_each
    if limit is None:
        return GlueUp(joints, minutes, None, None, None)
    most = math.floor(limit.low / minutes_each) * people
    groups = _even(joints, math.ceil(Fraction(joints, most))) if most else None
    return GlueUp(joints, minutes, limit, most, groups)


def _even(joints: int, groups: int) -> tuple[int, ...]:
    """Joints dealt out as evenly as they come, the larger groups first."""
    each, over = divmod(joints, groups)
    return (each + 1,) * over + (each,) * (groups - over)


@dataclass(frozen=True, slots=True)
class WaterClass:
    """How much water a glue stands, by the classes told of it; None where none is told."""

    level: int | None
    names: tuple[str, ...]
    rests_on: tuple[str, ...]


def water_class(glue: Glue) -> WaterClass:
    """The best of a glue's classes; a range counts as its lower end."""
    told = glue.words.get("water-class", ())
    levels = [level for one in told if (level := _level(one.words)) is not None]
    names = tuple(f"{one.condition} {one.words}".strip() for one in told)
    return WaterClass(max(levels, default=None), names, tuple(one.row for one in told))


def _level(words: str) -> int | None:
    """`D3 to D4` counts as D3."""
    named = re.findall(r"Type I{1,3}|D[1-4]|none", words)
    levels = [CLASS_LEVELS[name] for name in named]
    return min(levels, default=None)


def stands_weather(glue: Glue, where: Where) -> bool:
    """Whether a glue may be used in a place; no for one whose class is known to be too low."""
    level = water_class(glue).level
    return level is None or level >= NEEDED_LEVEL[where]


def glue_for(where: Where | None) -> str:
    """The common glue that suits a place."""
    return FOR_INDOORS if where in (None, "indoors") else FOR_OUTDOORS


def clamp_time(glue: Glue, temperature: Fraction | None = None) -> Limit | None:
    """Minutes in clamps; None where none is told."""
    return slowed(as_limit(glue.figure("clamp-time")), glue, temperature)


def kinds(names: Iterable[str | None], catalog: Catalog, region: str) -> tuple[Glue, ...]:
    """The glues that names stand for, each once; no glue and unknown names are left out."""
    keys = [catalog.key("glue", region, name) for name in names if name is not None]
    return tuple(catalog.glues[key] for key in dict.fromkeys(keys) if key and key in catalog.glues)


def glue_named(catalog: Catalog, region: str, name: str) -> Glue:
    """The glue that a shop name stands for. Raises UnknownName."""
    key = known_key(catalog, "glue", region, name, "glue")
    if key == NONE:
        raise UnknownName(Complaint("glue", "without glue there is no glue-up"))
    return catalog.glues[key]
