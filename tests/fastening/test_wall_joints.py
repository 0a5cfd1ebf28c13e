"""A part on a wall: the screw goes past it and the covering, and sits an inch or more in a stud.

Wallboard is 1/2 in thick where nothing is said; shops want 1 to 1 1/2 in of the screw in the stud
(two trade pages, rows hang.bite).
"""

from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from service.api.documents.build import BuildForm
from service.domain.catalog import Catalog
from service.domain.checking import check
from service.domain.fastening.advising import Advice, advise
from service.domain.resolving import resolve

FORM = BuildForm()
STUDS = {"kind": "studs", "studs": "16", "board": "1/2"}
Json = dict[str, Any]


def document(part: Json, wall: Json | None, **joint: Any) -> Json:
    return {
        "name": "On a wall", "wood": "spf",
        "parts": [{"id": "cleat", "length": "36", **part}],
        "joints": [{"id": "j", "through": "cleat", "into": "wall", **joint}],
        **({"place": {"wall": wall}} if wall else {}),
    }  # fmt: skip


def advice(catalog: Catalog, written: Json) -> Advice:
    return advise(resolve(FORM.load(written), catalog))[0]


# Part, board, layers: the length that leaves 1 1/2 in in the stud, or the most under it that is
# made; No. 8 screws in steps of 1/4 in, No. 10 from 2 in on.
LENGTHS = (
    ({"stock": "1x4"}, "1/2", [], "2 3/4"),  # 3/4 + 1/2 + 1 1/2
    ({"stock": "1x4"}, "5/8", [], "2 3/4"),  # 3/4 + 5/8 + 1 3/8
    ({"stock": "1x4"}, "1/2", ["1/4"], "3"),  # 3/4 + 1/4 + 1/2 + 1 1/2
    ({"stock": "2x4"}, "1/2", [], "3 1/2"),  # 1 1/2 + 1/2 + 1 1/2
)


@pytest.mark.parametrize(("part", "board", "layers", "length"), LENGTHS)
def test_the_screw_reaches_into_the_stud(
    catalog: Catalog, part: Json, board: str, layers: list[str], length: str
) -> None:
    wall = {**STUDS, "board": board}
    (option,) = advice(catalog, document(part, wall, layers=layers)).suggestions.options
    assert option.choice.fixing.length == sum(map(Fraction, length.split()))
    assert option.method == "screw" and option.choice.fixing.glue == "none"
    assert option.drilling is not None and option.drilling.pilot is not None


def test_a_sunk_head_reaches_deeper(catalog: Catalog) -> None:
    (option,) = advice(catalog, document({"stock": "1x4"}, STUDS, sunk="1/4")).suggestions.options
    assert option.here is not None
    assert Fraction(1) <= option.here.bite <= Fraction(3, 2)
    assert option.choice.fixing.length == Fraction(5, 2)  # 2 1/2 + 1/4 - 3/4 - 1/2 = 1 1/2


@given(
    thickness=st.integers(4, 36), board=st.integers(4, 16), layers=st.integers(1, 16),
    kind=st.sampled_from(["studs", "unknown"]),
)  # fmt: skip
@settings(max_examples=60, deadline=None)
def test_what_is_proposed_passes_the_check(
    catalog: Catalog, *, thickness: int, board: int, layers: int, kind: str
) -> None:
    """Whatever the part and the covering, the proposed screw put into the build has no finding."""
    stock = {"stock": {"thickness": f"{thickness}/16 in", "width": "3 1/2"}}
    wall = {"kind": kind, "board": f"{board}/16 in", "studs": "16"}
    written = document(stock, wall, layers=[f"{layers}/16 in"])
    for option in advice(catalog, written).suggestions.options:
        length = option.choice.fixing.length
        written["joints"][0] |= {"method": "screw", "fastener": {"length": f"{length} in"}}
        assert length is not None
        bite = length - Fraction(thickness + board + layers, 16)
        assert Fraction(1) <= bite < Fraction(7, 2)
        found = check(FORM.load(written), catalog).findings
        assert not [f for f in found if f.code.startswith(("hang.bite", "fastener."))]


def test_a_screw_that_hardly_reaches_is_found(catalog: Catalog) -> None:
    # 1 5/8 - 3/4 - 1/2 = 3/8
    screw = {"method": "screw", "fastener": {"gauge": 8, "length": "1 5/8"}}
    found = advice(catalog, document({"stock": "1x4"}, STUDS, **screw))
    assert [f.code for f in found.findings] == ["hang.bite"] and found.verdict == "look"


def test_without_a_covering_half_an_inch_is_taken_and_said(catalog: Catalog) -> None:
    screw = {"method": "screw", "fastener": {"gauge": 8, "length": "1 5/8"}}
    found = advice(catalog, document({"stock": "1x4"}, {"kind": "studs"}, **screw))
    assert "the wall is covered with gypsum board 1/2 in thick" in found.assumed
    stated = [one for one in found.suggestions.particulars if one.what == "stated"]
    assert len(stated) == 1 and '3/8"' in stated[0].words
    assert found.suggestions.options[0].choice.fixing.length == Fraction(11, 4)


def test_studs_are_counted_where_they_are_known(catalog: Catalog) -> None:
    # 36 in and studs 16 apart: two wherever it is put, three at most; two screws are counted.
    found = advice(catalog, document({"stock": "1x4"}, STUDS)).suggestions
    (studs,) = [one for one in found.particulars if one.what == "studs"]
    assert "2 to 3 studs" in studs.words
    assert (found.options[0].row.count, found.options[0].row.spacing) == (2, 16)
    (unknown,) = advice(catalog, document({"stock": "1x4"}, None)).suggestions.options
    assert unknown.row.count == 0


def test_masonry_is_not_judged(catalog: Catalog) -> None:
    found = advice(catalog, document({"stock": "1x4"}, {"kind": "masonry"}))
    assert not found.suggestions.options
    assert "masonry" in found.suggestions.ruled_out[0].why
    assert not any("stud" in text for text in found.assumed)


@pytest.mark.parametrize("wall", [None, STUDS, {"kind": "masonry"}])
def test_cables_and_pipes_are_warned_of_and_no_strength_is_told(
    catalog: Catalog, wall: Json | None
) -> None:
    found = advice(catalog, document({"stock": "1x4"}, wall)).suggestions
    assert any("cable or a pipe" in text and "competent" in text for text in found.cautions)
    for option in found.options:
        assert option.hold.pulled is None and option.hold.sheared is None
        assert option.compared.sideways is None and option.compared.pulled is None


def test_a_part_that_stands_on_the_wall_with_its_end_gets_no_screw(catalog: Catalog) -> None:
    written = document({"stock": "1x4"}, STUDS, touches="end")
    found = advice(catalog, written).suggestions
    assert not found.options and "whole length" in found.ruled_out[0].why


def test_two_parts_on_a_wall_keep_their_own_numbers(catalog: Catalog) -> None:
    written = document({"stock": "1x4"}, STUDS)
    written["parts"].append({"id": "post", "stock": "2x4", "length": "36"})
    written["joints"].append({"id": "k", "through": "post", "into": "wall"})
    one, other = advise(resolve(FORM.load(written), catalog))
    lengths = [a.suggestions.options[0].choice.fixing.length for a in (one, other)]
    assert lengths == [Fraction(11, 4), Fraction(7, 2)]
    assert "cleat" in one.named(" ".join(p.words for p in one.suggestions.particulars))
    assert "post" in other.named(" ".join(p.words for p in other.suggestions.particulars))
