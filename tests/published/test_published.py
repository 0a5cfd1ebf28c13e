"""Values from print: each row says what was put in, what came out, and where it is printed."""

import csv
import json
from collections.abc import Callable
from decimal import Decimal
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest

from service.domain import board_feet, material, moisture
from service.domain.bending import allowed
from service.domain.build import Build, Limit, Load, Part, Stock
from service.domain.catalog import BoardSize, Catalog, Interval, PanelSize
from service.domain.loads import Carried, only_load
from service.domain.resolving import resolve
from service.domain.sections import Layer
from service.domain.stiffening import longest_span
from service.quantities import (
    amount_in,
    density,
    length,
    load,
    pressure,
    size_pair,
    temperature,
)
from service.reference.lumber import SizeTolerance
from service.reference.reading import Rows
from service.reference.woods import AssignedGravity

FOLDER = Path(__file__).parent
KG_M3 = 16.018463  # one pound per cubic foot in kg/m3 (NIST Handbook 44, from the exact pound)

# Printed already, computed by what comes later.
LATER = {
    "panel-mill-label", "tally-length", "tally-width", "weight-per-foot-wood-not-named",
}  # fmt: skip


def printed(name: str) -> list[dict[str, str]]:
    with (FOLDER / name).open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


WOOD = [row for row in printed("wood.csv") if row["what"] not in LATER]


def inch_size(size: Fraction, unit: str) -> float:
    return float(size / length(f"1 {unit}"))


class Asked:
    """The calculations that the printed rows name, on the real tables."""

    def __init__(self, catalog: Catalog, rows: Rows) -> None:
        self.catalog, self.rows = catalog, rows

    def board(self, region: str, stock: str, condition: str = "dry") -> BoardSize:
        named = self.catalog.stocked(region, stock)
        return next(b for b in named if isinstance(b, BoardSize) and b.condition == condition)

    def panel(self, region: str, stock: str) -> PanelSize:
        (panel,) = self.catalog.stocked(region, stock)
        assert isinstance(panel, PanelSize)
        return panel

    def wood_density(self, wood: str, moisture: float) -> float:
        spread = material.density(self.catalog.woods[wood], moisture)
        assert spread is not None and spread.low == spread.high
        return spread.low


def middle(spread: Any) -> float:
    return float(spread.low + spread.high) / 2


def size_thickness(asked: Asked, unit: str, **inputs: Any) -> float:
    return inch_size(asked.board(**inputs).thickness.listed, unit)


def size_width(asked: Asked, unit: str, **inputs: Any) -> float:
    width = asked.board(**inputs).width
    assert width is not None
    return inch_size(width.listed, unit)


def tolerance(asked: Asked, unit: str, **inputs: Any) -> Interval:
    size = length(inputs["size"])
    rows = [
        cells
        for cells in asked.rows.preferred(SizeTolerance)
        if cells["tolerance_class"] == inputs["tolerance_class"]
        and (cells["from_size"] is None or cells["from_size"].value <= size)
        and (cells["to_size"] is None or size <= cells["to_size"].value)
    ]
    cells = min(rows, key=lambda cells: cells["to_size"] is None)
    return Interval(cells["minus"].value, size, cells["plus"].value)


def panel_weight(asked: Asked, unit: str, region: str, stock: str, sheet: str) -> float:
    panel = asked.panel(region, stock)
    width, long = size_pair(sheet)
    spread = asked.catalog.woods[panel.material].density
    volume = float(width * long * panel.thickness.listed)
    assert spread is not None and spread.usual is not None
    return material.pounds(volume, spread.usual)


def panel_areal_weight(asked: Asked, unit: str, region: str, stock: str) -> float:
    return panel_weight(asked, unit, region, stock, "12x12in")


def weight_per_foot(asked: Asked, unit: str, **inputs: Any) -> float:
    return weight(asked, unit, length="1 ft", **inputs)


def weight(asked: Asked, unit: str, **inputs: Any) -> float:
    if "stock" in inputs:
        board = asked.board(inputs["region"], inputs["stock"])
        assert board.width is not None
        section = board.thickness.listed * board.width.listed
        heavy = asked.wood_density(inputs["wood"], inputs["moisture"])
    else:
        section = length(inputs["thickness"]) * length(inputs["width"])
        heavy = float(density(inputs["density"]))
    return material.pounds(float(section * length(inputs["length"])), heavy)


def board_feet_of(asked: Asked, unit: str, **inputs: str) -> float:
    sizes = [length(inputs[name]) for name in ("thickness", "width", "length")]
    return float(board_feet.board_feet(*sizes))


def specific_gravity(asked: Asked, unit: str, wood: str, condition: str) -> float:
    found = asked.catalog.woods[wood]
    spread = found.gravity_12 if condition == "12%" else found.gravity_green
    return middle(spread)


def assigned_gravity(asked: Asked, unit: str, combination: str) -> float:
    rows = asked.rows.preferred(AssignedGravity)
    (cells,) = [c for c in rows if c["combination"] == combination and c["preferred"] == "yes"]
    return float(cells["gravity"].value)


def movement(asked: Asked, unit: str, **inputs: Any) -> float:
    wide = inch_size(length(inputs["width"]), unit)
    return moisture.movement(
        wide, float(inputs["coefficient"]), inputs["moisture_from"], inputs["moisture_to"]
    )


def new_width(asked: Asked, unit: str, **inputs: Any) -> float:
    return inch_size(length(inputs["width"]), unit) + movement(asked, unit, **inputs)


def coefficient(asked: Asked, unit: str, **inputs: Any) -> float:
    return moisture.coefficient(float(inputs["shrinkage_percent"]), inputs["fiber_saturation"])


def sides(asked: Asked, inputs: dict[str, Any]) -> tuple[float, float]:
    """Width and height of a section as it lies."""
    if "stock" in inputs:
        board = asked.board(inputs["region"], inputs["stock"])
        assert board.width is not None
        thick, wide = board.thickness.listed, board.width.listed
    else:
        thick, wide = length(inputs["thickness"]), length(inputs["width"])
    return (float(thick), float(wide)) if inputs.get("laid", "edge") == "edge" else (
        float(wide), float(thick)
    )  # fmt: skip


def carried(asked: Asked, inputs: dict[str, Any], span: Fraction) -> Carried:
    """One plank under one load, judged like any load of a build."""
    amount = load(inputs["load"])
    pounds = amount.amount / 12
    if amount.kind == "per-square-foot":
        pounds = amount.amount / 144 * length(inputs["spacing"])
    limit = inputs.get("limit")
    share = Limit(share=Fraction(1, int(limit.removeprefix("L/")))) if limit else None
    stiffness = pressure(inputs["stiffness"])
    one = Load("plank", pounds, "inch", span=span, laid=inputs["laid"], limit=share,
               stiffness=stiffness)  # fmt: skip
    part = Part("plank", Stock(name=inputs["stock"]), span)
    build = resolve(Build("one plank", parts=(part,), loads=(one,)), asked.catalog)
    found = only_load(build)
    assert isinstance(found, Carried)
    return found


def sag(asked: Asked, unit: str, **inputs: Any) -> float:
    found = carried(asked, inputs, length(inputs["span"]))
    return found.now / float(length(f"1 {unit}"))


def longest(asked: Asked, unit: str, **inputs: Any) -> float:
    found = carried(asked, inputs, Fraction(100))
    span = longest_span(found, allowed(asked.catalog, found.load.limit, found.reach))
    assert span is not None
    return span / float(length(f"1 {unit}"))


def stiffness(asked: Asked, unit: str, wood: str, condition: str) -> float:
    psi = asked.catalog.bending[wood].stiffness[condition].value  # type: ignore[index]
    return psi / float(pressure(f"1 {unit}"))


CALCULATIONS: dict[str, Callable[..., float]] = {
    "size-thickness": size_thickness,
    "size-width": size_width,
    "size-tolerance-minus": lambda a, u, **i: inch_size(abs(tolerance(a, u, **i).low), u),
    "size-tolerance-plus": lambda a, u, **i: inch_size(tolerance(a, u, **i).high, u),
    "board-feet": board_feet_of,
    "surface-measure": lambda a, u, **i: float(
        board_feet.surface_measure(length(i["width"]), length(i["length"]))
    ),
    "panel-thickness-min": lambda a, u, **i: inch_size(a.panel(**i).thickness.low, u),
    "panel-thickness-max": lambda a, u, **i: inch_size(a.panel(**i).thickness.high, u),
    "panel-weight": panel_weight,
    "panel-areal-weight": panel_areal_weight,
    "weight-per-foot": weight_per_foot,
    "weight": weight,
    "density": lambda a, u, **i: a.wood_density(i["wood"], i["moisture"]) * KG_M3,
    "specific-gravity": specific_gravity,
    "assigned-gravity": assigned_gravity,
    "moisture-equilibrium": lambda a, u, **i: moisture.equilibrium(
        i["humidity"], float(temperature(i["temperature"], "C"))
    ),
    "moisture-maximum": lambda a, u, **i: moisture.most_moisture(
        float(i["specific_gravity_green"])
    ),
    "movement": movement,
    "movement-new-width": new_width,
    "shrinkage-framing-width": lambda a, u, **i: moisture.framing_shrinkage(i["moisture"])[0],
    "shrinkage-framing-thickness": lambda a, u, **i: moisture.framing_shrinkage(i["moisture"])[1],
    "coefficient-from-shrinkage": coefficient,
    "section-inertia": lambda a, u, **i: Layer(*sides(a, i)).inertia,
    "section-modulus": lambda a, u, **i: Layer(*sides(a, i)).modulus,
    "sag": sag,
    "span-longest": longest,
    "stiffness": stiffness,
}


@pytest.fixture(scope="module")
def asked(catalog: Catalog, reference_rows: Rows) -> Asked:
    return Asked(catalog, reference_rows)


@pytest.mark.parametrize(
    "row", WOOD, ids=lambda row: f"{row['what']} {row['inputs']}"[:90].replace('"', "")
)
def test_a_printed_value_comes_out(asked: Asked, row: dict[str, str]) -> None:
    unit = row["unit"]
    inputs = json.loads(row["inputs"], parse_float=Decimal)
    found = CALCULATIONS[row["what"]](asked, unit, **inputs)
    slack = float(row["tolerance"]) + 1e-9
    assert abs(found - float(row["expected"])) <= slack, f"{found} ({row['source']})"


def test_at_least_sixty_printed_values_are_tried() -> None:
    assert len(WOOD) >= 60


def test_what_is_left_for_later_is_not_computed_yet() -> None:
    assert not LATER & set(CALCULATIONS)
    assert {row["what"] for row in printed("wood.csv")} == LATER | set(CALCULATIONS)
    assert amount_in("1", "in", "mm") == Fraction(127, 5)
