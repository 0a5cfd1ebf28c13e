"""The build document as it is read: exact values, in the units of the document."""

from decimal import Decimal
from fractions import Fraction
from typing import Any

import pytest

from service.api.documents.build import BuildForm
from service.api.documents.measures import MEASURES
from service.domain.build import (
    Build,
    Cutout,
    End,
    GluedFrom,
    Load,
    Piece,
    Place,
    PointLoad,
    Saw,
    Stock,
    StockNote,
    StoreCuts,
    Wall,
)

FORM = BuildForm()
F = Fraction


def read(**fields: Any) -> Build:
    part = fields.pop("part", {})
    parts = [{"id": "a", "stock": "1x6", "length": "20", **part}]
    build = FORM.load({"name": "a", "parts": parts, **fields})
    assert isinstance(build, Build)
    return build


def test_the_example_of_the_contract_is_read_exactly(tote: Any) -> None:
    build = FORM.load(tote)
    assert [part.length for part in build.parts] == [20, 9, F(43, 2), 20]
    assert build.runs[0].equals == Piece(part="side", along="length")
    assert build.runs[1].equals == F(35, 4)
    assert build.joints[1].fastener.length == F(13, 8)
    assert build.shop.saws == (Saw("miter-saw", blade=F(10)),)
    assert build.buying.prices[0].price == Decimal("11.40")
    assert build.steps[3].joints == ("bottom-end", "side-end")


@pytest.mark.parametrize(
    ("units", "length", "inches"),
    [
        ("in", 20.75, F(83, 4)),
        ("in", 20, F(20)),
        ("in", 0.1, F(1, 10)),
        ("in", "20 3/4", F(83, 4)),
        ("in", "1' 8 3/4\"", F(83, 4)),
        ("mm", 527.05, F(83, 4)),
        ("mm", "527,05", F(83, 4)),
        ("mm", "20 3/4 in", F(83, 4)),
        ("in", "18 mm", F(90, 127)),
    ],
)
def test_a_length_is_read_in_the_units_of_the_document(
    units: str, length: Any, inches: Fraction
) -> None:
    assert read(units=units, part={"length": length}).parts[0].length == inches


def test_units_hold_for_one_document_only() -> None:
    read(units="mm")
    assert read(part={"length": 20}).parts[0].length == 20


def test_a_whole_number_may_be_written_with_a_point() -> None:
    assert read(part={"quantity": 413.0}).parts[0].quantity == 413


@pytest.mark.parametrize(
    ("written", "stock"),
    [
        ("5/4x6", Stock("5/4x6")),
        ({"thickness": "3/4", "width": 5}, Stock(None, F(3, 4), F(5))),
        ({"thickness": "18 mm"}, Stock(None, F(90, 127))),
        ({"diameter": 1}, Stock(diameter=F(1))),
    ],
)
def test_a_stock_is_a_name_or_a_size(written: Any, stock: Stock) -> None:
    assert read(part={"stock": written}).parts[0].stock == stock


def test_ends_edges_and_what_is_known_of_a_part() -> None:
    part = read(
        part={
            "ends": [{"miter": 12, "long": ["top"]}, {"bevel": 5.5}],
            "edges": [{"bevel": 10}, {}],
            "glued_from": {"boards": 3, "edge_loss": "1/16"},
            "wood": "red oak",
            "moisture": 9,
            "measured_thickness": "0.74",
            "shows": ["front", "top"],
        }
    ).parts[0]
    assert part.ends == (End(12.0, 0.0, frozenset({"top"})), End(0.0, 5.5))
    assert part.edges == (End(0.0, 10.0), End())
    assert part.glued_from == GluedFrom(3, F(1, 16))
    assert part.known == StockNote(wood="red oak", moisture=9.0, measured_thickness=F(37, 50))
    assert part.shows == {"front", "top"}


def test_a_slot_has_a_width_and_a_hole_a_diameter() -> None:
    slot = {
        "kind": "dado",
        "on": "face",
        "at": [3, "9 1/2"],
        "width": "3/4",
        "depth": "1/4",
        "for": "b",
    }
    hole = {"kind": "hole", "on": "back", "at": [0], "diameter": "35 mm", "runs": "along"}
    assert read(part={"cutouts": [slot, hole]}).parts[0].cutouts == (
        Cutout("dado", "face", (F(3), F(19, 2)), F(3, 4), F(1, 4), "across", "b"),
        Cutout("hole", "back", (F(0),), F(175, 127), None, "along", None),
    )


def test_the_three_kinds_of_piece_in_a_run() -> None:
    pieces = [
        {"part": "a", "along": "rise", "lean": 12, "let_in": "1/4", "less": True},
        {"size": 3, "name": "spacer", "count": 2},
        {"gap": "1/8", "count": 4},
    ]
    (run,) = read(runs=[{"id": "r", "pieces": pieces, "fits": 20, "clearance": 0}]).runs
    assert run.pieces == (
        Piece(part="a", along="rise", lean=12.0, let_in=F(1, 4), less=True),
        Piece(size=F(3), name="spacer", count=2),
        Piece(size=F(1, 8), gap=True, count=4),
    )
    assert (run.fits, run.clearance, run.within) == (F(20), F(0), F(1, 32))


# A foot has 12 inches, a square foot 144 square inches; 1 kg is 1/0.45359237 lb.
@pytest.mark.parametrize(
    ("carries", "pounds", "per"),
    [
        ("40 lb", F(40), "total"),
        ("18 lb/ft", F(3, 2), "inch"),
        ("36 lb/ft2", F(1, 4), "square-inch"),
        ("0.45359237 kg", F(1), "total"),
    ],
)
def test_a_load_is_read_in_all_or_by_the_inch(carries: str, pounds: Fraction, per: str) -> None:
    (load,) = read(loads=[{"part": "a", "carries": carries}]).loads
    assert load == Load("a", pounds, per)  # type: ignore[arg-type]  # one of three words


def test_loads_on_points_with_supports_and_stiffeners() -> None:
    load = {
        "part": "a",
        "points": [{"at": 10, "carries": "90 lb"}],
        "held": "several",
        "supports": [0, 16, 32],
        "stiffened_by": [{"part": "lip", "joined": "glued"}],
    }
    assert read(loads=[load]).loads == (
        Load(
            "a",
            points=(PointLoad(F(10), F(90)),),
            held="several",
            supports=(F(0), F(16), F(32)),
            stiffened_by=(("lip", "glued"),),
        ),
    )


def test_the_place_the_people_and_the_wall() -> None:
    build = read(
        place={
            "where": "covered",
            "temperature": "20 C",
            "humidity": 40,
            "wall": {"kind": "studs", "studs": 16, "board": "1/2"},
        },
        people={"youngest": 3},
        stands={"height": 30, "encloses": "6 ft3", "kept_square_by": ["back"]},
        moving=[{"kind": "lid", "part": "a", "held_open": False}],
        stocks={"1x6": {"treated": True}},
    )
    assert build.place == Place("covered", F(68), 40.0, Wall("studs", F(16), F(1, 2)))
    assert build.youngest == 3
    assert build.stands is not None and build.stands.encloses == 6
    assert build.moving[0].held_open is False
    assert build.stocks == {"1x6": StockNote(treated=True)}


def test_buying_with_defects_and_store_cuts() -> None:
    buying = read(
        buying={
            "offcuts": [{"stock": "1x6", "length": 31, "defects": [{"from": 0, "to": 3}]}],
            "store_cuts": {"free": 2, "each": "0.50", "at_most": 10},
            "budget": "60",
            "tax_percent": "7.25",
        }
    ).buying
    assert buying.offcuts[0].defects == ((F(0), F(3)),)
    assert buying.store_cuts == StoreCuts(2, Decimal("0.50"), 10)
    assert (buying.budget, buying.tax_percent) == (Decimal(60), Decimal("7.25"))


def test_times_are_minutes_and_hours_in_numbers_or_text() -> None:
    steps = read(steps=[{"do": "glue", "minutes": 10}, {"do": "wait", "hours": "1 d"}]).steps
    assert (steps[0].minutes, steps[1].hours) == (10, 24)


SHAPES: list[tuple[dict[str, Any], dict[str, Any]]] = [
    (
        {"shape": "splayed-legs", "height": "16 1/8", "lean": 12, "rail_top_at": "9"},
        {"height": F(129, 8), "lean": 12.0, "rail_top_at": F(9)},
    ),
    ({"shape": "mitered-frame", "opening": "16x20in"}, {"opening": (F(16), F(20))}),
    ({"shape": "sloped-box", "sides": 4, "slope": 10.5}, {"sides": 4, "slope": 10.5}),
    ({"shape": "polygon", "sides": 6, "ring": "flat"}, {"sides": 6, "ring": "flat"}),
    (
        {"shape": "brace", "run": 8, "between": "level,level"},
        {"run": F(8), "between": "level,level"},
    ),
    ({"shape": "ends", "miter": "10,10"}, {"miter": (10.0, 10.0)}),
    ({"shape": "ends", "miter": [10, 20]}, {"miter": (10.0, 20.0)}),
    (
        {"shape": "row", "opening": 36, "pieces": 5, "ends": "half"},
        {"opening": F(36), "pieces": 5, "ends": "half"},
    ),
    ({"shape": "row", "ends": "1/2"}, {"ends": F(1, 2)}),
    ({"shape": "prop", "lean": 20, "stock": "1x2"}, {"lean": 20.0, "stock": "1x2"}),
]


@pytest.mark.parametrize(("written", "measures"), SHAPES, ids=lambda v: v.get("shape", ""))
def test_a_shape_keeps_the_measures_of_its_kind(
    written: dict[str, Any], measures: dict[str, Any]
) -> None:
    (shape,) = read(shapes=[{"id": "s", "parts": {"leg": ["a"]}, **written}]).shapes
    assert shape.fields == measures
    assert shape.parts == {"leg": ("a",)}


def test_every_shape_can_be_written_with_nothing_but_its_name() -> None:
    shapes = [{"id": shape, "shape": shape} for shape in MEASURES]
    assert [shape.shape for shape in read(shapes=shapes).shapes] == list(MEASURES)
