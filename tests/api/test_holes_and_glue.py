"""One-line questions about pilot holes, glue-ups and clamps, in JSON and in text."""

from typing import Any

import pytest
from flask.testing import FlaskClient


def asked(client: FlaskClient, path: str) -> Any:
    response = client.get(path)
    assert response.status_code == 200, response.text
    return response.json


def told(client: FlaskClient, path: str) -> list[str]:
    response = client.get(path, headers={"Accept": "text/plain"})
    assert (response.status_code, response.mimetype) == (200, "text/plain")
    lines = response.text.splitlines()
    assert all(len(line) <= 80 for line in lines)
    return lines


def findings(answer: Any) -> list[tuple[str, str]]:
    return [(f["code"], f["parameter"]) for f in answer["findings"]]


@pytest.mark.parametrize(
    "path",
    [
        "/v1/pilot-holes?gauge=8&wood=spf",
        "/v1/glue-up?joints=4&minutes_each=1",
        "/v1/clamps?length=36&thickness=3/4",
    ],
)
def test_every_answer_says_edition_assumed_sources_and_findings(
    client: FlaskClient, path: str
) -> None:
    answer = asked(client, path)
    assert set(answer) >= {"edition", "assumed", "sources", "findings"}
    assert answer["sources"]
    lines = told(client, path)
    assert len([line for line in lines if not line.startswith(("source:", "  "))]) <= 6
    assert any(line.startswith("source:") for line in lines)


# Three charts: No. 8 in softwood 5/64 to 3/32 in, usually 3/32; 11/64 in for the shank.
def test_holes_are_ranges_with_the_usual_drill(client: FlaskClient) -> None:
    answer = asked(client, "/v1/pilot-holes?gauge=%238&wood=spf")
    assert [answer["pilot"][end]["drill"] for end in ("low", "usual", "high")] == [
        '5/64"', '3/32"', '3/32"',
    ]  # fmt: skip
    assert answer["clearance_hole"]["usual"]["drill"] == '11/64"'
    # ASME B18.6.1: the flat head of a No. 8 is 0.292 to 0.332 in wide.
    assert answer["countersink"]["high"]["in"] == 0.332


def test_the_same_screw_in_oak_gets_a_larger_pilot(client: FlaskClient) -> None:
    answer = asked(client, "/v1/pilot-holes?gauge=8&wood=oak")
    assert (answer["need"], answer["pilot"]["usual"]["drill"]) == ("drill", '7/64"')


def test_metric_readers_get_millimeters(client: FlaskClient) -> None:
    answer = asked(client, "/v1/pilot-holes?diameter=4&units=mm&wood=pine")
    assert answer["clearance_hole"]["usual"]["drill"] == "4.5 mm"
    lines = told(client, "/v1/pilot-holes?diameter=4&units=mm&wood=pine")
    assert '"' not in "".join(lines)


# Two diameters of a No. 8 are 0.328 in: 21/64 in is on this side of it, 20/64 in on the other.
@pytest.mark.parametrize(("given", "found"), [("21/64", 0), ("20/64", 1)])
def test_a_screw_too_near_is_found_at_its_parameter(
    client: FlaskClient, given: str, found: int
) -> None:
    answer = asked(client, f"/v1/pilot-holes?gauge=8&wood=oak&spot=edge&edge_distance={given}")
    assert findings(answer) == [("fastener.near-edge", "edge_distance")] * found


def test_mdf_is_named_by_its_sheet_too(client: FlaskClient) -> None:
    answer = asked(client, "/v1/pilot-holes?gauge=8&wood=mdf+3/4&spot=edge&end_distance=2")
    assert answer["wood"] == "mdf"
    assert findings(answer) == [("fastener.near-edge", "end_distance")]  # 70 mm from a corner


@pytest.mark.parametrize(
    ("query", "parameter"),
    [
        ("gauge=13", "gauge"),
        ("gauge=zork", "gauge"),
        ("diameter=1", "diameter"),
        ("diameter=0", "diameter"),
        ("gauge=8&diameter=4mm", "diameter"),
        ("gauge=8&wood=zork", "wood"),
        ("gauge=8&spot=side", "spot"),
        ("gauge=8&edge_distance=-1", "edge_distance"),
        ("", "query"),
    ],
)
def test_what_can_not_be_drilled_is_refused_at_its_parameter(
    client: FlaskClient, query: str, parameter: str
) -> None:
    response = client.get(f"/v1/pilot-holes?{query}")
    assert response.status_code == 422, response.text
    assert [error["parameter"] for error in response.json["errors"]] == [parameter]


# White glue is open for 5 min: 12 joints at a minute are three goes of four.
def test_a_glue_up_that_is_too_long_is_found_and_split(client: FlaskClient) -> None:
    answer = asked(client, "/v1/glue-up?joints=12&minutes_each=1")
    assert answer["glue_up"]["groups"] == [4, 4, 4]
    assert findings(answer) == [("glue.too-slow", "minutes_each")]
    assert any("no glue is named" in text for text in answer["assumed"])


def test_a_second_pair_of_hands_halves_the_time(client: FlaskClient) -> None:
    answer = asked(client, "/v1/glue-up?glue=white+glue&joints=10&minutes_each=1+min&people=2")
    assert answer["glue_up"]["minutes"] == 5 and findings(answer) == []
    assert not any("no glue is named" in text for text in answer["assumed"])


def test_the_figures_of_the_label_win(client: FlaskClient) -> None:
    path = "/v1/glue-up?glue=white+glue&joints=8&minutes_each=2&temperature=50F"
    assert findings(asked(client, path)) == [
        ("glue.too-slow", "minutes_each"), ("glue.too-cold", "temperature"),
    ]  # fmt: skip
    answer = asked(client, f"{path}&open_time=10min&assembly_time=16min&coldest=45F")
    assert findings(answer) == []
    assert answer["working_time_min"] == {"low": 16, "high": 16, "from_label": True}


# Printed: yellow glue sets properly from 50 F up.
@pytest.mark.parametrize(("degrees", "found"), [("50F", 0), ("10C", 0), ("49.9F", 1), ("5C", 1)])
def test_a_cold_shop_is_found_at_its_parameter(
    client: FlaskClient, degrees: str, found: int
) -> None:
    answer = asked(client, f"/v1/glue-up?glue=yellow+glue&temperature={degrees}")
    assert findings(answer) == [("glue.too-cold", "temperature")] * found


def test_a_warm_shop_is_warned_of_without_a_figure(client: FlaskClient) -> None:
    warm = asked(client, "/v1/glue-up?glue=yellow+glue&temperature=75.5F")
    mild = asked(client, "/v1/glue-up?glue=yellow+glue&temperature=75F")
    assert any("faster" in text for text in warm["assumed"])
    assert not any("faster" in text for text in mild["assumed"])


def test_a_contact_glue_is_told_by_its_drying(client: FlaskClient) -> None:
    assert told(client, "/v1/glue-up?glue=contact+cement")[0] == (
        "contact cement: dries 15 to 120 min before the parts touch, then holds at once"
    )


@pytest.mark.parametrize(
    ("query", "parameter"),
    [
        ("glue=zork", "glue"),
        ("glue=none", "glue"),
        ("joints=0", "joints"),
        ("minutes_each=0", "minutes_each"),
        ("open_time=0", "open_time"),
        ("people=0", "people"),
        ("temperature=60", "temperature"),
        ("label=10min", "label"),
    ],
)
def test_a_glue_up_that_makes_no_sense_is_refused_at_its_parameter(
    client: FlaskClient, query: str, parameter: str
) -> None:
    response = client.get(f"/v1/glue-up?{query}")
    assert response.status_code == 422, response.text
    assert [error["parameter"] for error in response.json["errors"]] == [parameter]


# 36 x 3/4 in are 27 in2; at 200 to 300 psi for oak that is 5,400 to 8,100 lb over four clamps.
def test_clamps_are_counted_with_their_force(client: FlaskClient) -> None:
    answer = asked(client, "/v1/clamps?length=36&thickness=3/4&wood=oak")
    assert answer["clamps"] == 4
    assert answer["force_lb"] == {"low": 5400, "high": 8100}
    assert answer["force_each_lb"] == {"low": 1350, "high": 2025}
    assert "close the joint" in answer["also_said"]


def test_clamps_by_a_pressure_and_the_force_of_one(client: FlaskClient) -> None:
    path = "/v1/clamps?length=36&thickness=3/4&pressure=150psi&clamp_force=300lb"
    assert asked(client, path)["clamps"] == 14
    assert told(client, path)[1] == "  150 psi makes 4050 lb in all, 289 lb a clamp"


@pytest.mark.parametrize(
    ("query", "parameter"),
    [
        ("length=36", "thickness"),
        ("length=0&thickness=3/4", "length"),
        ("length=36&thickness=3/4&pressure=150", "pressure"),
        ("length=36&thickness=3/4&pressure=0psi", "pressure"),
        ("length=36&thickness=3/4&clamp_force=300lb/ft", "clamp_force"),
        ("length=36&thickness=3/4&clamp_force=0lb", "clamp_force"),
        ("length=36&thickness=3/4&wood=zork", "wood"),
    ],
)
def test_clamps_that_can_not_be_counted_are_refused_at_their_parameter(
    client: FlaskClient, query: str, parameter: str
) -> None:
    response = client.get(f"/v1/clamps?{query}")
    assert response.status_code == 422, response.text
    assert [error["parameter"] for error in response.json["errors"]] == [parameter]


def test_a_glue_that_nobody_knows_is_refused_at_its_joint(client: FlaskClient) -> None:
    board = {"stock": "1x4", "length": "20"}
    build = {
        "name": "Two boards",
        "parts": [{"id": "a", **board}, {"id": "b", **board}],
        "joints": [{"id": "j", "through": "a", "into": "b", "glue": "wallpaper paste"}],
    }
    response = client.post("/v1/check", json=build)
    assert response.status_code == 422
    assert [error["pointer"] for error in response.json["errors"]] == ["#/joints/0/glue"]


def test_joints_without_minutes_are_said_not_to_be_timed(client: FlaskClient) -> None:
    def told(query: str) -> bool:
        answer = asked(client, f"/v1/glue-up?{query}")
        return any("not timed" in text for text in answer["assumed"])

    assert told("joints=12") and not told("joints=12&minutes_each=1") and not told("glue=epoxy")


def test_long_times_in_clamps_are_told_in_hours(client: FlaskClient) -> None:
    text = " ".join(told(client, "/v1/glue-up?glue=slow+epoxy"))
    assert "in clamps 48 h" in text


# 100 psi are 0.69 MPa, and the pull of a pound is that of 0.4536 kg (NIST SP 811).
def test_clamps_are_told_in_the_units_asked_for(client: FlaskClient) -> None:
    text = " ".join(told(client, "/v1/clamps?length=1000&thickness=20&wood=pine&units=mm"))
    assert "0.7 MPa to 1.0 MPa makes 1,406 kg to 2,109 kg in all" in text
    assert " lb" not in text and "psi" not in text


# By definition a foot is 0.3048 m: 2 m2 at 10 m2 a liter take 0.2 L a coat.
def test_an_area_in_meters_is_exact(client: FlaskClient) -> None:
    answer = asked(client, "/v1/coverage?area=2m2&spread=10m2/L&loss=0&coats=1")
    assert answer["area"]["m2"] == 2
    assert answer["amount"]["L"] == {"low": 0.2, "high": 0.2}
    assert answer["assumed"] == []
