"""Small folders of tables, written for one test each."""

import csv
from collections.abc import Callable
from pathlib import Path

import pytest

from service.reference.columns import Row, table_of
from service.reference.loading import header_of
from service.reference.sources import Source
from service.reference.tables import MODELS

MakeFolder = Callable[..., Path]

SOURCES = [
    {"id": "memory", "title": "from memory", "kind": "memory"},
    {"id": "size-handbook", "title": "a handbook of sizes", "kind": "handbook"},
    {"id": "size-standard", "title": "a standard of sizes", "kind": "standard"},
]


@pytest.fixture
def board() -> dict[str, str]:
    """One sound row of lumber_sizes."""
    return {
        "key": "us.1x4.dry",
        "region": "us",
        "stock": "1x4",
        "name": "1x4",
        "class": "board",
        "row_kind": "named-size",
        "condition": "dry",
        "nominal_thickness": "1 in",
        "nominal_width": "4 in",
        "thickness": "3/4 in",
        "width": "3 1/2 in",
        "sold_by_default": "yes",
        "source": "size-standard",
        "agrees": "size-handbook",
        "locator": "Table 3",
        "confidence": "cross-checked",
        "basis": "standard",
        "preferred": "yes",
    }


@pytest.fixture
def folder_with(tmp_path: Path) -> MakeFolder:
    """Write every table's file: a header, and the rows given for `table=[row, ...]`."""

    def make(**tables: list[dict[str, str]]) -> Path:
        folder = tmp_path / "tables"
        folder.mkdir(exist_ok=True)
        tables.setdefault(table_of(Source).name, SOURCES)
        for model in MODELS:
            name = table_of(model).name
            write_table(folder, model, tables.get(name, []))
        return folder

    return make


def write_table(folder: Path, model: type[Row], rows: list[dict[str, str]]) -> None:
    with (folder / f"{table_of(model).name}.csv").open("w", encoding="utf-8", newline="") as file:
        writer = csv.DictWriter(file, header_of(model), restval="", lineterminator="\n")
        writer.writeheader()
        writer.writerows(rows)
