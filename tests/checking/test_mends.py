"""Mends: applied by a general JSON Patch library, the finding is gone and nothing new has come."""

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import jsonpatch
import pytest

from service.domain.checking import Checked
from service.domain.findings import Finding
from tests.checking.cases import CASES

Json = dict[str, Any]
Check = Callable[[Json], Checked]

MUST_MEND = {
    "size.nominal-for-actual",
    "size.unknown-stock",
    "run.does-not-add-up",
    "run.does-not-fit",
    "run.tight",
    "part.duplicate-id",
    "shape.lean",
    "shape.uneven",
    "glue.outdoors",
    "glue.missing",
    "glue.over-finish",
}
WHOLE = Path(__file__).parents[1] / "builds" / "whole"
EXPECTED = {
    name: found
    for name, found in json.loads((WHOLE / "expected.json").read_text()).items()
    if found
}
SMALL = [
    (f"{case.code} {value}", case.code, case.with_value(value))
    for case in CASES
    if case.code in MUST_MEND
    for value in case.fires
]
LARGE = [
    (name, found["code"], json.loads((WHOLE / name).read_text()))
    for name, found in EXPECTED.items()
    if found["code"] in MUST_MEND
]


def patched(document: Json, finding: Finding) -> Json:
    assert finding.mend is not None
    operations = [
        {"op": "add" if change.adds else "replace", "path": change.path, "value": change.value}
        for change in finding.mend.changes
    ]
    assert operations, "no change is offered"
    mended: Json = jsonpatch.apply_patch(document, operations)
    return mended


def grave(checked: Checked) -> set[tuple[str, str]]:
    return {(f.code, f.at) for f in checked.findings if f.severity != "note"}


@pytest.mark.parametrize(("name", "code", "document"), SMALL + LARGE, ids=lambda v: str(v)[:60])
def test_a_mend_mends_and_breaks_nothing_else(
    check_json: Check, name: str, code: str, document: Json
) -> None:
    before = check_json(document)
    finding = next(f for f in before.findings if f.code == code)
    after = check_json(patched(document, finding))
    assert (finding.code, finding.at) not in {(f.code, f.at) for f in after.findings}
    assert grave(after) <= grave(before), name


def test_every_code_that_must_mend_is_tried() -> None:
    assert {code for _, code, _ in SMALL} == MUST_MEND


def test_the_part_that_gives_takes_up_the_difference(check_json: Check) -> None:
    document = {
        "name": "Two that run along",
        "parts": [
            {"id": "left", "stock": "1x4", "length": "10"},
            {"id": "right", "stock": "1x4", "length": "12"},
        ],
        "runs": [
            {
                "id": "front",
                "pieces": [
                    {"part": "left", "along": "length"},
                    {"part": "right", "along": "length"},
                ],
                "equals": "23",
                "gives": ["right"],
            }
        ],
    }
    finding = check_json(document).findings[0]
    assert patched(document, finding)["parts"][1]["length"] == "13 in"


def test_a_mend_does_not_open_another_run(check_json: Check) -> None:
    """The shelf is in two runs: lengthening it would close one and open the other."""
    shelf = {"part": "shelf", "along": "length"}
    document = {
        "name": "Shared shelf",
        "parts": [
            {"id": "shelf", "stock": "1x8", "length": "20"},
            {"id": "cleat", "stock": "1x2", "length": "3"},
        ],
        "runs": [
            {"id": "closed", "pieces": [shelf], "equals": "20"},
            {
                "id": "open",
                "pieces": [shelf, {"part": "cleat", "along": "length"}],
                "equals": "24",
            },
        ],
    }
    finding = check_json(document).findings[0]
    assert patched(document, finding)["parts"][1]["length"] == "4 in"


def test_two_parts_of_one_length_give_together(check_json: Check) -> None:
    document = {
        "name": "Bottom and handle",
        "parts": [
            {"id": "bottom", "stock": "1x8", "length": "19"},
            {"id": "handle", "stock": "1x2", "length": "19"},
            {"id": "end", "stock": "1x8", "length": "9", "quantity": 2},
        ],
        "runs": [
            {
                "id": "length",
                "pieces": [
                    {"part": "end", "along": "thickness", "count": 2},
                    {"part": "bottom", "along": "length"},
                ],
                "equals": "21 1/2",
                "gives": ["bottom", "handle"],
            }
        ],
    }
    mended = patched(document, check_json(document).findings[0])
    assert [part["length"] for part in mended["parts"][:2]] == ["20 in", "20 in"]
