"""Rows about screws, nails, staples, bolts and holes -> the values that questions work with."""

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence

from service.domain.fasteners import (
    BoltSize,
    Constant,
    DrillSize,
    Fasteners,
    Figure,
    Lengths,
    NailSize,
    PocketPractice,
    ScrewSize,
    StapleSize,
)
from service.reference.columns import Cells, cited_as, in_inches
from service.reference.fasteners import (
    Bolt,
    BoltValue,
    ConnectionConstant,
    Nail,
    NailLengths,
    NailValue,
    PilotHole,
    Screw,
    ScrewLengths,
    ScrewValue,
    Staple,
    StapleValue,
)
from service.reference.fasteners import (
    PocketPractice as PocketRow,
)
from service.reference.printed import Unreadable, read_length
from service.reference.reading import Rows

Values = Mapping[str, Mapping[str, Sequence[Cells]]]  # by thing, then by property

# Which of several conditions a value is taken under.
HEAD = "flat head"
SHARE = ("rolled thread, at least", "lengths of 2 in and more", "length over 40 mm")


def fasteners(rows: Rows) -> Fasteners:
    """Every fastener with its sizes, and the holes and pockets that go with it."""
    return Fasteners(
        screws=_screws(rows),
        nails=_nails(rows),
        staples=_staples(rows),
        bolts=_bolts(rows),
        drills={
            (drill.screw, drill.hole, drill.wood): drill
            for drill in map(_drill, rows.preferred(PilotHole))
        },
        pockets=tuple(map(_pocket, rows.of(PocketRow))),
    )


def constants(rows: Rows) -> Mapping[str, Constant]:
    """Every constant of connections that is one number, by key."""
    return {
        cells["key"]: Constant(
            row=cited_as(ConnectionConstant, cells),
            value=cells["value"].value,
            above=cells["from"].value if cells["from"] else None,
            up_to=cells["to"].value if cells["to"] else None,
        )
        for cells in rows.preferred(ConnectionConstant)
        if cells["value"] is not None
    }


def _by_thing(rows: Iterable[Cells], thing: str) -> Values:
    found: dict[str, dict[str, list[Cells]]] = defaultdict(lambda: defaultdict(list))
    for cells in rows:
        found[cells[thing]][cells["property"]].append(cells)
    return found


def _figure(
    model: type[ScrewValue] | type[NailValue] | type[StapleValue] | type[BoltValue],
    cells: Cells | None,
) -> Figure | None:
    """The printed value as a range in inches, or in the unit of a share or a count."""
    if cells is None:
        return None
    low, high, usual = (in_inches(cells[end], cells["unit"]) for end in ("low", "high", "usual"))
    ends = [end for end in (low, high) if end is not None]
    return Figure(min(ends), max(ends), cited_as(model, cells), usual)


def _one(values: Sequence[Cells], *conditions: str) -> Cells | None:
    """The value that holds under one of the conditions, the first named first; else the first."""
    for condition in conditions:
        for cells in values:
            if (cells["condition"] or "").startswith(condition):
                return cells
    return None if conditions else next(iter(values), None)


def _needed(figure: Figure | None, thing: str, what: str) -> Figure:
    if figure is None:
        raise Unreadable(f"{thing} has no {what}")
    return figure


def _screws(rows: Rows) -> tuple[ScrewSize, ...]:
    values = _by_thing(rows.preferred(ScrewValue), "screw")
    lists = {cells["screw"]: cells for cells in rows.preferred(ScrewLengths)}
    made = [_screw(cells, values[cells["key"]], lists) for cells in rows.preferred(Screw)]
    return tuple(sorted(made, key=lambda screw: (screw.diameter.value, screw.family)))


def _screw(
    cells: Cells, told: Mapping[str, Sequence[Cells]], lists: Mapping[str, Cells]
) -> ScrewSize:
    key = cells["key"]
    diameter = _figure(ScrewValue, _one(told["major-diameter"]))
    return ScrewSize(
        row=cited_as(Screw, cells),
        key=key,
        family=cells["family"],
        name=cells["name"],
        gauge=cells["gauge"],
        diameter=_needed(diameter, key, "diameter"),
        root=_figure(ScrewValue, _one(told["root-diameter"])),
        head=_figure(ScrewValue, _one(told["head-diameter"], HEAD)),
        thread_share=_figure(ScrewValue, _one(told["thread-share"], *SHARE)),
        lengths=_lengths(ScrewLengths, lists.get(key)),
    )


def _lengths(model: type[ScrewLengths] | type[NailLengths], cells: Cells | None) -> Lengths:
    if cells is None:
        return Lengths((), "")
    return Lengths(tuple(sorted(cells["lengths"].value)), cited_as(model, cells))


def _nails(rows: Rows) -> tuple[NailSize, ...]:
    values = _by_thing(rows.preferred(NailValue), "nail")
    lists = {cells["nail"]: cells for cells in rows.preferred(NailLengths)}
    made = [_nail(cells, values[cells["key"]], lists) for cells in rows.preferred(Nail)]
    known = [nail for nail in made if nail is not None]
    return tuple(sorted(known, key=lambda nail: (nail.diameter.value, nail.lengths.made)))


def _nail(
    cells: Cells, told: Mapping[str, Sequence[Cells]], lists: Mapping[str, Cells]
) -> NailSize | None:
    """A nail; None where its diameter has not been found: nothing can be said of it."""
    key = cells["key"]
    diameter = _figure(NailValue, _one(told["diameter"]))
    length = _figure(NailValue, _one(told["length"]))
    if diameter is None or (length is None and key not in lists):
        return None
    lengths = _lengths(NailLengths, lists.get(key))
    if length is not None and not lengths.made:
        lengths = Lengths((length.value,), length.row)
    return NailSize(
        row=cited_as(Nail, cells),
        key=key,
        type=cells["type"],
        name=cells["name"],
        pennyweight=cells["pennyweight"],
        diameter=diameter,
        head=_figure(NailValue, _one(told["head-diameter"])),
        lengths=lengths,
    )


def _staples(rows: Rows) -> tuple[StapleSize, ...]:
    values = _by_thing(rows.preferred(StapleValue), "staple")
    return tuple(_staple(cells, values[cells["key"]]) for cells in rows.preferred(Staple))


def _staple(cells: Cells, told: Mapping[str, Sequence[Cells]]) -> StapleSize:
    key, row = cells["key"], cited_as(Staple, cells)
    return StapleSize(
        row=row,
        key=key,
        name=cells["name"],
        crown=_needed(_figure(StapleValue, _one(told["crown"])), key, "crown"),
        wire=_needed(_figure(StapleValue, _one(told["wire-width"])), key, "wire"),
        lengths=Lengths(tuple(sorted(cells["legs"].value)), row),
    )


def _bolts(rows: Rows) -> tuple[BoltSize, ...]:
    values = _by_thing(rows.preferred(BoltValue), "bolt")
    made = [_bolt(cells, values[cells["key"]]) for cells in rows.preferred(Bolt)]
    return tuple(sorted(made, key=lambda bolt: bolt.diameter))


def _bolt(cells: Cells, told: Mapping[str, Sequence[Cells]]) -> BoltSize:
    """A bolt; inch threads are counted to the inch, metric ones have a pitch."""
    key = cells["key"]
    nut, washer, pitch, threads = (
        _figure(BoltValue, _one(told[name]))
        for name in ("nut-height", "washer-thickness", "pitch", "threads-per-inch")
    )
    if threads is not None:
        pitch = Figure(1 / threads.high, 1 / threads.low, threads.row)
    return BoltSize(
        row=cited_as(Bolt, cells),
        key=key,
        name=cells["size"],
        diameter=cells["diameter"].value,
        nut=_needed(nut, key, "height of its nut"),
        washer=_needed(washer, key, "thickness of its washer"),
        pitch=_needed(pitch, key, "pitch"),
    )


def _drill(cells: Cells) -> DrillSize:
    return DrillSize(
        row=cited_as(PilotHole, cells),
        screw=cells["screw"],
        hole=cells["hole"],
        wood=cells["wood"],
        low=cells["low"].value,
        high=cells["high"].value,
        usual=cells["usual"].value,
    )


def _pocket(cells: Cells) -> PocketPractice:
    told = tuple(part.strip() for part in cells["value"].split(";"))
    is_length = cells["property"] == "screw-length"
    return PocketPractice(
        row=cited_as(PocketRow, cells),
        thickness=None if cells["thickness"] == "any" else read_length(cells["thickness"]).value,
        item=cells["property"],
        condition=cells["condition"] or "",
        lengths=tuple(read_length(part).value for part in told) if is_length else (),
        words=() if is_length else told,
        preferred=cells["preferred"] == "yes",
    )
