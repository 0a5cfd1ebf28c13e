"""Drawings parsed as XML and held against the plan that was asked for separately."""

import re
from itertools import pairwise
from math import cos, radians, tan
from typing import Any
from xml.etree import ElementTree

import pytest
from flask.testing import FlaskClient
from hypothesis import given
from hypothesis import strategies as st

from tests.handouts.conftest import handout, scene

NAMES = "{http://www.w3.org/2000/svg}"
CLOSE = 0.002  # inches; places in the SVG are rounded to a thousandth of a point

Spots = list[tuple[float, float]]


class Drawn:
    """A drawing read back: polygons by class, scale."""

    def __init__(self, text: str) -> None:
        self.root = ElementTree.fromstring(text)
        self.scale = float(self.root.get("data-scale", "0"))
        assert self.scale > 0

    def shapes(self, kind: str) -> list[tuple[str, Spots]]:
        """Letter and corners of every shape of a kind, in the order drawn."""
        return [
            (one.get("data-of", ""), spots(one.get("points", "")))
            for one in self.root.iter()
            if one.tag in (f"{NAMES}polygon", f"{NAMES}polyline") and one.get("class") == kind
        ]

    def inches(self, corners: Spots) -> tuple[float, float]:
        """How far corners reach, along and across."""
        xs, ys = [x for x, _ in corners], [y for _, y in corners]
        return (max(xs) - min(xs)) / self.scale, (max(ys) - min(ys)) / self.scale

    def words(self) -> str:
        """Every word on it."""
        return " | ".join(one.text or "" for one in self.root.iter(f"{NAMES}text"))


def spots(points: str) -> Spots:
    pairs = [pair.split(",") for pair in points.split()]
    return [(float(x), float(y)) for x, y in pairs]


def plan_of(client: FlaskClient, build: Any) -> Any:
    plan = client.post("/v1/cut-plan", json=build).get_json()
    if plan["deadline_met"]:
        pytest.skip("the machine is too busy: the clock ended the search, so two plans may differ")
    return plan


def pictures(client: FlaskClient, build: Any) -> dict[str, str]:
    """Every drawing's key and caption."""
    page = handout(client, build, "json")
    blocks = [block for section in page["sections"] for block in section["blocks"]]
    return {block["key"]: block["caption"] for block in blocks if block["kind"] == "picture"}


def drawn(client: FlaskClient, build: Any, key: str) -> Drawn:
    return Drawn(handout(client, build, "svg", drawing=key))


@pytest.mark.parametrize("name", ["letter-tray", "potting-bench"])
def test_every_board_is_drawn_as_planned(client: FlaskClient, name: str) -> None:
    build = scene(name)
    plan = plan_of(client, build)
    captions = pictures(client, build)
    seen = 0
    for number, board in enumerate(plan["boards"], 1):
        if f"board-{number}" not in captions:
            continue
        seen += 1
        picture = drawn(client, build, f"board-{number}")
        pieces = picture.shapes("piece")
        assert [letter for letter, _ in pieces] == [cut["letter"] for cut in board["cuts"]]
        for (_, corners), cut in zip(pieces, board["cuts"], strict=True):
            if not (cut["left_angle"]["bevel"] or cut["right_angle"]["bevel"]):
                long, _ = picture.inches(corners)
                assert long == pytest.approx(cut["end"]["in"] - cut["start"]["in"], abs=CLOSE)
        rests = [picture.inches(corners)[0] for _, corners in picture.shapes("rest")]
        assert rests == pytest.approx([left["in"] for left in board["left"]], abs=CLOSE)
    assert seen > 1


def test_neighbors_in_a_row_lie_a_kerf_apart(client: FlaskClient, easy: Any) -> None:
    board = plan_of(client, easy)["boards"][1]
    picture = drawn(client, easy, "board-2")
    rows: dict[float, list[Spots]] = {}
    for _, corners in picture.shapes("piece"):
        rows.setdefault(min(y for _, y in corners), []).append(corners)
    gaps = [
        (min(x for x, _ in right) - max(x for x, _ in left)) / picture.scale
        for row in rows.values()
        for left, right in pairwise(row)
    ]
    assert len(board["cuts"]) > len(gaps) > 0
    assert gaps == pytest.approx([0.125] * len(gaps), abs=CLOSE)
    kerfs = [picture.inches(corners)[0] for _, corners in picture.shapes("kerf")]
    assert kerfs == pytest.approx([0.125] * len(board["cuts"]), abs=CLOSE)


def test_boards_that_are_cut_alike_share_a_drawing(client: FlaskClient, hard: Any) -> None:
    captions = [c for key, c in pictures(client, hard).items() if key.startswith("board-")]
    boards = plan_of(client, hard)["boards"]
    told = [int(n) for caption in captions for n in re.findall(r"\d+", caption.split(":")[0])]
    assert sorted(told) == list(range(1, len(boards) + 1))
    assert len(captions) < len(boards)


def test_every_sheet_is_drawn_as_planned(client: FlaskClient, hard: Any) -> None:
    sheets = plan_of(client, hard)["sheets"]
    assert sheets
    for number, sheet in enumerate(sheets, 1):
        picture = drawn(client, hard, f"sheet-{number}")
        ((_, whole),) = picture.shapes("sheet")
        assert picture.inches(whole) == pytest.approx(
            (sheet["length"]["in"], sheet["width"]["in"]), abs=CLOSE
        )
        left, foot = min(x for x, _ in whole), max(y for _, y in whole)
        panels = picture.shapes("panel")
        assert [letter for letter, _ in panels] == [p["letter"] for p in sheet["pieces"]]
        for (_, corners), panel in zip(panels, sheet["pieces"], strict=True):
            x = (min(x for x, _ in corners) - left) / picture.scale
            y = (foot - max(y for _, y in corners)) / picture.scale
            assert (x, y) == pytest.approx((panel["x"]["in"], panel["y"]["in"]), abs=CLOSE)
            assert picture.inches(corners) == pytest.approx(
                (panel["length"]["in"], panel["width"]["in"]), abs=CLOSE
            )
        cuts = {of for of, _ in picture.shapes("kerf")}
        assert cuts == {str(cut["order"]) for cut in sheet["cuts"]}
        numbers = set(picture.words().split(" | "))
        missing = [cut["order"] for cut in sheet["cuts"] if str(cut["order"]) not in numbers]
        assert missing == []


def test_what_is_left_of_a_sheet_is_blank_with_its_size(client: FlaskClient, hard: Any) -> None:
    sheets = plan_of(client, hard)["sheets"]
    for number, sheet in enumerate(sheets, 1):
        picture = drawn(client, hard, f"sheet-{number}")
        rests = [picture.inches(corners) for _, corners in picture.shapes("rest")]
        assert rests == [
            pytest.approx((left["length"]["in"], left["width"]["in"]), abs=CLOSE)
            for left in sheet["left"]
        ]


@given(
    miter=st.sampled_from([0, 5, 22.5, 30, 45]),
    bevel=st.sampled_from([0, 10, 30, 45]),
    length=st.sampled_from(["9", "6 1/2"]),
)
def test_a_slanted_part_has_the_points_of_trigonometry(
    app: Any, miter: float, bevel: float, length: str
) -> None:
    """Both ends lean to each other; the front face is the long one: offsets are width x tan(miter)
    across it and thickness x tan(bevel) / cos(miter) through it."""
    if not (miter or bevel):
        return
    end = {"miter": miter, "bevel": bevel}
    part = {"id": "p", "stock": {"thickness": "3/4", "width": "2"}, "length": length,
            "ends": [end, end], "ends_lean": "opposite", "measured": "long-to-long"}  # fmt: skip
    picture = drawn(app.test_client(), {"name": "One part", "parts": [part]}, "part-1")
    whole = float(length.split(maxsplit=1)[0]) + (0.5 if "1/2" in length else 0)
    across, through = 2 * tan(radians(miter)), 0.75 * tan(radians(bevel)) / cos(radians(miter))
    ((_, face),) = picture.shapes("face")
    first_low, second_low, second_up, first_up = face
    scale = picture.scale
    assert (second_low[0] - first_low[0]) / scale == pytest.approx(whole, abs=CLOSE)
    assert (second_up[0] - first_up[0]) / scale == pytest.approx(whole - 2 * across, abs=CLOSE)
    assert (first_low[1] - first_up[1]) / scale == pytest.approx(2, abs=CLOSE)
    backs = picture.shapes("back")
    assert len(backs) == (1 if bevel else 0)
    for _, back in backs:
        assert (back[0][0] - first_low[0]) / scale == pytest.approx(through, abs=CLOSE)
        assert (second_low[0] - back[1][0]) / scale == pytest.approx(through, abs=CLOSE)


def test_the_middle_of_a_long_part_is_left_out_and_said(client: FlaskClient) -> None:
    end = {"miter": 45}
    part = {"id": "p", "stock": "1x3", "length": "60", "ends": [end, end],
            "ends_lean": "opposite", "measured": "long-to-long"}  # fmt: skip
    picture = drawn(client, {"name": "Long", "parts": [part]}, "part-1")
    assert len(picture.shapes("torn")) == 2
    ((_, face),) = picture.shapes("face")
    # Each end keeps its own scale: 2 1/2 in of width runs back 2 1/2 in at 45 degrees.
    assert (face[3][0] - face[0][0]) / picture.scale == pytest.approx(2.5, abs=CLOSE)
    assert "middle is left out" in (picture.root.find(f"{NAMES}desc").text or "")  # type: ignore[union-attr]


@pytest.mark.parametrize("name", ["letter-tray", "potting-bench"])
def test_words_on_a_drawing_stand_clear_of_each_other(client: FlaskClient, name: str) -> None:
    """By the widths of a plain face, as the PDF sets it: no word is set over another."""
    from reportlab.pdfbase.pdfmetrics import stringWidth  # noqa: PLC0415

    build = scene(name)
    for key in pictures(client, build):
        picture = drawn(client, build, key)
        frames = []
        for one in picture.root.iter(f"{NAMES}text"):
            words, x, y = one.text or "", float(one.get("x", 0)), float(one.get("y", 0))
            size = float(one.get("font-size", 11))
            bold = "Helvetica-Bold" if one.get("font-weight") else "Helvetica"
            long = stringWidth(words, bold, size)
            back = {"middle": long / 2, "end": long}.get(one.get("text-anchor", ""), 0)
            if one.get("transform"):
                frames.append((x - 0.7 * size, y - long + back, x, y + back, words))
            else:
                frames.append((x - back, y - 0.7 * size, x - back + long, y, words))
        width = float((picture.root.get("viewBox") or "").split()[2])
        for n, a in enumerate(frames):
            assert a[0] > -0.5 and a[2] < width + 0.5, f"{key}: {a[4]} leaves the drawing"
            for b in frames[n + 1 :]:
                apart = a[2] <= b[0] or b[2] <= a[0] or a[3] <= b[1] or b[3] <= a[1]
                assert apart, f"{key}: {a[4]!r} over {b[4]!r}"
