"""Bolts, hinges, clips and laps against hand arithmetic, and against the rules for screws.

Sizes as printed: a 1x board is 3/4 in thick, a 2x 1 1/2 in; a 1x4 and a 2x4 are 3 1/2 in wide,
a 1x8 7 1/4 in (PS 20).
"""

import re
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from service.api.documents.build import BuildForm
from service.domain.catalog import Catalog
from service.domain.checking import check
from service.domain.fastening.advising import Advice, advise
from service.domain.fastening.particular import Particular
from service.domain.resolving import resolve

FORM = BuildForm()
ONE, TWO = {"stock": "1x4"}, {"stock": "2x4"}
Json = dict[str, Any]


def document(through: Json, into: Json, joint: Json, **build: Any) -> Json:
    return {
        "name": "One joint", "units": "in", "wood": "spf",
        "parts": [{"id": "first", "length": "20", **through},
                  {"id": "second", "length": "20", **into}],
        "joints": [{"id": "j", "through": "first", "into": "second", "touches": "face",
                    "enters": "face", **joint}],
        **build,
    }  # fmt: skip


def advice(catalog: Catalog, written: Json) -> Advice:
    return advise(resolve(FORM.load(written), catalog))[0]


def told(catalog: Catalog, what: str, *joint: Json, **build: Any) -> list[Particular]:
    found = advice(catalog, document(*joint, **build)).suggestions.particulars
    return [one for one in found if one.what == what]


def bolt(diameter: str, **more: Any) -> Json:
    return {"method": "bolt", "fastener": {"diameter": diameter, **more}}


# Diameter, through, into, least length by hand, length in half inches.
# Nut 21/64 and washers 0.104 at most for 3/8 in, 16 threads: 3 + 0.208 + 0.328125 + 0.125.
# Nut 7/32 and washers 0.080 for 1/4 in, 20 threads: 1.5 + 0.16 + 0.21875 + 0.1.
# Nut 7/16 and washers 0.132 for 1/2 in, 13 threads: 2.25 + 0.264 + 0.4375 + 0.153846.
BOLTS = (
    ("3/8", TWO, TWO, 3.661125, "4"),
    ("1/4", ONE, ONE, 1.97875, "2"),
    ("1/2", ONE, TWO, 3.105346, "3 1/2"),
)


@pytest.mark.parametrize(("diameter", "through", "into", "least", "made"), BOLTS)
def test_a_bolt_is_as_long_as_what_it_holds_and_carries(
    catalog: Catalog, *, diameter: str, through: Json, into: Json, least: float, made: str
) -> None:
    (length,) = told(catalog, "length", through, into, bolt(diameter))
    assert length.least == sum(map(Fraction, made.split()))
    just_under = f"{least - 0.001:.4f}"
    assert told(catalog, "stated", through, into, bolt(diameter, length=just_under))
    assert not told(catalog, "stated", through, into, bolt(diameter, length=f"{least + 0.001:.4f}"))


def test_layers_make_a_bolt_longer(catalog: Catalog) -> None:
    # 3/4 + 3/4 + 1/2 + 0.16 + 0.21875 + 0.1 = 2.47875
    (length,) = told(catalog, "length", ONE, ONE, {**bolt("1/4"), "layers": ["1/2"]})
    assert length.least == Fraction(5, 2)


def test_a_metric_bolt_goes_by_millimeters(catalog: Catalog) -> None:
    # 40 + 40 of wood, washers 1.8 at most, nut 6.8, two threads of 1.25: 92.9, so 100.
    bars = {"stock": {"thickness": "40 mm", "width": "60 mm"}}
    (length,) = told(catalog, "length", bars, bars, bolt("8 mm"), units="mm")
    assert length.least is not None and length.least * Fraction(127, 5) == 100


def test_the_hole_is_a_little_wider_than_the_bolt(catalog: Catalog) -> None:
    # NDS 12.1.3.2: 1/32 to 1/16 in over the bolt.
    (hole,) = told(catalog, "hole", TWO, TWO, bolt("3/8"))
    assert (hole.least, hole.most, hole.drilled) == (Fraction(13, 32), Fraction(7, 16), True)


# NDS tables 12.5.1A to C for 1/2 in: 7 D and 4 D, 5 D for hardwood; 1.5 D and 4 D; 4 D.
@pytest.mark.parametrize(
    ("wood", "what", "least", "most"),
    [
        ("spf", "end-distance", "2", "7/2"),
        ("red oak", "end-distance", "2", "5/2"),
        ("spf", "edge-distance", "3/4", "2"),
        ("spf", "spacing", "2", None),
    ],
)
def test_a_bolt_keeps_the_distances_of_the_code(
    catalog: Catalog, wood: str, what: str, least: str, most: str | None
) -> None:
    (found,) = told(catalog, what, TWO, TWO, bolt("1/2"), wood=wood)
    assert (found.least, found.most) == (Fraction(least), most and Fraction(most))


def test_each_way_of_a_load_has_its_own_distance_from_the_end(catalog: Catalog) -> None:
    # 7 D, 4 D and 4 D of 1/2 in.
    (found,) = told(catalog, "end-distance", TWO, TWO, bolt("1/2"))
    assert re.findall(r'[\d /]+"', found.words) == [' 3 1/2"', ' 2"', ' 2"']


def test_the_edge_distances_are_marked_as_remembered(catalog: Catalog) -> None:
    (edge,) = told(catalog, "edge-distance", TWO, TWO, bolt("1/2"))
    (end,) = told(catalog, "end-distance", TWO, TWO, bolt("1/2"))
    assert catalog.from_memory(edge.rests_on) and not catalog.from_memory(end.rests_on)


def test_a_thick_bolt_in_a_narrow_part_is_told_of(catalog: Catalog) -> None:
    # Twice 1.5 D of 5/8 in are 1 7/8; a 1x2 is 1 1/2 wide.
    narrow = {"stock": "1x2"}
    (found,) = told(catalog, "too-narrow", narrow, TWO, bolt("5/8"))
    assert found.least == Fraction(15, 8)
    assert not told(catalog, "too-narrow", narrow, TWO, bolt("1/2"))


def test_without_a_size_nothing_is_invented(catalog: Catalog) -> None:
    found = advice(catalog, document(TWO, TWO, {"method": "bolt"})).suggestions.particulars
    assert found[0].what == "size"
    sizes = {one.what: one.least for one in found}
    assert sizes["end-distance"] is None and sizes["hole"] is None
    assert sizes["length"] == 3  # the wood alone
    assert any("7 D" in one.words for one in found)


def test_a_size_that_no_table_has_gets_no_length(catalog: Catalog) -> None:
    (length,) = told(catalog, "length", TWO, TWO, bolt("7/16"))
    assert length.least == 3 and "in the tables" in length.words


def test_a_bolt_through_an_end_is_not_figured(catalog: Catalog) -> None:
    (length,) = told(catalog, "length", TWO, TWO, {**bolt("3/8"), "touches": "end"})
    assert length.least is None


# Surface and stock of the second part, and the longest screw: what is behind it less 1/8 in, and
# no more than 1 1/2 in; No. 6 wood screws are made in 5/8, 3/4, 1, 1 1/4 and 1 1/2 in.
HINGES = (
    ("face", ONE, "5/8"),
    ("face", TWO, "5/4"),
    ("edge", ONE, "3/2"),
    ("face", {"stock": {"thickness": "1/2", "width": "3 1/2"}}, "3/8"),
)


@pytest.mark.parametrize(("surface", "stock", "longest"), HINGES)
def test_hinge_screws_stay_in_the_part_that_they_go_into(
    catalog: Catalog, surface: str, stock: Json, longest: str
) -> None:
    joint = {"method": "hinge", "enters": surface}
    _, into = told(catalog, "screws", TWO, stock, joint)
    assert into.most == Fraction(longest)


def test_a_hinge_screw_that_comes_out_is_told_of(catalog: Catalog) -> None:
    joint = {"method": "hinge", "fastener": {"length": "1"}}
    found = told(catalog, "stated", ONE, TWO, joint)
    assert [one.words for one in found] == [
        'The 1" screw comes 1/4" out of the far side of \ue000.'
    ]


def test_what_is_not_judged_of_a_hinge_is_said(catalog: Catalog) -> None:
    (found,) = told(catalog, "not-judged", ONE, TWO, {"method": "hinge"})
    assert "no load is figured" in found.words


def test_a_top_on_clips_has_its_movement(catalog: Catalog) -> None:
    # Red oak, 24 in, from 6 to 11 %: 24 x 0.00369 x 5 = 0.4428 flat and 24 x 0.00158 x 5 = 0.1896
    # quarter sawn (Wood Handbook 2010, table 13-5).
    top = {"stock": {"thickness": "3/4", "width": "24"}, "length": "48"}
    joint = {"method": "clip", "touches": "edge"}
    (found,) = told(catalog, "movement", ONE, top, joint, wood="red oak")
    assert found.least is not None and found.most is not None
    assert float(found.least) == pytest.approx(0.1896, abs=0.0006)
    assert float(found.most) == pytest.approx(0.4428, abs=0.0006)


def test_the_top_is_the_part_that_shows_its_face(catalog: Catalog) -> None:
    top = {"stock": {"thickness": "3/4", "width": "24"}, "length": "48"}
    for through, into, sides in ((ONE, top, ("edge", "face")), (top, ONE, ("face", "edge"))):
        joint = {"method": "clip", "touches": sides[0], "enters": sides[1]}
        (found,) = told(catalog, "movement", through, into, joint, wood="red oak")
        assert found.most is not None and found.most > Fraction(2, 5)
        (screws,) = told(catalog, "screws", through, into, joint)
        assert screws.most == Fraction(5, 8)


def test_a_panel_on_clips_hardly_moves(catalog: Catalog) -> None:
    panel = {"stock": "plywood 3/4", "width": "24"}
    (found,) = told(catalog, "movement", ONE, panel, {"method": "clip", "touches": "edge"})
    assert found.most is None and "hardly moves" in found.words


def test_damp_air_moves_a_top_more(catalog: Catalog) -> None:
    top = {"stock": {"thickness": "3/4", "width": "24"}, "length": "48"}
    joint = {"method": "clip", "touches": "edge"}
    (dry,) = told(catalog, "movement", ONE, top, joint)
    (damp,) = told(catalog, "movement", ONE, top, joint, place={"humidity": 85})
    assert dry.most is not None and damp.most is not None and damp.most > dry.most


def lap_cut(depth: str, other: str) -> list[Json]:
    return [{"kind": "lap", "on": "face", "at": ["5"], "width": "3 1/2", "depth": depth,
             "for": other}]  # fmt: skip


# The two parts, depth of both cuts, and what stands proud or low: nothing where they come flush.
LAPS = (
    (ONE, ONE, ("3/8", "3/8"), ()),
    (TWO, TWO, ("3/4", "3/4"), ()),
    (ONE, TWO, ("3/8", "3/8"), ("3/4",)),  # 1 1/2 - 3/8 = 1 1/8 on a cut of 3/8
    ({**ONE, "cutouts": lap_cut("1/4", "second")}, ONE, ("1/4", "1/2"), ()),  # 1/2 is left of it
    (ONE, {**ONE, "cutouts": lap_cut("1/2", "first")}, ("1/4", "1/2"), ()),
    ({**ONE, "cutouts": lap_cut("3/8", "second")}, {**ONE, "cutouts": lap_cut("1/4", "first")},
     ("3/8", "1/4"), ("1/8", "1/8")),  # 3/8 in 1/4, and 1/2 in 3/8
)  # fmt: skip


@pytest.mark.parametrize(("through", "into", "cuts", "proud"), LAPS)
def test_the_cuts_of_a_lap_come_flush_or_say_by_how_much_not(
    catalog: Catalog, through: Json, into: Json, cuts: tuple[str, ...], proud: tuple[str, ...]
) -> None:
    depths = told(catalog, "depth", through, into, {"method": "lap"})
    assert [one.least for one in depths] == [Fraction(cut) for cut in cuts]
    found = told(catalog, "flush", through, into, {"method": "lap"})
    assert [one.least for one in found] == [Fraction(by) for by in proud]


def test_the_shoulder_of_a_lap_is_the_width_of_the_other_part(catalog: Catalog) -> None:
    wide = {"stock": "1x8"}
    shoulders = told(catalog, "shoulder", ONE, wide, {"method": "lap"})
    assert [one.least for one in shoulders] == [Fraction(29, 4), Fraction(7, 2)]


def test_edges_that_lap_lose_half_of_the_width(catalog: Catalog) -> None:
    joint = {"method": "lap", "touches": "edge", "enters": "edge"}
    depths = told(catalog, "depth", ONE, ONE, joint)
    shoulders = told(catalog, "shoulder", ONE, ONE, joint)
    assert [one.least for one in depths] == [Fraction(7, 4)] * 2
    assert [one.least for one in shoulders] == [Fraction(3, 4)] * 2


THICK = st.integers(8, 40).map(lambda sixteenths: Fraction(sixteenths, 16))


def part(thickness: Fraction) -> Json:
    return {"stock": {"thickness": f"{thickness} in", "width": "3 1/2"}}


def against(catalog: Catalog, written: Json) -> list[str]:
    """What the check holds against a screw: it comes out, or nearly."""
    found = check(FORM.load(written), catalog).findings
    return [f.code for f in found if f.code in ("fastener.pokes-out", "fastener.too-thick")]


@given(first=THICK, second=THICK, method=st.sampled_from(["hinge", "clip"]))
@settings(max_examples=60, deadline=None)
def test_screws_under_a_plate_pass_the_check(
    catalog: Catalog, first: Fraction, second: Fraction, method: str
) -> None:
    """The same screw through a veneer of a hundredth of an inch into that part comes out nowhere.

    It goes a hundredth less deep than under a plate that counts as nothing.
    """
    found = advice(catalog, document(part(first), part(second), {"method": method}))
    parts = [part(first), part(second)] if method == "hinge" else [part(second)]
    screws = [one for one in found.suggestions.particulars if one.what == "screws"]
    assert len(screws) == len(parts)
    for thick, one in zip(parts, screws, strict=True):
        if one.most is None:
            continue
        veneer = {"stock": {"thickness": "0.01 in", "width": "3 1/2"}}
        joint = {"method": "screw", "fastener": {"length": f"{one.most} in"}, "pilot": True}
        assert not against(catalog, document(veneer, thick, joint))


@given(first=THICK, second=THICK)
@settings(max_examples=60, deadline=None)
def test_screws_of_a_lap_pass_the_check(
    catalog: Catalog, first: Fraction, second: Fraction
) -> None:
    """The lap as told, cut into the document, and the screw as told, are right to the rules."""
    lap = {"method": "lap", "glue": "pva-interior"}
    found = advice(catalog, document(part(first), part(second), lap)).suggestions.particulars
    depths = [one.least for one in found if one.what == "depth"]
    cut = [
        {**part(size), "cutouts": lap_cut(f"{depth} in", other)}
        for size, depth, other in zip((first, second), depths, ("second", "first"), strict=True)
    ]
    screws = [one for one in found if one.what == "screws"]
    assert len(screws) == 2
    for way, one in enumerate(screws):
        if one.most is None:
            continue
        ends = {"through": ("first", "second")[way], "into": ("second", "first")[way]}
        joint = {"method": "screw", "fastener": {"length": f"{one.most} in"}, "pilot": True,
                 "glue": "pva-interior", **ends}  # fmt: skip
        assert not against(catalog, document(cut[0], cut[1], joint))


@pytest.mark.parametrize("method", ["bolt", "hinge", "clip", "lap"])
def test_nothing_is_called_safe_and_every_row_is_known(catalog: Catalog, method: str) -> None:
    found = advice(catalog, document(TWO, TWO, {"method": method})).suggestions
    assert found.particulars and not found.options
    for one in found.particulars:
        assert not any(word in one.words for word in ("safe", "rated", "holds up to"))
        assert all(row in catalog.cited for row in one.rests_on)


def test_a_head_that_is_sunk_takes_a_shorter_bolt(catalog: Catalog) -> None:
    # 3.661 less 1/2 is 3.161
    (length,) = told(catalog, "length", TWO, TWO, {**bolt("3/8"), "sunk": "1/2"})
    assert length.least == Fraction(7, 2)


@pytest.mark.parametrize("more", [{"sunk": "4"}, {"slope": 15}])
def test_a_bolt_that_makes_no_sense_or_leans_gets_no_length(catalog: Catalog, more: Json) -> None:
    (length,) = told(catalog, "length", TWO, TWO, {**bolt("3/8"), **more})
    assert length.least is None and "not figured" in length.words


def test_a_bolt_that_stands_far_out_is_told_of(catalog: Catalog) -> None:
    assert told(catalog, "stated", TWO, TWO, bolt("3/8", length="6"))
    assert not told(catalog, "stated", TWO, TWO, bolt("3/8", length="4 1/2"))


def test_a_cut_too_shallow_for_the_other_part_is_no_lap(catalog: Catalog) -> None:
    # 1 1/2 less 1/4 leaves 1 1/4, more than the 3/4 in of the other.
    thick = {**TWO, "cutouts": lap_cut("1/4", "second")}
    (depth,) = told(catalog, "depth", thick, ONE, {"method": "lap"})
    assert depth.least is None and "too thin" in depth.words
    assert not told(catalog, "screws", thick, ONE, {"method": "lap"})
