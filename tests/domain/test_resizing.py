"""Resizing: expected sizes by hand arithmetic on the runs of whole builds."""

import json
from collections.abc import Callable
from fractions import Fraction as Frac
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from service.api.documents.build import BuildForm
from service.api.rewriting import rewritten
from service.domain.catalog import Catalog
from service.domain.checking import check
from service.domain.resizing.answer import (
    CannotResize,
    NothingGives,
    NothingLeft,
    Resized,
    Resizing,
    RunsContradict,
    SeveralCanGive,
    UnknownInResize,
)
from service.domain.resizing.resize import resize
from service.domain.tape import MM
from tests.checking.sound import sound_build

Json = dict[str, Any]
Ask = Callable[..., tuple[Resized, Json]]

WHOLE = Path(__file__).parents[1] / "builds" / "whole"
PIECES = (
    "wall-shelf", "low-shelf", "crate-stack", "boot-rack", "plant-stool", "hall-mirror",
    "pin-board", "spice-grid", "towel-ladder", "pot-stand", "cookbook-stand",
)  # fmt: skip
OLD_KEYS = ("1x2", "1x3", "1x6", "1x8", "2x2", "plywood-sanded", "mdf-0.")


def whole(name: str) -> Json:
    document: Json = json.loads((WHOLE / f"{name}.json").read_text())
    return document


@pytest.fixture(scope="session")
def ask(catalog: Catalog) -> Ask:
    form = BuildForm()

    def asked(document: Json, **how: Any) -> tuple[Resized, Json]:
        build = form.load(document)
        resized = resize(build, Resizing(**how), catalog)
        return resized, rewritten(document, resized.changed, build.units == "mm")

    return asked


@pytest.fixture(scope="session")
def grave(catalog: Catalog) -> Callable[[Json], list[tuple[str, str]]]:
    form = BuildForm()

    def found(document: Json) -> list[tuple[str, str]]:
        findings = check(form.load(document), catalog).findings
        return [(f.code, f.at) for f in findings if f.severity != "note"]

    return found


Grave = Callable[[Json], list[tuple[str, str]]]


def part(document: Json, id: str) -> Json:
    return next(part for part in document["parts"] if part["id"] == id)


def at(resized: Resized) -> dict[str, object]:
    return {change.path: change.is_now for change in resized.changed}


def test_what_gives_takes_up_the_difference_less_two_thicknesses(ask: Ask) -> None:
    """24 in over all less two sides of 3/4 in, with 1/4 in let in twice: 23 in."""
    _, new = ask(whole("wall-shelf"), to={"width": Frac(24)})
    assert part(new, "shelf")["length"] == "23 in"
    assert new["loads"][0]["span"] == "22 1/2 in"


def test_a_part_that_gives_beside_the_run_changes_with_its_own_run(ask: Ask) -> None:
    """The hanger is butted: 24 in less two sides of 3/4 in."""
    _, new = ask(whole("wall-shelf"), to={"width": Frac(24)})
    assert part(new, "hanger")["length"] == "22 1/2 in"
    assert new["runs"][1]["equals"] == "24 in"


def test_runs_that_share_a_part_are_solved_together(ask: Ask) -> None:
    """Two bars across 18 in between legs of 1 1/2 in: 15 in; shoulders (15 - 1 1/2) / 2."""
    _, new = ask(whole("pot-stand"), to={"across": Frac(18), "across-the-other-way": Frac(18)})
    assert [part(new, id)["length"] for id in ("bar-under", "bar-over")] == ["15 in", "15 in"]
    assert new["runs"][3]["pieces"][0]["size"] == "6 3/4 in"
    assert part(new, "bar-under")["cutouts"][0]["at"] == ["6 3/4 in"]


def test_dadoes_go_with_the_gaps_between_what_is_in_them(ask: Ask) -> None:
    """66 less 2 overhang less 4 x 23/32 is 61 1/8, three gaps of 20 3/8; steps of 21 3/32."""
    _, new = ask(whole("low-shelf"), to={"along": Frac(66)})
    places = part(new, "deck")["cutouts"][0]["at"]
    assert places == ["1", "22 3/32 in", "43 3/16 in", "64 9/32 in"]


def test_a_leaning_leg_is_figured_again_from_its_height(ask: Ask, grave: Grave) -> None:
    """19 9/32 in high at 10 degrees: 19.28125 / cos 10 = 19.5787 in."""
    _, new = ask(whole("plant-stool"), to={"height": Frac(20)})
    assert part(new, "leg")["length"] == "19.5787 in"
    assert new["shapes"][0]["height"] == "19 9/32 in"
    assert grave(new) == []


def test_only_what_changes_is_written_anew(ask: Ask) -> None:
    old = whole("boot-rack")
    resized, new = ask(old, to={"length": Frac(30)})
    assert set(at(resized)) == {
        "/parts/0/length", "/runs/1/pieces/2/gap", "/loads/0/span",
        "/loads/0/supports/1", "/loads/0/supports/2",
    }  # fmt: skip
    assert list(new) == list(old)
    assert new["buying"] == old["buying"]


def test_thickness_width_and_fasteners_are_kept_and_say_why(ask: Ask) -> None:
    resized, _ = ask(whole("crate-stack"), to={"width": Frac(14)})
    kept = {kept.path: kept.why for kept in resized.kept}
    assert '3/4" thick' in kept["/parts/0/stock"] or '7 1/4" wide' in kept["/parts/0/stock"]
    assert "as thick as before" in kept["/joints/0/fastener"]
    assert "say it in `to`" in kept["/runs/1/equals"]


def test_a_size_beyond_the_stock_is_found_in_the_new_build(ask: Ask, grave: Grave) -> None:
    """A slat of 120 in comes out of no board of 96 in."""
    _, new = ask(whole("boot-rack"), to={"length": Frac(120)})
    assert ("size.longer-than-stock", "#/parts/0/length") in grave(new)


def test_nothing_gives_along_a_sum_of_stock(ask: Ask) -> None:
    with pytest.raises(NothingGives, match="stack"):
        ask(whole("crate-stack"), to={"stack": Frac(30)})


def test_two_runs_over_one_part_contradict_each_other(ask: Ask) -> None:
    """The same hanger can't be 22 1/2 in by one run and 19 1/2 in by another."""
    document = whole("wall-shelf")
    document["runs"].append({**document["runs"][1], "id": "again"})
    with pytest.raises(RunsContradict, match="width-inside and again") as refused:
        ask(document, to={"width-inside": Frac(24), "again": Frac(21)})
    assert [c.place for c in refused.value.complaints] == ["#/build/runs/1", "#/build/runs/3"]


def test_where_several_could_give_nothing_is_guessed(ask: Ask) -> None:
    document = whole("wall-shelf")
    piece = {"part": "hanger", "along": "length"}
    document["runs"] = [{"id": "row", "pieces": [{"part": "shelf"}, piece], "equals": "39 1/2"}]
    with pytest.raises(SeveralCanGive, match=r"shelf \(length\), hanger \(length\)"):
        ask(document, to={"row": Frac(50)})


def test_a_part_is_never_shorter_than_nothing(ask: Ask) -> None:
    with pytest.raises(NothingLeft, match="shelf"):
        ask(whole("wall-shelf"), to={"width": Frac(1, 2)})


@pytest.mark.parametrize(
    "how",
    [{"to": {"no-such": Frac(3)}}, {"region": "atlantis"}, {"stock": {"4x4": (Frac(3), None)}}],
)
def test_what_the_document_and_the_tables_do_not_know_is_refused(ask: Ask, how: Json) -> None:
    with pytest.raises(UnknownInResize):
        ask(whole("wall-shelf"), **how)


def test_a_part_already_cut_stays_and_another_gives(ask: Ask) -> None:
    """50 in less the hanger of 19 1/2 in that is cut: 30 1/2 in."""
    document = whole("wall-shelf")
    piece = {"part": "hanger", "along": "length"}
    document["runs"] = [{"id": "row", "pieces": [{"part": "shelf"}, piece], "equals": "39 1/2"}]
    resized, new = ask(document, to={"row": Frac(50)}, cut=frozenset({"hanger"}))
    assert (part(new, "shelf")["length"], part(new, "hanger")["length"]) == ("30 1/2 in", "19 1/2")
    assert "hanger is cut already" in [kept.why for kept in resized.kept]


def test_a_size_that_another_run_holds_is_refused_with_both_names(ask: Ask) -> None:
    """The bar can't be 14 in while 15 in across less two legs of 1 1/2 in leaves it 12 in."""
    with pytest.raises(RunsContradict, match="lap and across"):
        ask(whole("pot-stand"), to={"lap": Frac(14)})


def test_a_measured_thickness_makes_the_shelf_fit(ask: Ask) -> None:
    """Sides of 18 mm: 21 in is 533.4 mm, less 36 mm, with 1/4 in (6.35 mm) let in twice: 510.1."""
    resized, new = ask(whole("wall-shelf"), stock={"1x8": (18 * MM, None)})
    assert at(resized)["/parts/1/length"] == Frac("510.1") * MM
    assert new["stocks"] == {"1x8": {"measured_thickness": "18 mm"}}


def test_a_board_without_an_equal_is_named_and_glued_up(ask: Ask) -> None:
    """A 1x12 is 286 mm wide; the widest board of the other region is 219 mm: two of 144 mm."""
    document = whole("boot-rack")
    document["parts"].append({"id": "top", "stock": "1x12", "length": "20"})
    resized, new = ask(document, region="uk")
    assert part(new, "top")["glued_from"] == {"boards": 2, "edge_loss": "1/16 in"}
    assert part(new, "top")["width"] == "11 1/4 in"
    why = {change.path: change.why for change in resized.changed}["/parts/2/stock"]
    assert "1x12 has no equal here" in why and "or plywood-18mm cut to width" in why


def test_a_size_is_said_to_follow_the_run_that_leaves_it_no_choice(ask: Ask) -> None:
    """The shelf alone makes up the room; the whole names the end as what gives, not the shelf."""
    board = {"stock": "1x4", "length": "20"}
    shelf = {"part": "shelf", "along": "length"}
    document = {
        "name": "Two runs", "parts": [{"id": "end", **board}, {"id": "shelf", **board}],
        "runs": [
            {"id": "whole", "pieces": [{"part": "end", "along": "length"}, shelf],
             "equals": "40", "gives": ["end"]},
            {"id": "room", "pieces": [shelf], "equals": "20"},
        ],
    }  # fmt: skip
    resized, _ = ask(document, to={"room": Frac(22)})
    why = {change.path: (change.is_now, change.why) for change in resized.changed}
    assert why["/parts/0/length"] == (18, "it gives in the run whole")
    assert why["/parts/1/length"] == (
        22, "the run room says no `gives`, and of its lengths only this can"
    )  # fmt: skip


def test_a_strip_halved_on_edge_keeps_the_play_around_its_thickness(ask: Ask) -> None:
    """Strips of 3/4 in go into laps of 25/32; at 19 mm measured the laps grow by what they do."""
    lap = {"kind": "lap", "on": "edge", "at": ["5"], "width": "25/32"}
    strips = [
        {"id": id, "stock": "1x2", "length": "20", "cutouts": [{**lap, "for": other}]}
        for id, other in (("along", "across"), ("across", "along"))
    ]
    resized, _ = ask({"name": "Grid", "parts": strips}, stock={"1x2": (19 * MM, None)})
    assert at(resized)["/parts/0/cutouts/0/width"] == Frac(25, 32) + 19 * MM - Frac(3, 4)


def test_a_screw_goes_by_millimeters_abroad_and_a_brad_by_the_gauge_of_its_nailer(ask: Ask) -> None:
    """A No. 8 is 0.164 in or 4.2 mm thick, 4 mm to the half; an 18 gauge brad is no such screw."""
    held = [("screw", 8, "1 5/8"), ("brad", 18, "1 1/4")]
    joints = [
        {"id": method, "through": "rail", "into": "post", "method": method,
         "fastener": {"gauge": gauge, "length": length}}
        for method, gauge, length in held
    ]  # fmt: skip
    rail = {"stock": "1x4", "length": "20"}
    document = {"name": "Held", "parts": [{"id": "rail", **rail}, {"id": "post", **rail}],
                "joints": joints}  # fmt: skip
    _, abroad = ask(document, region="uk")
    screw, brad = (joint["fastener"] for joint in abroad["joints"])
    assert screw == {"diameter": "4 mm", "length": "40 mm"}
    assert brad == {"gauge": 18, "length": "1 1/4"}


@pytest.mark.parametrize("name", PIECES)
def test_another_region_and_back_closes_every_run(ask: Ask, grave: Grave, name: str) -> None:
    """Stock with a tolerance may still bind in a dado or be loose in it, until it is measured.

    And stock of another thickness may want another screw: that is a finding of its own.
    """
    own = ("fit.", "fastener.")
    _, abroad = ask(whole(name), region="uk")
    assert [code for code, _ in grave(abroad) if not code.startswith(own)] == []
    _, home = ask(abroad, region="us")
    assert [code for code, _ in grave(home) if not code.startswith("fastener.")] == []


@pytest.mark.parametrize("name", PIECES)
def test_nothing_of_the_old_region_is_left(ask: Ask, name: str) -> None:
    _, abroad = ask(whole(name), region="uk")
    text = json.dumps({key: value for key, value in abroad.items() if key != "name"})
    assert [key for key in OLD_KEYS if f'"{key}' in text] == []
    assert '"gauge"' not in text
    assert '"studs":' not in text


@pytest.mark.parametrize("name", PIECES)
def test_lengths_come_back_the_same_from_another_region(ask: Ask, name: str) -> None:
    form = BuildForm()
    _, abroad = ask(whole(name), region="uk")
    _, home = ask(abroad, region="us")
    before, after = form.load(whole(name)), form.load(home)
    close = Frac(1, 32)  # parts of a shape are figured anew, and were listed to 1/16 or 1/32 in
    for old, new in zip(before.parts, after.parts, strict=True):
        assert abs(old.length - new.length) <= close, old.id


def test_rounding_says_what_it_was_and_rounds_a_part_between_faces_down(ask: Ask) -> None:
    """20 1/50 in less 1 in, between two sides: 19 1/50 in, down to 19 in."""
    resized, new = ask(whole("wall-shelf"), to={"width": Frac(2001, 100)}, round_to_tape=True)
    assert part(new, "shelf")["length"] == "19 in"
    why = {change.path: change.why for change in resized.changed}["/parts/1/length"]
    assert "rounded down" in why and 'it was 19.01"' in why
    assert [turn.fit for turn in resized.order] == ["to-fit", "to-fit"]


def test_without_rounding_a_length_off_the_tape_stays_exact(ask: Ask) -> None:
    resized, _ = ask(whole("wall-shelf"), to={"width": Frac(2001, 100)})
    assert at(resized)["/parts/1/length"] == Frac(1901, 100)


WITH_RUNS = [seed for seed in range(400) if sound_build(seed).get("runs")]


@settings(max_examples=150)
@given(seed=st.sampled_from(WITH_RUNS), sixteenths=st.integers(1, 160), data=st.data())
def test_there_and_back_is_the_same_build(
    catalog: Catalog, seed: int, sixteenths: int, data: st.DataObject
) -> None:
    """Nothing was rounded, so nothing may be lost."""
    form = BuildForm()
    build = form.load(sound_build(seed))
    run = data.draw(st.sampled_from(build.runs))
    lengths = {p.id: p.length for p in build.parts}
    old = run.fits or (run.equals if isinstance(run.equals, Frac) else lengths[run.equals.part])
    try:
        there = resize(build, Resizing({run.id: old + Frac(sixteenths, 16)}), catalog)
    except CannotResize as refused:
        assert isinstance(refused, NothingGives | SeveralCanGive)
        return
    assert there.changed
    back = resize(there.build, Resizing({run.id: old}), catalog)
    assert back.build == build


@pytest.mark.parametrize(
    ("name", "run", "old", "new"),
    [
        ("wall-shelf", "width", "21", "30 5/16"), ("low-shelf", "height", "16", "20 1/8"),
        ("crate-stack", "width", "12", "15"), ("boot-rack", "length", "24", "36"),
        ("spice-grid", "drawer-length", "20 7/8", "24"), ("pot-stand", "across", "15", "18"),
        ("pin-board", "height", "36", "40"), ("towel-ladder", "width", "20", "24 3/8"),
    ],
)  # fmt: skip
def test_a_whole_build_there_and_back_is_the_same(
    catalog: Catalog, name: str, run: str, old: str, new: str
) -> None:
    def inches(text: str) -> Frac:
        return sum((Frac(word) for word in text.split()), Frac(0))

    build = BuildForm().load(whole(name))
    there = resize(build, Resizing({run: inches(new)}), catalog)
    back = resize(there.build, Resizing({run: inches(old)}), catalog)
    assert (back.build.parts, back.build.runs) == (build.parts, build.runs)
