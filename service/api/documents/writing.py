"""Parts and shapes written as a document holds them, ready to paste."""

from collections.abc import Mapping
from fractions import Fraction
from typing import Any

from service.domain.build import SQUARE, End, Part, Shape, Stock
from service.domain.tape import exact

LISTS = frozenset({"at", "miter", "bevel"})  # all other tuples are a width by a height


def part_as_document(part: Part, metric: bool) -> dict[str, Any]:
    """A part with nothing in it that a document would take for granted."""
    square = all(end == SQUARE for end in (*part.ends, *part.edges))
    whole: dict[str, Any] = {
        "id": part.id,
        "quantity": part.quantity,
        "stock": _stock(part.stock, metric),
        "length": None if part.length is None else exact(part.length, metric),
        "width": None if part.width is None else exact(part.width, metric),
        "fit": part.fit if part.fit == "to-fit" else None,
    }
    if not square:
        whole |= {
            "ends": [_end(end) for end in part.ends],
            "ends_lean": part.ends_lean,
            "edges": None if part.edges == (SQUARE, SQUARE) else [_end(e) for e in part.edges],
            "edges_lean": part.edges_lean,
            "measured": part.measured,
            "mirrored": part.mirrored or None,
        }
    return {name: value for name, value in whole.items() if value is not None}


def _stock(stock: Stock, metric: bool) -> Any:
    if stock.name is not None:
        return stock.name
    sizes = {"thickness": stock.thickness, "width": stock.width, "diameter": stock.diameter}
    return {name: exact(size, metric) for name, size in sizes.items() if size is not None}


def _end(end: End) -> dict[str, Any]:
    written: dict[str, Any] = {}
    if end.miter:
        written["miter"] = end.miter
    if end.bevel:
        written["bevel"] = end.bevel
    if end.long and written:
        written["long"] = sorted(end.long)
    return written


def shape_as_document(shape: Shape, metric: bool) -> dict[str, Any]:
    """A shape with its measures, as its form reads them."""
    entry = {
        "id": shape.id,
        "shape": shape.shape,
        "parts": {role: list(ids) for role, ids in shape.parts.items()},
        **measures_as_document(shape.fields, metric),
    }
    return entry if shape.within is None else entry | {"within": exact(shape.within, metric)}


def measures_as_document(measures: Mapping[str, object], metric: bool) -> dict[str, Any]:
    """Each measure as text or number that reads back as the same."""
    return {name: _measure(name, value, metric) for name, value in measures.items()}


def _measure(name: str, value: object, metric: bool) -> Any:
    if isinstance(value, Fraction):
        return exact(value, metric)
    if not isinstance(value, tuple):
        return value
    each = [exact(one, metric) if isinstance(one, Fraction) else one for one in value]
    return each if name in LISTS else " x ".join(each)
