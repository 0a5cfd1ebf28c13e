"""Strengths printed in the tables of the code, and the numbers in its formulas."""

import json
import re
from collections.abc import Mapping
from fractions import Fraction
from inspect import getsource
from typing import Any

import pytest

from service.domain.catalog import Catalog
from service.domain.fastening import strength
from service.domain.fastening.strength import Bearing, Dowel
from service.quantities import length
from service.reference.fasteners import ConnectionConstant
from service.reference.reading import Rows
from tests.published.test_published import printed

CONNECTIONS = printed("connections.csv")
TRUNCATED = "truncated"  # table 12.2B drops what follows the point
STEEL = {"steel A653 grade 33": "bearing.steel.thin", "steel A36": "bearing.steel.quarter"}
NEWTONS = 4.4482216152605  # a pound of force: 0.45359237 kg at 9.80665 m/s2, both by definition
NEWTONS_A_METER = NEWTONS / 0.0254  # of one pound an inch


def size(inputs: Mapping[str, Any], name: str) -> float:
    return float(length(inputs[name]))


def withdrawal(catalog: Catalog, inputs: Mapping[str, Any], unit: str) -> float:
    gravity, diameter = float(inputs["G"]), size(inputs, "diameter")
    pull = {
        "wood-screw": strength.screw_withdrawal,
        "nail": strength.nail_withdrawal,
        "lag-screw": strength.lag_withdrawal,
    }[inputs["fastener"]]
    pounds = pull(gravity, diameter)
    if unit == "N":
        return pounds * size(inputs, "thread_in_main") * NEWTONS
    return pounds * NEWTONS_A_METER if unit == "N/m" else pounds


def pull_through(catalog: Catalog, inputs: Mapping[str, Any], unit: str) -> float:
    head, side = size(inputs, "head_diameter"), size(inputs, "side_thickness")
    return strength.pull_through(float(inputs["G"]), head, side)


def lateral(catalog: Catalog, inputs: Mapping[str, Any], unit: str) -> float:
    kind, gravity, wide = inputs["fastener"], float(inputs["G"]), size(inputs, "diameter")
    root = size(inputs, "root_diameter") if "root_diameter" in inputs else wide
    angles = inputs.get("angle_main", 0), inputs.get("angle_side", 0)
    dowel = Dowel(wide, root, bending_psi(catalog, wide, kind), kind != "bolt", max(angles))
    main = Bearing(main_length(inputs, kind, wide), bearing(catalog, inputs, "main"))
    side = Bearing(size(inputs, "side_thickness"), bearing(catalog, inputs, "side"))
    assert gravity == 0.5 or inputs.get("same_G")
    return strength.lateral(dowel, main, side)


def bending_psi(catalog: Catalog, wide: float, kind: str) -> float:
    """The table of bending strengths ends at 3/8 in; lags and bolts above it are as the last."""
    last = catalog.constants["yield-strength.d-0.344"]
    found = strength.bending_strength(catalog.constants, Fraction(str(wide)))
    return float((found or last).value)


def main_length(inputs: Mapping[str, Any], kind: Any, wide: float) -> float:
    if kind == "bolt":
        return size(inputs, "main_thickness")
    penetration = float(inputs["penetration"].removesuffix(" D")) * wide
    return strength.main_bearing_length(kind, penetration, wide)


def bearing(catalog: Catalog, inputs: Mapping[str, Any], part: str) -> float:
    if part == "side" and inputs["side"] in STEEL:
        return float(catalog.constants[STEEL[inputs["side"]]].value)
    across = inputs.get(f"angle_{part}", 0) == 90
    return strength.wood_bearing(float(inputs["G"]), size(inputs, "diameter"), across)


FORMULAS = {"withdrawal": withdrawal, "pull-through": pull_through, "lateral": lateral}


@pytest.mark.parametrize(
    "row", CONNECTIONS, ids=lambda row: f"{row['what']} {row['inputs']}"[:90].replace('"', "")
)
def test_a_printed_strength_comes_out(catalog: Catalog, row: dict[str, str]) -> None:
    inputs, expected = json.loads(row["inputs"]), float(row["expected"])
    found = FORMULAS[row["what"]](catalog, inputs, row["unit"])
    if TRUNCATED in row["note"]:
        assert 0 <= found - expected < 1
    else:
        assert abs(found - expected) <= float(row["tolerance"])


def sizes_told(row: dict[str, str]) -> tuple[str, str, str | None]:
    """The fastener that a printed row names, with the diameters printed for it."""
    inputs = json.loads(row["inputs"])
    key = f"wood-screw.{inputs['gauge']}" if "gauge" in inputs else inputs.get("nail", "")
    return key, inputs.get("diameter", ""), inputs.get("root_diameter")


def sizes_held(catalog: Catalog, key: str) -> tuple[Fraction, Fraction | None]:
    """The diameters of a screw or a nail in the tables."""
    made = {thing.key: thing for thing in (*catalog.fasteners.screws, *catalog.fasteners.nails)}
    root = getattr(made[key], "root", None)
    return made[key].diameter.value, root.value if root else None


NAMED = sorted({sizes_told(row) for row in CONNECTIONS if sizes_told(row)[0]}, key=str)


@pytest.mark.parametrize(("key", "diameter", "root"), NAMED)
def test_the_fasteners_of_the_code_are_those_of_the_tables(
    catalog: Catalog, key: str, diameter: str, root: str | None
) -> None:
    held = sizes_held(catalog, key)
    assert held[0] == length(diameter)
    assert root is None or held[1] == length(root)


# NDS 2018, table L3: root diameters of rolled threads.
ROOTS = {
    6: "0.113", 7: "0.122", 8: "0.131", 9: "0.142", 10: "0.152", 12: "0.171", 14: "0.196",
    16: "0.209", 18: "0.232", 20: "0.255", 24: "0.298",
}  # fmt: skip


@pytest.mark.parametrize(("gauge", "root"), ROOTS.items())
def test_the_root_of_a_screw_is_the_printed_one(catalog: Catalog, gauge: int, root: str) -> None:
    assert sizes_held(catalog, f"wood-screw.no-{gauge}")[1] == Fraction(root)


# NDS 2018, table L4: diameters of common, box and sinker nails by pennyweight.
NAILS = {
    "common": {6: "0.113", 7: "0.113", 8: "0.131", 10: "0.148", 12: "0.148", 16: "0.162",
               20: "0.192", 30: "0.207", 40: "0.225", 50: "0.244", 60: "0.263"},
    "box": {6: "0.099", 7: "0.099", 8: "0.113", 10: "0.128", 12: "0.128", 16: "0.135",
            20: "0.148", 30: "0.148", 40: "0.162"},
    "sinker": {6: "0.092", 7: "0.099", 8: "0.113", 10: "0.120", 12: "0.135", 16: "0.148",
               20: "0.177", 30: "0.192", 40: "0.207", 60: "0.244"},
}  # fmt: skip
PENNIES = [(f"{kind}.{d}d", size) for kind, sizes in NAILS.items() for d, size in sizes.items()]


@pytest.mark.parametrize(("nail", "diameter"), PENNIES)
def test_the_diameter_of_a_nail_is_the_printed_one(
    catalog: Catalog, nail: str, diameter: str
) -> None:
    assert sizes_held(catalog, nail)[0] == Fraction(diameter)


def test_all_values_of_the_code_are_tried() -> None:
    assert len(CONNECTIONS) == 48


# The expression column of connection_constants holds the formula as printed.
@pytest.mark.parametrize(
    ("row", "formula"),
    [
        ("withdrawal.wood-screw", strength.screw_withdrawal),
        ("withdrawal.smooth-nail", strength.nail_withdrawal),
        ("withdrawal.lag-screw", strength.lag_withdrawal),
        ("pull-through.thin", strength.pull_through),
        ("pull-through.thick", strength.pull_through),
        ("bearing.thin", strength.wood_bearing),
        ("bearing.along", strength.wood_bearing),
        ("bearing.across", strength.wood_bearing),
        ("reduction.middle", strength.reduction),
        ("penetration.least", strength.penetration_share),
        ("penetration.full", strength.penetration_share),
    ],
)
def test_the_numbers_of_a_formula_are_those_of_the_printed_one(
    reference_rows: Rows, row: str, formula: Any
) -> None:
    cells = {c["key"]: c for c in reference_rows.preferred(ConnectionConstant)}[row]
    numbers = {float(n) for n in re.findall(r"\d+\.?\d*", cells["expression"])}
    code = getsource(formula) + f" {strength.LEAST_BITE} {strength.FULL_BITE}"
    assert numbers <= {float(n) for n in re.findall(r"\d+\.?\d*", code)}
