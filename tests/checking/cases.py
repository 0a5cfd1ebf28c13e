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
SHEET = {"id": "side", "stock": "plywood 3/4", "length": "30", "width": "10"}
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
GLUED = {"id": "j", "through": "shelf", "into": "side", "glue": "pva-interior"}
LAP = {"kind": "lap", "on": "face", "at": ["5"], "width": "1 1/2", "depth": "3/8"}
LET_IN = {**LAP, "width": "3 1/2", "for": "rail"}

LEANING = {"id": "legs", "shape": "leaning", "height": "16", "lean": 12, "parts": {"leg": ["leg"]}}
LEG = {
    "id": "leg",
    "stock": "1x3",
    "length": "16 23/64",
    "ends": [{"miter": 12}, {"miter": 12}],
    "ends_lean": "same",
    "measured": "center",
}
BRACE = {
    "id": "brace",
    "stock": "1x3",
    "length": "14 9/64",
    "ends": [{"miter": 45}, {"miter": 45}],
    "ends_lean": "opposite",
    "measured": "long-to-long",
}
CORNER = {
    "id": "corner",
    "shape": "brace",
    "run": "10",
    "rise": "10",
    "parts": {"brace": ["brace"]},
}
SIDE_OF_FRAME = {
    "stock": "1x3",
    "length": "21",
    "quantity": 2,
    "ends": [{"miter": 45}, {"miter": 45}],
    "ends_lean": "opposite",
    "measured": "long-to-long",
}
FRAME = build(
    {"id": "rail", **SIDE_OF_FRAME},
    {"id": "stile", **SIDE_OF_FRAME},
    shapes=[
        {
            "id": "frame",
            "shape": "mitered-frame",
            "opening": "16x16in",
            "parts": {"rail": ["rail"], "stile": ["stile"]},
        }
    ],
)
# tan(10) = 0.17633, tan(8) = 0.14054: 18 x sqrt(1 + 0.17633^2 + 0.14054^2) = 18.452; the miter is
# atan(0.17633 x cos(8)) = 9.90.
STOOL = build(
    {
        "id": "leg",
        "stock": "2x2",
        "length": "18 29/64",
        "quantity": 4,
        "mirrored": 2,
        "ends": [{"miter": 9.9, "bevel": 8}, {"miter": 9.9, "bevel": 8}],
        "ends_lean": "same",
        "measured": "long-to-short",
    },
    shapes=[
        {
            "id": "stool",
            "shape": "splayed-legs",
            "height": "18",
            "lean_front": 10,
            "lean_side": 8,
            "parts": {"leg": ["leg"]},
        }
    ],
)
# 5 / cos(15) = 5.1764 along the slope; 3/4 x tan(15) = 0.2010 more for the level edges. Four sides:
# miter atan(sin 15) = 14.51, bevel asin(cos 15 x sin 45) = 43.08.
PLANTER_SIDE = {
    "id": "side",
    "stock": {"thickness": "3/4", "width": "5 1/2"},
    "length": "16",
    "quantity": 4,
    "width": "5 11/64",
    "ends_lean": "opposite",
    "measured": "long-to-long",
    "edges_lean": "same",
    "ends": [{"miter": 14.51, "bevel": 43.08, "long": ["top", "front"]}] * 2,
    "edges": [{"bevel": 15, "long": ["front"]}, {"bevel": 15, "long": ["back"]}],
}
PLANTER = build(
    PLANTER_SIDE,
    shapes=[
        {
            "id": "box",
            "shape": "sloped-box",
            "sides": 4,
            "height": "5",
            "slope": 15,
            "rim": "16",
            "parts": {"side": ["side"]},
        }
    ],
)
# Five pieces of 1 1/2 with four gaps of 5 3/4 in 30 1/2.
ROW = build(
    {"id": "slat", "stock": "1x2", "length": "20", "quantity": 5},
    shapes=[
        {
            "id": "slats",
            "shape": "row",
            "opening": "30 1/2",
            "pieces": 5,
            "piece": "1 1/2",
            "ends": "flush",
            "at": ["0", "7 1/4", "14 1/2", "21 3/4", "29"],
            "parts": {"piece": ["slat"]},
        }
    ],
)
# Lean: 20 = 18 tan(a) + 2 1/2 / cos(a), a = 42.682; along an edge 18 / cos(a) = 24.485. The lap is
# 2 1/2 / sin(2 a) = 2.508 long: from (24.485 - 2.508) / 2 = 10.989, its middle at 12.243.
CROSSED = build(
    {
        "id": "leg",
        "stock": "1x3",
        "length": "24 31/64",
        "quantity": 2,
        "ends": [{"miter": 42.68}, {"miter": 42.68}],
        "ends_lean": "same",
        "measured": "long-to-short",
        "cutouts": [
            {"kind": "lap", "on": "face", "at": ["10 63/64"], "width": "2 1/2", "depth": "3/8"}
        ],
    },
    shapes=[
        {
            "id": "cross",
            "shape": "crossed-legs",
            "width": "20",
            "height": "18",
            "parts": {"leg": ["leg"]},
        }
    ],
)


def dadoed(**change: Any) -> Json:
    return build({**SIDE, "cutouts": [{**DADO, **change}]}, SHELF)


INCH_BOARD = {"thickness": "3/4", "width": "3 1/2"}
SQUARE_BAR = {"thickness": "1 1/2", "width": "1 1/2"}
LEANING_ENDS = {
    "ends": [{"bevel": 12}, {"bevel": 12}], "ends_lean": "same", "measured": "long-to-long",
}  # fmt: skip


def fastened(
    into: Json | None = None, through: Json | None = None, rest: Json | None = None, **joint: Any
) -> Json:
    """Two boards 3/4 in thick and one joint: a No. 8 screw, 1 1/4 in, face to face, piloted."""
    first = {"id": "rail", "stock": INCH_BOARD, "length": "20", **(through or {})}
    second = {"id": "post", "stock": INCH_BOARD, "length": "20", **(into or {})}
    screw = {
        "id": "j", "through": "rail", "into": "post", "touches": "face", "enters": "face",
        "method": "screw", "fastener": {"gauge": 8, "length": "1 1/4"}, "pilot": True,
        "glue": "pva-interior",
    }  # fmt: skip
    return build(first, second, joints=[{**screw, **joint}], **(rest or {}))


def pocketed(length: str, **change: Any) -> Json:
    """A pocket screw from the end of a board 3/4 in thick into the face of another."""
    fastener = {"length": length, "thread": "coarse"}
    return fastened(**{"touches": "end", "method": "pocket-screw", "fastener": fastener, **change})


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
        "size.nominal-for-actual", "#/parts/0/width",
        build(
            {"id": "slat", "stock": "1x4", "length": "20", "width": "3 1/2", "quantity": 3},
            runs=[{
                "id": "across", "pieces": [{"part": "slat", "along": "width", "count": 3}],
                "equals": "10 1/2",
            }],
        ),
        "/parts/0/width", ("3 1/2",), ("4",),
    ),
    Case(
        "size.nominal-for-actual", "#/parts/0/width",
        build(
            {"id": "slat", "stock": "1x4", "length": "20", "width": "4", "quantity": 3},
            runs=[{
                "id": "across", "pieces": [{"part": "slat", "along": "width", "count": 3}],
                "equals": "12",
            }],
        ),
        "/runs/0/equals", (), ("12",),
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
    Case(  # three boards that measure 7 1/8 in, a sixteenth lost at each of two seams: 21 1/4
        "size.wider-than-stock", "#/parts/0/width",
        build(
            {"id": "top", "stock": "1x8", "length": "20", "width": "21 1/4",
             "glued_from": {"boards": 3, "edge_loss": "1/16"}},
            stocks={"1x8": {"measured_width": "7 1/8"}},
        ),
        "/parts/0/width", ("21 1/4", "20"), ("21 17/64",),
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
    Case(  # two sheets of 23/32: 22 1/2 + 1 7/16 = 23 15/16; printed they would be 1 1/2
        "size.nominal-for-actual", "#/parts/1/length",
        build({**SHEET, "quantity": 2}, {**SHEET, "id": "shelf", "length": "22 1/2"}, runs=[{
            "id": "across", "equals": "23 15/16", "pieces": [
                {"part": "side", "along": "thickness", "count": 2},
                {"part": "shelf", "along": "length"}]}]),
        "/runs/0/equals", ("23 15/16", "23 31/32"), ("24",), "warn",
    ),
    Case(  # four of them lack 1/8, which no sheet within the tolerance of 1/64 makes up
        "size.nominal-for-actual", "#/parts/1/length",
        build({**SHEET, "quantity": 4}, {**SHEET, "id": "shelf", "length": "21"}, runs=[{
            "id": "across", "equals": "23 7/8", "pieces": [
                {"part": "side", "along": "thickness", "count": 4},
                {"part": "shelf", "along": "length"}]}]),
        "/runs/0/equals", ("23 7/8",), ("24",),
    ),
    Case(
        "size.nominal-for-actual", "#/parts/0/thickness",
        build({**SHEET, "thickness": "23/32"}),
        "/parts/0/thickness", ("23/32", "5/8"), ("3/4",),
    ),
    Case(
        "run.too-many", "#/runs/0",
        build(SIDE, SHELF, runs=[ACROSS]), "/parts/0/quantity", (2, 3, 40), (1,),
    ),
    Case(
        "fit.overlap", "#/parts/0/cutouts/1/at",
        build({**SIDE, "cutouts": [
            {"kind": "dado", "on": "face", "at": ["10"], "width": "3/4", "depth": "1/4"},
            {"kind": "dado", "on": "face", "at": ["12"], "width": "3/4", "depth": "1/4"}]}),
        "/parts/0/cutouts/1/at", (["10 3/4"], ["9 1/4"], ["12", "14"]),
        (["10 47/64"], ["9 17/64"], ["10"], ["12", "12 1/2"]), "warn",
    ),
    Case(  # a narrower, deeper cut within a wider one is a step
        "fit.overlap", "#/parts/0/cutouts/1/at",
        build({**SIDE, "cutouts": [
            {"kind": "rabbet", "on": "back", "at": ["0"], "width": "3/4", "depth": "1/8"},
            {"kind": "rabbet", "on": "back", "at": ["0"], "width": "3/8", "depth": "3/8"}]}),
        "/parts/0/cutouts/1/at", (["0"], ["3/8"], ["3/4"]), (["25/64"],), "warn",
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
    Case(  # either thickness may be shared: 3/8 + 3/8 makes up the 1x2, 3/8 + 1 1/8 the 2x4
        "fit.proud", "#/parts/0/cutouts/0/depth",
        build(
            {"id": "thin", "stock": "1x2", "length": "20",
             "cutouts": [{**LAP, "width": "3 1/2", "for": "thick"}]},
            {"id": "thick", "stock": "2x4", "length": "20", "cutouts": [{**LAP, "for": "thin"}]},
        ),
        "/parts/1/cutouts/0/depth", ("3/8", "1 1/8", "1 7/64"), ("13/32", "1/2", "1 3/32"),
    ),
    Case(  # two of one kind that cross each other: half of 3/4 each
        "fit.proud", "#/parts/0/cutouts/0/depth",
        build({"id": "foot", "stock": "1x2", "length": "20", "quantity": 2,
               "cutouts": [{**LAP, "for": "foot"}]}),
        "/parts/0/cutouts/0/depth", ("3/8", "47/128"), ("23/64", "25/64", "1/2"),
    ),
    Case(  # strips halved on edge: 3/4 in of one strip goes into the other, not its width
        "fit.binds", "#/parts/0/cutouts/0/width",
        build(
            {"id": "along", "stock": "1x2", "length": "20", "cutouts": [
                {"kind": "lap", "on": "edge", "at": ["5"], "width": "3/4", "for": "across"}]},
            {"id": "across", "stock": "1x2", "length": "20"},
        ),
        "/parts/0/cutouts/0/width", ("3/4", "25/32", "1 1/2"), ("47/64", "1/2"),
    ),
    Case(  # a rabbet 3/8 in deep leaves a tongue of 3/8 in on the shelf's end
        "fit.binds", "#/parts/0/cutouts/0/width",
        build(
            {**SIDE, "cutouts": [{**DADO, "width": "3/8"}]},
            {**SHELF, "cutouts": [
                {"kind": "rabbet", "on": "face", "at": ["0"], "width": "1/4", "depth": "3/8"}]},
        ),
        "/parts/0/cutouts/0/width", ("3/8", "13/32", "3/4"), ("23/64", "1/4"),
    ),
    Case(  # with one on the other face too, 1/8 in deep, a quarter is left
        "fit.loose", "#/parts/0/cutouts/0/width",
        build(
            {**SIDE, "cutouts": [{**DADO, "width": "1/4"}]},
            {**SHELF, "cutouts": [
                {"kind": "rabbet", "on": "face", "at": ["0"], "width": "1/4", "depth": "3/8"},
                {"kind": "rabbet", "on": "back", "at": ["0"], "width": "1/4", "depth": "1/8"}]},
        ),
        "/parts/0/cutouts/0/width", ("1/4", "9/32"), ("19/64",), "warn",
    ),
    Case(  # a 1x4 let into a post lies in the notch with its 3 1/2 in
        "fit.loose", "#/parts/0/cutouts/0/width",
        build(
            {"id": "post", "stock": "2x2", "length": "30", "cutouts": [
                {"kind": "notch", "on": "face", "at": ["9"], "width": "3 1/2", "depth": "3/4",
                 "for": "rail"}]},
            {"id": "rail", "stock": "1x4", "length": "20"},
        ),
        "/parts/0/cutouts/0/width", ("3 1/2", "3 17/32"), ("3 35/64", "3 5/8"), "warn",
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
    Case(  # 3/8 on the face and 3/8 on the back are all of the 3/4
        "cut.goes-through", "#/parts/0/cutouts/1/depth",
        build({**SIDE, "cutouts": [
            {"kind": "dado", "on": "face", "at": ["10"], "width": "3/4", "depth": "3/8"},
            {"kind": "dado", "on": "back", "at": ["10 1/2"], "width": "3/4", "depth": "1/4"}]}),
        "/parts/0/cutouts/1/depth", ("1/4", "23/64"), ("3/8", "1/2"),
    ),
    Case(  # side by side they leave the wood between them
        "cut.goes-through", "#/parts/0/cutouts/1/depth",
        build({**SIDE, "cutouts": [
            {"kind": "dado", "on": "face", "at": ["10"], "width": "3/4", "depth": "3/8"},
            {"kind": "dado", "on": "back", "at": ["12"], "width": "3/4", "depth": "3/8"}]}),
        "/parts/0/cutouts/1/at", (["12"], ["10 3/4"], ["9 1/4"]), (["10 47/64"], ["5", "10"]),
    ),
    Case(
        "cut.off-part", "#/parts/0/cutouts/0/at",
        build({"id": "rail", "stock": "1x4", "length": "20",
               "cutouts": [{"kind": "hole", "on": "face", "at": ["10"], "diameter": "1"}]}),
        "/parts/0/cutouts/0/at", (["1/2"], ["19 1/2"]), (["31/64"], ["0"], ["19 33/64"]),
    ),
    Case(
        "cut.off-part", "#/parts/0/cutouts/0/at",
        dadoed(), "/parts/0/cutouts/0/at", (["10"], ["29 1/4"]), (["29 17/64"], ["35"]),
    ),
    Case(
        "cut.off-part", "#/parts/0/cutouts/0/diameter",
        build({
            "id": "rail", "stock": "1x4", "length": "20",
            "cutouts": [{"kind": "hole", "on": "face", "at": ["10"], "diameter": "1"}],
        }),
        "/parts/0/cutouts/0/diameter", ("1", "3 1/2"), ("3 33/64", "8"),
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
        "shape.length", "#/parts/0/length",
        build(LEG, shapes=[LEANING]),  # 16 / cos(12) = 16.3574, a 32nd to either side
        "/parts/0/length", ("16 21/64", "16 23/64", "16 24/64"), ("16 20/64", "16 25/64", "16"),
    ),
    Case(  # cut opposed, a length from long to short means nothing: the lean is the one mistake
        "shape.lean", "#/parts/0/ends_lean",
        build({**LEG, "measured": "long-to-short"}, shapes=[LEANING]),
        "/parts/0/ends_lean", ("same",), ("opposite",),
    ),
    Case(
        "shape.length", "#/parts/0/measured",
        build(BRACE, shapes=[CORNER]),
        "/parts/0/measured", ("long-to-long",), ("short-to-short", "center"),
    ),
    Case(
        "shape.length", "#/shapes/0/run",
        build(BRACE, shapes=[{**CORNER, "opening": "24"}]),
        "/shapes/0/opening", ("24", "20"), ("19 63/64", "19"),
    ),
    Case(
        "shape.length", "#/parts/0/cutouts/0/at/0",
        CROSSED, "/parts/0/cutouts/0/at/0",
        ("10 63/64", "11 1/64"), ("12 15/64", "13 1/2", "11 2/64"),
    ),
    Case(
        "shape.length", "#/shapes/0/piece",
        ROW, "/shapes/0/piece", ("1 1/2",), ("2",),
    ),
    Case(
        "shape.angle", "#/parts/0/ends/1",
        build(LEG, shapes=[LEANING]),
        "/parts/0/ends/1/miter", (12, 12.24, 11.76), (12.26, 11.74, 78, 0),
    ),
    Case(
        "shape.lean", "#/parts/0/ends_lean",
        build(LEG, shapes=[LEANING]),
        "/parts/0/ends_lean", ("same",), ("opposite",),
    ),
    Case(
        "shape.lean", "#/parts/0/ends_lean",
        build({**BRACE, "measured": "center", "length": "11 41/64"}, shapes=[CORNER]),
        "/parts/0/ends_lean", ("opposite",), ("same",),
    ),
    Case(
        "shape.unlike", "#/parts/0/quantity",
        FRAME, "/parts/0/quantity", (2,), (1, 3),
    ),
    Case(
        "shape.unlike", "#/parts/1",
        FRAME, "/parts/1/stock", ("1x3", "1 X 3"), ("1x2", "2x3"),
    ),
    Case(
        "shape.unlike", "#/parts/0/mirrored",
        STOOL, "/parts/0/mirrored", (2,), (0, 1, 4),
    ),
    Case(
        "shape.blank", "#/parts/0",
        PLANTER, "/parts/0/stock/width", ("5 1/2", "5 24/64"), ("5 23/64", "5 1/4"),
    ),
    Case(
        "shape.blank", "#/parts/0/width",
        PLANTER, "/parts/0/width", ("5 11/64", "5 10/64"), ("5 9/64", "5"),
    ),
    Case(
        "shape.uneven", "#/shapes/0/at/2",
        ROW, "/shapes/0/at/2", ("14 1/2", "14 17/32"), ("14 35/64", "14 29/64", "15 1/4"), "warn",
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
        "joint.to-itself", "#/joints/0/into",
        build(SIDE, SHELF, joints=[{"id": "j", "through": "shelf", "into": "side"}]),
        "/joints/0/into", ("side", "wall"), ("shelf",),
    ),
    Case(  # two alike pieces may be joined to each other
        "joint.to-itself", "#/joints/0/into",
        build(SIDE, joints=[{"id": "j", "through": "side", "into": "side"}]),
        "/parts/0/quantity", (2, 4), (1,),
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
    Case(
        "joint.turns", "#/joints/0/count",
        fastened(count=1, glue="none"), "/joints/0/count", (2, 3), (1,), "note",
    ),
    Case(
        "joint.turns", "#/joints/0/count",
        fastened(count=1, glue="none"), "/joints/0/glue", ("pva-interior",), ("none",), "note",
    ),
    Case(
        "joint.turns", "#/joints/0/count",
        fastened(count=1, glue="none"), "/joints/0/quantity", (2,), (1,), "note",
    ),
    Case(
        "joint.turns", "#/joints/0/count",
        fastened(
            {"stock": {"thickness": "1 1/2", "width": "3 1/2"}, "cutouts": [LET_IN]},
            fastener={"gauge": 8, "length": "1 1/2"}, count=1, glue="none",
        ),
        "/parts/1/cutouts", ([LET_IN],), ([],), "note",
    ),
    *STANDING_CASES,
    *FINISHING_CASES,
    Case(
        "glue.outdoors", "#/joints/0/glue",
        build(
            SIDE, SHELF, joints=[{**GLUED, "method": "screw"}], place={"where": "outdoors"},
        ),
        "/joints/0/glue", ("pva-waterproof", "polyurethane-glue", "epoxy-slow", "none"),
        ("pva-interior", "yellow glue", "pva-water-resistant", "hide-liquid"), "warn",
    ),
    Case(
        "glue.outdoors", "#/joints/0/glue",
        build(SIDE, SHELF, joints=[{**GLUED, "method": "screw"}], place={"where": "indoors"}),
        "/place/where", ("indoors",), ("damp", "covered", "outdoors"), "warn",
    ),
    Case(
        "glue.outdoors", "#/joints/0/glue",
        build(
            SIDE, SHELF, place={"where": "covered"},
            joints=[{**GLUED, "method": "screw", "glue": "pva-water-resistant"}],
        ),
        "/place/where", ("indoors", "damp", "covered"), ("outdoors",), "warn",
    ),
    Case(
        "glue.end-grain", "#/joints/0",
        build(SIDE, SHELF, joints=[{**GLUED, "method": "glue", "touches": "end"}]),
        "/joints/0/touches", ("face", "edge"), ("end",), "note",
    ),
    Case(
        "glue.end-grain", "#/joints/0",
        build(SIDE, SHELF, joints=[{**GLUED, "method": "glue", "touches": "end"}]),
        "/joints/0/method", ("screw", "dowel", "pocket-screw"), ("glue", "brad", "staple"), "note",
    ),
    Case(
        "glue.end-grain", "#/joints/0",
        build(
            SIDE, {"id": "shelf", "stock": "plywood 3/4", "length": "20", "width": "7"},
            joints=[{**GLUED, "method": "glue", "touches": "end"}],
        ),
        "/parts/1/stock", ("plywood 3/4", "mdf 3/4"), ("1x8", "edge-glued-0.75in"), "note",
    ),
    Case(
        "glue.end-grain", "#/joints/0",
        build(
            {**SIDE, "cutouts": [DADO]}, SHELF,
            joints=[{**GLUED, "method": "glue", "touches": "end"}],
        ),
        "/parts/0/cutouts", ([DADO],), ([],), "note",
    ),
    Case(
        "glue.over-finish", "#/steps/1",
        build(
            SIDE, SHELF, joints=[{**GLUED, "method": "glue"}],
            steps=[
                {"do": "cut"},
                {"do": "finish", "finish": "water-polyurethane", "bare_at_joints": True},
                {"do": "assemble", "joints": ["j"]},
            ],
        ),
        "/steps/1/bare_at_joints", (True,), (False,), "warn",
    ),
    Case(
        "glue.over-finish", "#/steps/0",
        build(
            SIDE, SHELF, {"id": "foot", "stock": "1x2", "length": "4"},
            joints=[{**GLUED, "method": "glue"}, {"id": "f", "through": "foot", "into": "side"}],
            steps=[
                {"do": "finish", "finish": "water-polyurethane", "parts": ["foot"]},
                {"do": "glue", "joints": ["j"]},
            ],
        ),
        "/steps/0/parts", (["foot"],), (["side"], ["foot", "shelf"]), "warn",
    ),
    Case(
        "glue.over-finish", "#/steps/0",
        build(
            SIDE, SHELF, joints=[{**GLUED, "method": "screw"}],
            steps=[
                {"do": "finish", "finish": "water-polyurethane"},
                {"do": "assemble", "joints": ["j"]},
            ],
        ),
        "/joints/0/glue", ("none",), ("pva-interior", "pva-yellow"), "warn",
    ),
    Case(
        "glue.missing", "#/joints/0/glue",
        build(SIDE, SHELF, joints=[{**GLUED, "method": "brad"}]),
        "/joints/0/glue", ("pva-interior", "hide-hot"), ("none",), "note",
    ),
    Case(
        "glue.missing", "#/joints/0",
        build(SIDE, SHELF, joints=[{"id": "j", "through": "shelf", "into": "side"}]),
        "/joints/0/method", ("screw", "pocket-screw", "bolt", "finish-nail", "loose"),
        ("brad", "dowel", "lap", "glue"), "note",
    ),
    Case(
        "glue.missing", "#/joints/0/glue",
        build(
            SIDE, SHELF, {"id": "back", "stock": "mdf 1/4", "length": "20", "width": "10"},
            joints=[
                {"id": "b", "through": "shelf", "into": "side", "method": "brad", "glue": "none"},
                {"id": "s", "through": "shelf", "into": "side", "method": "screw"},
                {"id": "k", "through": "back", "into": "side", "method": "screw"},
            ],
        ),
        "/joints/0/through", ("back",), ("shelf",), "note",
    ),
    Case(
        "glue.too-slow", "#/steps/0/minutes",
        build(
            SIDE, SHELF, joints=[{**GLUED, "method": "glue", "quantity": 4}],
            steps=[{"do": "glue", "joints": ["j"], "minutes": 5}],
        ),
        "/steps/0/minutes", ("5 min", "4 min"), ("5.01 min", "20 min"), "warn",
    ),
    Case(
        "glue.too-slow", "#/steps/0/minutes",
        build(
            SIDE, SHELF, joints=[{**GLUED, "method": "screw", "quantity": 4}],
            steps=[{"do": "assemble", "joints": ["j"], "minutes": 20}],
        ),
        "/joints/0/method", ("screw", "pocket-screw", "brad"), ("glue", "dowel", "lap"), "warn",
    ),
    Case(
        "glue.too-slow", "#/steps/0/minutes",
        build(
            SIDE, SHELF, place={"temperature": "70 F"},
            joints=[{**GLUED, "method": "glue", "glue": "construction-adhesive"}],
            steps=[{"do": "glue", "joints": ["j"], "minutes": 30}],
        ),
        "/place/temperature", ("60 F", "50 F"), ("61 F", "70 F", "90 F"), "warn",
    ),
    Case(
        "glue.too-cold", "#/place/temperature",
        build(
            SIDE, SHELF, joints=[{**GLUED, "method": "screw"}], place={"temperature": "68 F"},
        ),
        "/place/temperature", ("60 F", "20 C", "90 F"), ("59.9 F", "15 C", "32 F"), "warn",
    ),
    Case(
        "glue.too-cold", "#/place/temperature",
        build(
            SIDE, SHELF, joints=[{**GLUED, "method": "screw"}], place={"temperature": "50 F"},
        ),
        "/joints/0/glue", ("none", "pva-yellow", "pva-waterproof", "polyurethane-glue"),
        ("pva-interior", "pva-water-resistant", "contact-cement"), "warn",
    ),
    # Passed 3/4 in; 3/4 in lie behind the face: out past 1 1/2 in, an eighth left at 1 3/8 in.
    Case(
        "fastener.pokes-out", "#/joints/0/fastener/length",
        fastened(), "/joints/0/fastener/length", ("1 3/8", "1 1/4"), ("1 33/64", "2"),
    ),
    Case(
        "fastener.pokes-out", "#/joints/0/fastener/length",
        fastened(), "/joints/0/fastener/length", ("1 3/8", "1 1/4"), ("1 25/64", "1 1/2"), "warn",
    ),
    Case(
        "fastener.pokes-out", "#/joints/0/fastener/length",
        pocketed("1 1/4"), "/joints/0/fastener/length", ("1 1/4",), ("1 1/2", "2"),
    ),
    Case(
        "fastener.pokes-out", "#/joints/0/fastener/length",
        fastened(sunk="1/8"), "/joints/0/sunk", ("1/8", "0"), ("17/64",),
    ),
    Case(
        "fastener.pokes-out", "#/joints/0/fastener/length",
        fastened(sunk="1/8"), "/joints/0/sunk", ("1/8", "0"), ("9/64", "1/4"), "warn",
    ),
    Case(
        "fastener.too-short", "#/joints/0/fastener/length",
        fastened(), "/joints/0/fastener/length", ("1 1/4",), ("3/4", "1/2"),
    ),
    Case(
        "fastener.too-short", "#/joints/0/fastener/length",
        fastened(), "/joints/0/fastener/length", ("1 1/4",), ("1 15/64", "1"), "warn",
    ),
    # A quarter of 3/4 in is 0.1875 in: No. 9 is 0.177 in thick, No. 10 0.190 in.
    Case(
        "fastener.too-thick", "#/joints/0/fastener/gauge",
        fastened(enters="edge", fastener={"gauge": 8, "length": "1 5/8"}),
        "/joints/0/fastener/gauge", (8, 9), (10, 12), "warn",
    ),
    # Half of 1 1/2 in over sin 12 degrees is 3.607 in of bite: 4.357 in with the 3/4 in passed.
    Case(
        "fastener.breaks-out", "#/joints/0/fastener/length",
        fastened({"stock": SQUARE_BAR, **LEANING_ENDS}, enters="end"),
        "/joints/0/fastener/length", ("4", "3"), ("4 3/8", "5"),
    ),
    Case(
        "fastener.breaks-out", "#/joints/0/fastener/length",
        fastened({"stock": SQUARE_BAR, **LEANING_ENDS}, enters="end"),
        "/joints/0/fastener/length", ("4", "4 3/64"), ("4 1/16", "4 1/4"), "warn",
    ),
    # The seat lies 0.675 in before the joint: 1 1/16 in bites 0.3875 in, 1 1/32 in 0.356 in.
    Case(
        "fastener.pocket-length", "#/joints/0/fastener/length",
        pocketed("1 1/4"), "/joints/0/fastener/length",
        ("1 1/4", "1 1/16"), ("1 1/32", "1"), "warn",
    ),
    Case(
        "fastener.pocket-thread", "#/joints/0/fastener/thread",
        pocketed("1 1/4", rest={"wood": "spf"}),
        "/joints/0/fastener/thread", ("coarse",), ("fine",), "warn",
    ),
    Case(
        "fastener.pocket-thread", "#/joints/0/fastener/thread",
        pocketed("1 1/4", rest={"wood": "red oak"}),
        "/joints/0/fastener/thread", ("fine",), ("coarse",), "warn",
    ),
    Case(
        "fastener.pocket-thin", "#/joints/0/method",
        pocketed("1", into={"stock": SQUARE_BAR}), "/parts/0/stock/thickness",
        ("7/16", "1/2"), ("3/8", "1/4"),
    ),
    Case(
        "fastener.pocket-thin", "#/joints/0/method",
        pocketed("1", into={"stock": SQUARE_BAR}), "/parts/0/stock/thickness",
        ("7/16", "1/2"), ("25/64", "27/64"), "warn",
    ),
    Case(
        "fastener.end-grain", "#/joints/0/enters",
        fastened({"stock": SQUARE_BAR}, fastener={"gauge": 8, "length": "1 5/8"}),
        "/joints/0/enters", ("face", "edge"), ("end",), "note",
    ),
    Case(
        "fastener.end-grain", "#/joints/0/enters",
        fastened(
            {"stock": SQUARE_BAR}, method="finish-nail", glue="none",
            fastener={"diameter": "0.072", "length": "1 5/8"},
        ),
        "/joints/0/enters", ("face", "edge"), ("end",), "warn",
    ),
    # With a pilot two diameters of a No. 8, 0.328 in: 21/64 in is just enough.
    Case(
        "fastener.near-edge", "#/joints/0/end_distance",
        fastened(end_distance="1"), "/joints/0/end_distance",
        ("21/64", "1"), ("5/16", "1/8"), "warn",
    ),
    Case(
        "fastener.no-pilot", "#/joints/0/pilot",
        fastened(enters="edge", fastener={"gauge": 8, "length": "1 5/8"}),
        "/joints/0/pilot", (True,), (False,), "note",
    ),
    Case(
        "fastener.into-panel-edge", "#/joints/0/enters",
        fastened(
            {"stock": "plywood 3/4", "width": "12"}, enters="edge",
            fastener={"gauge": 8, "length": "1 5/8"},
        ),
        "/joints/0/glue", ("pva-interior", "pva-yellow"), ("none",), "warn",
    ),
    Case(  # a back no thicker than 3/8 in is bradded on, a wider board is not
        "fastener.into-panel-edge", "#/joints/0/enters",
        fastened(
            {"stock": "plywood 3/4", "width": "12"}, {"stock": "plywood 1/4", "width": "12"},
            enters="edge", method="brad", glue="none", fastener={"gauge": 18, "length": "1"},
        ),
        "/parts/0/stock", ("plywood 1/4", "mdf 3/8"), ("plywood 1/2", "mdf 1/2"), "warn",
    ),
    Case(  # boards glued edge to edge are solid wood: no layers part in their edge
        "fastener.into-panel-edge", "#/joints/0/enters",
        fastened(
            {"stock": "plywood 3/4", "width": "12"}, enters="edge", glue="none",
            fastener={"gauge": 8, "length": "1 5/8"},
        ),
        "/parts/1/stock", ("edge-glued-0.75in",), ("plywood 3/4", "mdf 3/4"), "warn",
    ),
    Case(
        "fastener.corrodes", "#/joints/0/fastener/coating",
        fastened(
            fastener={"gauge": 8, "length": "1 1/4", "coating": "exterior"}, glue="none",
            rest={"place": {"where": "outdoors"}},
        ),
        "/joints/0/fastener/coating", ("exterior", "galvanized", "stainless"), ("plain", "zinc"),
        "warn",
    ),
    Case(
        "fastener.corrodes", "#/joints/0/fastener/coating",
        fastened(
            fastener={"gauge": 8, "length": "1 1/4", "coating": "zinc"}, glue="none",
            rest={"place": {"where": "damp"}},
        ),
        "/joints/0/fastener/coating", ("zinc", "exterior"), ("plain",), "warn",
    ),
    Case(
        "fastener.no-tool", "#/joints/0/method",
        pocketed("1 1/4", rest={"shop": {"tools": ["drill"]}}),
        "/shop/tools", (["drill", "pocket-jig"],), (["drill"], ["pocket-jig"]), "note",
    ),
    Case(
        "fastener.mismatch", "#/joints/0/method",
        pocketed("1 1/4"), "/joints/0/touches", ("end", "edge"), ("face",), "warn",
    ),
    Case(
        "fastener.mismatch", "#/joints/0/method",
        fastened(fastener={"gauge": 8, "length": "1 1/4"}), "/joints/0/touches", ("face",),
        ("end",), "warn",
    ),
    Case(
        "fastener.mismatch", "#/joints/0/fastener/length",
        fastened({"stock": SQUARE_BAR}, enters="end", fastener={"gauge": 8, "length": "12"}),
        "/joints/0/fastener/length", ("12",), ("12 1/64", "13"), "warn",
    ),
    Case(
        "buy.not-enough", "#/buying/planned/0",
        build(
            {"id": "slat", "stock": "1x4", "length": "23", "quantity": 4},
            shop={"kerf": "1/8"},
            buying={"planned": [{"stock": "1x4", "length": "96"}]},
        ),
        "/parts/0/length", ("23", "23 29/32"), ("23 59/64", "24"),
    ),
    Case(
        "buy.not-enough", "#/buying/planned/0",
        build(
            {"id": "back", "stock": "mdf-0.5in", "length": "23", "width": "24", "quantity": 2},
            shop={"kerf": "1/8"},
            buying={"planned": [{"stock": "mdf-0.5in", "length": "48", "width": "24"}]},
        ),
        "/parts/0/length", ("23", "23 15/16"), ("23 61/64", "24"),
    ),
    Case(
        "buy.not-enough", "#/buying/planned/1",
        build(
            {"id": "slat", "stock": "1x4", "length": "40", "quantity": 2},
            {"id": "foot", "stock": "1x4", "length": "20"},
            shop={"kerf": "1/8"},
            buying={"planned": [
                {"stock": "1x4", "length": "96"}, {"stock": "1x4", "length": "24", "for": ["foot"]},
            ]},
        ),
        "/parts/1/length", ("20", "24"), ("24 1/64", "30"),
    ),
    Case(
        "buy.over-budget", "#/buying/budget",
        build(
            {"id": "slat", "stock": "1x4", "length": "24", "quantity": 4},
            buying={"budget": "10.00", "price_list": {"currency": "USD", "prices": [
                {"stock": "1x4", "length": "96", "price": "5.00"}]}},
        ),
        "/buying/budget", ("10.00", "12"), ("9.99", "5.00"), "warn",
    ),
)  # fmt: skip
