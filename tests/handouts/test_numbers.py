"""The page's numbers agree with the other questions asked separately, and with plain arithmetic."""

import math
import re
from typing import Any

import pytest
from flask.testing import FlaskClient

from tests.handouts.conftest import scene
from tests.handouts.reading import SCENES


def model(client: FlaskClient, build: Any, query: str = "") -> dict[str, Any]:
    answer = client.post(f"/v1/handout?format=json&{query}", json=build)
    assert answer.status_code == 200, answer.get_data(as_text=True)
    told: dict[str, Any] = answer.get_json()
    return told


def section(told: dict[str, Any], key: str) -> list[dict[str, Any]]:
    return next(one["blocks"] for one in told["sections"] if one["key"] == key)


def table(told: dict[str, Any], key: str) -> list[dict[str, str]]:
    blocks = [block for one in told["sections"] for block in one["blocks"]]
    return next(block["rows"] for block in blocks if block.get("key") == key)


def items(told: dict[str, Any], key: str) -> dict[str, str]:
    found = [item for block in section(told, key) for item in block.get("items", ())]
    return {item["name"]: item["text"] for item in found}


def numbers(text: str) -> list[float]:
    return [float(number) for number in re.findall(r"\d+(?:\.\d+)?", text)]


@pytest.mark.parametrize("name", SCENES)
def test_time_and_weight_are_those_of_the_estimate(client: FlaskClient, name: str) -> None:
    """Neither hangs on the cut plan."""
    build = scene(name)
    estimate = client.post("/v1/estimate?bought=none", json=build).get_json()
    glance = items(model(client, build), "glance")
    for said, field in (("hands on", "hands_on"), ("waiting", "waiting")):
        span = estimate["time"][field]
        low, high = numbers(glance[said])[:2]
        places = 0 if span["low"] >= 10 else 1
        assert low == pytest.approx(span["low"], abs=0.6 * 10**-places)
        assert high == pytest.approx(span["high"], abs=0.6 * 10**-places)
    usual = estimate["mass"]["piece"]["lb"]["usual"]
    assert numbers(glance["weight"])[0] == pytest.approx(usual, abs=0.5 if usual >= 20 else 0.05)


def test_fasteners_are_counted_through_the_joints(client: FlaskClient) -> None:
    """Two joints with three nails; four joints with two screws."""
    rows = table(model(client, scene("letter-tray")), "purchases")
    counts = {row["what"]: row["count"] for row in rows if row["kind"] == "fasteners"}
    assert counts == {'16 gauge finish nail 1 1/2"': "6", '#6 wood screw 1 5/8"': "8"}


def test_what_no_joint_states_is_proposed_counted_and_not_priced(client: FlaskClient) -> None:
    build = scene("letter-tray")
    for field in ("method", "fastener", "count"):
        del build["joints"][1][field]
    told = model(client, build)
    joint = client.post("/v1/fasteners", json=build).get_json()["joints"][1]
    best = joint["options"][0]
    row = next(r for r in table(told, "purchases") if r["note"].startswith("proposed"))
    assert row["count"] == str(4 * best["count"])
    assert best["type"] in row["what"] and best["length"]["tape"] in row["what"]
    held = table(told, "joints")[1]["fastener"]
    assert held.endswith("(proposed)") and best["length"]["tape"] in held


def test_both_points_of_angled_parts_follow_from_the_tangent(client: FlaskClient) -> None:
    """A 2x2 of 12 in with two ends at 45 degrees is 2 x 1 1/2 in shorter on its other edge; a
    parallelogram of 2x3 at 8 degrees is longer, tip to tip, by 2 1/2 in x tan 8."""
    rows = table(model(client, scene("potting-bench")), "points")
    lengths = {row["part"]: row for row in rows}
    assert lengths["B brace"]["short-to-short"] == '9"'
    assert lengths["B brace"]["long-to-short"] == ""
    tips = 30.25 + 2.5 * math.tan(math.radians(8))
    told = lengths["A leg"]["long-to-long"]
    assert float(re.findall(r"\((\d+\.\d+)\"", told)[0]) == pytest.approx(tips, abs=5e-4)


def test_both_scales_of_the_saw_add_up_to_a_square_corner(client: FlaskClient) -> None:
    rows = table(model(client, scene("potting-bench")), "settings")
    assert len(rows) == 10
    for row in rows:
        assert float(row["table"]) + float(row["table_90"]) == pytest.approx(90, abs=0.051)
        assert float(row["blade"]) + float(row["blade_90"]) == pytest.approx(90, abs=0.051)
    flat = next(row for row in rows if row["part"] == "C hip rafter")
    assert (flat["table"], flat["blade"]) == ("30.0", "20.0")


def test_diagonals_are_those_of_the_rectangle(client: FlaskClient) -> None:
    """Two sides of 14 in stand 8 3/4 in apart over all, two ends of 8 3/4 in 15 1/2 in."""
    told = items(model(client, scene("letter-tray")), "build")
    diagonals = [text for name, text in told.items() if "over all" in name]
    found = [float(re.findall(r"\((\d+\.\d+)\"", text)[0]) for text in diagonals]
    assert found == pytest.approx([math.hypot(14, 8.75), math.hypot(8.75, 15.5)], abs=5e-4)


def test_every_part_has_its_letter_and_every_piece_its_place(client: FlaskClient) -> None:
    build = scene("potting-bench")
    told = model(client, build)
    rows = table(told, "parts")
    assert [row["part"] for row in rows] == [part["id"] for part in build["parts"]]
    assert [row["letter"] for row in rows][:3] == ["A", "B", "C"]
    assert [row["letter"] for row in rows][25:28] == ["Z", "AA", "AB"]
    assert [row["part"] for row in rows if row["cut"] == "to fit, last"] == ["lath"]


@pytest.mark.parametrize(
    ("change", "said"),
    [
        ({}, "glue"),
        ({"ends": [{"miter": 30, "bevel": 20}, {}]}, "compound ends of A bottom"),
        ({"ends": [{"miter": 30}, {}]}, "leans"),
        ({"fit": "to-fit"}, "Cutting A bottom to fit"),
        ({"glued_from": {"boards": 2, "edge_loss": "1/16"}}, "Gluing up A bottom"),
    ],
)
def test_the_hardest_thing_is_figured_from_the_build(
    client: FlaskClient, change: dict[str, Any], said: str
) -> None:
    build = scene("letter-tray")
    build["parts"][0] |= change
    for joint in build["joints"]:  # brads would hold each as it is closed
        joint["method"] = "glue"
        joint.pop("fastener", None)
    blocks = section(model(client, build), "hardest")
    assert len(blocks) == 1 and said in blocks[0]["text"]
