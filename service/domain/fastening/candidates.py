"""What is made for each way of fastening: every size with its lengths, from the tables.

Pocket screws and dowels have no table of sizes: those lengths are trade knowledge of this project,
as rules of thumb may be taken out of the tables without changing what is proposed.
"""

from fractions import Fraction

from service.domain.catalog import Catalog
from service.domain.fasteners import NailSize, ScrewSize, StapleSize, gauge_diameter, gauge_number
from service.domain.fastening.meeting import Meeting
from service.domain.keeping import kept
from service.domain.tape import MM
from service.domain.values import dataclass

METHODS = (
    "screw", "pocket-screw", "dowel", "brad", "finish-nail", "nail", "staple", "glue",
)  # fmt: skip

POCKET_LENGTHS = tuple(
    Fraction(n, 4) for n in (3, 4, 5, 6, 8, 10, 12)
)  # in; what shops sell; practice, the lengths in table pocket_practice
METRIC_POCKET_LENGTHS = tuple(mm * MM for mm in (25, 32, 38, 50, 64))
DOWELS = (
    (Fraction(1, 4), (Fraction(1), Fraction(5, 4))),
    (Fraction(5, 16), (Fraction(5, 4), Fraction(3, 2))),
    (Fraction(3, 8), (Fraction(5, 4), Fraction(3, 2), Fraction(2))),
    (Fraction(1, 2), (Fraction(3, 2), Fraction(2))),
)  # in; diameter, lengths of fluted pins sold; practice
METRIC_DOWELS = ((6, (30,)), (8, (30, 35, 40)), (10, (40,)))  # mm; the same

# Gauges that suit a part of a thickness, the usual one first. Own; a No. 8 is the usual screw for
# 3/4 in parts, as the rows construction-screw.no-8 say.
GAUGES = (
    (Fraction(5, 16), (6, 5, 4)),
    (Fraction(9, 16), (6, 4, 5)),
    (Fraction(5, 4), (8, 6, 7, 5, 4)),
    (Fraction(10**6), (10, 9, 8, 6)),
)
MILLIMETERS = (
    (Fraction(8), (Fraction(7, 2), Fraction(3))),
    (Fraction(14), (Fraction(7, 2), Fraction(3))),
    (Fraction(30), (Fraction(4), Fraction(7, 2), Fraction(3))),
    (Fraction(10**8), (Fraction(5), Fraction(9, 2), Fraction(4))),
)


THIN = Fraction(5, 8)  # in; up to this a pocket takes the thinner screw; practice


@dataclass(frozen=True, slots=True)
class Made:
    """One size of one kind of fastener, with the lengths it is sold in, shortest first."""

    method: str
    type: str
    diameter: Fraction
    lengths: tuple[Fraction, ...]
    gauge: int | None = None
    by_hand: bool = True
    size: ScrewSize | NailSize | StapleSize | None = None
    rests_on: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Stouts:
    """How stout the sizes for a joint are: its band of thickness, and whether a part is thin."""

    band: int
    thin: bool
    metric: bool


def stouts_for(meeting: Meeting, metric: bool) -> Stouts:
    """How stout the fasteners of a joint may be."""
    thick = meeting.through.thickness.listed
    depth = meeting.passed
    passed = thick if depth is None or meeting.through.surface == "end" else depth.listed
    bands = MILLIMETERS if metric else GAUGES
    unit = MM if metric else Fraction(1)
    band = next(n for n, (up_to, _) in enumerate(bands) if passed <= up_to * unit)
    return Stouts(band, thick <= THIN, metric)


def candidates(catalog: Catalog, method: str, stout: Stouts) -> tuple[Made, ...]:
    """The sizes worth trying for a joint, the usual one first."""
    band = stout.band if method == "screw" else 0
    thin = stout.thin and method == "pocket-screw"
    return kept(
        catalog,
        ("candidates", method, stout.metric, band, thin),
        lambda: _made(catalog, method, stout.metric, band, thin),
    )


def _made(catalog: Catalog, method: str, metric: bool, band: int, thin: bool) -> tuple[Made, ...]:
    if method == "screw":
        return _metric_screws(catalog, band) if metric else _screws(catalog, band)
    if method == "pocket-screw":
        number = 6 if thin else 8
        lengths = METRIC_POCKET_LENGTHS if metric else POCKET_LENGTHS
        return (Made(method, "pocket screw", gauge_diameter(number), lengths, number),)
    if method == "dowel":
        return _dowels(metric)
    if method == "staple":
        return tuple(_staple(size) for size in catalog.fasteners.staples)
    return _nails(catalog, method, metric)


def _screws(catalog: Catalog, band: int) -> tuple[Made, ...]:
    """Wood screws and construction screws of each gauge, as one list of lengths a gauge."""
    found = []
    for number in GAUGES[band][1]:
        for family in ("wood-screw", "construction-screw"):
            screw = catalog.fasteners.screw(family, f"no-{number}")
            if screw is not None:
                found.append(_screw(screw))
    return tuple(found)


def _metric_screws(catalog: Catalog, band: int) -> tuple[Made, ...]:
    by_diameter = {s.diameter.value / MM: s for s in catalog.fasteners.screws_of("chipboard-screw")}
    return tuple(_screw(by_diameter[mm]) for mm in MILLIMETERS[band][1] if mm in by_diameter)


def _screw(screw: ScrewSize) -> Made:
    return Made(
        "screw",
        screw.family.replace("-", " "),
        screw.diameter.value,
        screw.lengths.made,
        gauge_number(screw.gauge) if screw.gauge else None,
        size=screw,
        rests_on=(screw.diameter.row, screw.lengths.row),
    )


def _dowels(metric: bool) -> tuple[Made, ...]:
    if metric:
        return tuple(
            Made("dowel", "fluted dowel", mm * MM, tuple(n * MM for n in lengths))
            for mm, lengths in reversed(METRIC_DOWELS)
        )
    return tuple(Made("dowel", "fluted dowel", wide, lengths) for wide, lengths in reversed(DOWELS))


def _staple(staple: StapleSize) -> Made:
    return Made(
        "staple", staple.name, staple.wire.value, staple.lengths.made, by_hand=False, size=staple,
        rests_on=(staple.wire.row, staple.lengths.row),
    )  # fmt: skip


NAIL_TYPES = {
    "brad": ("brad", "wire-brad"),
    "finish-nail": ("collated-finish", "finish"),
    "nail": ("common", "box"),
}
METRIC_NAIL_TYPES = {**NAIL_TYPES, "finish-nail": ("lost-head",), "nail": ("round-head",)}


def _nails(catalog: Catalog, method: str, metric: bool) -> tuple[Made, ...]:
    types = (METRIC_NAIL_TYPES if metric else NAIL_TYPES).get(method, ())
    found = [_nail(method, nail) for kind in types for nail in catalog.fasteners.nails_of(kind)]
    return tuple(found)


def _nail(method: str, nail: NailSize) -> Made:
    wire = nail.key.partition("ga")[0].rpartition(".")[2]
    return Made(
        method,
        nail.name,
        nail.diameter.value,
        nail.lengths.made,
        int(wire) if "ga" in nail.key and wire.isdigit() else None,
        by_hand=not nail.driven_by_nailer,
        size=nail,
        rests_on=(nail.diameter.row, nail.lengths.row),
    )
