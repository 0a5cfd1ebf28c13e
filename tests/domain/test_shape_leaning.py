"""Rise and reach of leaning parts: hand formulas, and solids turned by a library."""

from fractions import Fraction
from math import atan, cos, degrees, radians, sin, tan
from random import Random

import numpy as np
import pytest
from scipy.spatial.transform import Rotation

from service.domain.build import SQUARE, End, Part, Stock
from service.domain.leaning import lean_part
from service.domain.shape import shape_part, shape_round

LENGTH, WIDTH, THICKNESS = Fraction(30), Fraction(7, 2), Fraction(3, 4)


def shaped(first=SQUARE, second=SQUARE, lean=None, word="long-to-short"):
    part = Part("p", Stock(), None, ends=(first, second), ends_lean=lean, measured=word)
    return shape_part(part, LENGTH, WIDTH, THICKNESS)


def rise_and_reach(solid, lean, toward=None):
    leaning = lean_part(solid, lean, toward)
    return float(leaning.rise), float(leaning.reach)


def test_a_leg_with_level_ends_rises_by_its_edge_times_the_cosine():
    leg = shaped(End(12), End(12), "same")
    slope = radians(12)
    assert rise_and_reach(leg, 12) == pytest.approx(
        (30 * cos(slope), 30 * sin(slope) + 3.5 / cos(slope)), abs=1e-8
    )


def test_a_beveled_leg_leans_through_its_thickness():
    leg = shaped(End(0, 12), End(0, 12), "same")
    slope = radians(12)
    assert rise_and_reach(leg, 12) == pytest.approx(
        (30 * cos(slope), 30 * sin(slope) + 0.75 / cos(slope)), abs=1e-8
    )


def test_a_leg_long_on_the_top_edge_leans_as_far_as_one_long_on_the_bottom():
    one = shaped(End(12), End(12), "same")
    other = shaped(End(12, 0, frozenset(["top"])), End(12), "same")
    assert lean_part(one, 12) == lean_part(other, 12)


def test_a_square_board_leans_on_its_corner_and_that_is_listed():
    board = shaped()
    slope = radians(15)
    assert rise_and_reach(board, 15) == pytest.approx(
        (30 * cos(slope) + 0.75 * sin(slope), 30 * sin(slope) + 0.75 * cos(slope)), abs=1e-8
    )
    assert len(lean_part(board, 15).assumed) == 1


def test_a_square_board_can_lean_across_its_width_where_the_caller_knows_it():
    board = shaped()
    slope = radians(15)
    assert rise_and_reach(board, 15, "width") == pytest.approx(
        (30 * cos(slope) + 3.5 * sin(slope), 30 * sin(slope) + 3.5 * cos(slope)), abs=1e-8
    )
    assert lean_part(board, 15, "width").assumed == ()


@pytest.mark.parametrize("side", ["top", "bottom"])
def test_the_plane_that_a_caller_names_turns_the_way_the_ends_are_cut(side):
    leg = shaped(End(12, 0, frozenset([side])), End(12), "same")
    assert lean_part(leg, 12, "width") == lean_part(leg, 12)


def test_an_upright_part_rises_by_its_blank_and_assumes_nothing():
    upright = lean_part(shaped(), 0)
    assert (upright.rise, upright.reach, upright.assumed) == (30, THICKNESS, ())


def test_a_brace_between_wall_and_floor_reaches_its_long_points():
    """A right triangle with sides 3 and 4: cut 36.87 at the floor, 53.13 at the wall."""
    lean = degrees(atan(3 / 4))
    brace = shaped(End(lean), End(90 - lean), "opposite", "long-to-long")
    assert rise_and_reach(brace, lean) == pytest.approx((24, 18), abs=1e-8)


def test_a_leg_with_one_level_end_stands_on_it_and_its_square_top_stands_out():
    leg = shaped(End(12), SQUARE, None, "long-to-long")
    slope = radians(12)
    rise, _ = rise_and_reach(leg, 12)
    short = 30 - 3.5 * tan(slope)
    assert rise == pytest.approx(short * cos(slope) + 3.5 * sin(slope), abs=1e-8)


def test_level_ends_may_be_cut_at_either_end_first():
    leg = shaped(SQUARE, End(12), None, "long-to-long")
    turned = shaped(End(12), SQUARE, None, "long-to-long")
    assert lean_part(leg, 12) == lean_part(turned, 12)


def test_a_splayed_leg_rises_by_its_edge_times_the_cosine_of_its_whole_lean():
    """Its slopes across and through, 1/5 and 1/10, make one slope of the root of 1/20."""
    miter = degrees(atan(1 / 5))
    bevel = degrees(atan(cos(radians(miter)) / 10))
    leg = shaped(End(miter, bevel), End(miter, bevel), "same")
    lean = degrees(atan(0.05**0.5))
    assert rise_and_reach(leg, lean)[0] == pytest.approx(30 * cos(radians(lean)), abs=1e-8)


def test_parallel_ends_stand_flat_when_the_part_is_turned_by_their_angle():
    """The corners, turned by a library: four lie on the floor, and the extents agree."""
    random = Random(41)
    for _ in range(200):
        lean = random.uniform(1, 40)
        miters = random.random() < 0.5
        side = random.choice(("bottom", "top") if miters else ("front", "back"))
        end = End(lean if miters else 0, 0 if miters else lean, frozenset([side]))
        leg = shaped(end, End(end.miter, end.bevel), "same")
        # y of the turned corners is up; a part long on the far side turns the other way
        away = 1 if side in ("bottom", "back") else -1
        axes = [1, 0, 2] if miters else [2, 0, 1]
        points = np.array(leg.points, dtype=float)[:, axes]
        ways = [
            Rotation.from_euler("z", sign * lean, degrees=True).apply(points)
            for sign in (away, -away)
        ]
        flat = [way for way in ways if (way[:, 1] < way[:, 1].min() + 1e-7).sum() == 4]
        assert len(flat) == 1
        reach, rise = np.ptp(flat[0], axis=0)[:2]
        assert rise_and_reach(leg, lean) == pytest.approx((rise, reach), abs=1e-7)


def test_a_round_leg_with_level_ends_rises_by_its_center_times_the_cosine():
    part = Part("p", Stock(), None, ends=(End(12), End(12)), ends_lean="same", measured="center")
    rod = shape_round(part, LENGTH, Fraction(2))
    slope = radians(12)
    assert rise_and_reach(rod, 12) == pytest.approx(
        (30 * cos(slope), 30 * sin(slope) + 2 / cos(slope)), abs=1e-8
    )


def test_a_square_round_leans_on_its_rim_whichever_way_it_is_turned():
    rod = shape_round(Part("p", Stock(), None), LENGTH, Fraction(2))
    slope = radians(12)
    assert rise_and_reach(rod, 12) == pytest.approx(
        (30 * cos(slope) + 2 * sin(slope), 30 * sin(slope) + 2 * cos(slope)), abs=1e-8
    )
    assert lean_part(rod, 12).assumed == ()
