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


def rails(**rest: Any) -> dict[str, Any]:
    return {"name": "Rails", "wood": "spf", **rest,
            "parts": [{"id": "rail", "stock": "1x4", "length": "24", "quantity": 3}]}  # fmt: skip


# Of 96 in of 1x4, 72 in end up in the piece: what is carried home weighs 4/3 of it.
def test_what_is_carried_home_weighs_as_much_more_as_is_bought(client: FlaskClient) -> None:
    document = rails(buying={"planned": [{"stock": "1x4", "length": "96"}]})
    mass = client.post("/v1/estimate?bought=list", json=document).json["mass"]
    for end in ("low", "usual", "high"):
        expected = mass["piece"]["lb"][end] * 4 / 3
        assert mass["carry_home"]["lb"][end] == pytest.approx(expected, abs=0.002)


def test_nothing_is_said_of_what_is_carried_home_where_nothing_is_planned(
    client: FlaskClient,
) -> None:
    mass = client.post("/v1/estimate?bought=none", json=rails()).json["mass"]
    assert mass["carry_home"] is None


# A 1x4 counts a third of a board foot in a foot: 7.19 / 8 ft = 0.89875, times 3 = 2.69625.
def test_each_price_is_said_in_every_unit(client: FlaskClient) -> None:
    prices = [{"stock": "1x4", "length": "96", "price": "7.19"}, {"stock": "hinge", "price": "3"}]
    document = rails(buying={"price_list": {"currency": "USD", "prices": prices}})
    board, hinge = client.post("/v1/estimate?bought=none", json=document).json["cost"]["prices"]
    assert board["per"] == {"piece": "7.19", "foot": "0.8988", "board-foot": "2.6962"}
    assert hinge["per"] == {"piece": "3.00"}


# Boards glued up: white glue 30 to 90 min, polyurethane glue 240 min at least (a data sheet).
@pytest.mark.parametrize(
    ("change", "longer"),
    [
        ({"glue": "polyurethane-glue"}, True),
        ({"coats": 3}, True),
        ({"temperature": "45F"}, True),
        ({"temperature": "75F"}, False),
    ],
)
def test_glue_temperature_and_coats_change_the_timeline(
    client: FlaskClient, change: dict[str, Any], longer: bool
) -> None:
    def waiting(glue: str, coats: int, temperature: str) -> float:
        steps = [{"do": "glue", "joints": ["j"]},
                 {"do": "finish", "finish": "latex-paint", "count": coats}]  # fmt: skip
        joint = {"id": "j", "through": "rail", "into": "rail", "method": "glue", "glue": glue}
        document = rails(joints=[joint], steps=steps, place={"temperature": temperature})
        low: float = client.post("/v1/estimate?bought=none", json=document).json["time"][
            "waiting"]["low"]  # fmt: skip
        return low

    usual = {"glue": "pva-interior", "coats": 2, "temperature": "70F"}
    assert (waiting(**{**usual, **change}) > waiting(**usual)) is longer


def test_what_is_not_known_is_not_told_as_nothing(client: FlaskClient) -> None:
    document = {"name": "Ledge", "parts": [{"id": "shelf", "stock": "1x6", "length": "24"}]}
    text = client.post("/v1/estimate?format=text", json=document).text
    assert "0 lb" not in text and "0.00" not in text
    assert "weight: not known\n  not weighed: shelf: its wood is not named\n" in text
    assert "cost: not known" in text


# The stock of one part has no name to buy it by, the other part is longer than any board.
def test_wood_that_nobody_can_buy_leaves_the_cost_open(client: FlaskClient) -> None:
    prices = [{"stock": "1x6", "length": "96", "price": "5"}]
    document = {
        "name": "Ledge",
        "wood": "spf",
        "parts": [
            {"id": "shelf", "stock": "1x6", "length": "24"},
            {"id": "back", "stock": {"thickness": "18 mm", "width": "100 mm"}, "length": "24"},
            {"id": "pole", "stock": "1x6", "length": "400"},
        ],
        "buying": {"price_list": {"currency": "USD", "prices": prices}},
    }
    cost = client.post("/v1/estimate", json=document).json["cost"]
    assert cost["total_is_whole"] is False
    assert cost["missing_prices"] == ["wood of back", "wood of pole"]


def test_an_unknown_finish_is_refused_with_the_nearest(client: FlaskClient) -> None:
    refusal = client.post("/v1/estimate?finish=water-polyurethan", json=rails())
    assert "nearest: water-polyurethane" in refusal.json["errors"][0]["detail"]


def test_a_finish_is_known_in_every_region(client: FlaskClient) -> None:
    document = {**rails(), "region": "atlantis"}  # judged as a stock that nobody sells there
    answer = client.post("/v1/estimate?finish=water-polyurethane", json=document)
    assert answer.status_code == 200


def test_coats_of_no_finish_are_said_to_be_passed_over(client: FlaskClient) -> None:
    answer = client.post("/v1/estimate?coats=3", json=rails()).json
    assert any(text.startswith("coats is passed over") for text in answer["assumed"])
