"""How values look in answers."""

from collections.abc import Iterator, Mapping
from fractions import Fraction
from typing import Any, cast

from service import quantities
from service.domain.catalog import BoardSize, Interval, PanelSize
from service.domain.tape import sold
from service.domain.weight import KILOGRAM, Mass

FROM_MEMORY = "none, from memory: measure before relying on it"


def length(inches: Fraction, metric: bool = False) -> dict[str, Any]:
    """A length as every answer shows it: inches, millimeters, what a tape reads, how far off."""
    return cast(dict[str, Any], quantities.measured(inches, metric=metric))


def optional_length(inches: Fraction | None, metric: bool = False) -> dict[str, Any] | None:
    """A length, or null where there is none."""
    return None if inches is None else length(inches, metric)


def limits(size: Interval, metric: bool = False) -> dict[str, Any]:
    """A size as listed; with its least and greatest where it has a tolerance."""
    listed = {"listed": length(size.listed, metric)}
    if size.is_exact:
        return listed
    return listed | {"low": length(size.low, metric), "high": length(size.high, metric)}


def number(value: Fraction) -> float:
    """An exact number as a decimal, to a millionth."""
    return round(float(value), 6)


def weight(pounds: float, places: int = 1) -> dict[str, float]:
    """A weight in both units."""
    return {"lb": round(pounds, places), "kg": round(pounds * KILOGRAM, places)}


def mass(mass: Mass) -> dict[str, Any]:
    """A mass with its spread, in both units."""
    ends = {"low": mass.low, "usual": mass.usual, "high": mass.high}
    return {
        "lb": {name: _thousandths(end) for name, end in ends.items()},
        "kg": {name: _thousandths(end * KILOGRAM) for name, end in ends.items()},
    }


def _thousandths(number: float) -> float:
    """To three places; much faster than `round`, which goes through text."""
    return int(number * 1000 + 0.5) / 1000


def stock_size(size: BoardSize | PanelSize, metric: bool = False) -> dict[str, Any]:
    """One row of the size tables."""
    shared = {
        "row": size.row,
        "stock": size.stock,
        "name": size.name,
        "sold_by_default": size.sold_by_default,
        "thickness": limits(size.thickness, metric),
        "nominal_thickness": optional_length(size.nominal_thickness, metric),
    }
    if isinstance(size, PanelSize):
        sheets = [{"width": length(w, metric), "length": length(n, metric)} for w, n in size.sheets]
        sold = {"sheets": sheets, "sheets_from_memory": size.sheets_from_memory}
        return shared | {"kind": "panel", "material": size.material} | sold
    return shared | {
        "kind": size.kind,
        "condition": size.condition,
        "width": limits(size.width, metric) if size.width else None,
        "nominal_width": optional_length(size.nominal_width, metric),
        "lengths": [length(one, metric) for one in size.lengths],
        "lengths_from_memory": size.lengths_from_memory,
    }


def in_words(size: BoardSize | PanelSize, metric: bool = False) -> str:
    """One row of the size tables on a line: what it measures, and when."""
    thick = quantities.written(size.thickness.listed, metric=metric)
    if isinstance(size, PanelSize):
        least, most = size.thickness.low, size.thickness.high
        spread = "" if size.thickness.is_exact else f", {_decimals(least)} to {_decimals(most)} in"
        return f"{size.name}: {thick} thick{spread}"
    wide = f" x {quantities.written(size.width.listed, metric=metric)}" if size.width else ""
    return f"{size.name}: {thick}{wide} ({size.kind}, {size.condition})"


def sheet(size: tuple[Fraction, Fraction], metric: bool = False) -> str:
    """A sheet, width by length."""
    return " x ".join(sold(one, metric) for one in size)


def _decimals(size: Fraction) -> str:
    return f"{float(size):.3f}"


def closing(answer: Mapping[str, Any]) -> Iterator[str]:
    """The last lines of every text answer: what was assumed, the sources, the edition."""
    yield from (f"assumed: {text}" for text in answer["assumed"])
    yield from (f"source: {text}" for text in cited(answer))
    yield f"edition: {answer['edition']}"


def cited(answer: Mapping[str, Any]) -> Iterator[str]:
    """Each source once: its title, and where in it each value stands, with how sure it is."""
    known = titles_by_id(answer)
    places: dict[str, dict[str, dict[str, None]]] = {}
    for row in answer["rests_on"]:
        if row["confidence"] == "memory":
            places.setdefault(FROM_MEMORY, {})
            continue
        title = known[row["source"]]
        where = "" if title.lower().endswith(row["locator"].lower()) else f", {row['locator']}"
        places.setdefault(title, {}).setdefault(where, {})[row["confidence"]] = None
    for title in known.values():
        places.setdefault(title, {})
    for title, found in places.items():
        said = (f"{where} ({'; '.join(sure)})" for where, sure in found.items())
        yield title + "".join(said)


def titles(answer: Mapping[str, Any]) -> list[str]:
    """The titles of an answer's sources alone, each once; what is from memory says so."""
    memory = [FROM_MEMORY] if any(r["confidence"] == "memory" for r in answer["rests_on"]) else []
    return [*dict.fromkeys(titles_by_id(answer).values()), *memory]


def titles_by_id(answer: Mapping[str, Any]) -> dict[str, str]:
    """Titles of the sources by id; what is from memory has none."""
    memory = {row["source"] for row in answer["rests_on"] if row["confidence"] == "memory"}
    return {one["id"]: one["title"] for one in answer["sources"] if one["id"] not in memory}


def span(low: float, high: float) -> str:
    """A range in words: `5`, `30 to 90`."""
    return f"{low:g}" if low == high else f"{low:g} to {high:g}"


def hundredths(value: float) -> str:
    """A count that people say to a hundredth at most: `16`, `5.33`."""
    if value < 0.005:
        return f"{value:.2g}"
    return f"{value:.2f}".rstrip("0").rstrip(".")


def exactly(value: Fraction | float) -> Fraction:
    """A length that came from an angle, as the fraction that it is nearest to."""
    return value if isinstance(value, Fraction) else Fraction(value).limit_denominator(10**9)
