"""How near to an end or an edge a fastener may stand before the wood splits.

For diameters under 1/4 in the code has no numbers, only advice in its commentary. Furniture is
fastened nearer than that every day, with a pilot hole; so two distances are given: `least`, under
which builders too expect a split, and `advised`, that of the commentary. Inches.
"""

from collections.abc import Iterator
from fractions import Fraction
from typing import Literal

from service.domain.catalog import Catalog
from service.domain.keeping import kept
from service.domain.material import EDGE_GLUED, FIBER_AND_CHIPS
from service.domain.tape import pair
from service.domain.values import dataclass

Spot = Literal["face", "edge", "end"]

SOLID, BOARD, PLIES = "solid", "board", "plies"  # how a material splits
BRAD_TURNS = (
    "a brad follows the grain and can turn out of the side: keep it short in an edge, stand the "
    "wide side of the strip across the grain, and keep fingers away from both faces"
)

# Diameters to an edge or end with a pilot hole: a screw in the middle of a part four of its
# diameters thick, the thickest screw that practice drives into an edge. From memory, as the row
# screw-diameter.edge of practice_rules says; a warning may rest on it, never a fault.
PILOTED = 2
EDGE_ROW = "screw-diameter.edge"


@dataclass(frozen=True, slots=True)
class Distance:
    """Least and advised distance, inches, and the rows they rest on."""

    least: Fraction
    advised: Fraction
    rests_on: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Distances:
    """From the end, from the edge, and between fasteners across and along the grain."""

    end: Distance
    edge: Distance
    across: Distance
    along: Distance


@dataclass(frozen=True, slots=True)
class Standing:
    """A fastener in a part: its diameter, whether a pilot is drilled, and what it stands in.

    `material` is a panel's material key, or None for solid wood. `thickness` is that of the
    part; `hard` that of a dense hardwood; `gauge` of a screw, such as ``no-8``.
    """

    diameter: Fraction
    piloted: bool
    thickness: Fraction
    spot: Spot = "face"
    material: str | None = None
    hard: bool = False
    gauge: str | None = None


def splits_like(material: str | None) -> str:
    """Solid wood along its grain, boards without grain into layers, plywood between its plies."""
    if material is None or material == EDGE_GLUED:
        return SOLID
    return BOARD if material in FIBER_AND_CHIPS else PLIES


def distances(catalog: Catalog, standing: Standing) -> Distances:
    """How far the fastener should stand from ends, edges and its neighbors."""
    solid = _solid(catalog, standing)
    like = splits_like(standing.material)
    if like == BOARD:
        return _board(catalog, standing, solid)
    if like == PLIES:
        return _plies(catalog, standing, solid)
    return solid


def _solid(catalog: Catalog, standing: Standing) -> Distances:
    advised = kept(
        catalog,
        ("advised distances", standing.piloted, *pair(standing.diameter)),
        lambda: _advised(catalog, standing),
    )
    end, edge, across, along = advised.end, advised.edge, advised.across, advised.along
    if standing.piloted:
        least = PILOTED * standing.diameter
        return Distances(
            _lowered(catalog, end, least, EDGE_ROW),
            _lowered(catalog, edge, least, EDGE_ROW),
            across,
            along,
        )
    if standing.hard:
        return Distances(end, edge, across, along)
    # Crates of softwood are nailed so without a pilot: a thickness from the end, half from an edge.
    return Distances(
        _lowered(catalog, end, standing.thickness, "end-distance.nailed-softwood"),
        _lowered(catalog, edge, standing.thickness / 2, "edge-distance.nailed-softwood"),
        across,
        along,
    )


def _advised(catalog: Catalog, standing: Standing) -> Distances:
    """What the commentary of the code advises."""
    bored = "prebored" if standing.piloted else "not-prebored"
    return Distances(
        _diameters(catalog, standing, f"{bored}.end.away"),
        _diameters(catalog, standing, f"{bored}.edge"),
        _diameters(catalog, standing, f"{bored}.row.across"),
        _diameters(catalog, standing, f"{bored}.row.along"),
    )


def _diameters(catalog: Catalog, standing: Standing, key: str) -> Distance:
    """A distance that the commentary of the code gives in diameters; none where it is unknown."""
    told = catalog.constants.get(f"spacing.wood.{key}")
    if told is None:
        return Distance(Fraction(0), Fraction(0))
    far = told.value * standing.diameter
    return Distance(far, far, (told.row,))


def _lowered(catalog: Catalog, advised: Distance, least: Fraction, key: str) -> Distance:
    """The same advice with a smaller least distance, where practice goes nearer."""
    if least >= advised.least:
        return advised
    rule = catalog.practice.get(key)
    rows = (rule.row,) if rule else ()
    return Distance(least, advised.advised, (*advised.rests_on, *rows))


def _raised(catalog: Catalog, distance: Distance, key: str, advised: bool = False) -> Distance:
    """At least the size that a rule of practice names; only the advice where `advised`."""
    rule = catalog.practice.get(key)
    if rule is None or rule.low is None:
        return distance
    least = distance.least if advised else max(distance.least, rule.low)
    return Distance(least, max(distance.advised, rule.low), (*distance.rests_on, rule.row))


def _board(catalog: Catalog, standing: Standing, solid: Distances) -> Distances:
    """MDF and the like: layers come apart at an edge, and corners break off."""
    end, edge = solid.end, solid.edge
    if standing.gauge is None:
        return Distances(
            _raised(catalog, end, "mdf.corner-distance.staples-nails"), edge, solid.across,
            solid.along,
        )  # fmt: skip
    if standing.spot == "face":
        end = _raised(catalog, end, "mdf.face-corner-distance")
        edge = _raised(catalog, edge, "mdf.face-edge-distance")
        edge = _raised(catalog, edge, f"mdf.edge-distance.{standing.gauge}", advised=True)
    else:
        end = _raised(catalog, end, "mdf.edge-corner-distance")
    return Distances(end, edge, solid.across, solid.along)


def _plies(catalog: Catalog, standing: Standing, solid: Distances) -> Distances:
    """Plywood: sound across its face, splits between plies where it is entered at an edge."""
    if standing.spot == "face" or standing.gauge is None:
        return solid
    end = _raised(catalog, solid.end, "plywood.edge-corner-distance")
    return Distances(end, solid.edge, solid.across, solid.along)


def too_near(
    catalog: Catalog, standing: Standing, end: Fraction | None, edge: Fraction | None
) -> Iterator[tuple[str, Fraction, Distance]]:
    """Distances given that are under the least: which, how far, and what it should be."""
    kept = distances(catalog, standing)
    for place, given, limit in (
        ("end_distance", end, kept.end),
        ("edge_distance", edge, kept.edge),
    ):
        if given is not None and given < limit.least:
            yield place, given, limit
