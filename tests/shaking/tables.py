"""Decisive table values, changed by 2 %, one at a time: does a printed value or a build notice?"""

import json
import tempfile
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from pathlib import Path
from typing import Any

from service.api.documents.build import BuildForm
from service.domain.build import Build
from service.domain.catalog import Catalog
from service.domain.checking import check
from service.domain.clamping import clamping
from service.domain.fasteners import ScrewSize, gauge_diameter, gauge_number
from service.domain.gluing import Label, coldest, working_time
from service.domain.gravity import Gravity, assigned_gravity
from service.domain.holding import Seat, screw_hold
from service.domain.pilot_holes import drilling, screw_named
from service.domain.splitting import Standing, distances
from service.reference.building import build as build_tables
from service.reference.cataloging import catalog_of
from service.reference.opening import open_for_reading
from service.reference.printed import Printed
from service.reference.reading import Rows, read_rows
from tests.checking.cases import CASES
from tests.domain.test_gluing import COLDEST, OPEN_TIMES
from tests.domain.test_pilot_holes import PILOTS
from tests.published.test_connections import (
    CONNECTIONS,
    FORMULAS,
    NAMED,
    PENNIES,
    ROOTS,
    sizes_held,
)
from tests.published.test_published import CALCULATIONS, WOOD, Asked

PROJECT = Path(__file__).resolve().parents[2]
WHOLE = PROJECT / "tests" / "builds" / "whole"
DECISIVE = {
    "lumber_sizes": ("thickness", "width", "nominal_thickness", "nominal_width"),
    "panels": ("thickness_min", "thickness_max", "nominal_thickness", "metric_thickness"),
    "size_tolerances": ("minus", "plus"),
    "species_values": ("low",),
    "assigned_gravities": ("gravity",),
    "panel_values": ("low", "usual"),
    "saw_limits": ("low", "high"),
    "screw_values": ("low", "high"),
    "nail_values": ("low", "high"),
    "pilot_holes": ("low", "high", "usual"),
    "connection_constants": ("value",),
    "glue_values": ("low", "high", "usual"),
    "glue_classes": ("low", "high"),
}
# Where only some rows of a table decide anything: the column that says so, and how it begins.
ONLY = {
    "species_values": ("property", ("specific-gravity",)),
    "panel_values": ("property", ("density", "specific-gravity")),
    "screw_values": ("property", ("major-diameter", "root-diameter")),
    "nail_values": ("key", tuple(f"{key}.diameter" for key, _ in PENNIES)),
    "connection_constants": (
        "key", ("yield-strength.d-", "bearing.steel", "end-grain.lateral",
                "planning-gravity.softwood", "planning-gravity.lightest",
                *(f"spacing.wood.{bored}prebored.{what}" for bored in ("", "not-")
                  for what in ("edge", "end.away", "row"))),
    ),
    "glue_values": ("property", ("open-time", "lowest-temperature", "slower-when-cold")),
    "glue_classes": ("key", ("clamp-placing", "clamp-pressure")),
}  # fmt: skip

Findings = list[tuple[str, str, str]]


@dataclass(frozen=True)
class Evidence:
    """What the tests know: printed values, and builds with the findings they give."""

    builds: tuple[tuple[Build, Findings], ...]
    fastened: list[object]

    def notices(self, rows: Rows) -> bool:
        """Whether anything differs with these rows."""
        catalog = catalog_of(rows)
        return (
            any(grave(b, catalog) != expected for b, expected in self.builds)
            or any(off(Asked(catalog, rows), row) for row in WOOD)
            or fastened(catalog) != self.fastened
        )


def gauge_off(screw: ScrewSize) -> bool:
    """Whether a screw is not as thick as its gauge says."""
    number = gauge_number(screw.gauge or "no-0")
    return abs(screw.diameter.value - gauge_diameter(number)) >= Fraction("0.0002")


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


def fastened(catalog: Catalog) -> list[object]:
    """What the tests of fastenings and glue hold against print, in the order they do."""
    found: list[object] = [sizes_held(catalog, key) for key, _, _ in NAMED]
    for row in CONNECTIONS:
        inputs = json.loads(row["inputs"])
        found.append(FORMULAS[row["what"]](catalog, inputs, row["unit"]))
    for gauge, wood, _ in PILOTS:
        screw = screw_named(catalog, gauge, None)
        drilled = drilling(catalog, screw, catalog.woods[wood])
        found += [drilled.pilot, drilled.clearance]
    drills = catalog.fasteners.drills.values()
    found += [drill for drill in drills if (drill.low + drill.high + drill.usual) * 64 % 1]
    found += [sizes_held(catalog, f"wood-screw.no-{gauge}")[1] for gauge in ROOTS]
    found += [sizes_held(catalog, nail) for nail, _ in PENNIES]
    found += [gauge_off(screw) for screw in catalog.fasteners.screws if screw.gauge]
    found += [working_time(catalog.glues[g], Label(), Fraction(50)) for g, _, _ in OPEN_TIMES]
    found += [coldest(catalog.glues[glue], Label()) for glue, _ in COLDEST]
    light = catalog.woods["whitewood-us"]
    found += [assigned_gravity(catalog, None), assigned_gravity(catalog, light)]
    end = Seat(Fraction(1, 2), Fraction(2), Fraction(2), "end", Gravity(0.5, ()), Gravity(0.5, ()))
    found.append(screw_hold(catalog, screw_named(catalog, "10", None), end))
    for wood in ("spf", "oak-white", "cherry-black"):
        found.append(clamping(catalog, Fraction(36), Fraction(3, 4), wood=catalog.woods[wood]))
    for piloted in (True, False):
        screw = Standing(Fraction("0.164"), piloted, Fraction(3, 4), gauge="no-8")
        found.append(distances(catalog, screw))
    return found


def shaken(rows: Rows) -> Iterator[tuple[str, str, Rows]]:
    """Every decisive value of a preferred row, changed: table, where, and all the rows."""
    for table, columns in DECISIVE.items():
        for place, cells in enumerate(rows.tables[table]):
            asked = ONLY.get(table)
            wanted = asked is None or cells[asked[0]].startswith(asked[1])
            if cells["preferred"] != "yes" or not wanted:
                continue
            for column in columns:
                cell = cells[column]
                if not isinstance(cell, Printed) or not cell.value:
                    continue
                larger = replace(cell, value=cell.value * 51 / 50, text=scaled(cell.text))
                row = {**cells, column: larger}
                if table == "species_values":
                    row["high"] = larger
                changed = [*rows.tables[table]]
                changed[place] = row
                tables = {**rows.tables, table: tuple(changed)}
                yield (
                    table,
                    f"{cells['key']} {column} ({cells['confidence']})",
                    replace(rows, tables=tables),
                )


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
