"""Glue: minutes, groups, cold and water by hand arithmetic on printed figures; clamps."""

import math
from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.domain.catalog import Catalog
from service.domain.clamping import clamping, clamps_along, pressure_for
from service.domain.gluing import (
    Label,
    Limit,
    coldest,
    glue_named,
    glue_up,
    stands_weather,
    too_cold,
    water_class,
    working_time,
)

F = Fraction
FIVE = Limit(F(5), F(5))


# The book of glues prints 5 min for white glue; 12 joints at a minute each are three groups of 4.
def test_a_glue_up_that_takes_too_long_is_split_evenly() -> None:
    judged = glue_up(12, F(1), 1, FIVE)
    assert (judged.minutes, judged.most_at_once, judged.groups) == (12, 5, (4, 4, 4))
    assert judged.too_slow


@pytest.mark.parametrize(
    ("joints", "each", "people", "minutes"),
    [(4, "1", 2, "2"), (5, "1", 2, "3"), (1, "2", 3, "2"), (7, "1/2", 1, "7/2")],
)
def test_people_share_joints_out_whole(joints: int, each: str, people: int, minutes: str) -> None:
    assert glue_up(joints, F(each), people, FIVE).minutes == F(minutes)


def test_a_joint_that_takes_longer_alone_can_not_be_split() -> None:
    judged = glue_up(3, F(6), 1, FIVE)
    assert judged.groups is None and judged.too_slow


def test_between_the_shortest_and_the_longest_time_it_is_close() -> None:
    limit = Limit(F(5), F(6))
    judged = [glue_up(1, F(each), 1, limit) for each in ("5", "5.5", "6", "6.1")]
    assert [(one.close, one.too_slow) for one in judged] == [
        (False, False), (True, False), (True, False), (False, True),
    ]  # fmt: skip


@given(
    joints=st.integers(1, 60),
    each=st.fractions(F(1, 10), F(6)),
    people=st.integers(1, 5),
    minutes=st.fractions(F(1), F(40)),
)
def test_groups_hold_every_joint_fit_the_time_and_are_as_few_as_can_be(
    joints: int, each: Fraction, people: int, minutes: Fraction
) -> None:
    judged = glue_up(joints, each, people, Limit(minutes, minutes))
    if judged.groups is None:
        assert each > minutes
        return
    longest = max(judged.groups)
    assert sum(judged.groups) == joints
    assert math.ceil(F(longest, people)) * each <= minutes
    fewer = len(judged.groups) - 1
    if fewer:
        crowded = math.ceil(F(joints, fewer))
        assert math.ceil(F(crowded, people)) * each > minutes
    assert longest - min(judged.groups) <= 1


# Printed open times: white 5 min, yellow 5 to 6 min, liquid hide 10 min, instant 0.5 to 5 min,
# five-minute epoxy 2 to 5 min, hot hide 1 to 10 min.
OPEN_TIMES = (
    ("pva-interior", "5", "5"), ("pva-yellow", "5", "6"), ("hide-liquid", "10", "10"),
     ("cyanoacrylate", "1/2", "5"), ("epoxy-slow", "120", "120"),
    ("pva-water-resistant", "5", "5"), ("epoxy-fast", "2", "5"), ("hide-hot", "1", "10"),
    ("construction-adhesive", "10", "20"),
)  # fmt: skip


@pytest.mark.parametrize(("glue", "low", "high"), OPEN_TIMES)
def test_the_time_to_work_is_the_printed_open_time(
    catalog: Catalog, glue: str, low: str, high: str
) -> None:
    limit = working_time(catalog.glues[glue], Label())
    assert limit is not None and (limit.low, limit.high) == (F(low), F(high))
    assert limit.rests_on and not limit.from_label


def test_the_label_wins_and_its_assembly_time_over_its_open_time(catalog: Catalog) -> None:
    white = catalog.glues["pva-interior"]
    assert working_time(white, Label(open_time=F(10))) == Limit(F(10), F(10), from_label=True)
    both = working_time(white, Label(open_time=F(10), assembly_time=F(15)))
    assert both == Limit(F(15), F(15), from_label=True)


# The page on construction adhesive: about twice as long at 50 F as at 70 F; open 10 to 20 min.
@pytest.mark.parametrize(("degrees", "high"), [(90, 20), (70, 20), (60, 30), (50, 40), (40, 40)])
def test_cold_slows_a_glue_by_what_the_page_says(catalog: Catalog, degrees: int, high: int) -> None:
    limit = working_time(catalog.glues["construction-adhesive"], Label(), F(degrees))
    assert limit is not None and limit.high == high


def test_cold_is_not_said_to_slow_a_glue_without_a_figure(catalog: Catalog) -> None:
    white = catalog.glues["pva-interior"]
    assert working_time(white, Label(), F(50)) == working_time(white, Label())


# Printed: white 60 F (the cautious of three), yellow 50 F, type II 55 F, type I 45 F, contact 65 F.
COLDEST = (
    ("pva-interior", 60), ("pva-yellow", 50), ("pva-water-resistant", 55),
     ("pva-waterproof", 45), ("contact-cement", 65), ("polyurethane-glue", 50),
)  # fmt: skip


@pytest.mark.parametrize(("glue", "degrees"), COLDEST)
def test_a_glue_is_too_cold_below_its_own_temperature(
    catalog: Catalog, glue: str, degrees: int
) -> None:
    kind = catalog.glues[glue]
    assert too_cold(kind, Label(), F(degrees)) is None
    assert too_cold(kind, Label(), F(degrees) - F(1, 10)) is not None


def test_the_label_says_how_cold_it_may_be(catalog: Catalog) -> None:
    white = catalog.glues["pva-interior"]
    assert coldest(white, Label(coldest=F(45))) == Limit(F(45), F(45), from_label=True)
    assert too_cold(white, Label(coldest=F(45)), F(50)) is None


# Classes as printed: EN 204 D3 stands under cover, D4 outdoors when coated; HP-1 Type II resists
# water, Type I is the waterproof class.
@pytest.mark.parametrize(
    ("glue", "stands"),
    [
        ("pva-interior", ["indoors"]),
        ("pva-yellow", ["indoors"]),
        ("hide-liquid", ["indoors"]),
        ("hot-melt", ["indoors"]),
        ("pva-water-resistant", ["indoors", "damp", "covered"]),
        ("pva-waterproof", ["indoors", "damp", "covered", "outdoors"]),
        ("polyurethane-glue", ["indoors", "damp", "covered", "outdoors"]),
        ("epoxy-slow", ["indoors", "damp", "covered", "outdoors"]),
    ],
)
def test_a_glue_stands_the_places_of_its_class(
    catalog: Catalog, glue: str, stands: list[str]
) -> None:
    places = ("indoors", "damp", "covered", "outdoors")
    kind = catalog.glues[glue]
    assert [place for place in places if stands_weather(kind, place)] == stands  # type: ignore[arg-type]  # words


def test_a_range_of_classes_counts_as_its_lower_end(catalog: Catalog) -> None:
    assert water_class(catalog.glues["pva-yellow"]).level == 0  # none, and D1 to D2
    assert water_class(catalog.glues["epoxy-slow"]).level is None  # no class is told of it


@pytest.mark.parametrize(
    ("name", "key"),
    [("white glue", "pva-interior"), ("Wood Glue", "pva-interior"), ("D4 glue", "pva-waterproof")],
)
def test_a_glue_is_found_by_its_shop_name(catalog: Catalog, name: str, key: str) -> None:
    assert glue_named(catalog, "us", name).key == key


# Makers' guides: clamps 8 to 12 in apart, the outer ones 1 1/2 to 2 in from the ends.
@pytest.mark.parametrize(
    ("length", "count"), [("36", 4), ("28", 3), ("28.01", 4), ("16", 2), ("4", 1), ("4.01", 2)]
)
def test_clamps_stand_at_most_a_foot_apart(length: str, count: int) -> None:
    assert clamps_along(F(length), F(12), F(2)) == count


# Makers' guides: 100 to 150 psi for light softwood, 200 to 300 for oak. 36 x 3/4 in are 27 in2.
@pytest.mark.parametrize(
    ("wood", "low", "high"),
    [("spf", 2700, 4050), ("oak-white", 5400, 8100), ("cherry-black", 4050, 5400),
     ("yellow-poplar", 2700, 4050), ("maple-sugar", 5400, 8100)],
)  # fmt: skip
def test_force_is_pressure_over_the_glued_face(
    catalog: Catalog, wood: str, low: float, high: float
) -> None:
    planned = clamping(catalog, F(36), F(3, 4), wood=catalog.woods[wood])
    assert planned.force == (low, high)
    assert planned.force_each == (low / 4, high / 4)


# 4050 lb at 300 lb a clamp take 13.5 clamps.
def test_weak_clamps_make_more_of_them(catalog: Catalog) -> None:
    stated = Limit(F(150), F(150))
    planned = clamping(catalog, F(36), F(3, 4), pressure=stated, clamp_force=F(300))
    assert planned.count == 14 and planned.assumed == ()


def test_an_unknown_wood_is_clamped_as_the_lightest_and_so_said(catalog: Catalog) -> None:
    limit, assumed = pressure_for(catalog, None)
    assert (limit.low, limit.high) == (100, 150) and assumed


# This project's own limits: light up to 0.45, dense over 0.60 at 12 % moisture.
@pytest.mark.parametrize(("gravity", "psi"), [(0.45, 100), (0.455, 150), (0.60, 150), (0.605, 200)])
def test_denser_wood_is_clamped_harder(catalog: Catalog, gravity: float, psi: int) -> None:
    told = catalog.woods["oak-white"].gravity_12
    assert told is not None
    wood = replace(catalog.woods["oak-white"], gravity_12=replace(told, low=gravity, high=gravity))
    assert pressure_for(catalog, wood)[0].low == psi
