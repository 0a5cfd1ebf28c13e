"""The catalog against the printed tables and hand arithmetic."""

from fractions import Fraction

import pytest

from service.domain.catalog import Catalog, Interval
from service.reference.kinds import Length
from service.reference.lumber import LumberSize, SizeTolerance, board_sizes
from service.reference.reading import Rows

MM = Fraction(5, 127)


def test_a_board_has_its_dressed_size_and_no_tolerance_in_the_us(catalog: Catalog) -> None:
    board = catalog.stocked("us", "1x12")[0]
    # PS 20, Table 3: nominal 1 x 12 dressed dry is 3/4 by 11-1/4.
    assert (board.thickness, board.width) == (
        Interval.exactly(Fraction(3, 4)),
        Interval.exactly(Fraction(45, 4)),
    )
    assert (board.nominal_thickness, board.nominal_width) == (1, 12)
    assert board.rests_on == ("lumber_sizes/us.1x12.dry",)


def test_what_a_shop_sells_by_default_comes_first(catalog: Catalog) -> None:
    named = catalog.stocked("us", "2x4")
    assert [(size.sold_by_default, size.condition) for size in named] == [
        (True, "dry"),
        (False, "green"),
    ]


@pytest.mark.parametrize(
    ("width", "off"), [("95 mm", 1), ("100 mm", 1), ("101 mm", 1.5), ("220 mm", 1.5)]
)
def test_planed_lumber_in_the_uk_has_the_tolerance_of_class_2(
    reference_rows: Rows, width: str, off: float
) -> None:
    # EN 336, tolerance class 2: 1 mm each way up to and including 100 mm, 1.5 mm over it.
    planed = next(row for row in reference_rows.of(LumberSize) if row["class"] == "regularized")
    listed = Length().read(width)
    row = dict(planed) | {"width": listed}
    (board,) = board_sizes([row], reference_rows.preferred(SizeTolerance))
    margin = Fraction(off) * MM
    assert board.width == Interval(listed.value - margin, listed.value, listed.value + margin)


def test_a_panel_lies_between_its_printed_limits(catalog: Catalog) -> None:
    panel = catalog.stocked("us", "plywood-sheathing-0.5in")[0]
    # PS 1-19, performance category 1/2: 0.469 to 0.531 in at 9 % moisture.
    assert panel.thickness == Interval(Fraction("0.469"), Fraction(1, 2), Fraction("0.531"))
    assert (Fraction(48), Fraction(96)) in panel.sheets


def test_a_panel_of_the_uk_and_the_eu_is_sold_in_both(catalog: Catalog) -> None:
    for region in ("uk", "eu"):
        (panel,) = catalog.stocked(region, "mdf-18mm")
        assert panel.thickness == Interval.exactly(18 * MM)


def test_a_remembered_list_of_lengths_says_so(catalog: Catalog) -> None:
    assert catalog.stocked("us", "1x12")[0].lengths_from_memory


def test_a_species_has_the_handbooks_specific_gravity(catalog: Catalog) -> None:
    oak = catalog.woods["oak-white"]
    # Wood Handbook 2021, Table 5-3b, white oak: 0.60 green, 0.68 at 12 %.
    assert (oak.gravity_green.low, oak.gravity_12.low) == (0.60, 0.68)
    assert oak.gravity_12.rests_on == ("species_values/oak-white.specific-gravity.12",)


def test_a_group_without_listed_members_has_its_own_density(catalog: Catalog) -> None:
    wood = catalog.woods["whitewood-eu"]
    # EN 338: mean density 370 kg/m3 for C16, 420 for C24; 16.0185 kg/m3 to the lb/ft3.
    assert wood.density.low == pytest.approx(370 / 16.0185, rel=1e-4)
    assert wood.density.high == pytest.approx(420 / 16.0185, rel=1e-4)


def test_an_assigned_gravity_is_turned_into_the_basic_one(catalog: Catalog) -> None:
    wood = catalog.woods["eastern-softwoods"]
    # Assigned 0.36 on ovendry volume; handbook equation 4-13 at 0 %: 0.36 = g / (1 - 0.265 g).
    basic = wood.gravity_green.low
    assert basic / (1 - 0.265 * basic) == pytest.approx(0.36)


def test_a_panel_material_has_a_density_that_was_read(catalog: Catalog) -> None:
    mdf = catalog.woods["mdf"]
    # 673 to 833 kg/m3 in one study.
    assert mdf.kind == "panel"
    assert mdf.density.low == pytest.approx(673 / 16.0185, rel=1e-4)
    assert catalog.from_memory(mdf.density.rests_on) == ()


def test_saw_limits_are_in_inches_and_degrees(catalog: Catalog) -> None:
    def limits(kind: str, item: str, condition: str = "") -> set[tuple[Fraction, Fraction]]:
        return {
            (limit.low, limit.high)
            for limit in catalog.saws
            if (limit.kind, limit.item, limit.condition) == (kind, item, condition)
        }

    assert (Fraction(45), Fraction(45)) in limits("miter-box", "miter-angle")
    assert (Fraction(0), Fraction(0)) in limits("miter-box", "miter-angle")
    assert (51 * MM, 180 * MM) in limits("miter-box", "inside-width")
    assert all(low < 5 for low, _ in limits("circular-saw", "cut-depth", "square"))


def test_a_rule_in_millimeters_reaches_the_domain_in_inches(catalog: Catalog) -> None:
    rule = catalog.practice["mdf.face-edge-distance"]
    assert (rule.low, rule.unit) == (12 * MM, "in")


def test_uses_that_are_not_judged_are_those_of_other_standards(catalog: Catalog) -> None:
    assert {"child-seat", "sleep-raised", "crib", "climb", "guard"} <= catalog.unjudged_uses
    assert "shelf" not in catalog.unjudged_uses


def test_names_of_every_kind_are_known(catalog: Catalog) -> None:
    asked = [
        ("gauge", "#8", "no-8"),
        ("wood", "Doug fir", "df-l"),
        ("glue", "carpenter glue", "pva-yellow"),
        ("finish", "poly", None),
        ("saw", "chop saw", "miter-saw"),
        ("stock", "1 X 12", "1x12"),
        ("stock", "5\N{FRACTION SLASH}4x6", "5-4x6"),
        ("stock", "mdf 1/2", "mdf-0.5in"),
        ("use", "shelf", "shelf"),
    ]
    found = [(kind, name, catalog.key(kind, "us", name)) for kind, name, _ in asked]
    assert [row for row, (_, _, key) in zip(found, asked, strict=True) if key] == [
        row for row in asked if row[2]
    ]


def test_only_preferred_rows_reach_the_domain(catalog: Catalog) -> None:
    rows = {board.row for board in catalog.boards}
    assert "lumber_sizes/us.6x8.dry" in rows
    assert "lumber_sizes/us.6x8.dry.older" not in rows
    assert "lumber_sizes/us.6x8.dry.older" in catalog.cited
