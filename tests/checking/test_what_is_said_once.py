"""One mistake gives one finding; what is taken for granted is said; nothing is no verdict."""

from collections.abc import Callable
from typing import Any

from service.domain.checking import Checked
from tests.checking.casework import Json, build

Check = Callable[[Json], Checked]

WIDE = {"id": "top", "stock": "1x10", "length": "20"}
SLIDES = "miter-saw: taken to slide, as `slides` is not given; some cuts need it"


def codes(checked: Checked) -> list[str]:
    return [f.code for f in checked.findings if not f.code.startswith("safety.")]


def test_a_stain_over_varnish_is_one_mistake(check_json: Check) -> None:
    """It does not take there; that nothing covers it follows."""
    steps: list[Json] = [
        {"do": "finish", "finish": "water-polyurethane", "count": 2},
        {"do": "stain", "finish": "oil-stain"},
    ]
    wood = build(WIDE, wood="red oak", steps=steps)
    assert codes(check_json(wood)) == ["finish.order"]
    wood["steps"] = steps[1:]
    assert codes(check_json(wood)) == ["finish.unfit"]


def test_a_sum_that_is_off_says_too_that_it_counts_too_many(check_json: Check) -> None:
    side = {"id": "side", "stock": "1x8", "length": "30"}
    run: Json = {
        "id": "across", "equals": "20",
        "pieces": [{"part": "side", "along": "thickness", "count": 2}, {"size": "20"}],
    }  # fmt: skip
    checked = check_json(build(side, runs=[run]))
    assert codes(checked) == ["run.does-not-add-up"]
    assert checked.findings[0].detail.endswith("The run across counts 2 of side; the list has 1.")


def test_a_piece_that_is_taken_off_a_line_needs_no_piece_of_its_own(check_json: Check) -> None:
    side = {"id": "side", "stock": "1x8", "length": "30"}
    pieces: list[Json] = [
        {"size": "20"}, {"part": "side", "along": "thickness", "count": 2, "less": True},
    ]  # fmt: skip
    run = {"id": "inside", "equals": "18 1/2", "pieces": pieces}
    assert codes(check_json(build(side, runs=[run]))) == []


def test_a_slot_as_wide_as_the_name_of_its_sheet_is_not_called_a_mistake(
    check_json: Check,
) -> None:
    """A straight cut 3/4 in wide for a sheet of 23/32 in leaves 1/32 in, and is made daily."""
    slot = {"kind": "dado", "on": "face", "at": ["10"], "width": "3/4", "depth": "1/4",
            "for": "shelf"}  # fmt: skip
    sheet: dict[str, Any] = {"stock": "plywood 3/4", "length": "30", "width": "10"}
    checked = check_json(
        build({"id": "side", **sheet, "cutouts": [slot]}, {"id": "shelf", **sheet})
    )
    assert codes(checked) == []


def test_that_a_saw_is_taken_to_slide_is_said_where_it_decides(check_json: Check) -> None:
    """A board 9 1/4 in wide is crossed by sliding saws alone; one of 3 1/2 in by every one."""
    saw: Json = {"kind": "miter-saw", "blade": "10"}
    assert SLIDES in check_json(build(WIDE, shop={"saws": [saw]})).resolved.assumed
    narrow = {**WIDE, "stock": "1x4"}
    said = {**saw, "slides": True}
    for part, saws in ((narrow, [saw]), (WIDE, [said]), (WIDE, [saw, {"kind": "hand-saw"}])):
        assert SLIDES not in check_json(build(part, shop={"saws": saws})).resolved.assumed


def test_where_nothing_has_all_its_sizes_it_is_not_said_that_nothing_is_found(
    check_json: Check,
) -> None:
    checked = check_json(build({"id": "rail", "stock": "1x4"}))
    assert (checked.verdict, checked.findings) == ("look", ())
    assert "rail: a length or a width is missing" in checked.not_judged
    assert check_json(build({"id": "rail", "stock": "1x4", "length": "20"})).verdict == (
        "nothing-found"
    )
