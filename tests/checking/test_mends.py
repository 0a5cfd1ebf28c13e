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


def test_a_sheet_at_its_thick_end_goes_into_the_mended_opening(check_json: Check) -> None:
    """Four sheets of 23/32 in, a 64th thicker at most, and a shelf: 20 in and 2 7/8 and 1/16."""
    sheet = {"id": "side", "stock": "plywood 3/4", "length": "30", "width": "10", "quantity": 4}
    pieces = [{"part": "side", "along": "thickness", "count": 4}, {"size": "20", "name": "room"}]
    document = {"name": "Opening", "parts": [sheet],
                "runs": [{"id": "in", "pieces": pieces, "fits": "22 1/2"}]}  # fmt: skip
    finding = next(f for f in check_json(document).findings if f.code == "run.does-not-fit")
    mended = patched(document, finding)
    assert grave(check_json(mended)) == set()
    assert mended["runs"][0]["pieces"][1]["size"] == "19 9/16 in"


def fastened(method: str, length: str, **joint: Any) -> Json:
    board = {"stock": "1x4", "length": "20"}
    held = {"id": "j", "through": "rail", "into": "post", "enters": "face", "method": method}
    return {
        "name": "Held", "wood": "spf", "parts": [{"id": "rail", **board}, {"id": "post", **board}],
        "joints": [{**held, "fastener": {"diameter": "0.131", "length": length}, **joint}],
    }  # fmt: skip


def test_a_shorter_nail_asks_for_no_glue_that_nobody_spoke_of(check_json: Check) -> None:
    """Two boards of 3/4 in: a nail of 2 in comes out, and a shorter one needs no glue."""
    document = fastened("nail", "2")
    finding = next(f for f in check_json(document).findings if f.code == "fastener.pokes-out")
    mended = patched(document, finding)
    assert "glue" not in mended["joints"][0]
    assert ("fastener.pokes-out", finding.at) not in grave(check_json(mended))


def test_glue_in_place_of_a_fastener_is_said_in_words(check_json: Check) -> None:
    """Clamps are all there is: a change to glue would leave the screw named beside it."""
    document = fastened("screw", "5/8", touches="edge") | {"shop": {"tools": ["clamps"]}}
    finding = next(f for f in check_json(document).findings if f.code == "fastener.too-short")
    assert finding.mend is not None
    assert finding.mend.words == "Use glue instead, and leave the fastener out."
    assert finding.mend.changes == ()


@pytest.mark.parametrize(("warmth", "glue"), [("70 F", "pva-interior"), ("55 F", "pva-yellow")])
def test_a_missing_glue_is_one_that_sets_where_it_is(
    check_json: Check, warmth: str, glue: str
) -> None:
    """White glue wants 60 F, yellow glue 50 F."""
    board = {"stock": "1x4", "length": "20"}
    document = {
        "name": "Cool", "parts": [{"id": "rail", **board}, {"id": "post", **board}],
        "joints": [{"id": "j", "through": "rail", "into": "post", "method": "dowel"}],
        "place": {"temperature": warmth},
    }  # fmt: skip
    finding = next(f for f in check_json(document).findings if f.code == "glue.missing")
    mended = patched(document, finding)
    assert mended["joints"][0]["glue"] == glue
    assert grave(check_json(mended)) == set()
