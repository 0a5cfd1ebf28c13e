"""Holes for screws against the charts that were read, and what must hold of any hole."""

from dataclasses import replace
from fractions import Fraction

import pytest

from service.domain.catalog import Catalog
from service.domain.errors import UnknownName
from service.domain.fasteners import gauge_diameter
from service.domain.fastening.pilot_holes import drilling, hardness, screw_named

F = Fraction
MM = F(5, 127)
GAUGES = [str(n) for n in (*range(13), 14, 16, 18, 20, 24)]
WOODS = [None, "spf", "oak-white", "mdf", "plywood-softwood", "yellow-poplar"]


# Charts read for the tables: a page, a plate and a card agree on these usual drills.
PILOTS = (
        ("6", "spf", "5/64"), ("8", "spf", "3/32"), ("10", "spf", "7/64"), ("12", "spf", "1/8"),
        ("6", "oak-white", "3/32"), ("8", "oak-white", "7/64"), ("10", "oak-white", "1/8"),
        ("6", "mdf", "3/32"), ("8", "mdf", "7/64"), ("10", "mdf", "1/8"),
        ("8", "yellow-poplar", "3/32"),
)  # fmt: skip
# Charted 3/16 in is under the 0.190 in shank of a No. 10; 13/64 in is the next drill up.
SHANKS = (("6", "9/64"), ("8", "11/64"), ("10", "13/64"))


@pytest.mark.parametrize(("gauge", "wood", "pilot"), PILOTS)
def test_the_usual_pilot_is_the_charted_one(
    catalog: Catalog, gauge: str, wood: str, pilot: str
) -> None:
    drilled = drilling(catalog, screw_named(catalog, gauge, None), catalog.woods[wood])
    assert drilled.pilot is not None and drilled.pilot.usual == F(pilot)


@pytest.mark.parametrize(("gauge", "hole"), SHANKS)
def test_the_hole_for_the_shank_is_the_next_drill_up(
    catalog: Catalog, gauge: str, hole: str
) -> None:
    assert drilling(catalog, screw_named(catalog, gauge, None)).clearance.usual == F(hole)


@pytest.mark.parametrize("wood", WOODS)
@pytest.mark.parametrize("gauge", GAUGES)
def test_holes_let_the_shank_through_and_leave_wood_for_the_thread(
    catalog: Catalog, gauge: str, wood: str | None
) -> None:
    screw = screw_named(catalog, gauge, None)
    drilled = drilling(catalog, screw, catalog.woods[wood] if wood else None)
    assert drilled.clearance.usual >= screw.diameter.value
    assert drilled.pilot is not None
    for hole in (drilled.pilot, drilled.clearance, drilled.countersink):
        assert hole is not None and hole.low <= hole.usual <= hole.high and hole.rests_on
    assert drilled.pilot.high < screw.diameter.value
    assert drilled.countersink.high > drilled.clearance.usual  # type: ignore[union-attr]  # above


@pytest.mark.parametrize("gauge", GAUGES)
def test_dense_wood_never_gets_the_smaller_hole(catalog: Catalog, gauge: str) -> None:
    screw = screw_named(catalog, gauge, None)
    soft = drilling(catalog, screw, catalog.woods["spf"]).pilot
    hard = drilling(catalog, screw, catalog.woods["oak-white"]).pilot
    assert soft is not None and hard is not None and soft.usual <= hard.usual


# Where no chart was read: 70 % of the root (Wood Handbook, softwood), 0.298 in for a No. 24.
def test_without_a_chart_the_pilot_is_a_share_of_the_root(catalog: Catalog) -> None:
    pilot = drilling(catalog, screw_named(catalog, "24", None), catalog.woods["spf"]).pilot
    assert pilot is not None and pilot.high == F("0.7") * F("0.298")
    assert pilot.usual == F(13, 64)  # 0.2086 in lies between 13/64 and 14/64


# Without a printed root that of a cut thread counts, two thirds of the diameter: No. 4 in MDF
# wants 0.85 to 0.95 of 0.0747 in.
def test_without_a_printed_root_the_cut_thread_counts(catalog: Catalog) -> None:
    pilot = drilling(catalog, screw_named(catalog, "4", None), catalog.woods["mdf"]).pilot
    assert pilot is not None and pilot.high == F("0.95") * F("0.112") * F(2, 3)


@pytest.mark.parametrize(
    ("wood", "spot", "need"),
    [
        ("spf", "face", "not-needed"), ("spf", "edge", "drill"), ("spf", "end", "advised"),
        ("oak-white", "face", "drill"), ("mdf", "face", "drill"), ("mdf", "edge", "drill"),
        ("plywood-softwood", "face", "not-needed"), ("plywood-softwood", "edge", "drill"),
    ],
)  # fmt: skip
def test_a_pilot_is_asked_for_where_wood_splits(
    catalog: Catalog, wood: str, spot: str, need: str
) -> None:
    screw = screw_named(catalog, "8", None)
    assert drilling(catalog, screw, catalog.woods[wood], spot).need == need  # type: ignore[arg-type]  # a word


def test_a_light_hardwood_is_drilled_like_softwood_and_so_said(catalog: Catalog) -> None:
    word, assumed = hardness(catalog, catalog.woods["yellow-poplar"])
    assert word == "soft" and assumed
    assert hardness(catalog, catalog.woods["oak-white"]) == ("hard", ())


def test_a_metric_screw_is_found_by_its_diameter_and_drilled_in_half_millimeters(
    catalog: Catalog,
) -> None:
    screw = screw_named(catalog, None, 4 * MM)
    drilled = drilling(catalog, screw, catalog.woods["spf"])
    assert screw.key == "chipboard-screw.4mm"
    assert drilled.clearance.usual == F(9, 2) * MM
    # 70 % of a core of 2.5 mm is 1.75 mm.
    assert drilled.pilot is not None and drilled.pilot.low == F("1.75") * MM


def test_a_diameter_in_inches_leads_to_its_gauge(catalog: Catalog) -> None:
    assert screw_named(catalog, None, F("0.164")).key == "wood-screw.no-8"
    assert screw_named(catalog, None, F(11, 64)).key == "wood-screw.no-9"


# ASME B18.6.1: No. 0 is 0.060 in, and each gauge adds 0.013 in.
@pytest.mark.parametrize(("gauge", "inches"), [(0, "0.060"), (8, "0.164"), (24, "0.372")])
def test_a_gauge_is_a_diameter(gauge: int, inches: str) -> None:
    assert gauge_diameter(gauge) == F(inches)


@pytest.mark.parametrize(
    ("gauge", "diameter"), [("13", None), ("zork", None), (None, F(1)), (None, F(1, 100))]
)
def test_a_screw_that_is_not_made_is_refused(
    catalog: Catalog, gauge: str | None, diameter: Fraction | None
) -> None:
    with pytest.raises(UnknownName) as refused:
        screw_named(catalog, gauge, diameter)
    assert refused.value.complaints[0].place == ("gauge" if gauge else "diameter")


# No pilot is required up to G 0.5 (code of 2024): hardwoods under it are drilled like softwood.
@pytest.mark.parametrize(("gravity", "word"), [(0.49, "soft"), (0.5, "hard"), (0.68, "hard")])
def test_a_hardwood_is_light_under_one_half(catalog: Catalog, gravity: float, word: str) -> None:
    told = catalog.woods["oak-white"].gravity_12
    assert told is not None
    spread = replace(told, low=gravity, high=gravity)
    wood = replace(catalog.woods["oak-white"], gravity_12=spread)
    assert hardness(catalog, wood)[0] == word


# A No. 8 is 4.166 mm: within 0.1 mm of 4 mm a screw is metric, beyond it the gauge is nearer.
@pytest.mark.parametrize(
    ("millimeters", "key"),
    [("4", "chipboard-screw.4mm"), ("4.1", "chipboard-screw.4mm"), ("4.101", "wood-screw.no-8")],
)
def test_a_diameter_between_metric_and_gauge_is_settled(
    catalog: Catalog, millimeters: str, key: str
) -> None:
    assert screw_named(catalog, None, F(millimeters) * MM).key == key
