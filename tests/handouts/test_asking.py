"""How the handout is asked for: forms, units, region, an earlier version, dates, refusals."""

import copy
from typing import Any

import pytest
from flask.testing import FlaskClient

from tests.handouts.conftest import scene
from tests.handouts.test_numbers import items, section, table


@pytest.fixture
def tray() -> Any:
    """The easy scene."""
    return scene("letter-tray")


BROWSER = "text/html,application/xhtml+xml,application/xml;q=0.9,*/*;q=0.8"


@pytest.mark.parametrize(
    ("accept", "mimetype"),
    [
        (BROWSER, "text/html"),
        ("*/*", "text/markdown"),
        ("text/csv", "text/csv"),
        ("application/json", "application/json"),
        ("text/markdown;q=0.5, application/json", "application/json"),
    ],
)
def test_the_form_follows_what_is_accepted(
    client: FlaskClient, tray: Any, accept: str, mimetype: str
) -> None:
    answer = client.post("/v1/handout", json=tray, headers={"Accept": accept})
    assert (answer.status_code, answer.mimetype) == (200, mimetype)
    assert "Accept" in answer.headers["Vary"]


def test_without_accept_it_is_markdown_and_format_wins(client: FlaskClient, tray: Any) -> None:
    assert client.post("/v1/handout", json=tray).mimetype == "text/markdown"
    answer = client.post("/v1/handout?format=json", json=tray, headers={"Accept": "text/html"})
    assert answer.mimetype == "application/json"


@pytest.mark.parametrize(
    ("query", "status", "parameter"),
    [
        ("format=docx", 422, "format"),
        ("units=feet", 422, "units"),
        ("date=2026-02-30", 422, "date"),
        ("date=today", 422, "date"),
        ("format=csv&table=joints", 422, "table"),
        ("format=html&table=parts", 422, "table"),
        ("format=svg", 422, "drawing"),
        ("format=svg&drawing=board-99", 422, "drawing"),
        ("colour=red", 422, "colour"),
    ],
)
def test_what_makes_no_sense_is_refused_at_its_parameter(
    client: FlaskClient, tray: Any, query: str, status: int, parameter: str
) -> None:
    answer = client.post(f"/v1/handout?{query}", json=tray)
    assert answer.status_code == status
    assert answer.mimetype == "application/problem+json"
    assert answer.get_json()["errors"][0]["parameter"] == parameter


@pytest.mark.parametrize(
    ("change", "pointer"),
    [
        ({"earlier": {"name": "x"}}, "#/earlier/parts"),
        ({"region": 7}, "#/region"),
        ({"to": {"width": "0"}}, "#/to/width"),
        ({"regoin": "eu"}, "#/regoin"),
        ({"build": {"name": "x"}}, "#/build/parts"),
    ],
)
def test_a_wrong_body_is_refused_at_its_pointer(
    client: FlaskClient, tray: Any, change: dict[str, Any], pointer: str
) -> None:
    answer = client.post("/v1/handout", json={"build": tray} | change)
    assert answer.status_code == 422
    assert pointer in [error["pointer"] for error in answer.get_json()["errors"]]


def test_a_bare_build_and_a_wrapped_one_give_the_same_page(client: FlaskClient, tray: Any) -> None:
    pages = [
        client.post("/v1/handout?date=2026-11-25", json=b).data for b in (tray, {"build": tray})
    ]
    assert pages[0] == pages[1]


@pytest.mark.parametrize(
    ("units", "length", "size"),
    [
        ("in", '14"', '3/4" x 7 1/4"'),
        ("mm", "355.6 mm", "19.05 mm x 184.15 mm"),
        ("both", '14" (355.6 mm)', '3/4" x 7 1/4" (19.1 mm x 184.2 mm)'),
    ],
)
def test_lengths_in_inches_millimeters_or_both(
    client: FlaskClient, tray: Any, units: str, length: str, size: str
) -> None:
    told = client.post(f"/v1/handout?format=json&units={units}", json=tray).get_json()
    bottom = table(told, "parts")[0]
    assert bottom["length"] == length
    assert bottom["section"].replace("184.1 mm", "184.2 mm") == size


def test_the_date_is_the_one_given(client: FlaskClient, tray: Any) -> None:
    told = client.post("/v1/handout?format=json&date=2024-02-29", json=tray).get_json()
    assert told["made"] == "2024-02-29"
    assert any("Made 2024-02-29." in b.get("text", "") for b in section(told, "rests-on"))
    assert told["edition"] in section(told, "rests-on")[-1]["text"]


def test_without_an_earlier_version_nothing_is_claimed(client: FlaskClient, tray: Any) -> None:
    told = client.post("/v1/handout?format=json", json=tray).get_json()
    assert section(told, "changes")[0]["text"] == "No earlier version was given."


def test_an_earlier_version_tells_what_changed(client: FlaskClient, tray: Any) -> None:
    earlier = copy.deepcopy(tray)
    earlier["parts"][1] |= {"length": "13", "quantity": 3}
    earlier["parts"].append({"id": "lip", "stock": "1x2", "length": "9"})
    earlier["joints"][1]["fastener"]["length"] = "2"
    earlier["joints"][0]["id"] = "old joint"
    earlier["joints"][1]["slope"] = 15
    earlier["wood"] = "oak"
    body = {"build": tray, "earlier": earlier}
    told = client.post("/v1/handout?format=json", json=body).get_json()
    assert items(told, "changes") == {
        "wood": "oak before, now spf",
        "part side, length": '13" before, now 14"',
        "part side, quantity": "3 before, now 2",
        "part lip": "gone",
        "joint side-bottom": "new",
        "joint old joint": "gone",
        "joint end-side, fastener, length": '2" before, now 1 5/8"',
        "joint end-side, slope": "15 before, now nothing",
    }


def test_the_same_version_changed_nothing(client: FlaskClient, tray: Any) -> None:
    told = client.post("/v1/handout?format=json", json={"build": tray, "earlier": tray}).get_json()
    assert [b.get("text") for b in section(told, "changes")][1:] == [
        "Nothing: both versions say the same."
    ]


@pytest.mark.parametrize("wanted", [{"to": {"length": "18"}}, {"region": "eu"}])
def test_another_size_or_region_is_that_of_the_resize(
    client: FlaskClient, tray: Any, wanted: dict[str, Any]
) -> None:
    body = {"build": tray} | wanted
    resized = client.post("/v1/resize?round=tape", json=body).get_json()
    alone = client.post("/v1/handout?format=json", json=resized["build"]).get_json()
    told = client.post("/v1/handout?format=json", json=body).get_json()
    assert table(told, "parts") == table(alone, "parts")
    assert table(told, "purchases") == table(alone, "purchases")
    changes = section(told, "changes")[1]["items"]
    assert len(changes) == len(resized["changed"]) > 0
    for shown, change in zip(changes, resized["changed"], strict=True):
        assert change["why"] in shown["text"]


def test_what_can_not_be_resized_is_refused(client: FlaskClient, tray: Any) -> None:
    answer = client.post("/v1/handout", json={"build": tray, "to": {"height": "18"}})
    assert answer.status_code == 422 and answer.mimetype == "application/problem+json"


def test_an_unknown_wood_is_refused_as_everywhere(client: FlaskClient, tray: Any) -> None:
    answer = client.post("/v1/handout", json=tray | {"wood": "unobtainium"})
    assert answer.get_json()["errors"][0]["pointer"] == "#/wood"
