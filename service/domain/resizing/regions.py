"""A build moved to another region's stock, or held to the real sizes of the boards bought."""

from collections.abc import Iterator
from dataclasses import fields
from fractions import Fraction

from service.domain.build import Build, Fastener, GluedFrom, Joint, Part, Stock, StockNote
from service.domain.catalog import BoardSize, Catalog, PanelSize
from service.domain.errors import Complaint
from service.domain.fasteners import gauge_diameter
from service.domain.known_names import regions
from service.domain.resizing.answer import Changed, Resizing, UnknownInResize
from service.domain.resizing.counterparts import Substitute, substitute
from service.domain.stocks import Sizing
from service.domain.tape import MM, nearest
from service.domain.values import dataclass, replace

BY_GAUGE = frozenset({"us", "ca", "au", "nz"})  # where screws go by gauge, not by millimeters
SCREWS = ("screw", "pocket-screw")  # methods whose fasteners go by the gauges of screws
OLD_WOOD = "it was measured on wood of the other region"


@dataclass(frozen=True, slots=True)
class Restock:
    """The build with its new stock, and every change that this makes."""

    build: Build
    changed: tuple[Changed, ...] = ()


def restocked(build: Build, asked: Resizing, catalog: Catalog) -> Restock:
    """The stock of the region asked for, and then the stocks at the sizes given."""
    moved = Restock(build)
    if asked.region is not None and asked.region != build.region:
        moved = _in_region(build, asked.region, catalog)
    measured, changed = moved.build, list(moved.changed)
    for name, sizes in asked.stock.items():
        measured = _measured(measured, name, sizes, catalog, changed)
    return Restock(measured, tuple(changed))


def _measured(
    build: Build,
    name: str,
    sizes: tuple[Fraction | None, Fraction | None],
    catalog: Catalog,
    changed: list[Changed],
) -> Build:
    sizing = Sizing(build, catalog)
    key = sizing.key(name) or name
    used = [p.stock.name for p in build.parts if p.stock.name is not None]
    if not any((sizing.key(one) or one) == key for one in used):
        told = f"No part is cut from {name!r}; stocks: {', '.join(dict.fromkeys(used)) or 'none'}."
        raise UnknownInResize(Complaint(f"#/stock/{name}", told))
    written = next((one for one in build.stocks if (sizing.key(one) or one) == key), name)
    note = build.stocks.get(written, StockNote())
    for field, size in zip(("measured_thickness", "measured_width"), sizes, strict=True):
        path, was = f"/stocks/{escaped(written)}/{field}", getattr(note, field)
        changed.append(Changed(path, was, size or was, "the real size, as given"))
    thickness, width = sizes
    note = replace(
        note,
        measured_thickness=thickness or note.measured_thickness,
        measured_width=width or note.measured_width,
    )
    return replace(build, stocks={**build.stocks, written: note})


def _in_region(build: Build, region: str, catalog: Catalog) -> Restock:
    if not catalog.stocks_in(region):
        told = f"No stock of the region {region!r} is in the tables; regions: "
        told += f"{', '.join(regions(catalog))}."
        raise UnknownInResize(Complaint("#/region", told))
    changed = [Changed("/region", build.region, region, "asked for")]
    parts = tuple(
        _part(f"/parts/{i}", part, Sizing(build, catalog), region, changed)
        for i, part in enumerate(build.parts)
    )
    stocks = dict(_notes(build, region, catalog, changed))
    changed += _buying(build, region, catalog)
    changed += _wall(build)
    changed += _shapes(build, region, catalog)
    changed += _names(build, region, catalog)
    joints = tuple(
        replace(joint, fastener=_screw(f"/joints/{i}/fastener", joint, region, changed))
        for i, joint in enumerate(build.joints)
    )
    return Restock(
        replace(build, region=region, parts=parts, stocks=stocks, joints=joints), tuple(changed)
    )


def _part(at: str, part: Part, sizing: Sizing, region: str, changed: list[Changed]) -> Part:
    name, catalog = part.stock.name, sizing.catalog
    key = sizing.key(name) if name is not None else None
    if key is None:
        return part
    old = catalog.stocked(sizing.build.region, key)[0]
    found = substitute(old, part, sizing, region)
    as_board = found.stock is None and isinstance(old, BoardSize)
    stock = Stock(found.stock, found.thickness, found.width if as_board else None)
    new = replace(
        part,
        stock=stock,
        width=None if as_board else found.width,
        glued_from=found.glued_from,
        known=_known(part, old, stock, catalog, region),
    )
    changed += _told(at, part, new, found)
    return new


def _told(at: str, old: Part, new: Part, found: Substitute) -> Iterator[Changed]:
    stock: object = new.stock.name
    if stock is None:
        stock = {"thickness": new.stock.thickness, "width": new.stock.width}
    yield Changed(f"{at}/stock", old.stock.name, stock, found.why)
    yield Changed(f"{at}/width", old.width, new.width, found.why)
    yield Changed(f"{at}/glued_from", _glue(old.glued_from), _glue(new.glued_from), found.why)
    for field in ("measured_thickness", "measured_width"):
        yield Changed(f"{at}/{field}", getattr(old.known, field), None, OLD_WOOD)
    if new.known.wood is None:
        yield Changed(f"{at}/wood", old.known.wood, None, "a panel is not of that wood")


def _known(
    part: Part, old: BoardSize | PanelSize, new: Stock, catalog: Catalog, region: str
) -> StockNote:
    """What stays known of a part: no measurement, and no wood where a panel replaces a board."""
    known = replace(part.known, measured_thickness=None, measured_width=None)
    sold = catalog.stocked(region, new.name) if new.name is not None else ()
    if isinstance(old, BoardSize) and sold and isinstance(sold[0], PanelSize):
        return replace(known, wood=None)
    return known


def _glue(glued: GluedFrom | None) -> dict[str, object] | None:
    if glued is None:
        return None
    return {"boards": glued.boards, "edge_loss": glued.edge_loss}


def _notes(
    build: Build, region: str, catalog: Catalog, changed: list[Changed]
) -> Iterator[tuple[str, StockNote]]:
    """What is known of stocks of the old region goes with their names."""
    for name, note in build.stocks.items():
        unknown = catalog.stock_key(build.region, name) is None
        if (
            (unknown or _the_same(name, build, region, catalog))
            and note.measured_thickness is None
            and note.measured_width is None
        ):
            yield name, note
            continue
        told = {
            field: value
            for field in (one.name for one in fields(StockNote))
            if (value := getattr(note, field)) is not None
        }
        changed.append(Changed(f"/stocks/{escaped(name)}", told, None, OLD_WOOD))


def _the_same(name: str, build: Build, region: str, catalog: Catalog) -> bool:
    """Whether a name stands for the same stock in both regions: a 2x4 does not."""
    key = catalog.stock_key(region, name)
    return key is not None and key == catalog.stock_key(build.region, name)


def _buying(build: Build, region: str, catalog: Catalog) -> Iterator[Changed]:
    def old(stock: str) -> bool:
        return not _the_same(stock, build, region, catalog)

    why = "it is of stock that this region does not sell under that name"
    prices = [price.stock for price in build.buying.prices]
    if any(map(old, prices)):
        yield Changed("/buying/price_list", ", ".join(prices), None, why)
    for kind in ("offcuts", "planned"):
        for index, entry in enumerate(getattr(build.buying, kind)):
            if old(entry.stock):
                yield Changed(f"/buying/{kind}/{index}", entry.stock, None, why)


def _wall(build: Build) -> Iterator[Changed]:
    wall = build.place.wall
    why = "walls are built otherwise in another region: measure yours and say it"
    for field in ("studs", "board"):
        size = getattr(wall, field) if wall else None
        yield Changed(f"/place/wall/{field}", size, None, why)


def _shapes(build: Build, region: str, catalog: Catalog) -> Iterator[Changed]:
    for index, shape in enumerate(build.shapes):
        name = shape.fields.get("stock")
        if isinstance(name, str) and not _the_same(name, build, region, catalog):
            why = "its parts say what they are cut from"
            yield Changed(f"/shapes/{index}/stock", name, None, why)


def _names(build: Build, region: str, catalog: Catalog) -> Iterator[Changed]:
    """Woods, saws, tools and uses under a name that only the old region knows, by their keys."""
    named: list[tuple[str, str | None, str]] = [("wood", build.wood, "/wood")]
    named += [("wood", p.known.wood, f"/parts/{i}/wood") for i, p in enumerate(build.parts)]
    named += [("saw", s.kind, f"/shop/saws/{i}/kind") for i, s in enumerate(build.shop.saws)]
    named += [("tool", t, f"/shop/tools/{i}") for i, t in enumerate(build.shop.tools or ())]
    named += [("use", use, f"/uses/{i}") for i, use in enumerate(build.uses)]
    for kind, name, path in named:
        key = catalog.key(kind, build.region, name) if name is not None else None
        if name is not None and key is not None and catalog.key(kind, region, name) != key:
            yield Changed(path, name, key, "the same thing by the name that holds in every region")


def _screw(at: str, joint: Joint, region: str, changed: list[Changed]) -> Fastener | None:
    """A screw by gauge as one by millimeters, about as thick and no longer.

    Metric screws go by half millimeters in thickness and 5 mm in length, which is practice. The
    gauges of brads and nails are those of nailers and hold everywhere.
    """
    fastener = joint.fastener
    if fastener is None or region in BY_GAUGE or fastener.gauge is None:
        return fastener
    if joint.method not in (None, *SCREWS):
        return fastener
    diameter = nearest(gauge_diameter(fastener.gauge), MM / 2)
    why = f"about as thick as gauge {fastener.gauge}, in the sizes of this region"
    changed.append(Changed(f"{at}/gauge", fastener.gauge, None, why))
    changed.append(Changed(f"{at}/diameter", fastener.diameter, diameter, why))
    length = fastener.length
    if length is not None:
        length = nearest(length, 5 * MM, "down") if length >= 20 * MM else length
        changed.append(Changed(f"{at}/length", fastener.length, length, "no longer than before"))
    return replace(fastener, gauge=None, diameter=diameter, length=length)


def escaped(name: str) -> str:
    """A name as a step of a JSON pointer."""
    return name.replace("~", "~0").replace("/", "~1")
