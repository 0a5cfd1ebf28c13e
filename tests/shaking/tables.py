"""Decisive table values, changed by 2 %, one at a time: does a printed value or a build notice?"""

import json
import tempfile
from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from inspect import signature
from pathlib import Path
from typing import Any

from service.api.documents.build import BuildForm
from service.domain.build import Build
from service.domain.catalog import Catalog
from service.domain.checking import check
from service.reference.building import build as build_tables
from service.reference.cataloging import catalog_of
from service.reference.columns import Cells
from service.reference.opening import open_for_reading
from service.reference.printed import Printed
from service.reference.reading import Rows, read_rows
from tests.checking.cases import CASES
from tests.published.test_connections import PENNIES
from tests.published.test_published import CALCULATIONS, WOOD, Asked
from tests.reference import test_whole_tables
from tests.shaking.fastened import fastened

PROJECT = Path(__file__).resolve().parents[2]
WHOLE = PROJECT / "tests" / "builds" / "whole"
# Columns that are changed together: a value that is printed as a range, or once for all three.
RANGE = ("low", "usual", "high")
DECISIVE = {
    "lumber_sizes": (("thickness",), ("width",), ("nominal_thickness",), ("nominal_width",)),
    "panels": (("thickness_min",), ("thickness_max",), ("nominal_thickness",)),
    "size_tolerances": (("minus",), ("plus",)),
    "species_values": (RANGE,),
    "panel_values": (RANGE,),
    "saw_limits": (RANGE,),
    "assigned_gravities": (("gravity",),),
    "screw_values": (RANGE,),
    "nail_values": (RANGE,),
    "bolt_values": (RANGE,),
    "pilot_holes": (RANGE,),
    "connection_constants": (("value",),),
    "glue_values": (RANGE,),
    "glue_classes": (RANGE,),
    "standing_practice": (RANGE,),
    "cautions": (RANGE,),
}
# Rows that an answer is figured from: what only stands in a table to be read decides nothing.
DECIDES: dict[str, Callable[[Cells], bool]] = {
    "lumber_sizes": lambda cells: bool(cells["stock"]),
    "species_values": lambda cells: cells["property"].startswith(WOOD_PROPERTIES),
    "panel_values": lambda cells: cells["property"].startswith(("density", *WOOD_PROPERTIES)),
    "saw_limits": lambda cells: cells["item"] in SAW_ITEMS,
    "screw_values": lambda cells: cells["property"] in ("major-diameter", "root-diameter"),
    "nail_values": lambda cells: cells["key"] in {f"{key}.diameter" for key, _ in PENNIES},
    "bolt_values": lambda cells: cells["property"] != "washer-thickness",
    "connection_constants": lambda cells: cells["key"].startswith(CONSTANTS),
    "glue_values": lambda cells: cells["property"].startswith(GLUE_PROPERTIES),
    "glue_classes": lambda cells: cells["key"].startswith(("clamp-placing", "clamp-pressure")),
}
CONSTANTS = (
    "yield-strength.d-", "bearing.steel", "end-grain.lateral", "planning-gravity.softwood",
    "planning-gravity.lightest", "duration.", "wet-service.", "toe-nail.", "bolt.",
    *(f"spacing.wood.{bored}prebored.{what}" for bored in ("", "not-")
      for what in ("edge", "end.away", "row")),
)  # fmt: skip
WOOD_PROPERTIES = ("specific-gravity", "modulus-of-")
GLUE_PROPERTIES = ("open-time", "lowest-temperature", "slower-when-cold")
SAW_ITEMS = {
    "bevel-angle", "crosscut-thickness", "crosscut-width", "cut-depth", "miter-angle",
    "shortest-held",
}  # fmt: skip

Findings = list[tuple[str, str, str]]


@dataclass(frozen=True)
class Evidence:
    """What the tests know: printed values, and builds with the findings they give."""

    builds: tuple[tuple[Build, Findings], ...]
    fastened: list[object]

    def notices(self, rows: Rows) -> bool:
        """Whether anything differs with these rows."""
        try:
            catalog = catalog_of(rows)
            whole_tables(rows, catalog)
        except (AssertionError, LookupError):
            return True
        return (
            any(grave(b, catalog) != expected for b, expected in self.builds)
            or any(off(Asked(catalog, rows), row) for row in WOOD)
            or fastened(catalog) != self.fastened
        )


def whole_tables(rows: Rows, catalog: Catalog) -> None:
    """Every whole-table test that reads the rows or the catalog. Raises AssertionError."""
    known = {"reference_rows": rows, "catalog": catalog}
    for name, test in vars(test_whole_tables).items():
        wants = list(signature(test).parameters) if name.startswith("test_") else []
        if wants and set(wants) <= set(known):
            test(**{want: known[want] for want in wants})


def grave(build: Build, catalog: Catalog) -> Findings:
    found = check(build, catalog).findings
    return [(f.code, f.at, f.severity) for f in found]


def off(asked: Asked, row: dict[str, str]) -> bool:
    inputs = json.loads(row["inputs"])
    try:
        found = CALCULATIONS[row["what"]](asked, row["unit"], **inputs)
    except (AssertionError, KeyError, ValueError):
        return True
    return abs(found - float(row["expected"])) > float(row["tolerance"]) + 1e-9


def evidence(catalog: Catalog) -> Evidence:
    form = BuildForm()
    documents: list[dict[str, Any]] = [
        case.with_value(value) for case in CASES for value in (*case.silent, *case.fires)
    ]
    documents += [
        json.loads(path.read_text())
        for path in sorted(WHOLE.glob("*.json"))
        if path.name != "expected.json"
    ]
    builds = [form.load(document) for document in documents]
    return Evidence(tuple((build, grave(build, catalog)) for build in builds), fastened(catalog))


def shaken(rows: Rows) -> Iterator[tuple[str, str, Rows]]:
    """Every decisive value of a preferred row, changed: table, where, and all the rows."""
    for table, groups in DECISIVE.items():
        decides = DECIDES.get(table, lambda cells: True)
        for place, cells in enumerate(rows.tables[table]):
            if cells["preferred"] != "yes" or not decides(cells):
                continue
            for columns in groups:
                larger = {name: cell for name in columns if (cell := grown(cells[name]))}
                if not larger:
                    continue
                changed = [*rows.tables[table]]
                changed[place] = {**cells, **larger}
                where = f"{cells['key']} {'/'.join(larger)} ({cells['confidence']})"
                yield table, where, replace(rows, tables={**rows.tables, table: tuple(changed)})


def grown(cell: object) -> Printed[Fraction] | None:
    """A printed value 2 % larger; None where there is none to change."""
    if not isinstance(cell, Printed) or not cell.value:
        return None
    return Printed(scaled(cell.text), cell.value * 51 / 50)


def scaled(text: str) -> str:
    """A printed number 2 % larger, where it is a plain one."""
    try:
        return f"{float(text) * 1.02:.6g}"
    except ValueError:
        return text


def survivors() -> list[str]:
    """Values that nothing notices."""
    with tempfile.TemporaryDirectory() as folder:
        url = f"sqlite:///{folder}/reference.sqlite"
        build_tables(PROJECT / "reference_data", url)
        rows = read_rows(open_for_reading(url))
    known = evidence(catalog_of(rows))
    found, tried = [], Counter[str]()
    for table, where, changed in shaken(rows):
        tried[table] += 1
        if not known.notices(changed):
            found.append(f"{table}: {where}")
    for table, count in tried.items():
        left = sum(entry.startswith(f"{table}:") for entry in found)
        print(f"{table}: {count} values changed, {left} not noticed")
    return found
