"""What the page says in words: signs of a sum, names as they are written, plurals, what is had."""

from fractions import Fraction
from typing import Any

import pytest
from flask.testing import FlaskClient

from service.domain.finishing import Span
from service.handouts.about import hours
from tests.handouts.conftest import handout
from tests.handouts.test_numbers import items, model, section, table
from tests.handouts.test_part_drawings import marks, one_part


def shelf(**more: Any) -> Any:
    """Two ends and a shelf between them, of 1x6: 3/4 in thick."""
    parts = [
        {"id": "End A", "stock": "1x6", "length": "8", "quantity": 2},
        {"id": "shelf", "stock": "1x6", "length": "24"},
    ]
    return {"name": "Shelf", "wood": "spf", "parts": parts, **more}


def run_of(*pieces: dict[str, Any], equals: str = "24") -> Any:
    return shelf(runs=[{"id": "across", "equals": equals, "pieces": pieces}])


def test_a_sum_has_the_signs_that_it_is_added_with(client: FlaskClient) -> None:
    """A gap may be called anything; what is taken off has a minus, and nothing else has one."""
    build = run_of(
        {"part": "shelf"}, {"size": "1/8", "name": "less than a hair"},
        {"part": "End A", "along": "thickness", "count": 2, "less": True},
    )  # fmt: skip
    first = section(model(client, build), "sizes")[0]["items"][0]
    assert first["text"] == '22 5/8"'  # 24 + 1/8 - 2 x 3/4
    assert first["under"] == [
        'B shelf 24" + less than a hair 1/8" - 2 x A End A thickness 3/4"'
    ]


@pytest.mark.parametrize("kept", ["End A", "shelf"])
def test_a_sum_that_comes_to_nothing_is_told_without_a_drawing(
    client: FlaskClient, kept: str
) -> None:
    """More is taken off than there is, or nothing else is said: there is no length to draw."""
    less = {"part": "shelf", "less": True}
    build = run_of({"part": kept, "less": kept == "shelf"}, less)
    told = model(client, build)
    assert "across" in items(told, "sizes")
    assert not [b for b in section(told, "build") if b["kind"] == "picture"]


def test_parts_keep_their_letters_and_names_in_a_step(client: FlaskClient) -> None:
    step = {"do": "finish", "finish": "water-polyurethane", "count": 1, "parts": ["End A"]}
    told = items(model(client, shelf(steps=[{"do": "cut"}, step])), "build")
    assert told["Finish"].endswith(" on A End A.")
    all_of_it = items(model(client, shelf(steps=[{**step, "parts": []}])), "build")
    assert all_of_it["Finish"].endswith(" on all parts.")


def test_several_notches_are_notches(client: FlaskClient) -> None:
    cut = {"kind": "notch", "on": "edge", "at": ["3"], "width": "3/4", "depth": "1/2"}
    build = shelf()
    build["parts"][1]["cutouts"] = [{**cut, "for": "End A"}]
    told = model(client, build)
    assert table(told, "parts")[1]["note"] == "has notches, see below"
    assert section(told, "hardest")[0]["text"].startswith("The notches in B shelf: A End A must")


@pytest.mark.parametrize(
    ("low", "high", "least", "words"),
    [
        (1, 1, False, "1 hour"),
        (1, 2, False, "1 to 2 hours"),
        (2, 2, False, "2 hours"),
        ("1/2", "1/2", False, "30 min"),
        (0, "1/2", True, "0 to 30 min or more"),
        (24, 24, True, "24 hours or more"),
    ],
)
def test_times_are_told_as_they_are_said(
    low: int | str, high: int | str, least: bool, words: str
) -> None:
    assert hours(Span(Fraction(low), Fraction(high), at_least=least)) == words


def test_no_tool_is_told_as_what_to_use_without_it(client: FlaskClient) -> None:
    """Nails are proposed for a narrow end, and a hammer is all that they want: what to do
    without it must not be nails and a hammer."""
    build = {
        "name": "Brace", "wood": "spf",
        "parts": [{"id": "leg", "stock": "2x2", "length": "30"},
                  {"id": "brace", "stock": "1x2", "length": "14"}],
        "joints": [{"id": "j", "through": "brace", "into": "leg", "touches": "end",
                    "enters": "face", "glue": "pva-interior"}],
        "shop": {"tools": ["drill", "driver"]},
    }  # fmt: skip
    rows = {row["tool"]: row["without"] for row in table(model(client, build), "tools")}
    assert "hammer" in rows
    for tool, without in rows.items():
        assert f"with {tool}" not in without


@pytest.mark.parametrize(
    ("count", "mirrored", "words"),
    [
        (2, 0, "Both are alike"),
        (3, 0, "All 3 are alike"),
        (4, 2, "All 4 are alike, but 2 of them mirrored"),
    ],
)
def test_how_many_are_alike(client: FlaskClient, count: int, mirrored: int, words: str) -> None:
    build = one_part(ends=[{"miter": 10}, {}], quantity=count, mirrored=mirrored)
    assert marks(client, build, "part-1").splitlines()[-1] == words


def test_places_of_a_cutout_are_told_from_where_they_are_drawn(client: FlaskClient) -> None:
    """A slot along the part stands off its edge; what runs across stands off the first end."""
    slot = {"kind": "slot", "on": "face", "at": ["1/2"], "width": "1/4", "depth": "1/4"}
    along = marks(client, one_part(cutouts=[{**slot, "runs": "along"}]), "part-1")
    assert 'along the part; near side at 1/2" from the lower edge' in along
    across = marks(client, one_part(cutouts=[slot]), "part-1")
    assert 'near side at 1/2" from the first end' in across
    end = handout(client, one_part(cutouts=[{**slot, "on": "end"}]), "md")
    assert 'slot in the end, 1/4" wide, 1/4" deep; near side at 1/2"\n' in end
