"""Strength of fasteners: what must always hold, and the joints that have no number."""

from dataclasses import replace
from fractions import Fraction
from typing import Literal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.domain.catalog import Catalog
from service.domain.fasteners import NailSize, ScrewSize
from service.domain.fastening import strength
from service.domain.fastening.gravity import Gravity, assigned_gravity
from service.domain.fastening.holding import Seat, nail_hold, screw_hold
from service.domain.fastening.strength import Bearing, Dowel

SPRUCE = Gravity(0.42, ())
FIR = Gravity(0.50, ())

gravities = st.floats(0.31, 0.73)
thin = st.floats(0.1, 0.24)
lengths = st.floats(0.25, 4)
psi = st.floats(1500, 10_000)


def screw_of(catalog: Catalog, gauge: int, family: str = "wood-screw") -> ScrewSize:
    found = catalog.fasteners.screw(family, f"no-{gauge}")  # type: ignore[arg-type]  # a word
    assert found is not None
    return found


def nail_of(catalog: Catalog, key: str) -> NailSize:
    return next(nail for nail in catalog.fasteners.nails if nail.key == key)


def seat(
    passed: str = "1/2",
    bite: str = "2",
    enters: Literal["face", "edge", "end"] = "face",
    wood: Gravity | None = FIR,
) -> Seat:
    deep = Fraction(bite)
    return Seat(Fraction(passed), deep, deep, enters, wood, wood)


@st.composite
def dowels(draw: st.DrawFn) -> Dowel:
    diameter = draw(thin)
    return Dowel(diameter, diameter * draw(st.floats(0.7, 1)), draw(st.floats(45e3, 1e5)), True)


bearings = st.builds(Bearing, lengths, psi)


@given(dowels(), bearings, bearings)
def test_both_parts_may_change_places(dowel: Dowel, main: Bearing, side: Bearing) -> None:
    """A joint in single shear gives the same whichever part is called the main one."""
    here = strength.yield_modes(dowel, main, side)
    there = strength.yield_modes(dowel, side, main)
    for one, other in (("Im", "Is"), ("II", "II"), ("IIIm", "IIIs"), ("IV", "IV")):
        assert here[one] == pytest.approx(there[other], rel=1e-6)


@given(dowels(), bearings, bearings, st.floats(1, 2))
def test_nothing_gets_weaker_with_more_wood_or_harder_wood(
    dowel: Dowel, main: Bearing, side: Bearing, more: float
) -> None:
    held = strength.lateral(dowel, main, side)
    deeper = strength.lateral(dowel, replace(main, length=main.length * more), side)
    harder = strength.lateral(
        dowel, replace(main, psi=main.psi * more), replace(side, psi=side.psi * more)
    )
    assert held <= deeper * (1 + 1e-9) and held <= harder * (1 + 1e-9)


@given(gravities, thin)
def test_a_screw_pulls_harder_than_a_smooth_nail_of_its_diameter(g: float, d: float) -> None:
    assert strength.screw_withdrawal(g, d) > strength.nail_withdrawal(g, d)


# NOTES: nominal instead of root diameter for a No. 10, 1/2 in side, G 0.50, gives 122, not 90.
@pytest.mark.parametrize(("bearing", "pounds"), [(0.152, 90), (0.190, 122)])
def test_a_screw_bears_on_its_root(bearing: float, pounds: float) -> None:
    main = Bearing(1.9 - 0.19, strength.wood_bearing(0.5, 0.19))
    side = Bearing(0.5, strength.wood_bearing(0.5, 0.19))
    # No. 10 is 0.190 in: the band over 0.177 to 0.236 in bends at 80,000 psi (NDS table I1).
    assert round(strength.lateral(Dowel(0.19, bearing, 80_000, True), main, side)) == pounds


# NDS 2018, 12.1.5.6 and table 12L note 3: nothing under 6 D, all of it from 10 D, p/10D between.
@pytest.mark.parametrize(
    ("diameters", "share"), [(5.99, 0), (6, 0.6), (8, 0.8), (9.99, 0.999), (10, 1), (20, 1)]
)
def test_a_shallow_fastener_has_a_share_of_its_value(diameters: float, share: float) -> None:
    assert strength.penetration_share(diameters * 0.125, 0.125) == pytest.approx(share)


# NDS 2018, table I1: bands of nominal diameter, the lower edge left out but for the first.
@pytest.mark.parametrize(
    ("diameter", "bends"),
    [
        ("0.099", 100),
        ("0.142", 100),
        ("0.1421", 90),
        ("0.177", 90),
        ("0.19", 80),
        ("0.242", 70),
        ("0.32", 60),
        ("0.372", 45),
    ],
)
def test_steel_bends_by_its_band(catalog: Catalog, diameter: str, bends: int) -> None:
    found = strength.bending_strength(catalog.constants, Fraction(diameter))
    assert found is not None and found.value == 1000 * bends


@pytest.mark.parametrize("diameter", ["0.0475", "0.0989", "0.376"])
def test_steel_outside_the_bands_has_no_bending_strength(catalog: Catalog, diameter: str) -> None:
    assert strength.bending_strength(catalog.constants, Fraction(diameter)) is None


# At 45 degrees the square of the cosine is one half: 100 and 50 make 5000 / 75. At the ends of the
# range only one of the two counts.
@pytest.mark.parametrize(("angle", "pounds"), [(0, 50), (90, 100), (45, 5000 / 75)])
def test_pull_and_shear_together_lie_between_the_two(angle: float, pounds: float) -> None:
    assert strength.combined("wood-screw", 100, 50, angle) == pytest.approx(pounds)


def test_a_nail_at_a_slant_counts_sine_and_cosine_plainly() -> None:
    # NDS 12.4.2 at 30 degrees: 100 x 50 / (100 cos 30 + 50 sin 30).
    assert strength.combined("nail", 100, 50, 30) == pytest.approx(5000 / (86.60254 + 25))


# NDS 2018, tables 12L (90) and 12.2B (135 lb/in, of 2 in of thread).
def test_a_screw_in_side_grain_has_both_values(catalog: Catalog) -> None:
    hold = screw_hold(catalog, screw_of(catalog, 10), seat())
    assert hold.sheared == pytest.approx(90, abs=0.5)
    assert hold.pulled == pytest.approx(2 * 135.38, abs=0.5)
    assert hold.why_not == ()


# NDS 2018, table 12N: 8d common, 3/4 in side, G 0.50 is 90; table 12.2C: 32 lb/in.
def test_a_nail_in_side_grain_has_both_values(catalog: Catalog) -> None:
    hold = nail_hold(catalog, nail_of(catalog, "common.8d"), seat("3/4", "7/4"))
    assert hold.sheared == pytest.approx(90, abs=0.5)
    assert hold.pulled == pytest.approx(1.75 * 31.96, abs=0.1)


def test_end_grain_holds_two_thirds_sideways_and_nothing_pulled(catalog: Catalog) -> None:
    screw = screw_of(catalog, 10)
    face, end = (screw_hold(catalog, screw, seat(enters=spot)) for spot in ("face", "end"))
    assert face.sheared is not None and end.sheared is not None
    assert end.pulled is None and any("end grain" in why for why in end.why_not)
    assert end.sheared == pytest.approx(0.67 * face.sheared)  # NDS 2018, 12.5.2.2


@pytest.mark.parametrize("nail", ["brad.18ga", "pin.23ga", "collated-finish.16ga"])
def test_brads_and_pins_have_no_number(catalog: Catalog, nail: str) -> None:
    hold = nail_hold(catalog, nail_of(catalog, nail), seat())
    assert (hold.pulled, hold.sheared) == (None, None) and hold.why_not


@pytest.mark.parametrize("spot", ["edge", "end"])
def test_the_edge_of_a_panel_has_no_number(catalog: Catalog, spot: Literal["edge", "end"]) -> None:
    hold = screw_hold(catalog, screw_of(catalog, 8), replace(seat(enters=spot), into_panel=True))
    assert (hold.pulled, hold.sheared) == (None, None)
    assert "edge of a panel: connection design has no value" in hold.why_not


def test_a_wood_without_a_gravity_has_no_number(catalog: Catalog) -> None:
    hold = screw_hold(catalog, screw_of(catalog, 8), seat(wood=None))
    assert (hold.pulled, hold.sheared) == (None, None) and hold.why_not


def test_a_deck_screw_is_compared_as_the_wood_screw_of_its_gauge(catalog: Catalog) -> None:
    wood = screw_hold(catalog, screw_of(catalog, 8), seat())
    deck = screw_hold(catalog, screw_of(catalog, 8, "construction-screw"), seat())
    assert (deck.pulled, deck.sheared) == (wood.pulled, wood.sheared)
    assert any("compared as" in told for told in deck.assumed)


@pytest.mark.parametrize("gauge", [2, 4, 5])
def test_a_screw_thinner_than_the_tables_has_no_number(catalog: Catalog, gauge: int) -> None:
    hold = screw_hold(catalog, screw_of(catalog, gauge), seat())
    assert (hold.pulled, hold.sheared) == (None, None)


def test_too_little_bite_has_no_value_sideways(catalog: Catalog) -> None:
    # No. 8 is 0.164 in: six diameters are 0.984 in.
    assert screw_hold(catalog, screw_of(catalog, 8), seat(bite="0.98")).sheared is None
    assert screw_hold(catalog, screw_of(catalog, 8), seat(bite="0.985")).sheared is not None


# NDS 2018, table 12.3.3A.
@pytest.mark.parametrize(
    ("wood", "gravity"),
    [("spf", 0.42), ("southern-pine", 0.55), ("df-l", 0.50), ("oak-white", 0.73),
     ("yellow-poplar", 0.43), ("red-oak", 0.67), ("hem-fir", 0.43)],
)  # fmt: skip
def test_a_wood_has_the_gravity_assigned_to_it(catalog: Catalog, wood: str, gravity: float) -> None:
    found = assigned_gravity(catalog, catalog.woods[wood])
    assert found is not None and found.value == gravity


def test_no_wood_ever_has_the_gravity_of_the_handbook(catalog: Catalog) -> None:
    """Every value is one that the code assigns, or one of the three this project plans with."""
    assigned = {one.gravity for one in catalog.gravities.values()} | {0.36, 0.42}
    for wood in catalog.woods.values():
        found = assigned_gravity(catalog, wood)
        assert found is None or (found.value in assigned and found.rests_on)


def test_a_shelf_label_counts_as_the_lightest_that_it_may_be(catalog: Catalog) -> None:
    pine = assigned_gravity(catalog, catalog.woods["pine-us"])
    white = assigned_gravity(catalog, catalog.woods["whitewood-us"])
    assert pine is not None and pine.value == 0.36 and pine.assumed
    assert white is not None and white.value == 0.36 and white.assumed


@pytest.mark.parametrize("wood", ["walnut-black", "mdf", "particleboard", "cherry-black"])
def test_what_no_table_assigns_has_none(catalog: Catalog, wood: str) -> None:
    assert assigned_gravity(catalog, catalog.woods[wood]) is None


def test_without_a_wood_a_common_softwood_is_taken_and_said(catalog: Catalog) -> None:
    unknown = assigned_gravity(catalog, None)
    assert unknown is not None and unknown.value == 0.42 and unknown.assumed


# NDS 2018, table 12.3.1B: 4, 3.6 and 3.2 from 1/4 in up, a quarter more across the grain; 2.2 up to
# 0.17 in and 10 D + 0.5 above.
@pytest.mark.parametrize(
    ("dowel", "terms"),
    [
        (Dowel(0.5, 0.5, 45_000, threaded=False), (4, 3.6, 3.2)),
        (Dowel(0.5, 0.5, 45_000, threaded=False, grain_angle=90), (5, 4.5, 4)),
        (Dowel(0.5, 0.5, 45_000, threaded=False, grain_angle=45), (4.5, 4.05, 3.6)),
        (Dowel(0.25, 0.173, 70_000, threaded=True, grain_angle=90), (2.7875,) * 3),
        (Dowel(0.216, 0.17, 80_000, threaded=True), (2.2,) * 3),
        (Dowel(0.216, 0.172, 80_000, threaded=True), (2.22,) * 3),
        (Dowel(0.249, 0.249, 70_000, threaded=False), (2.99,) * 3),
    ],
)
def test_the_reduction_terms_are_those_of_the_table(
    dowel: Dowel, terms: tuple[float, float, float]
) -> None:
    assert strength.reduction(dowel) == pytest.approx(terms)


# NDS 2018, 12.2-6: the part counts up to 2.5 head diameters thick, and no further.
def test_a_thicker_part_holds_the_head_no_better(catalog: Catalog) -> None:
    heads = [strength.pull_through(0.5, 0.25, 0.25 * times) for times in (2.4, 2.5, 2.52, 5)]
    assert heads[0] < heads[1] == pytest.approx(heads[2]) == pytest.approx(heads[3])


# NDS 2018: screws of gauges 6 to 24, in woods of G 0.31 to 0.73.
@pytest.mark.parametrize("gauge", [6, 24])
def test_the_first_and_the_last_gauge_of_the_tables_have_a_number(
    catalog: Catalog, gauge: int
) -> None:
    assert screw_hold(catalog, screw_of(catalog, gauge), seat(bite="4")).sheared is not None


@pytest.mark.parametrize(
    ("gravity", "counts"), [(0.305, False), (0.31, True), (0.73, True), (0.735, False)]
)
def test_a_wood_outside_the_range_has_no_value_for_pulling_a_screw(
    catalog: Catalog, gravity: float, counts: bool
) -> None:
    hold = screw_hold(catalog, screw_of(catalog, 8), seat(wood=Gravity(gravity, ())))
    assert (hold.pulled is not None) is counts


# NDS 2018: smooth nails of 0.092 to 0.375 in.
@pytest.mark.parametrize(
    ("diameter", "counts"), [("0.0915", False), ("0.092", True), ("0.375", True), ("0.376", False)]
)
def test_a_nail_outside_the_range_has_no_value_for_pulling(
    catalog: Catalog, diameter: str, counts: bool
) -> None:
    nail = nail_of(catalog, "common.8d")
    size = Fraction(diameter)
    other = replace(nail, diameter=replace(nail.diameter, low=size, high=size))
    assert (nail_hold(catalog, other, seat(bite="3")).pulled is not None) is counts
