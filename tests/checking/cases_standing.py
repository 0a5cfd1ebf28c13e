"""Cases of the rules about loads, standing, hanging, wood and the usual cautions.

Thresholds are figured by hand in the comments; the values lie just to either side of them.
"""

from typing import Any

from tests.checking.casework import Case, Json, build

PLANK = {"id": "plank", "stock": "1x8", "length": "60"}
RAIL = {"id": "rail", "stock": "1x4", "length": "20"}
TALL = {"id": "side", "stock": "1x12", "length": "60", "quantity": 4}
STUDS = {"where": "indoors", "wall": {"kind": "studs", "studs": "16", "board": "1/2"}}
TO_WALL = {
    "id": "hung", "through": "rail", "into": "wall", "method": "screw",
    "fastener": {"gauge": 10, "length": "3"}, "count": 2, "glue": "none",
}  # fmt: skip


def loaded(**load: Any) -> Json:
    return build(PLANK, wood="spf", loads=[{"part": "plank", "span": "24", **load}])


def standing(**stands: Any) -> Json:
    square = {"height": "60", "depth": "24", "kept_square_by": ["back"]}
    return build(TALL, wood="spf", stands={**square, **stands})


def hung(**rest: Any) -> Json:
    return build(RAIL, joints=[TO_WALL], place=STUDS, **rest)


def finished(finish: str) -> Json:
    return build(RAIL, steps=[{"do": "finish", "finish": finish, "count": 2}])


def gapped(gap: str, youngest: int) -> Json:
    pieces = [{"part": "slat", "along": "width", "count": 3}, {"gap": gap, "count": 2}]
    return build(
        {"id": "slat", "stock": "1x3", "length": "20", "quantity": 3},
        people={"youngest": youngest},
        runs=[{"id": "front", "pieces": pieces, "fits": "60"}],
    )


STANDING_CASES = (
    # 5 W L^3 / (384 E I) = 0.02 in a foot: W 40 lb and 2.9 lb of its own, E 1.29e6 psi, I 0.2549.
    Case(
        "load.sags", "#/loads/0", loaded(carries="40 lb", limit="shelf"),
        "/loads/0/span", ("31 1/4", "24"), ("31 21/64", "40"), "warn",
    ),
    # The eye notices 1/32 in a foot, which creep brings to half as much again at the least.
    Case(
        "load.sags", "#/loads/0", loaded(carries="40 lb", limit="eye", stays=True),
        "/loads/0/span", ("27", "24"), ("31 61/64", "40"), "warn",
    ),
    Case(
        "load.sags", "#/loads/0", loaded(carries="40 lb"),
        "/loads/0/span", ("37 3/4", "24"), ("40", "44"), "note",
    ),
    # ... and at the most to twice, which is a note where the limit lies between.
    Case(
        "load.sags", "#/loads/0", loaded(carries="40 lb", limit="eye", stays=True),
        "/loads/0/span", ("27 3/4",), ("27 13/16", "30"), "note",
    ),
    Case(
        "load.sags", "#/loads/0", loaded(carries="40 lb", limit="floor"),
        "/loads/0/span", ("40",), ("40 1/32",), "warn",
    ),
    # Without a limit it warns past the loosest of the usual ones, a 180th of the span.
    Case(
        "load.sags", "#/loads/0", loaded(carries="40 lb"),
        "/loads/0/span", ("24",), ("55 43/64",), "warn",
    ),
    # W L / 8 / 0.6797 in3 = 3,009 psi: 8,600 less 1.645 x 16 %, over 1.62 x 1.3.
    Case(
        "load.overstressed", "#/loads/0", loaded(carries="40 lb", limit="24"),
        "/loads/0/carries", ("679 lb", "40 lb"), ("680 lb", "1946 lb"), "warn",
    ),
    # ... = 8,600 psi, the modulus of rupture of subalpine fir.
    Case(
        "load.overstressed", "#/loads/0", loaded(carries="40 lb"),
        "/loads/0/carries", ("70 lb",), ("1947 lb", "3000 lb"),
    ),
    Case(
        "load.not-judged", "#/loads/0", build(
            PLANK, wood="spf", uses=["shelf"], loads=[{"part": "plank", "carries": "5 lb",
                                                       "span": "24"}]),
        "/uses/0", ("shelf", "seat"), ("crib", "sleep-raised", "climb", "guard", "child-seat"),
        "note",
    ),
    Case(
        "load.span", "#/loads/0/span", loaded(carries="1 lb", held="resting"),
        "/loads/0/span", ("24", "60"), ("60 1/64", "90"),
    ),
    Case(
        "load.not-judged", "#/loads/0", loaded(carries="5 lb"),
        "/wood", ("spf", "oak-white"), ("whitewood-us",), "note",
    ),
    # atan(depth / height) = 10 degrees at 60 tan 10 = 10.580 in.
    Case(
        "stands.tips", "#/stands", standing(),
        "/stands/depth", ("10 19/32", "24"), ("10 9/16", "6"), "warn",
    ),
    # 60 lb hung 2/3 of 20 in ahead: it tips where less than 800 in-lb right it.
    Case(
        "stands.tips", "#/stands", build(
            {"id": "side", "stock": "1x12", "length": "70", "quantity": 12},
            {"id": "drawer", "stock": "1x6", "length": "20", "quantity": 2}, wood="spf",
            stands={"height": "40", "depth": "20", "kept_square_by": ["back"]},
            moving=[{"kind": "drawer", "part": "drawer"}]),
        "/parts/0/length", ("62 3/8", "80"), ("62 5/16", "50"), "warn",
    ),
    Case(
        "stands.racks", "#/stands/kept_square_by", standing(),
        "/stands/kept_square_by", (["back"], ["brace", "back"]), ([],), "warn",
    ),
    Case(
        "hang.misses-studs", "#/joints/0", hung(),
        "/parts/0/length", ("16", "20"), ("15 63/64", "8"), "warn",
    ),
    # 3/4 in of rail and 1/2 in of board leave an inch of a screw of 2 1/4 in.
    Case(
        "hang.bite", "#/joints/0/fastener/length", hung(),
        "/joints/0/fastener/length", ("2 1/4", "3"), ("2 15/64", "1"), "warn",
    ),
    Case(
        "hang.wall-unknown", "#/joints/0", hung(),
        "/place/wall/kind", ("studs",), ("masonry", "unknown"), "note",
    ),
    # 1/16 in is 5 points of moisture times 0.00274 (white spruce) times 4.562 in.
    Case(
        "wood.crossed-grain", "#/joints/0/crosses", build(
            {"id": "top", "stock": "1x12", "length": "48"},
            {"id": "cleat", "stock": "1x2", "length": "11"}, wood="spf",
            joints=[{"id": "j", "through": "cleat", "into": "top", "method": "screw", "count": 3,
                     "crosses": "11", "glue": "none"}]),
        "/joints/0/crosses", ("4 35/64", "0"), ("4 37/64", "11"), "warn",
    ),
    Case(
        "wood.crossed-grain", "#/joints/0", build(
            {"id": "panel", "stock": "1x12", "length": "30", "width": "11"},
            {"id": "batten", "stock": "1x3", "length": "12"}, wood="spf",
            joints=[{"id": "j", "through": "panel", "into": "batten", "touches": "end",
                     "enters": "edge", "method": "glue", "glue": "pva-interior"}]),
        "/parts/0/width", ("4 35/64", "3"), ("4 37/64", "11"), "warn",
    ),
    Case(  # boards glued edge to edge move as one wide board
        "wood.crossed-grain", "#/joints/0/crosses", build(
            {"id": "top", "stock": "plywood 3/4", "length": "48", "width": "12",
             "wood": "pine-eastern-white"},
            {"id": "cleat", "stock": "1x2", "length": "11"},
            joints=[{"id": "j", "through": "cleat", "into": "top", "method": "screw", "count": 3,
                     "crosses": "11", "glue": "none"}]),
        "/parts/0/stock", ("plywood 3/4",), ("edge-glued-0.75in",), "warn",
    ),
    # The rail of a face frame: no wider than a 1x4 it is joined so every day, in oak too.
    Case(
        "wood.crossed-grain", "#/joints/0", build(
            {"id": "rail", "stock": "1x12", "length": "20", "width": "3"},
            {"id": "stile", "stock": "1x3", "length": "30"}, wood="red oak",
            joints=[{"id": "j", "through": "rail", "into": "stile", "touches": "end",
                     "enters": "edge", "method": "dowel", "glue": "pva-interior"}]),
        "/parts/0/width", ("3 1/2", "3"), ("3 33/64", "6"), "warn",
    ),
    Case(
        "wood.wet", "#/parts/0/moisture", build({**RAIL, "moisture": 12}, wood="spf"),
        "/parts/0/moisture", (20, 12), (20.1, 60), "warn",
    ),
    Case(
        "wood.outdoors", "#/parts/0", build(RAIL, wood="spf", place={"where": "outdoors"}),
        "/wood", ("cedar-western-redcedar", "oak-white"), ("spf", "maple-sugar"), "warn",
    ),
    Case(
        "safety.dust", "#/parts/0", build(
            {"id": "back", "stock": "plywood 3/4", "length": "20", "width": "10"}),
        "/parts/0/stock", ("plywood 3/4",), ("mdf 3/4",), "note",
    ),
    Case(
        "safety.dust", "#/parts/0", build({**RAIL, "treated": False}),
        "/parts/0/treated", (False,), (True,), "note",
    ),
    Case(
        "safety.reclaimed", "#/parts/0", build({**RAIL, "reclaimed": True}),
        "/parts/0/reclaimed", (False,), (True,), "note",
    ),
    Case(
        "safety.reclaimed", "#/parts/0", build(RAIL, stocks={"1x4": {"old_paint": True}}),
        "/stocks/1x4/old_paint", (False,), (True,), "note",
    ),
    Case(
        "safety.reclaimed", "#/buying/offcuts/0",
        build(RAIL, buying={"offcuts": [{"stock": "1x4", "length": "30", "old_paint": True}]}),
        "/buying/offcuts/0/old_paint", (False,), (True,), "note",
    ),
    Case(
        "safety.nailer", "#/joints/0/method", build(
            RAIL, PLANK, shop={"tools": ["brad-nailer"]},
            joints=[{"id": "j", "through": "rail", "into": "plank", "method": "brad"}]),
        "/joints/0/method", ("screw", "glue"), ("brad", "finish-nail"), "note",
    ),
    Case(
        "safety.short-pieces", "#/parts/0/length", build(RAIL),
        "/parts/0/length", ("6", "20"), ("5 63/64", "2"), "note",
    ),
    Case(
        "safety.rags", "#/steps/0/finish", finished("water-polyurethane"),
        "/steps/0/finish", ("water-polyurethane", "shellac"),
        ("oil-polyurethane", "oil-stain", "wiping-oil"), "note",
    ),
    Case(
        "safety.ventilation", "#/steps/0/finish", finished("water-polyurethane"),
        "/steps/0/finish", ("water-polyurethane", "mineral-oil"), ("shellac", "paste-wax"), "note",
    ),
    Case(
        "safety.tip-over", "#/stands", standing(height="26"),
        "/stands/height", ("26 63/64", "12"), ("27", "70"), "note",
    ),
    Case(
        "safety.gap", "#/runs/0/pieces/1/gap", gapped("2", 5),
        "/runs/0/pieces/1/gap", ("3 1/2", "9"), ("3 33/64", "8 63/64"), "warn",
    ),
    Case(
        "safety.gap", "#/runs/0/pieces/1/gap", gapped("5", 5),
        "/people/youngest", (6, 30), (5, 0), "warn",
    ),
    Case(
        "safety.moving", "#/moving/0", build(RAIL, moving=[{"kind": "lid", "held_open": True}]),
        "/moving/0/held_open", (True,), (False,), "note",
    ),
    Case(
        "safety.moving", "#/moving/0", build(
            RAIL, people={"youngest": 3}, moving=[{"kind": "lid", "held_open": True}]),
        "/moving/0/held_open", (True,), (False,), "warn",
    ),
    Case(
        "safety.sharp", "#/parts/0/ends/1", build(
            {**RAIL, "ends": [{}, {"miter": 30}]}, people={"youngest": 5}),
        "/parts/0/ends/1/miter", (45, 0), (46, 60), "warn",
    ),
    # 51 lb over four posts of 12.25 in2 at 26.2 lb a cubic foot: 68.6 in.
    Case(
        "safety.lifting", "#/parts", build(
            {"id": "post", "stock": "4x4", "length": "40", "quantity": 4}, wood="spf"),
        "/parts/0/length", ("40", "68"), ("69", "90"), "note",
    ),
    Case(
        "safety.people", "#/uses/0", build(RAIL, uses=["shelf"]),
        "/uses/0", ("shelf", "display"), ("seat", "step", "bench"), "note",
    ),
    Case(
        "safety.walls", "#/joints/0", build(RAIL, PLANK, joints=[TO_WALL]),
        "/joints/0/into", ("plank",), ("wall",), "note",
    ),
)  # fmt: skip
