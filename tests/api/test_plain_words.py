"""What plain answers say, in words that a builder would use."""

import re
from typing import Any

from flask.testing import FlaskClient

PLAIN = {"Accept": "text/plain"}


def told(client: FlaskClient, path: str) -> str:
    """A plain answer as running words."""
    return " ".join(client.get(path, headers=PLAIN).text.split())


def planned(client: FlaskClient, build: Any) -> str:
    return " ".join(
        client.post("/v1/cut-plan?deadline_s=1", json=build, headers=PLAIN).text.split()
    )


def test_board_feet_are_said_to_the_hundredth(client: FlaskClient) -> None:
    # 4 x 1 x 6 x 32 / 144 = 5 1/3
    assert told(client, "/v1/board-feet?stock=1x6&length=32&count=4").startswith("5.33 board feet")
    assert told(client, "/v1/board-feet?stock=1x6&length=8ft&count=4").startswith("16 board feet")


def test_the_best_fastening_is_said_short_words_first(client: FlaskClient) -> None:
    text = told(client, "/v1/fasteners?through=1x4&into=1x4&tools=drill,clamps")
    assert text.startswith('best: 2 #8 wood screws 1 1/4", pilot 3/32", glue pva-interior.')


def test_a_number_of_things_is_never_run_into_their_size(client: FlaskClient) -> None:
    text = told(client, "/v1/fasteners?through=1x4&into=1x4")
    assert not re.search(r"[:;] [0-9]+ [0-9]", text), "2 18 gauge brads"


def test_an_end_that_sticks_out_is_not_called_a_span(client: FlaskClient) -> None:
    text = told(client, "/v1/sag?stock=1x8&span=36&load=40lb&wood=spf&held=one-end")
    assert 'over 36", sticking out from one end' in text
    # International Building Code, Table 1604.3, note i: twice the length of a cantilever
    assert 'an end that sticks out 36", counted as a span of 72"' in text
    assert "Let it stick out" in text and "Bring the supports" not in text


def test_a_plank_on_two_supports_keeps_its_span(client: FlaskClient) -> None:
    text = told(client, "/v1/sag?stock=1x8&span=36&load=40lb&wood=spf&stays=yes")
    assert 'over 36", resting on both ends' in text
    assert "sticks out" not in text and "Bring the supports" in text


SLATS = {
    "name": "Slats",
    "parts": [{"id": "slat", "stock": "1x4", "length": "24", "quantity": 2}],
    "buying": {
        "offcuts": [{"stock": "1x4", "length": "60"}],
        "spare": 1,
        "price_list": {
            "currency": "USD",
            "prices": [{"stock": "1x4", "length": "96", "price": "5.00"}],
        },
    },
}


def with_budget(amount: str) -> Any:
    return SLATS | {"buying": SLATS["buying"] | {"budget": amount}}  # type: ignore[operator]  # a dict


def test_a_spare_board_alone_is_not_added_to_none(client: FlaskClient) -> None:
    text = planned(client, SLATS)
    assert 'buy 1 spare of 1x4 96"' in text
    assert "buy 0" not in text


def test_a_plan_is_held_against_the_budget(client: FlaskClient) -> None:
    over = client.post("/v1/cut-plan", json=with_budget("4.00")).json
    assert (over["budget"], over["over_budget"], over["outlay"]) == ("4.00", True, "5.00")
    assert "budget 4.00 USD: 1.00 over it" in planned(client, with_budget("4.00"))
    within = client.post("/v1/cut-plan", json=with_budget("6.50")).json
    assert (within["budget"], within["over_budget"]) == ("6.50", False)
    assert "budget 6.50 USD: 1.50 left of it" in planned(client, with_budget("6.50"))


def test_without_a_budget_none_is_named(client: FlaskClient) -> None:
    answer = client.post("/v1/cut-plan", json=SLATS).json
    assert (answer["budget"], answer["over_budget"]) == (None, None)
    assert "budget" not in planned(client, SLATS)


PANELS = {
    "name": "Shelves",
    "units": "mm",
    "region": "eu",
    "parts": [
        {"id": "side", "stock": "plywood-18mm", "length": 800, "width": 300, "quantity": 2},
        {"id": "shelf", "stock": "plywood-18mm", "length": 600, "width": 290, "quantity": 3},
    ],
    "buying": {
        "price_list": {
            "currency": "EUR",
            "prices": [
                {"stock": "plywood-18mm", "length": 2500, "width": 1250, "price": "70.00",
                 "per": "sheet"}
            ],
        }
    },
}  # fmt: skip


def test_every_cut_of_a_sheet_says_which_piece_is_in_hand(client: FlaskClient) -> None:
    answer = client.post("/v1/cut-plan?deadline_s=1", json=PANELS).json
    text = planned(client, PANELS)
    (sheet,) = answer["sheets"]
    assert "cut 1 (home), in hand the sheet: its " in text
    for cut in sheet["cuts"][1:]:
        piece = cut["piece"]
        size = f"{piece['length']['tape']} x {piece['width']['tape']}"
        at = f"{piece['x']['tape']}, {piece['y']['tape']}"
        assert f"in hand {size} from {at}: its {cut['across']} at {cut['at']['tape']}" in text


def test_ends_that_are_not_square_say_how_the_saw_stands(client: FlaskClient) -> None:
    ends = [{"miter": 30}, {"bevel": 15}]
    part = {"id": "leg", "stock": "2x2", "length": "20", "ends": ends}
    text = planned(client, {"name": "Leg", "parts": [part]})
    assert re.search(r"end miter 30, \w+ end bevel 15 degrees off square", text)


def test_all_joints_of_a_build_are_told(client: FlaskClient, tote: Any) -> None:
    text = client.post("/v1/fasteners", json=tote, headers=PLAIN).text
    answer = client.post("/v1/fasteners", json=tote).json
    for joint in answer["joints"]:
        assert f"\n{joint['joint']}: " in f"\n{text}"
    assert text.count("  best: ") == len(answer["joints"])
    assert "not judged:" in text
