"""Cut parts, sums and shapes as drawn, held against trigonometry and the sizes in the build."""

import json
from math import radians, tan
from typing import Any

import pytest
from flask.testing import FlaskClient
from hypothesis import given
from hypothesis import strategies as st

from tests.handouts.conftest import WHOLE, handout
from tests.handouts.test_drawings_to_scale import CLOSE, NAMES, Drawn, drawn, pictures

WIDE, THICK = 2.0, 0.75


def one_part(**more: Any) -> Any:
    part = {"id": "p", "stock": {"thickness": "3/4", "width": "2"}, "length": "9", **more}
    return {"name": "One part", "wood": "spf", "parts": [part]}


def sizes(picture: Drawn) -> list[float]:
    """The lengths of all lines of sizes, in inches."""
    return sorted(picture.inches(line)[0] for _, line in picture.shapes("size"))


def marks(client: FlaskClient, build: Any, key: str) -> str:
    page = handout(client, build, "json")
    blocks = [block for section in page["sections"] for block in section["blocks"]]
    return "\n".join(next(b for b in blocks if b.get("key") == key)["marks"])


@given(first=st.sampled_from([0, 10, 22.5, 45]), second=st.sampled_from([5, 30, 45]))
def test_every_length_of_a_mitered_part_has_its_line(app: Any, first: int, second: int) -> None:
    """Long points on the bottom edge: it is the length; the top is shorter by width x tan."""
    build = one_part(
        ends=[{"miter": first}, {"miter": second}], ends_lean="opposite", measured="long-to-long"
    )
    backs = [WIDE * tan(radians(angle)) for angle in (first, second) if angle]
    wanted = sorted([9.0, 9.0 - sum(backs), *backs])
    assert sizes(drawn(app.test_client(), build, "part-1")) == pytest.approx(wanted, abs=CLOSE)


@given(miter=st.sampled_from([10, 22.5, 45]))
def test_a_part_with_parallel_ends_is_told_tip_to_tip_too(app: Any, miter: float) -> None:
    build = one_part(
        ends=[{"miter": miter}, {"miter": miter}], ends_lean="same", measured="long-to-short"
    )
    back = WIDE * tan(radians(miter))
    wanted = sorted([9.0, 9.0, back, back, 9.0 + back])
    assert sizes(drawn(app.test_client(), build, "part-1")) == pytest.approx(wanted, abs=CLOSE)


def test_an_end_is_traced_without_an_angle(client: FlaskClient) -> None:
    """At 45 degrees the line runs back by just the width; no angle is needed to mark it."""
    ends = [{"miter": 45}, {"miter": 45}]
    said = marks(client, one_part(ends=ends, ends_lean="opposite"), "part-1")
    assert 'To trace the first end: square a line across the front face at point 1, measure 2"' in (
        said
    )
    assert 'point 2, measure 2" inward along the other edge to point 3' in said
    assert "table 45.0, blade 0.0 off square (45.0 and 90.0 where 90 is square)" in said


def test_a_bevel_is_carried_over_both_edges(client: FlaskClient) -> None:
    """At 45 degrees the back stands back by just the thickness, on either edge."""
    said = marks(client, one_part(ends=[{"bevel": 45}, {}]), "part-1")
    assert "square a line across the front face at point 1" in said
    assert 'point 5 lies 3/4" further in than point 1' in said
    assert 'point 8 lies 3/4" further in than point 4' in said
    assert "second end" not in said


@given(bevel=st.sampled_from([10, 30, 45]))
def test_beveled_edges_are_seen_on_the_end(app: Any, bevel: float) -> None:
    build = one_part(edges=[{"bevel": bevel}, {"bevel": bevel}], edges_lean="opposite")
    picture = drawn(app.test_client(), build, "part-1")
    ((_, section),) = picture.shapes("section")
    xs = [x for x, _ in section]
    front, back = abs(xs[1] - xs[0]), abs(xs[2] - xs[3])
    high = max(y for _, y in section) - min(y for _, y in section)
    assert back / front == pytest.approx((WIDE - 2 * THICK * tan(radians(bevel))) / WIDE, abs=0.001)
    assert high / front == pytest.approx(THICK / WIDE, abs=0.001)


def test_cutouts_lie_where_the_tape_finds_them(client: FlaskClient) -> None:
    cutouts = [
        {"kind": "dado", "on": "face", "at": ["2", "5"], "width": "3/4", "depth": "1/4"},
        {"kind": "hole", "on": "face", "at": ["7 1/2"], "diameter": "1/2"},
        {"kind": "notch", "on": "edge", "at": ["3 1/2"], "width": "1", "depth": "1/2"},
    ]
    picture = drawn(client, one_part(cutouts=cutouts), "part-1")
    ((_, face),) = picture.shapes("face")
    left = min(x for x, _ in face)
    found = sorted(
        (kind, round((min(x for x, _ in box) - left) / picture.scale, 3), *picture.inches(box))
        for kind, box in picture.shapes("cutout")
    )
    wanted = [("dado", 2, 0.75, 2), ("dado", 5, 0.75, 2), ("notch", 3.5, 1, 0.5)]
    for got, want in zip(found, wanted, strict=True):
        assert got[0] == want[0]
        assert got[1:] == pytest.approx(want[1:], abs=CLOSE)
    (hole,) = picture.root.iter(f"{NAMES}circle")
    assert (float(hole.get("cx", 0)) - left) / picture.scale == pytest.approx(7.5, abs=CLOSE)
    assert float(hole.get("r", 0)) / picture.scale == pytest.approx(0.25, abs=CLOSE)
    assert 'near side at 2", 5" from the first end' in marks(
        client, one_part(cutouts=cutouts), "part-1"
    )


def test_a_plain_part_is_not_drawn(client: FlaskClient) -> None:
    assert not [key for key in pictures(client, one_part()) if key.startswith("part-")]


@given(
    shelf=st.integers(8, 40),
    ends=st.integers(1, 3),
    gap=st.sampled_from(["1/2", "2", "3 1/4"]),
)
def test_a_sum_is_a_row_of_its_pieces(app: Any, shelf: int, ends: int, gap: str) -> None:
    """An end is 3/4 in thick and stands on either side; the gap is part of the sum."""
    whole, _, part = gap.partition(" ")
    wide = float(whole) + 0.25 if part else {"1/2": 0.5, "2": 2.0}[gap]
    build = {
        "name": "Sum", "wood": "spf",
        "parts": [{"id": "end", "stock": "1x6", "length": "12", "quantity": ends},
                  {"id": "shelf", "stock": "1x6", "length": f"{shelf}"}],
        "runs": [{"id": "across", "equals": "50", "pieces": [
            {"part": "end", "along": "thickness", "count": ends},
            {"gap": gap}, {"part": "shelf", "along": "length"}]}],
    }  # fmt: skip
    picture = drawn(app.test_client(), build, "run-1")
    boxes = [(letter, picture.inches(box)[0]) for letter, box in picture.shapes("box")]
    assert [letter for letter, _ in boxes] == ["A"] * ends + ["B"]
    assert [long for _, long in boxes] == pytest.approx([0.75] * ends + [shelf], abs=CLOSE)
    ((_, opening),) = picture.shapes("gap")
    assert picture.inches(opening)[0] == pytest.approx(wide, abs=CLOSE)
    assert sizes(picture) == pytest.approx([0.75 * ends + wide + shelf], abs=CLOSE)


def test_what_leans_is_shown_with_its_measures(client: FlaskClient) -> None:
    """The stool's legs are 16 in high and lean 10 degrees."""
    build = json.loads((WHOLE / "plant-stool.json").read_text(encoding="utf-8"))
    picture = drawn(client, build, "shape-1")
    heights = [picture.inches(line)[1] for of, line in picture.shapes("size") if of == "B"]
    assert heights == pytest.approx([16], abs=CLOSE)
    feet = [picture.inches(line)[0] for of, line in picture.shapes("size") if of == "C"]
    assert feet == pytest.approx([16 * tan(radians(10))], abs=CLOSE)
