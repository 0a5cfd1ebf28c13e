"""POST /v1/check: a whole build in, findings and resolved parts out."""

import copy
from typing import Any

import jsonpatch
from flask.testing import FlaskClient


def checked(client: FlaskClient, build: Any, query: str = "") -> Any:
    response = client.post(f"/v1/check{query}", json=build)
    assert response.status_code == 200, response.text
    return response.json


def codes(answer: Any) -> list[str]:
    return [finding["code"] for finding in answer["findings"]]


def test_the_example_of_the_contract_passes_the_check(client: FlaskClient, tote: Any) -> None:
    answer = checked(client, tote)
    assert [f for f in answer["findings"] if f["severity"] in ("fault", "warn")] == []


def test_an_answer_never_comes_without_what_was_not_judged(client: FlaskClient, tote: Any) -> None:
    answer = checked(client, tote)
    assert set(answer) == {
        "verdict", "findings", "not_judged", "parts", "edition", "assumed", "rests_on", "sources",
    }  # fmt: skip
    assert len(answer["not_judged"]) >= 4


# PS 20, Table 3: a dry 1x8 is 3/4 in by 7 1/4 in. 20 x 7 1/4 x 3/4 = 108.75 cubic inches.
def test_each_part_comes_back_at_its_real_size(client: FlaskClient, tote: Any) -> None:
    bottom = checked(client, tote)["parts"][0]
    assert (bottom["id"], bottom["at"], bottom["stock"]) == ("bottom", "#/parts/0", "1x8")
    assert bottom["width"]["listed"]["tape"] == '7 1/4"'
    assert bottom["cut"]["volume_in3"] == 108.75
    assert bottom["cut"]["blank_length"]["in"] == 20


def test_a_finding_says_what_where_why_and_on_what_it_rests(client: FlaskClient, tote: Any) -> None:
    tote["parts"][1]["width"] = "8"
    (finding,) = [
        f for f in checked(client, tote)["findings"] if f["code"] == "size.nominal-for-actual"
    ]
    assert finding["at"] == "#/parts/1/width"
    assert finding["severity"] == "fault"
    assert finding["numbers"]["real"]["tape"] == '7 1/4"'
    assert finding["mend"]["patch"] == [
        {"op": "replace", "path": "/parts/1/width", "value": "7 1/4 in"}
    ]
    assert finding["rests_on"] == ["lumber_sizes/us.1x8.dry"]
    assert "ps-20" in finding["sources"]
    assert client.get(finding["why"]).status_code == 200


def test_a_patch_puts_right_what_its_finding_found(client: FlaskClient, tote: Any) -> None:
    tote["parts"][3]["stock"] = "1x2x"
    (patch,) = [
        finding["mend"]["patch"]
        for finding in checked(client, tote)["findings"]
        if finding["code"] == "size.unknown-stock"
    ]
    mended = jsonpatch.apply_patch(tote, patch)
    assert "size.unknown-stock" not in codes(checked(client, mended))


def test_the_mended_build_is_mended_once_and_otherwise_unchanged(
    client: FlaskClient, tote: Any
) -> None:
    sound = copy.deepcopy(tote)
    tote["parts"][1]["width"] = "8"
    tote["parts"][3]["stock"] = "1x2x"
    mended = checked(client, tote, "?mended=true")["mended"]
    assert mended["parts"][1].pop("width") == "7 1/4 in"
    assert mended == sound


def test_the_build_comes_back_mended_only_when_asked(client: FlaskClient, tote: Any) -> None:
    assert "mended" not in checked(client, tote)
    assert "mended" not in checked(client, tote, "?mended=false")
    assert checked(client, tote, "?mended=true")["mended"] == tote


def test_the_same_build_gives_the_same_bytes(client: FlaskClient, tote: Any) -> None:
    first, again = (client.post("/v1/check", json=tote).data for _ in range(2))
    assert first == again


def test_a_metric_build_is_answered_in_whole_millimeters(client: FlaskClient) -> None:
    part = {"id": "a", "stock": {"thickness": 18, "width": 100}, "length": 527.4}
    answer = checked(client, {"name": "a", "units": "mm", "region": "uk", "parts": [part]})
    length = answer["parts"][0]["length"]
    assert (length["mm"], length["tape"], length["off_by"]) == (527.4, "527 mm", "-0.4 mm")
