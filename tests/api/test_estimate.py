"""The estimate and the coverage over HTTP."""

from typing import Any

import pytest
from flask.testing import FlaskClient


def test_a_sound_build_is_estimated(client: FlaskClient, tote: Any) -> None:
    answer = client.post("/v1/estimate", json=tote)
    assert answer.status_code == 200, answer.text
    assert set(answer.json) >= {"mass", "cost", "time", "edition", "assumed", "sources"}
    assert answer.json["cost"]["total_is_whole"] is False
    assert "1x4, 48 in" in answer.json["cost"]["missing_prices"]


def test_an_estimate_in_text_has_lines_of_80_columns(client: FlaskClient, tote: Any) -> None:
    answer = client.post("/v1/estimate?format=text", json=tote)
    assert answer.mimetype == "text/plain"
    assert all(len(line) <= 80 for line in answer.text.splitlines())
    assert "the label's own statement decides" in answer.text


def test_finishing_first_is_asked_for(client: FlaskClient, tote: Any) -> None:
    tote.pop("steps")
    answer = client.post(
        "/v1/estimate?finish=shellac&coats=2&finish_when=before", json=tote
    )  # fmt: skip
    whats = [step["what"] for step in answer.json["time"]["steps"]]
    assert whats.index("shellac, coat 1") == whats.index("mask the glue faces") + 1


# 400 ft2 / 400 ft2/gal x 2 coats = 2 gal = 8 qt = 7.571 L (a US gallon is 3.785412 L).
def test_the_label_wins_over_the_tables(client: FlaskClient) -> None:
    path = "/v1/coverage?finish=shellac&area=200+ft2&faces=2&coats=2&spread=400+ft2/gal&loss=0"
    answer = client.get(path).json
    assert answer["amount"]["qt"] == {"low": 8.0, "high": 8.0}
    assert answer["amount"]["L"] == {"low": 7.571, "high": 7.571}


# floor-finish-table: 400 to 600 ft2/gal, 2 to 4 h to recoat, 3 to 7 days to cure.
def test_a_finish_is_answered_by_its_printed_range(client: FlaskClient) -> None:
    answer = client.get("/v1/coverage?finish=water-polyurethane&area=600ft2&coats=1&loss=0").json
    assert answer["amount"]["qt"] == {"low": 4.0, "high": 6.0}
    assert (answer["hours"]["recoat"]["low"], answer["hours"]["recoat"]["high"]) == (2, 4)
    assert (answer["hours"]["cure"]["low"], answer["hours"]["cure"]["high"]) == (72, 168)


@pytest.mark.parametrize(
    ("query", "parameter"),
    [
        ("area=20ft2", "finish"), ("finish=shellac", "area"), ("finish=shellac&area=20", "area"),
        ("finish=shellak&area=20ft2", "finish"), ("finish=shellac&area=0ft2", "area"),
    ],
)  # fmt: skip
def test_what_can_not_be_read_is_refused_at_its_parameter(
    client: FlaskClient, query: str, parameter: str
) -> None:
    answer = client.get(f"/v1/coverage?{query}")
    assert answer.status_code == 422
    assert [error.get("parameter") for error in answer.json["errors"]] == [parameter]
