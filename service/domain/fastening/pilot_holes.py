"""What to drill for a screw: the pilot hole, the hole for the shank, and the countersink.

Charts differ because they start from different root diameters, so every hole is a range with a
usual drill. Inches.
"""

import math
from fractions import Fraction
from typing import Literal

from service.domain.catalog import Catalog, Wood
from service.domain.errors import Complaint, UnknownName
from service.domain.fasteners import ScrewSize, WoodHardness
from service.domain.fastening.splitting import BOARD, PLIES, Spot, splits_like
from service.domain.values import dataclass

Need = Literal["drill", "advised", "not-needed"]

STEP, METRIC_STEP = Fraction(1, 64), Fraction(5, 254)  # between drills: 1/64 in, and 0.5 mm
LIGHT = 0.5  # gravity up to which no pilot is required; nds-2024, 12.1.5.2
CUT_ROOT = Fraction(
    2, 3
)  # of the diameter, root of a cut thread; wood-handbook-2010-screws, p. 8-11
CUT_ROOT_ROW = "connection_constants/root-diameter.cut-thread"
SOFT_SHARE, HARD_SHARE, BOARD_SHARE = "pilot-size.softwood", "pilot-size.hardwood", "mdf.pilot-size"
HALF_A_GAUGE = Fraction("0.0065")  # inches: a diameter this near is taken for the gauge
A_HAIR = Fraction(1, 254)  # 0.1 mm, within which a metric diameter is the one that is made


@dataclass(frozen=True, slots=True)
class HoleRange:
    """Diameters that sources give, least to greatest, and the usual drill."""

    low: Fraction
    usual: Fraction
    high: Fraction
    rests_on: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Drilling:
    """Everything to drill for one screw; `why` says whether a pilot is needed here.

    `depth` is the share of the thread in the base that is drilled, least to greatest.
    """

    screw: ScrewSize
    pilot: HoleRange | None
    clearance: HoleRange
    countersink: HoleRange | None
    depth: tuple[float, float] | None
    need: Need
    why: str
    assumed: tuple[str, ...]
    rests_on: tuple[str, ...]


def screw_named(catalog: Catalog, gauge: str | None, diameter: Fraction | None) -> ScrewSize:
    """The screw of a gauge, or the one that is made in or nearest to a diameter.

    Raises UnknownName where none is made.
    """
    fasteners = catalog.fasteners
    if gauge is not None:
        key = catalog.key("gauge", "any", gauge)
        found = fasteners.screw("wood-screw", key) if key else None
        if found is None:
            made = ", ".join(s.gauge.removeprefix("no-") for s in _wood_screws(catalog) if s.gauge)
            raise UnknownName(Complaint("gauge", f"no screw of that gauge is made; made: {made}"))
        return found
    assert diameter is not None

    def off(screw: ScrewSize) -> Fraction:
        return abs(screw.diameter.value - diameter)

    metric = min(fasteners.screws_of("chipboard-screw"), key=off, default=None)
    if metric is not None and off(metric) <= A_HAIR:
        return metric
    nearest = min(_wood_screws(catalog), key=off, default=None)
    if nearest is None or off(nearest) > HALF_A_GAUGE:
        raise UnknownName(Complaint("diameter", "no screw of that diameter is made"))
    return nearest


def _wood_screws(catalog: Catalog) -> tuple[ScrewSize, ...]:
    return catalog.fasteners.screws_of("wood-screw")


def hardness(catalog: Catalog, wood: Wood | None) -> tuple[WoodHardness, tuple[str, ...]]:
    """Whether charts count a wood as soft or hard, and what was assumed about it.

    A hardwood as light as softwood, such as poplar, drills as softwood.
    """
    if wood is None:
        return "soft", ("the wood is not stated: softwood is taken",)
    hard = wood.kind == "hardwood" or any(
        catalog.woods[m].kind == "hardwood" for m in wood.members if m in catalog.woods
    )
    gravity = wood.gravity_12
    if hard and gravity is not None and gravity.high < LIGHT:
        return "soft", (f"{wood.name} is a light hardwood and is drilled like softwood",)
    return ("hard" if hard else "soft"), ()


def drilling(
    catalog: Catalog, screw: ScrewSize, wood: Wood | None = None, spot: Spot = "face"
) -> Drilling:
    """What to drill for a screw in a wood, into its face, edge or end."""
    hard, assumed = hardness(catalog, wood)
    board = wood is not None and wood.kind == "panel" and splits_like(wood.key) == BOARD
    if screw.family == "construction-screw":
        assumed = (*assumed, "drilled as for the wood screw of the same gauge")
    pilot = _board_pilot(catalog, screw) if board else _pilot(catalog, screw, hard)
    clearance = _clearance(catalog, screw)
    countersink = _countersink(catalog, screw)
    need, why = _need(hard, board, wood, spot)
    holes = [hole for hole in (pilot, clearance, countersink) if hole]
    return Drilling(
        screw=screw,
        pilot=pilot,
        clearance=clearance,
        countersink=countersink,
        depth=(1.0, 1.0) if board or hard == "hard" else _depth(catalog),
        need=need,
        why=why,
        assumed=assumed,
        rests_on=tuple(dict.fromkeys(row for hole in holes for row in hole.rests_on)),
    )


def _need(hard: WoodHardness, board: bool, wood: Wood | None, spot: Spot) -> tuple[Need, str]:
    if board:
        return "drill", "boards without grain swell and split into layers without a pilot"
    if hard == "hard":
        return "drill", "dense wood splits, and the screw may shear off, without a pilot"
    if (
        wood is not None
        and wood.kind == "panel"
        and splits_like(wood.key) == PLIES
        and spot != "face"
    ):
        return "drill", "a screw between plies splits them without a pilot"
    if spot == "edge":
        return "drill", "an edge splits along the grain without a pilot"
    if spot == "end":
        return "advised", "a pilot keeps the screw straight along the grain; end grain holds little"
    return "not-needed", "softwood needs none away from ends; drill within an inch or two of an end"


def _pilot(catalog: Catalog, screw: ScrewSize, hard: WoodHardness) -> HoleRange | None:
    charted = catalog.fasteners.drill(screw.gauge, "pilot", hard) if screw.gauge else None
    if charted is not None:
        return HoleRange(charted.low, charted.usual, charted.high, (charted.row,))
    return _share_of_root(catalog, screw, HARD_SHARE if hard == "hard" else SOFT_SHARE)


def _board_pilot(catalog: Catalog, screw: ScrewSize) -> HoleRange | None:
    """MDF has drills of its own for three gauges; else a share of the core of the screw."""
    own = catalog.practice.get(f"mdf.pilot.{screw.gauge}")
    if own is not None and own.low is not None and own.high is not None:
        return HoleRange(own.low, own.low, own.high, (own.row,))
    return _share_of_root(catalog, screw, BOARD_SHARE)


def _share_of_root(catalog: Catalog, screw: ScrewSize, key: str) -> HoleRange | None:
    """A share of the root; where no table prints the root, of that of a cut thread."""
    rule = catalog.practice.get(key)
    if rule is None or rule.low is None or rule.high is None:
        return None
    if screw.root is not None:
        root, row = screw.root.value, screw.root.row
    else:
        root, row = CUT_ROOT * screw.diameter.value, CUT_ROOT_ROW
    return _around(rule.low * root, rule.high * root, screw, (rule.row, row))


def _around(low: Fraction, high: Fraction, screw: ScrewSize, rows: tuple[str, ...]) -> HoleRange:
    """The range with the drill nearest to its middle in it."""
    step = _step(screw)
    usual = max(step, round((low + high) / 2 / step) * step)
    return HoleRange(min(low, usual), usual, max(high, usual), rows)


def _step(screw: ScrewSize) -> Fraction:
    return METRIC_STEP if screw.family == "chipboard-screw" else STEP


def _clearance(catalog: Catalog, screw: ScrewSize) -> HoleRange:
    """The next drill that lets the shank through, where a chart comes out under the shank too."""
    step, shank = _step(screw), screw.diameter.value
    charted = catalog.fasteners.drill(screw.gauge, "clearance", "soft") if screw.gauge else None
    if charted is None:
        larger = (math.floor(shank / step) + 1) * step
        return HoleRange(larger, larger, larger, (screw.diameter.row,))
    usual = max(charted.usual, math.ceil(shank / step) * step)
    rows = (charted.row, screw.diameter.row)
    return HoleRange(min(charted.low, usual), usual, max(charted.high, usual), rows)


def _countersink(catalog: Catalog, screw: ScrewSize) -> HoleRange | None:
    rule, head = catalog.practice.get("countersink.flat-head"), screw.head
    if head is not None:
        return HoleRange(head.low, head.high, head.high, (head.row,))
    if rule is None or rule.low is None or rule.high is None:
        return None
    low, high = rule.low * screw.diameter.value, rule.high * screw.diameter.value
    return _around(low, high, screw, (rule.row, screw.diameter.row))


def _depth(catalog: Catalog) -> tuple[float, float] | None:
    rule = catalog.practice.get("pilot-depth.half-thread")
    return (float(rule.low), 1.0) if rule and rule.low is not None else None
