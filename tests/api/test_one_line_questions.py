"""The questions that are asked in one line: what they answer, in JSON and in text."""

from typing import Any

import pytest
from flask.testing import FlaskClient

CARRIED = {"edition", "assumed", "sources"}


def asked(client: FlaskClient, path: str) -> Any:
    response = client.get(path)
    assert response.status_code == 200, response.text
    return response.json


def told(client: FlaskClient, path: str) -> list[str]:
    response = client.get(path, headers={"Accept": "text/plain"})
    assert (response.status_code, response.mimetype) == (200, "text/plain")
    assert response.text.endswith("\n")
    lines = response.text.splitlines()
    assert all(len(line) <= 80 for line in lines)
    return lines


@pytest.mark.parametrize(
    "path",
    [
        "/v1/measure?value=20",
        "/v1/sizes/1x6",
        "/v1/sizes?thickness=3/4",
        "/v1/board-feet?stock=1x6&length=8ft",
        "/v1/why/run.tight",
        "/v1/tables",
        "/v1/tables/lumber_sizes",
        "/v1/tables/lumber_sizes?limit=1",
    ],
)
def test_every_answer_says_edition_assumed_and_sources(client: FlaskClient, path: str) -> None:
    assert set(asked(client, path)) >= CARRIED


@pytest.mark.parametrize("path", ["/v1/measure?value=20", "/v1/sizes/1x6", "/"])
def test_json_made_for_curl_is_indented_and_ends_with_a_newline(
    client: FlaskClient, path: str
) -> None:
    text = client.get(path, headers={"Accept": "application/json"}).text
    assert text.startswith('{\n  "') and text.endswith("}\n")


# The inch is 25.4 mm, so 527.05 mm is 20.75 in: hand arithmetic.
@pytest.mark.parametrize(
    ("query", "rounded", "off_by"),
    [
        ("value=20+3/4", "20 3/4 in", "0"),
        ("value=527.05mm", "20 3/4 in", "0"),
        ("value=20.7&to=1/4", "20 3/4 in", '+0.05"'),
        ("value=20.7&to=1/4&round=down", "20 1/2 in", '-0.2"'),
        ("value=20.51&to=1/2&round=up", "21 in", '+0.49"'),
        ("value=12.4&units=mm", "12 mm", "-0.4 mm"),
        ("value=1/2in&units=mm&to=5", "15 mm", "+2.3 mm"),
    ],
)
def test_a_length_is_rounded_as_asked(
    client: FlaskClient, query: str, rounded: str, off_by: str
) -> None:
    answer = asked(client, f"/v1/measure?{query}")
    assert (answer["rounded_exact"], answer["off_by"]) == (rounded, off_by)


def test_a_length_is_answered_in_four_ways(client: FlaskClient) -> None:
    assert asked(client, "/v1/measure?value=527.05mm")["value"] == {
        "in": 20.75,
        "mm": 527.05,
        "tape": '20 3/4"',
        "off_by": "0",
    }


def test_measure_in_text_is_two_lines_and_the_edition(client: FlaskClient) -> None:
    *lines, edition = told(client, "/v1/measure?value=527.05mm")
    assert lines == [
        "20 3/4 in = 20.75 in = 527.05 mm",
        "nearest 1/16 in: 20 3/4 in (off by 0)",
    ]
    assert edition.startswith("edition: ")


def test_where_no_stock_has_a_size_the_text_says_so(client: FlaskClient) -> None:
    first, *_ = told(client, "/v1/sizes?thickness=3/4&width=5")
    assert first == "no stock of the region measures that"


@pytest.mark.parametrize(
    "path",
    [
        "/v1/movement?wood=spf&width=20",
        "/v1/moisture?humidity=40&wood=spf",
        "/v1/coverage?finish=water-polyurethane&area=2m2",
        "/v1/clamps?length=36&thickness=3/4&wood=pine",
        "/v1/pilot-holes?gauge=8&wood=oak",
        "/v1/glue-up?glue=yellow+glue",
        "/v1/weight?stock=2x4&length=96&wood=spf",
    ],
)
def test_a_region_that_no_table_has_is_refused(client: FlaskClient, path: str) -> None:
    response = client.get(f"{path}&region=atlantis")
    assert response.status_code == 422
    assert [error["parameter"] for error in response.json["errors"]] == ["region"]


# PS 20, Table 3: dry and green sizes of nominal 1x6.
def test_a_board_is_answered_as_sold_dry_with_green_beside_it(client: FlaskClient) -> None:
    answer = asked(client, "/v1/sizes/1x6")
    sold, (green,) = answer["sold"], answer["others"]
    assert (sold["condition"], green["condition"]) == ("dry", "green")
    assert sold["thickness"]["listed"]["tape"] == '3/4"'
    assert sold["width"]["listed"]["tape"] == '5 1/2"'
    assert green["width"]["listed"]["in"] == 5.625
    assert any("default" in text for text in answer["assumed"])
    assert "ps-20" in {source["id"] for source in answer["sources"]}


@pytest.mark.parametrize("name", ["1x6", "1 x 6", "1X6", "1%C3%976", "1x6%22"])
def test_a_board_is_found_by_any_shop_spelling(client: FlaskClient, name: str) -> None:
    assert asked(client, f"/v1/sizes/{name}")["stock"] == "1x6"


def test_a_stock_with_a_slash_in_its_name_has_an_address(client: FlaskClient) -> None:
    assert asked(client, "/v1/sizes/5/4x6")["stock"] == "5-4x6"


# PS 1-19, performance category 15/32: 0.438 to 0.500 in.
def test_a_panel_is_answered_with_the_limits_of_its_thickness(client: FlaskClient) -> None:
    sold = asked(client, "/v1/sizes/plywood-sheathing-0.46875in")["sold"]
    assert (sold["thickness"]["low"]["in"], sold["thickness"]["high"]["in"]) == (0.438, 0.5)


def test_a_size_taken_from_the_name_is_found_at_its_parameter(client: FlaskClient) -> None:
    findings = asked(client, "/v1/sizes/1x6?width=6")["findings"]
    assert [(f["code"], f["parameter"]) for f in findings] == [("size.nominal-for-actual", "width")]


def test_a_true_size_gives_no_finding(client: FlaskClient) -> None:
    assert asked(client, "/v1/sizes/1x6?width=5+1/2&thickness=3/4&length=6ft")["findings"] == []


def test_a_real_size_leads_to_the_stocks_that_have_it(client: FlaskClient) -> None:
    stocks = asked(client, "/v1/sizes?thickness=3/4&width=5+1/2")["stocks"]
    assert [(size["stock"], size["condition"]) for size in stocks] == [("1x6", "dry")]


def test_sizes_in_text_name_size_lengths_and_source(client: FlaskClient) -> None:
    lines = told(client, "/v1/sizes/1x6")
    assert lines[0] == "1x6: 3/4 in x 5 1/2 in (board, dry)"
    assert any("Lumber Standard PS 20, Table 3" in line for line in lines)
    assert lines[-1].startswith("edition: ")


# Board feet printed in the sources of the trade: see reference_data/sources.csv.
@pytest.mark.parametrize(
    ("query", "feet", "source"),
    [
        ("thickness=1&width=9&length=96", 6, "tip-board-feet, worked example"),
        ("thickness=1+1/2&width=9&length=96", 9, "tip-board-feet, worked example"),
        ("stock=1x12&length=8ft", 8, "hand: nominal 1 x 12 x 96 / 144"),
        ("stock=2x4&length=8ft&count=3", 16, "hand: 3 x 2 x 4 x 96 / 144"),
    ],
)
def test_board_feet_agree_with_print(
    client: FlaskClient, query: str, feet: float, source: str
) -> None:
    assert asked(client, f"/v1/board-feet?{query}")["board_feet"] == feet, source


# page-hardwood-measure: 2 in by 6 1/4 in by 8 ft has a surface measure of 4, so 8 board feet.
def test_hardwood_is_counted_rough_and_its_surface_measure_whole(client: FlaskClient) -> None:
    answer = asked(client, "/v1/board-feet?stock=8/4&width=6+1/4&length=8ft")
    assert answer["counted"]["sizes"] == "rough"
    assert answer["counted"]["thickness"]["in"] == 2
    assert answer["surface_measure"] == 4


def test_hardwood_without_a_width_is_refused(client: FlaskClient) -> None:
    response = client.get("/v1/board-feet?stock=4/4&length=8ft")
    assert response.status_code == 422
    assert [error["parameter"] for error in response.json["errors"]] == ["width"]


def test_a_sheet_has_no_board_feet(client: FlaskClient) -> None:
    response = client.get("/v1/board-feet?stock=mdf+1/2&length=8ft")
    assert response.status_code == 422
    assert [error["parameter"] for error in response.json["errors"]] == ["stock"]


# 1x6 by 8 ft is 4 board feet: hand arithmetic.
@pytest.mark.parametrize(
    ("query", "cost"),
    [
        ("price=3.20&per=board-foot", "25.60"),
        ("price=3.20", "25.60"),
        ("price=1.25&per=foot", "20.00"),
        ("price=7.99&per=piece", "15.98"),
        ("price=0.0333&per=foot", "0.53"),
    ],
)
def test_two_boards_cost_what_their_unit_says(client: FlaskClient, query: str, cost: str) -> None:
    answer = asked(client, f"/v1/board-feet?stock=1x6&length=8ft&count=2&{query}")
    assert answer["cost"] == cost


def test_board_feet_in_text_say_how_they_are_counted(client: FlaskClient) -> None:
    lines = told(client, "/v1/board-feet?stock=1x6&length=8ft&count=4&price=3.20")
    assert lines[0] == '16 board feet: 4 of 1" x 6" x 96"'
    assert "  cost: 51.20" in lines


def test_a_finding_is_explained_by_its_code(client: FlaskClient) -> None:
    answer = asked(client, "/v1/why/size.nominal-for-actual")
    assert answer["severity"] == "fault"
    assert "1x4" in answer["why"]


def test_liveness_and_readiness_are_never_kept(client: FlaskClient) -> None:
    for path in ("/healthz", "/readyz"):
        response = client.get(path)
        assert (response.status_code, response.headers["Cache-Control"]) == (200, "no-store")
