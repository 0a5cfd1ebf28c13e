"""One small build a code: values at which it is silent, and, one change away, where it fires.

`silent` and `fires` hold values for the one place that `path` names; where the rule has a
threshold, they lie 1/64 in (or as near as the thing allows) to either side of it.
"""

from typing import Any

from tests.checking.cases_finishing import FINISHING_CASES
from tests.checking.cases_standing import STANDING_CASES
from tests.checking.casework import Case, Json, build

__all__ = ["CASES", "Case", "Json"]

SHELF = {"id": "shelf", "stock": "1x8", "length": "22 1/2"}
SIDE = {"id": "side", "stock": "1x8", "length": "30", "quantity": 2}
ACROSS = {
    "id": "across",
    "pieces": [
        {"part": "side", "along": "thickness", "count": 2},
        {"part": "shelf", "along": "length"},
    ],
    "equals": "24",
}
DRAWER = {"id": "drawer", "stock": {"thickness": "3/4", "width": "4"}, "length": "11 7/8"}
OPENING = {"id": "opening", "pieces": [{"part": "drawer", "along": "length"}], "fits": "12"}
DADO = {"kind": "dado", "on": "face", "at": ["10"], "width": "3/4", "depth": "1/4", "for": "shelf"}
LAP = {"kind": "lap", "on": "face", "at": ["5"], "width": "1 1/2", "depth": "3/8"}


def dadoed(**change: Any) -> Json:
    return build({**SIDE, "cutouts": [{**DADO, **change}]}, SHELF)


CASES = (
    Case(
        "size.unknown-stock", "#/parts/0/stock",
        build({"id": "rail", "stock": "1x4", "length": "20"}),
        "/parts/0/stock", ("1x4", "1 X 4", '1" x 4"'), ("1x44", "1x4s"),
    ),
    Case(
        "size.nominal-for-actual", "#/parts/0/width",
        build({"id": "rail", "stock": "1x4", "length": "20", "width": "3 1/2"}),
        "/parts/0/width", ("3 1/2", "3"), ("4",),
    ),
    Case(
        "size.nominal-for-actual", "#/parts/1/length",
        build(SIDE, SHELF, runs=[ACROSS]),
        "/parts/1/length", ("22 1/2",), ("22", "22 1/32"),
    ),
    Case(
        "size.nominal-for-actual", "#/parts/0/cutouts/0/width",
        dadoed(), "/parts/0/cutouts/0/width", ("3/4",), ("1",),
    ),
    Case(
        "size.wider-than-stock", "#/parts/0/width",
        build({"id": "rail", "stock": "1x4", "length": "20", "width": "3 1/2"}),
        "/parts/0/width", ("3 1/2", "3 31/64"), ("3 33/64", "5"),
    ),
    Case(
        "size.wider-than-stock", "#/parts/0/thickness",
        build({"id": "rail", "stock": "1x4", "length": "20", "thickness": "3/4"}),
        "/parts/0/thickness", ("3/4", "47/64"), ("49/64",),
    ),
    Case(
        "size.longer-than-stock", "#/parts/0/length",
        build(
            {"id": "rail", "stock": "1x4", "length": "96"},
            buying={"price_list": {"currency": "USD", "prices": [
                {"stock": "1x4", "length": "96", "price": "6.10"}]}},
        ),
        "/parts/0/length", ("96", "95 63/64"), ("96 1/64", "120"),
    ),
    Case(
        "size.longer-than-stock", "#/parts/0/length",
        build({"id": "rail", "stock": "1x4", "length": "96"}),
        "/parts/0/length", ("96", "192"), ("192 1/64",), "warn",
    ),
    Case(
        "run.does-not-add-up", "#/runs/0",
        build(SIDE, SHELF, runs=[ACROSS]),
        "/parts/1/length",
        ("22 1/2", "22 17/32", "22 15/32"), ("22 35/64", "22 29/64", "23 1/4"),
    ),
    Case(
        "run.does-not-fit", "#/runs/0",
        build(DRAWER, runs=[OPENING]),
        "/parts/0/length", ("12", "11 63/64"), ("12 1/64", "13"),
    ),
    Case(
        "run.tight", "#/runs/0",
        build(DRAWER, runs=[{**OPENING, "clearance": "1/8"}]),
        "/parts/0/length", ("11 7/8", "11 55/64"), ("11 57/64", "12"), "warn",
    ),
    Case(
        "fit.binds", "#/parts/0/cutouts/0/width",
        dadoed(), "/parts/0/cutouts/0/width", ("3/4", "49/64"), ("47/64", "1/2"),
    ),
    Case(
        "fit.loose", "#/parts/0/cutouts/0/width",
        dadoed(), "/parts/0/cutouts/0/width", ("3/4", "25/32"), ("51/64", "7/8"), "warn",
    ),
    Case(
        "fit.proud", "#/parts/0/cutouts/0/depth",
        build(
            {"id": "rail", "stock": "1x2", "length": "20", "cutouts": [{**LAP, "for": "bar"}]},
            {"id": "bar", "stock": "1x2", "length": "20", "cutouts": [{**LAP, "for": "rail"}]},
        ),
        "/parts/0/cutouts/0/depth", ("3/8", "23/64", "25/64"), ("11/32", "13/32"),
    ),
    Case(
        "cut.points-cross", "#/parts/0/ends",
        build({
            "id": "block", "stock": "1x4", "length": "7 1/64", "ends_lean": "opposite",
            "measured": "long-to-long", "ends": [{"miter": 45}, {"miter": 45}],
        }),
        "/parts/0/length", ("7 1/64", "8"), ("7", "6 63/64"),
    ),
    Case(
        "cut.measured-unclear", "#/parts/0/measured",
        build({
            "id": "leg", "stock": "1x4", "length": "20", "ends_lean": "opposite",
            "measured": "long-to-long", "ends": [{"miter": 10}, {"miter": 10}],
        }),
        "/parts/0/measured", ("long-to-long", "short-to-short", "center"),
        ("long-to-short", "short-to-long"), "warn",
    ),
    Case(
        "cut.goes-through", "#/parts/0/cutouts/0/depth",
        dadoed(), "/parts/0/cutouts/0/depth", ("1/4", "47/64"), ("3/4", "1"),
    ),
    Case(
        "cut.beyond-saw", "#/parts/0/ends/1",
        build(
            {
                "id": "leg", "stock": "1x3", "length": "20", "ends_lean": "same",
                "measured": "long-to-long", "ends": [{"miter": 10}, {"miter": 45}],
            },
            shop={"saws": [{"kind": "miter-saw", "miter_to": 45}]},
        ),
        "/parts/0/ends/1/miter", (45, 10), (45.5, 50),
    ),
    Case(
        "cut.beyond-saw", "#/parts/0",
        build(
            {"id": "end", "stock": {"thickness": "3/4", "width": "11 1/4"}, "length": "20"},
            shop={"saws": [{"kind": "miter-saw", "crosscut": "11 1/4"}]},
        ),
        "/parts/0/stock/width", ("11 1/4", "5"), ("11 17/64", "24"),
    ),
    Case(
        "cut.beyond-saw", "#/parts/0",
        build(
            {"id": "end", "stock": {"thickness": "3/4", "width": "12"}, "length": "20"},
            shop={"saws": [{"kind": "miter-saw", "blade": "10", "slides": True}]},
        ),
        "/parts/0/stock/width", ("12", "5"), ("12 1/64", "24"), "warn",
    ),
    Case(
        "cut.too-short-to-hold", "#/parts/0/length",
        build(
            {"id": "block", "stock": "1x3", "length": "9"},
            shop={"saws": [{"kind": "miter-saw"}]},
        ),
        "/parts/0/length", ("8", "12"), ("3 63/64", "2"), "warn",
    ),
    Case(
        "cut.too-short-to-hold", "#/parts/0/length",
        build(
            {"id": "block", "stock": "1x3", "length": "9"},
            shop={"saws": [{"kind": "miter-saw"}]},
        ),
        "/parts/0/length", ("8", "12"), ("7 63/64", "4"), "note",
    ),
    Case(
        "panel.too-big", "#/parts/0",
        build(
            {"id": "back", "stock": "mdf-0.5in", "length": "48", "width": "24", "grain": "any"},
            buying={"planned": [{"stock": "mdf 1/2", "length": "48", "width": "24"}]},
        ),
        "/parts/0/length", ("48", "24"), ("48 1/64", "50"),
    ),
    Case(
        "panel.against-grain", "#/parts/0/grain",
        build(
            {"id": "door", "stock": "plywood 3/4", "length": "30", "width": "23"},
            buying={"planned": [{"stock": "plywood 3/4", "length": "48", "width": "24"}]},
        ),
        "/parts/0/grain", ("length", "any"), ("width",), "warn",
    ),
    Case(
        "part.duplicate-id", "#/parts/1/id",
        build(SIDE, SHELF), "/parts/1/id", ("shelf",), ("side",),
    ),
    Case(
        "part.unknown", "#/runs/0/pieces/1/part",
        build(SIDE, SHELF, runs=[ACROSS]), "/runs/0/pieces/1/part", ("shelf",), ("shelv",),
    ),
    Case(
        "joint.unknown-part", "#/joints/0/into",
        build(SIDE, SHELF, joints=[{"id": "j", "through": "side", "into": "shelf"}]),
        "/joints/0/into", ("shelf", "wall"), ("top",),
    ),
    Case(
        "joint.unknown", "#/steps/0/joints/0",
        build(
            SIDE, SHELF,
            joints=[{"id": "j", "through": "side", "into": "shelf"}],
            steps=[{"do": "assemble", "joints": ["j"]}],
        ),
        "/steps/0/joints/0", ("j",), ("k",),
    ),
    Case(
        "part.unjoined", "#/parts/1",
        build(
            SIDE, SHELF, {"id": "back", "stock": "1x8", "length": "22 1/2"},
            runs=[ACROSS], joints=[{"id": "j", "through": "side", "into": "shelf"}],
        ),
        "/joints/0/into", ("shelf",), ("back",), "note",
    ),
    Case(
        "part.unused", "#/parts/1",
        build(SIDE, SHELF, joints=[{"id": "j", "through": "side", "into": "shelf"}]),
        "/joints/0/into", ("shelf",), ("wall",), "note",
    ),
    *STANDING_CASES,
    *FINISHING_CASES,
)  # fmt: skip
