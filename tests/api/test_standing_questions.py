"""One-line questions about standing: sag, tipping, hanging, movement, moisture and weight."""

from typing import Any

import pytest
from flask.testing import FlaskClient

PATHS = [
    "/v1/sag?stock=1x8&span=36&load=60lb&wood=spf&stays=yes",
    "/v1/sag?stock=1x10&load=books&wood=red+oak&limit=shelf&lip=1x2",
    "/v1/sag?stock=1x8&span=36&wood=spf",
    "/v1/movement?wood=red+oak&width=20",
    "/v1/moisture?humidity=30,60&temperature=70F",
    "/v1/tip-over?height=48&depth=12&weight=60lb&kind=dresser&encloses=6ft3&children=3",
    "/v1/hanging?rail=20&studs=16&through=3/4&screw=3&load=40lb&depth=12&arm=10",
    "/v1/weight?stock=2x4&length=8ft&wood=spf&count=10",
]
ANSWERED = [path for path in PATHS if path != "/v1/sag?stock=1x8&span=36&wood=spf"]


def asked(client: FlaskClient, path: str) -> Any:
    response = client.get(path)
    assert response.status_code == 200, response.text
    return response.json


@pytest.mark.parametrize("path", ANSWERED)
def test_every_answer_says_what_it_rests_on_and_assumes(client: FlaskClient, path: str) -> None:
    answer = asked(client, path)
    assert answer["edition"] and answer["sources"]
    assert {"assumed", "rests_on", "findings"} <= set(answer)


@pytest.mark.parametrize("path", ANSWERED)
def test_text_keeps_to_eighty_columns(client: FlaskClient, path: str) -> None:
    text = client.get(path, headers={"Accept": "text/plain"}).text
    assert text.endswith("\n")
    assert max(map(len, text.splitlines())) <= 80


def test_a_sag_names_its_value_its_limits_and_what_would_help(client: FlaskClient) -> None:
    answer = asked(client, PATHS[0])
    assert answer["stiffness"]["kind"] == "clear wood"
    assert answer["stiffness"]["of"] == "subalpine fir"
    now, after = answer["sag"]["now"]["in"], answer["sag"]["after_long_loading"]
    assert after["low"]["in"] == pytest.approx(1.5 * now, abs=1e-4)
    assert after["high"]["in"] == pytest.approx(2 * now, abs=2e-4)
    assert {limit["name"]: limit["verdict"] for limit in answer["limits"]} == {
        "shelf": "over", "eye": "over", "floor": "over", "L/240": "over", "L/180": "under",
    }  # fmt: skip
    assert {limit["basis"] for limit in answer["limits"]} == {"practice"}
    assert answer["what_would_help"]


def test_a_compare_load_says_species_factor_and_source(client: FlaskClient) -> None:
    answer = asked(client, PATHS[0])
    stress = answer["stress"]
    assert stress["compare_load"]["lb"] > 60
    assert (stress["of"], stress["breaks_at_psi"]) == ("subalpine fir", 8600)
    # 1 - 1.645 x 0.16 over 1.62 x 1.3.
    assert stress["factor"] == pytest.approx(0.35, abs=0.0005)
    assert "astm-d2555" in {source["id"] for source in answer["sources"]}


@pytest.mark.parametrize("use", ["seat", "step", "bench"])
def test_a_compare_load_is_withheld_for_people(client: FlaskClient, use: str) -> None:
    stress = asked(client, f"{PATHS[0]}&use={use}")["stress"]
    assert stress["compare_load"] is None
    assert "person" in stress["why_no_compare_load"]
    assert stress["psi"] > 0


@pytest.mark.parametrize("use", ["crib", "guard", "climb"])
def test_strength_is_refused_for_some_uses(client: FlaskClient, use: str) -> None:
    answer = asked(client, f"{PATHS[0]}&use={use}")
    assert answer["judged"] is False
    assert "separate standards apply" in answer["why"]


def test_the_longest_span_that_is_answered_meets_its_limit_and_no_more(
    client: FlaskClient,
) -> None:
    path = "/v1/sag?stock=1x8&load=18lb/ft&wood=spf&limit=shelf"
    span = asked(client, path)["longest_span"]["in"]
    at = asked(client, f"{path}&span={span}in")
    past = asked(client, f"{path}&span={span + 0.0625}in")
    assert at["chosen_limit"]["verdict"] == "under"
    assert past["chosen_limit"]["verdict"] == "over"
    assert [f["code"] for f in past["findings"]] == ["load.sags"]
    assert past["findings"][0]["parameter"] == "load"


def test_a_published_joist_comes_out(client: FlaskClient) -> None:
    # HUD Residential Structural Design Guide, example 5.1: 40 lb/ft at 16 in is 53 1/3 lb/ft.
    answer = asked(
        client,
        "/v1/sag?stock=2x8&laid=edge&load=53.3333333lb/ft&stiffness=1500000psi&limit=L/360",
    )
    assert answer["longest_span"]["in"] / 12 == pytest.approx(12.5, abs=0.1)


@pytest.mark.parametrize(
    ("path", "parameter"),
    [
        ("/v1/sag?stock=1x8&span=36&load=60", "load"),
        ("/v1/sag?stock=1x8&span=36&wood=spf", "load"),
        ("/v1/sag?stock=1x8&points=10in:90lb&wood=spf", "span"),
        ("/v1/sag?stock=1x8&span=36&points=10in90lb&wood=spf", "points"),
        ("/v1/sag?stock=1x8&span=36&load=60lb&wood=frobnium", "wood"),
        ("/v1/sag?stock=1x8&span=36&load=60lb&wood=spf&use=frobbing", "use"),
        ("/v1/sag?stock=1x8&span=36&load=60lb&wood=spf&limit=lots", "limit"),
        ("/v1/sag?thickness=3/4&span=36&load=60lb&wood=spf", "width"),
        ("/v1/movement?wood=mdf&width=20", "wood"),
        ("/v1/movement?wood=spf&width=20&moisture_from=8", "moisture_to"),
        ("/v1/movement?wood=spf&width=20&humidity=30", "humidity"),
        ("/v1/moisture?humidity=130", "humidity"),
        ("/v1/moisture?humidity=40&temperature=70", "temperature"),
        ("/v1/tip-over?height=48&depth=12&weight=heavy", "weight"),
        ("/v1/hanging?rail=20&studs=16&screw=3", "through"),
        ("/v1/hanging?rail=20&studs=16&load=40lb", "load"),
        ("/v1/weight?stock=1x8", "length"),
        ("/v1/weight?stock=1x8&length=20&count=0", "count"),
        ("/v1/weight?stock=1x8&length=20&moisture=wet", "moisture"),
    ],
)
def test_what_cannot_be_read_is_refused_at_its_parameter(
    client: FlaskClient, path: str, parameter: str
) -> None:
    response = client.get(path)
    assert response.status_code == 422
    assert parameter in {error["parameter"] for error in response.json["errors"]}


def test_movement_is_up_to_flat_sawn_and_down_to_quarter_sawn(client: FlaskClient) -> None:
    # Northern red oak, 0.00369 and 0.00158, over 5 points of moisture in 20 in.
    moves = asked(client, "/v1/movement?wood=northern+red+oak&width=20")["moves"]
    assert moves["most"]["in"] == pytest.approx(0.369)
    assert moves["least"]["in"] == pytest.approx(0.158)


def test_held_in_the_middle_half_goes_to_each_side(client: FlaskClient) -> None:
    path = "/v1/movement?coefficient=0.0025&width=10&moisture_from=8&moisture_to=12"
    whole, half = asked(client, path), asked(client, f"{path}&held=middle")
    assert whole["each_side"]["in"] == pytest.approx(0.1)
    assert half["each_side"]["in"] == pytest.approx(0.05)


def test_a_dresser_is_told_what_tips_it_and_whether_the_rule_speaks(client: FlaskClient) -> None:
    answer = asked(client, PATHS[5])
    assert answer["tips_at_pull"]["lb"] == 7.5  # 60 x 6 / 48
    assert answer["tips_with_hung_on_a_drawer"]["lb"] == 45.0  # 360 / 8
    assert answer["clothing_rule"]["applies"] is True
    assert [f["code"] for f in answer["findings"]] == ["stands.tips", "safety.tip-over"]


@pytest.mark.parametrize("height", ["12", "26", "60"])
def test_no_piece_is_told_that_it_may_stand_free(client: FlaskClient, height: str) -> None:
    answer = asked(client, f"/v1/tip-over?height={height}&depth=20&weight=60lb")
    assert "Anchor" in answer["fix_it"]
    assert answer["clothing_rule"]["means"].endswith("nothing about how it stands")


def test_a_screw_is_judged_past_rail_and_wallboard(client: FlaskClient) -> None:
    path = "/v1/hanging?rail=20&studs=16&through=3/4&wallboard=1/2&screw="
    good, short = asked(client, f"{path}2+1/4"), asked(client, f"{path}2")
    assert (good["bite"]["in"], good["findings"]) == (1.0, [])
    (found,) = short["findings"]
    assert (found["code"], found["parameter"]) == ("hang.bite", "screw")


@pytest.mark.parametrize("wall", ["masonry", "unknown"])
def test_other_walls_are_not_judged(client: FlaskClient, wall: str) -> None:
    answer = asked(client, f"/v1/hanging?rail=20&wall={wall}")
    assert answer["judged"] is False
    assert any("cables" in words for words in answer["always"])


def test_a_sheet_over_the_lifting_line_says_so(client: FlaskClient) -> None:
    answer = asked(client, "/v1/weight?stock=mdf+3/4&length=97&width=49")
    # Hobby magazine: a 3/4 in sheet of 49 by 97 in weighs about 100 lb.
    assert answer["total"]["lb"]["usual"] == pytest.approx(100, abs=2.5)
    assert answer["lifting"]["one_is_over"] is True


@pytest.mark.parametrize(
    ("query", "cost"),
    [
        ("stock=2x4&length=8ft&count=10&price=3.85", "38.50"),
        ("stock=2x4&length=8ft&count=10&price=0.55&per=foot", "44.00"),  # 80 ft
        ("stock=2x4&length=8ft&count=3&price=0.9&per=board-foot", "14.40"),  # 16 board feet
        ("stock=mdf+3/4&length=97&width=49&count=2&price=41.20&per=sheet", "82.40"),
        ("thickness=1&width=6&length=12ft&count=1&price=7&per=board-foot", "42.00"),  # 6 feet
    ],
)
def test_a_price_gives_what_the_boards_cost(client: FlaskClient, query: str, cost: str) -> None:
    assert str(asked(client, f"/v1/weight?{query}&wood=spf")["cost"]) == cost
    assert f"cost: {cost}" in client.get(f"/v1/weight?{query}&wood=spf&format=text").text


def test_without_a_price_nothing_is_said_of_cost(client: FlaskClient) -> None:
    assert asked(client, PATHS[-1])["cost"] is None


def test_sheets_have_no_price_by_the_board_foot(client: FlaskClient) -> None:
    path = "/v1/weight?stock=mdf+3/4&length=97&width=49&price=1&per=board-foot"
    refused = client.get(path)
    assert refused.status_code == 422
    assert refused.json["errors"][0]["parameter"] in ("stock", "width")


def test_metric_questions_are_answered_in_metric_text(client: FlaskClient) -> None:
    path = "/v1/sag?thickness=18&width=200&span=900&load=25kg&wood=oak-white&units=mm&format=text"
    text = client.get(path).text
    assert " mm " in text and "25 kg" in text and "MPa" in text
    assert '"' not in text.split("source:")[0]


SHELF = "/v1/sag?stock=1x8&span=36&load=40lb&wood=spf"


def test_the_sag_that_is_counted_is_named_as_it_is_counted(client: FlaskClient) -> None:
    # A load that comes and goes leaves no lasting sag, so every limit counts the first.
    passing, staying = asked(client, SHELF), asked(client, f"{SHELF}&stays=yes")
    assert {limit["counts"] for limit in passing["limits"]} == {"the first sag"}
    assert "the lasting sag" in {limit["counts"] for limit in staying["limits"]}


def test_that_a_load_comes_and_goes_is_assumed_only_where_nothing_is_said(
    client: FlaskClient,
) -> None:
    def told(path: str) -> bool:
        return any("comes and goes" in text for text in asked(client, path)["assumed"])

    assert told(SHELF)
    assert not told(f"{SHELF}&stays=no") and not told(f"{SHELF}&stays=yes")


def test_the_weight_of_books_rests_on_its_row(client: FlaskClient) -> None:
    answer = asked(client, "/v1/sag?stock=1x10&span=36&load=books&wood=pine")
    row = "standing_practice/load.books"
    assert row in {one["row"] for one in answer["rests_on"]}
    assert answer["load"]["lb"] == 60  # three feet at 20 lb


def test_a_span_longer_than_the_piece_is_found_at_its_parameter(client: FlaskClient) -> None:
    answer = asked(client, f"{SHELF}&length=20")
    assert answer["judged"] is False and "longer than the piece" in answer["why"]
    assert [(f["code"], f["parameter"]) for f in answer["findings"]] == [("load.span", "span")]


def test_a_lip_is_a_stock_wherever_a_shop_has_one_of_that_name(client: FlaskClient) -> None:
    by_name = asked(client, f"{SHELF}&lip=1x2")["sag"]
    assert asked(client, f"{SHELF}&lip=1X2")["sag"] == by_name
    assert asked(client, f"{SHELF}&lip=3/4x1 1/2in")["sag"] == by_name


def test_a_lip_that_nobody_knows_is_refused(client: FlaskClient) -> None:
    response = client.get(f"{SHELF}&lip=frobnium")
    assert response.status_code == 422
    assert [error["parameter"] for error in response.json["errors"]] == ["lip"]


def test_an_unknown_wood_is_refused_without_a_reading_too(client: FlaskClient) -> None:
    response = client.get("/v1/moisture?humidity=30&wood=frobnium")
    assert response.status_code == 422
    assert [error["parameter"] for error in response.json["errors"]] == ["wood"]


def test_a_reading_is_judged_by_the_air_that_is_given(client: FlaskClient) -> None:
    answer = asked(client, "/v1/moisture?humidity=85&moisture=25")
    (finding,) = answer["findings"]
    # At 85 % wood rests at 18 %: the handbook's table 4-2 has 17.9 at 70 F.
    assert "to 18 %" in finding["detail"]


def test_wood_whose_moisture_stays_moves_neither_way(client: FlaskClient) -> None:
    path = "/v1/movement?wood=spf&width=12&moisture_from=8&moisture_to=8"
    answer = asked(client, path)
    assert (answer["direction"], answer["moves"]["most"]["in"]) == ("neither", 0)
    assert "stays as wide" in client.get(f"{path}&format=text").text


def test_a_wood_named_by_itself_is_not_taken_for_a_group(client: FlaskClient) -> None:
    def told(wood: str) -> bool:
        answer = asked(client, f"/v1/movement?wood={wood}&width=12")
        return any("moves most" in text for text in answer["assumed"])

    assert told("spf") and not told("red+oak")


@pytest.mark.parametrize(
    ("more", "name"),
    [
        ("humidity=30,60&where=outdoors", "where"),
        ("moisture_from=8&moisture_to=6&where=damp", "where"),
        ("moisture_from=8&moisture_to=6&temperature=40F", "temperature"),
    ],
)
def test_what_changes_nothing_is_said_to_be_passed_over(
    client: FlaskClient, more: str, name: str
) -> None:
    assumed = asked(client, f"/v1/movement?wood=spf&width=12&{more}")["assumed"]
    assert any(text.startswith(f"{name} is passed over") for text in assumed)


def test_a_caution_is_said_once(client: FlaskClient) -> None:
    text = client.get("/v1/tip-over?height=40&depth=12&weight=60lb&format=text").text
    assert text.count("Anchor a tall case piece") == 1
    assert "may speak of it, which says nothing of how it stands" in " ".join(text.split())


def test_a_pull_over_the_top_is_said_to_be_one(client: FlaskClient) -> None:
    answer = asked(client, "/v1/tip-over?height=40&depth=12&weight=60lb&push_at=60")
    assert any("over its height" in text for text in answer["assumed"])


def test_a_sheet_without_a_width_is_asked_for_it(client: FlaskClient) -> None:
    path = "/v1/weight?stock=plywood+3/4&length=96"
    assert "say its width" in asked(client, path)["why_not"]
    assert asked(client, f"{path}&width=48")["each"]["lb"]["usual"] > 20
