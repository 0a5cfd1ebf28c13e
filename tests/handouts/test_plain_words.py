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
    assert first["under"] == ['B shelf 24" + less than a hair 1/8" - 2 x A End A thickness 3/4"']


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


def screwed(id: str, through: str, into: str, **more: Any) -> Any:
    return {"id": id, "through": through, "into": into, "touches": "face", "enters": "face",
            "method": "screw", "fastener": {"gauge": 8, "length": "1 1/4"}, "count": 2,
            "pilot": True, "glue": "none", **more}  # fmt: skip


def test_joints_that_are_held_alike_share_a_row(client: FlaskClient) -> None:
    """Three joints with the same screw and a longer one: the drill is told once for the three."""
    joints = [
        screwed("a", "End A", "shelf"), screwed("b", "shelf", "End A", quantity=2),
        screwed("c", "shelf", "End A", count=3), screwed("d", "End A", "shelf", quantity=3),
    ]  # fmt: skip
    step = {"do": "assemble", "joints": ["a", "b", "c", "d"]}
    told = model(client, shelf(joints=joints, steps=[step]))
    rows = table(told, "joints")
    assert [row["joint"] for row in rows] == ["a, b and d", "c"]
    assert [row["count"] for row in rows] == ["1 + 2 + 3", "1"]
    assert rows[0]["parts"] == (
        "face of A End A to face of B shelf; face of B shelf to face of A End A"
    )
    assert rows[0]["pilot"] and rows[0]["fastener"] == '2 x #8 wood screw 1 1/4"'
    steps = [item for b in section(told, "build") for item in b.get("items", ())]
    lines = [line for item in steps for line in item["under"] if "wood screw" in line]
    assert lines[0].startswith('a, b and d: 6 joints, each 2 x #8 wood screw 1 1/4"; drill ')
    assert lines[1].startswith('c: B shelf to A End A: 3 x #8 wood screw 1 1/4"')


def test_as_many_of_each_are_counted_once(client: FlaskClient) -> None:
    joints = [screwed(id, "End A", "shelf", quantity=2) for id in ("a", "b", "c")]
    (row,) = table(model(client, shelf(joints=joints)), "joints")
    assert (row["joint"], row["count"]) == ("a, b and c", "2 of each")


def test_a_proposal_names_its_glue_where_glue_is_told(client: FlaskClient) -> None:
    joint = {"id": "j", "through": "End A", "into": "shelf", "touches": "face", "enters": "end"}
    told = model(client, shelf(joints=[joint]))
    (row,) = table(told, "joints")
    best = client.post("/v1/fasteners", json=shelf(joints=[joint])).get_json()
    key = best["joints"][0]["options"][0]["glue"]
    assert row["glue"].endswith("(proposed)") and key not in row["fastener"]
    assert "pilot" not in row["fastener"]
    bought = [row for row in table(told, "purchases") if row["note"].startswith("proposed")]
    assert [one["kind"] for one in bought] == ["fasteners", "glue"]
    assert f"{bought[1]['what']} (proposed)" == row["glue"]
    assert "no glue is named" not in items(told, "buy").values()


def test_what_has_no_price_is_named_as_everywhere_on_the_page(client: FlaskClient) -> None:
    """No key of a table, and no inches in a metric build."""
    build = {
        "name": "Tray", "units": "mm", "region": "uk", "wood": "redwood-eu",
        "parts": [{"id": "base", "stock": "plywood-9mm", "length": "400", "width": "300"},
                  {"id": "side", "stock": "ex-25x75", "length": "400", "quantity": 2}],
        "joints": [screwed("j", "side", "base", fastener={"diameter": "4", "length": "50"},
                           glue="pva-interior")],
    }  # fmt: skip
    told = model(client, {**build, "buying": {"price_list": {
        "currency": "GBP", "prices": [{"stock": "ex-25x75", "length": "2400", "price": "5.60"}],
    }}})  # fmt: skip
    missing = items(told, "buy")["no price is given for"]
    assert missing == "plywood 9 mm of 1220 mm x 610 mm, 4 mm wood screw 50 mm and white glue"
    under = next(i for i in section(told, "glance")[0]["items"] if i["name"] == "cost")["under"]
    assert under == [f"no price for {missing}"]
    assert " in " not in missing and "fl oz" not in handout(client, build, "md")


def test_what_is_found_alike_is_told_once_with_all_its_places(client: FlaskClient) -> None:
    joints = [screwed(id, "End A", "shelf") for id in ("a", "b")]
    told = section(model(client, shelf(joints=joints, place={"where": "outdoors"})), "findings")
    lines = [line for b in told for item in b.get("items", ()) for line in item["under"]]
    (rusts,) = [line for line in lines if "rusts" in line]
    assert rusts.endswith("(at joint a, fastener, coating; joint b, fastener, coating)")


def test_boards_of_which_the_same_is_left_share_a_line(client: FlaskClient) -> None:
    build = shelf(shop={"longest_board": "73"})
    build["parts"] = [{"id": "slat", "stock": "1x2", "length": "70", "quantity": 3}]
    left = items(model(client, build), "left")
    assert [name for name in left if name.startswith("boards 1, 2 and 3, 1x2")]
    assert len(left) == 1


def test_a_cutout_is_told_at_its_drawing_or_in_a_list_and_not_twice(client: FlaskClient) -> None:
    dado = {"kind": "dado", "on": "face", "at": ["2"], "width": "3/4", "depth": "1/4"}
    for cutouts in ([dado], [{**dado, "at": []}], [{**dado, "on": "end"}]):
        page = handout(client, one_part(cutouts=cutouts), "md")
        assert page.count('3/4" wide, 1/4" deep') == 1
    hole = {"kind": "hole", "on": "face", "at": ["3"], "diameter": "1/4"}
    for ends in ([{}, {}], [{"miter": 20}, {}]):
        rod = {**one_part(), "parts": [
            {"id": "p", "stock": {"diameter": "1"}, "length": "9", "cutouts": [hole], "ends": ends}
        ]}  # fmt: skip
        assert handout(client, rod, "md").count('hole in the face, 1/4" across') == 1


def test_what_holds_it_counts_what_is_proposed_too(client: FlaskClient) -> None:
    """A joint that the build leaves open is held by what the page proposes for it, not by bolts."""
    joints = [
        {"id": "b", "through": "End A", "into": "End A", "method": "bolt"},
        {"id": "open", "through": "shelf", "into": "End A", "touches": "face", "enters": "face"},
    ]
    (words,) = [b for b in section(model(client, shelf(joints=joints)), "about") if "text" in b]
    assert "2 joints held by bolts and screws." in words["text"]


@pytest.mark.parametrize("method", ["brad", "screw", "finish-nail"])
def test_a_step_is_not_parted_for_joints_that_something_driven_holds(
    client: FlaskClient, method: str
) -> None:
    """Of forty joints only the one that clamps alone hold waits for its glue to be closed."""
    driven = {
        "id": "driven", "through": "shelf", "into": "End A", "method": method, "quantity": 40,
        "glue": "pva-interior",
    }  # fmt: skip
    clamped = {**driven, "id": "clamped", "method": "glue", "quantity": 1}
    for joints in ([clamped, driven], [driven, clamped]):
        step = {"do": "glue", "joints": [one["id"] for one in joints]}
        told = section(model(client, shelf(joints=joints, steps=[step])), "build")
        assert "goes" not in str(told)
    glued = [{**clamped, "quantity": 41}]
    step = {"do": "glue", "joints": ["clamped"]}
    assert "goes" in str(section(model(client, shelf(joints=glued, steps=[step])), "build"))
