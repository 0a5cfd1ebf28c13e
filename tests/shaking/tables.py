"""Decisive table values, changed by 2 %, one at a time: does a printed value or a build notice?"""

import json
import tempfile
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from service.api.documents.build import BuildForm
from service.domain.build import Build
from service.domain.catalog import Catalog
from service.domain.checking import check
from service.reference.building import build as build_tables
from service.reference.cataloging import catalog_of
from service.reference.opening import open_for_reading
from service.reference.printed import Printed
from service.reference.reading import Rows, read_rows
from tests.checking.cases import CASES
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
    "standing_practice": ("low", "high"),
    "cautions": ("low", "high"),
}
ONLY = {
    "species_values": ("specific-gravity", "modulus-of-"),
    "panel_values": ("density", "specific-gravity", "modulus-of-"),
}

Findings = list[tuple[str, str, str]]


@dataclass(frozen=True)
class Evidence:
    """What the tests know: printed values, and builds with the findings they give."""

    builds: tuple[tuple[Build, Findings], ...]

    def notices(self, rows: Rows) -> bool:
        """Whether anything differs with these rows."""
        catalog = catalog_of(rows)
        return any(grave(b, catalog) != expected for b, expected in self.builds) or any(
            off(Asked(catalog, rows), row) for row in WOOD
        )


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
    return Evidence(tuple((build, grave(build, catalog)) for build in builds))


def shaken(rows: Rows) -> Iterator[tuple[str, str, Rows]]:
    """Every decisive value of a preferred row, changed: table, where, and all the rows."""
    for table, columns in DECISIVE.items():
        for place, cells in enumerate(rows.tables[table]):
            asked = ONLY.get(table)
            wanted = asked is None or cells["property"].startswith(asked)
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
