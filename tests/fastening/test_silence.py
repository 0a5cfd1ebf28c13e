"""Where builders are right nothing is found: no fault, no warning."""

from copy import deepcopy
from typing import Any

import pytest

from service.api.documents.build import BuildForm
from service.domain.catalog import Catalog
from service.domain.checking import check

FORM = BuildForm()
Json = dict[str, Any]


def build(through: Json, into: Json, **joint: Any) -> Json:
    return {
        "name": "Right", "units": "in", "wood": "spf",
        "parts": [{"id": "first", "length": "20", **through},
                  {"id": "second", "length": "20", **into}],
        "joints": [{"id": "j", "through": "first", "into": "second", "touches": "face",
                    "enters": "face", "pilot": True, "glue": "pva-interior", **joint}],
    }  # fmt: skip


def screw(length: str, gauge: int = 8) -> Json:
    return {"method": "screw", "fastener": {"gauge": gauge, "length": length}}


RIGHT = {
    "a narrow rail over a wider part": build({"stock": "1x2"}, {"stock": "1x12"}, **screw("1 1/4")),
    "a long screw deep in an edge": build(
        {"stock": "1x4"}, {"stock": "1x12"}, enters="edge", **screw("3")
    ),
    "panel across panel": build(
        {"stock": "plywood 3/4", "width": "12"}, {"stock": "plywood 3/4", "width": "12"},
        **screw("1 1/4"),
    ),
    "a box nailed and glued into end grain": build(
        {"stock": "1x4"}, {"stock": "1x4"}, enters="end", method="finish-nail",
        fastener={"diameter": "0.0915 in", "length": "2"},
    ),
    "a back bradded and glued": build(
        {"stock": "plywood 1/4", "width": "12"}, {"stock": "1x8"}, enters="edge", method="brad",
        fastener={"gauge": 18, "length": "1"},
    ),
    "the usual pocket screw in 3/4 in stock": build(
        {"stock": "1x4"}, {"stock": "1x4"}, touches="end", method="pocket-screw",
        fastener={"length": "1 1/4", "thread": "coarse"},
    ),
    "the usual pocket screw in 3/4 in plywood": build(
        {"stock": "plywood 3/4", "width": "12"}, {"stock": "plywood 3/4", "width": "12"},
        touches="end", method="pocket-screw", fastener={"length": "1 1/4", "thread": "coarse"},
    ),
    "a face frame, end into edge": build(
        {"stock": "1x2"}, {"stock": "1x2"}, touches="end", enters="edge", method="pocket-screw",
        fastener={"length": "1 1/4", "thread": "coarse"},
    ),
    "a pilot half an inch from an end": build(
        {"stock": "1x4"}, {"stock": "1x4"}, enters="edge", end_distance="1/2", **screw("1 5/8")
    ),
    "a screw of which nothing but the length is said": build(
        {"stock": "1x4"}, {"stock": "1x4"}, method="screw", fastener={"length": "1 1/4"}
    ),
    "dowels at a mitered corner": build(
        {"stock": "1x3"}, {"stock": "1x3"}, touches="end", enters="end", method="dowel",
        fastener={"diameter": "5/16", "length": "1 1/4"},
    ),
    "a top held by clips": build(
        {"stock": "1x12"}, {"stock": "1x3"}, enters="edge", method="clip", count=4,
        lets_move=True, glue="none",
    ),
}  # fmt: skip


@pytest.mark.parametrize("name", RIGHT)
def test_a_right_joint_gives_no_fault_and_no_warning(catalog: Catalog, name: str) -> None:
    found = check(FORM.load(RIGHT[name]), catalog).findings
    assert [(f.code, f.detail) for f in found if f.severity != "note"] == []


@pytest.mark.parametrize("name", RIGHT)
def test_leaving_a_field_out_makes_a_note_at_most(catalog: Catalog, name: str) -> None:
    """What is not said cannot be wrong."""
    for left_out in ("pilot", "glue", "enters", "fastener", "method"):
        document = deepcopy(RIGHT[name])
        document["joints"][0].pop(left_out, None)
        found = check(FORM.load(document), catalog).findings
        assert [(f.code, f.detail) for f in found if f.severity != "note"] == [], left_out


def test_where_the_surface_entered_is_not_said_even_a_long_screw_is_a_note(
    catalog: Catalog,
) -> None:
    document = build({"stock": "1x4"}, {"stock": "1x4"}, **screw("3"))
    assert [f.severity for f in check(FORM.load(document), catalog).findings][:1] == ["fault"]
    document["joints"][0].pop("enters")
    found = check(FORM.load(document), catalog).findings
    assert "fault" not in {f.severity for f in found}
    assert "fastener.pokes-out" in {f.code for f in found}
