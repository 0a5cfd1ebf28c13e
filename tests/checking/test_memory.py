"""A value that nobody has read in print never carries a fault."""

import json
from pathlib import Path

import pytest

from service.api.documents.build import BuildForm
from service.domain.catalog import Catalog
from service.domain.checking import check
from tests.checking.cases import CASES

WHOLE = Path(__file__).parents[1] / "builds" / "whole"
DOCUMENTS = [
    *(case.with_value(value) for case in CASES for value in case.fires),
    *(json.loads(path.read_text()) for path in sorted(WHOLE.glob("*.spoiled-*.json"))),
]


@pytest.fixture(scope="module")
def builds() -> list[object]:
    form = BuildForm()
    return [form.load(document) for document in DOCUMENTS]


def test_with_each_row_from_memory_in_turn_no_fault_rests_on_it(
    catalog: Catalog, builds: list[object]
) -> None:
    """Only rows that carry a fault today can change anything, so those are marked in turn."""
    carrying = 0
    for build in builds:
        faults = [f for f in check(build, catalog).findings if f.severity == "fault"]
        for row in {row for fault in faults for row in fault.rests_on}:
            carrying += 1
            doubtful = check(build, catalog.with_row_from_memory(row))
            resting = [f for f in doubtful.findings if row in f.rests_on]
            assert resting
            assert "fault" not in {f.severity for f in resting}
    assert carrying >= 10


def test_a_fault_stays_where_the_caller_has_measured(catalog: Catalog) -> None:
    document = {
        "name": "Measured shelf",
        "parts": [
            {
                "id": "side",
                "stock": "1x8",
                "length": "30",
                "cutouts": [
                    {"kind": "dado", "on": "face", "at": ["10"], "width": "5/8", "depth": "1/4",
                     "for": "shelf"}
                ],
            },
            {"id": "shelf", "stock": "1x8", "length": "22", "measured_thickness": "3/4",
             "measured_width": "7 1/4"},
        ],
    }  # fmt: skip
    build = BuildForm().load(document)
    for row in catalog.cited:
        if row.startswith("lumber_sizes/us.1x8"):
            catalog = catalog.with_row_from_memory(row)
    grave = [f for f in check(build, catalog).findings if f.severity != "note"]
    assert [(f.code, f.severity) for f in grave] == [("fit.binds", "fault")]
