"""POST /v1/resize over HTTP."""

import json
from pathlib import Path
from typing import Any

import pytest
from flask.testing import FlaskClient

WHOLE = Path(__file__).parents[1] / "builds" / "whole"


def shelf() -> Any:
    return json.loads((WHOLE / "wall-shelf.json").read_text())


def post(client: FlaskClient, body: Any, query: str = "") -> Any:
    return client.post(f"/v1/resize{query}", json=body)


def test_the_answer_is_the_callers_document_with_only_the_changes(client: FlaskClient) -> None:
    """24 in less two sides of 3/4 in let in 1/4 in each: 23 in; the rest as it was written."""
    answer = post(client, {"build": shelf(), "to": {"width": "24"}}).get_json()
    expected = shelf()
    expected["runs"][0]["equals"] = expected["runs"][1]["equals"] = "24 in"
    expected["parts"][1]["length"], expected["parts"][2]["length"] = "23 in", "22 1/2 in"
    expected["loads"][0]["span"] = "22 1/2 in"
    assert answer["build"] == expected
    assert answer["verdict"] == "nothing-found"


def test_a_change_says_what_it_was_what_the_tape_reads_and_why(client: FlaskClient) -> None:
    """24.01 in less 1 in is 23.01 in: a tape reads 23, 0.01 in less."""
    answer = post(client, {"build": shelf(), "to": {"width": "24.01"}}).get_json()
    change = next(c for c in answer["changed"] if c["at"] == "#/parts/1/length")
    assert change["was"]["tape"] == '20"'
    assert (change["is"]["in"], change["is"]["tape"]) == (23.01, '23"')
    assert change["why"] == "it gives in the run width"


def test_rounding_to_a_tape_writes_what_can_be_marked(client: FlaskClient) -> None:
    body = {"build": shelf(), "to": {"width": "24.01"}}
    answer = post(client, body, "?round=tape").get_json()
    assert answer["build"]["parts"][1]["length"] == "23 in"
    assert {"part": "shelf", "fit": "to-fit"}.items() <= answer["order"][0].items()


def test_the_new_size_brings_its_own_findings(client: FlaskClient) -> None:
    answer = post(client, {"build": shelf(), "to": {"width": "100"}}).get_json()
    assert "size.longer-than-stock" in [finding["code"] for finding in answer["findings"]]


def test_a_build_in_millimeters_keeps_every_length(client: FlaskClient) -> None:
    """24 in is 609.6 mm; nothing is left that would read as another size."""
    answer = post(client, {"build": shelf(), "units": "mm"}).get_json()
    assert answer["build"]["units"] == "mm"
    assert answer["build"]["parts"][0]["length"] == "609.6 mm"
    assert answer["changed"][0]["at"] == "#/units"
    assert answer["verdict"] == "nothing-found"


@pytest.mark.parametrize(
    "name", ["boot-rack", "hall-mirror", "pin-board", "spice-grid", "low-shelf"]
)
def test_another_region_in_millimeters_closes_every_run(client: FlaskClient, name: str) -> None:
    document = json.loads((WHOLE / f"{name}.json").read_text())
    body = {"build": document, "region": "uk", "units": "mm"}
    answer = post(client, body).get_json()
    codes = [f["code"] for f in answer["findings"] if f["severity"] != "note"]
    assert [code for code in codes if not code.startswith(("fit.", "fastener."))] == []


def test_a_stock_may_be_given_at_its_real_size(client: FlaskClient) -> None:
    """21 in is 533.4 mm; less 36 mm, with 6.35 mm let in twice: 510.1 mm."""
    body = {"build": shelf(), "stock": {"1x8": {"thickness": "18 mm"}}}
    answer = post(client, body).get_json()
    assert answer["build"]["stocks"] == {"1x8": {"measured_thickness": "18 mm"}}
    assert answer["build"]["parts"][1]["length"] == "510.1 mm"


@pytest.mark.parametrize(
    ("body", "kind", "pointer"),
    [
        ({"to": {"stock-sum": "30"}}, "unknown-in-resize", "#/to/stock-sum"),
        ({"region": "atlantis"}, "unknown-in-resize", "#/region"),
        ({"to": {"width": "1/2"}}, "nothing-left", "#/build/parts/1/length"),
        ({}, "invalid-document", "#"),
        ({"to": {"width": "nine"}}, "invalid-document", "#/to/width"),
        ({"too": {}}, "invalid-document", "#/too"),
    ],
)  # fmt: skip
def test_refusals_point_at_what_is_wrong(
    client: FlaskClient, body: Any, kind: str, pointer: str
) -> None:
    response = post(client, {"build": shelf(), **body})
    assert response.status_code == 422
    problem = response.get_json()
    assert problem["type"] == f"/problems/{kind}"
    assert problem["errors"][0]["pointer"] == pointer


def test_a_part_beside_the_run_goes_by_its_own_run_where_that_is_asked_too(
    client: FlaskClient,
) -> None:
    """25 in less two sides of 3/4 in: 23 1/2 in."""
    body = {"build": shelf(), "to": {"width": "24", "width-inside": "25"}}
    assert post(client, body).get_json()["build"]["parts"][2]["length"] == "23 1/2 in"


def test_runs_that_contradict_each_other_are_both_named(client: FlaskClient) -> None:
    document = shelf()
    document["runs"].append({**document["runs"][1], "id": "again"})
    problem = post(client, {"build": document, "to": {"width-inside": "24", "again": "25"}})
    assert problem.get_json()["type"] == "/problems/runs-contradict"
    assert [e["pointer"] for e in problem.get_json()["errors"]] == [
        "#/build/runs/1",
        "#/build/runs/3",
    ]


def test_a_fault_in_the_build_is_pointed_at_inside_it(client: FlaskClient) -> None:
    document = shelf()
    document["parts"][0]["length"] = "-3"
    problem = post(client, {"build": document, "to": {"width": "24"}}).get_json()
    assert problem["errors"][0]["pointer"] == "#/build/parts/0/length"
