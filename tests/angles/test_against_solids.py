"""Every shape built of solids: faces meet, nothing overlaps, no gap is left."""

from fractions import Fraction
from math import cos, radians, sin, tan
from random import Random

import numpy as np
import pytest

from tests.angles.building import (
    corners,
    flipped,
    framed,
    hull,
    moved,
    on_plane,
    overlap,
    shell,
    turned,
    union,
    volume,
)
from tests.angles.figures import BOARD, SQUARE_STICK, figured, part_of, value_of

TIMES = 40
FLOOR = (0, 0, 1)


def draws(times=TIMES):
    return [Random(seed) for seed in range(times)]


def stood_up(points, lean):
    """A part lying on its back, stood on its first end and leaned in the plane of its face."""
    slope = radians(lean)
    along, across = (sin(slope), 0, cos(slope)), (cos(slope), 0, -sin(slope))
    return framed(points, along, across, (0, 1, 0))


def standing_ways(wanted, lean):
    """The part leaned, its face turned either way round."""
    for axes in ((), (1,), (2,), (1, 2)):
        points = stood_up(flipped(corners(wanted), *axes), lean)
        yield points - [points[:, 0].min(), 0, points[:, 2].min()]


@pytest.mark.parametrize("random", draws())
def test_a_leaning_leg_stands_flat_and_is_as_high_as_asked(random):
    lean, height = random.uniform(1, 40), random.uniform(10, 40)
    leg = part_of(figured("leaning", lean=lean, height=Fraction(height)), "leg")
    assert any(
        on_plane(points, FLOOR, (0, 0, 0)) == 4 and on_plane(points, FLOOR, (0, 0, height)) == 4
        for points in standing_ways(leg, lean)
    )


@pytest.mark.parametrize("random", draws())
def test_a_leaning_leg_with_a_square_top_is_as_high_as_asked(random):
    lean, height = random.uniform(1, 30), random.uniform(10, 40)
    leg = part_of(figured("leaning", lean=lean, height=Fraction(height), top="square"), "leg")
    stands = [p for p in standing_ways(leg, lean) if on_plane(p, FLOOR, (0, 0, 0)) == 4]
    assert stands
    assert stands[0][:, 2].max() == pytest.approx(height, abs=1e-6)


def splayed(random, **more):
    front, side = random.uniform(2, 20), random.uniform(2, 20)
    height = random.uniform(12, 30)
    answer = figured("splayed-legs", SQUARE_STICK, lean_front=front, lean_side=side,
                     height=Fraction(height), **more)  # fmt: skip
    return answer, front, side, height


def leg_in_place(leg, front, side):
    """A leg whose front face holds the line of the front, its foot out to the right and forward."""
    up = np.array([-tan(radians(front)), tan(radians(side)), 1.0])
    up /= np.linalg.norm(up)
    through = np.cross([1.0, 0, 0], up)
    through /= np.linalg.norm(through)
    across = np.cross(up, through)
    for axes in ((), (1,), (2,), (1, 2)):
        points = framed(flipped(corners(leg), *axes), up, across, through)
        points = points - [0, 0, points[:, 2].min()]
        if on_plane(points, FLOOR, (0, 0, 0)) == 4:
            return points
    raise AssertionError("no side of the leg stands flat")


@pytest.mark.parametrize("random", draws())
def test_a_leg_that_leans_both_ways_stands_flat_at_both_leans(random):
    answer, front, side, height = splayed(random)
    points = leg_in_place(part_of(answer, "leg"), front, side)
    assert on_plane(points, FLOOR, (0, 0, height)) == 4
    low, high = (points[np.abs(points[:, 2] - z) < 1e-6].mean(axis=0) for z in (0, height))
    assert low[0] - high[0] == pytest.approx(height * tan(radians(front)), abs=1e-6)
    assert high[1] - low[1] == pytest.approx(height * tan(radians(side)), abs=1e-6)


@pytest.mark.parametrize("random", draws())
def test_a_leg_turned_to_the_true_lean_takes_one_plain_miter(random):
    answer, front, side, height = splayed(random, turned=True)
    leg = part_of(answer, "leg")
    out = np.hypot(height * tan(radians(front)), height * tan(radians(side)))
    true = np.degrees(np.arctan2(out, height))
    assert value_of(answer, "true lean") == pytest.approx(true)
    assert any(
        on_plane(points, FLOOR, (0, 0, 0)) == 4 and on_plane(points, FLOOR, (0, 0, height)) == 4
        for points in standing_ways(leg, true)
    )


@pytest.mark.parametrize("random", draws(20))
def test_a_front_rail_closes_on_the_legs_of_a_stool_that_splays_both_ways(random):
    outside, top_at = random.uniform(9, 14), random.uniform(4, 8)
    answer, front, side, height = splayed(
        random, top_outside=(Fraction(outside), Fraction(outside)), rail_top_at=Fraction(top_at)
    )
    slope = radians(side)
    along, across, through = (1, 0, 0), (0, sin(slope), cos(slope)), (0, -cos(slope), sin(slope))
    right = leg_in_place(part_of(answer, "leg"), front, side)
    face = (right @ np.array(through)).max()
    right = moved(right, outside / 2 - _on_face(right, through, face, height)[:, 0].max())
    left = right * [-1, 1, 1]
    closed = []
    for axes in ((), (1,)):
        rail = framed(flipped(corners(part_of(answer, "rail")), *axes), along, across, through)
        rail = rail - [(rail[:, 0].max() + rail[:, 0].min()) / 2, 0, 0]
        rail = rail + np.array(through) * (face - (rail @ np.array(through)).max())
        front_edge = rail[np.abs(rail @ np.array(through) - face) < 1e-6][:, 2].max()
        rail = rail + np.array(across) * (top_at - front_edge) / across[2]
        shared = overlap([hull(right), hull(left), hull(rail)])
        closed.append(shared < 1e-6 and _closes(rail[rail[:, 0] > 0], right))
    assert any(closed)


def _on_face(points, normal, offset, height):
    """The corners of a leg's front face at a height."""
    on_face = np.abs(points @ np.array(normal) - offset) < 1e-6
    return points[on_face & (np.abs(points[:, 2] - height) < 1e-6)]


def _closes(end, leg):
    """Whether all four corners of a rail's end lie on one side of the leg."""
    mesh = hull(leg).to_mesh64()
    points = mesh.vert_properties[:, :3]
    for one, two, three in mesh.tri_verts:
        normal = np.cross(points[two] - points[one], points[three] - points[one])
        if on_plane(end, normal / np.linalg.norm(normal), points[one]) == 4:
            return True
    return False


@pytest.mark.parametrize("shape", ["mitered-frame", "butted-frame"])
@pytest.mark.parametrize("random", draws(20))
def test_the_sides_of_a_frame_fill_all_but_its_opening(random, shape):
    wide, high = (random.uniform(8, 30) for _ in "ab")
    answer = figured(shape, opening=(Fraction(wide), Fraction(high)))
    rail, stile = (corners(part_of(answer, id)) for id in ("rail", "stile"))
    border = 2.5
    upright = moved(turned(stile, "z", 90), stile[:, 1].max())
    if shape == "mitered-frame":
        upright = flipped(upright, 0)
    far_right, far_up = wide + border, high + border
    # A side lies with its long points on its outer edge, which is y = 0 and, stood up, x = 0.
    across = (border, 0) if shape == "butted-frame" else (0, 0)
    upright = upright - [upright[:, 0].min(), upright[:, 1].min(), 0]
    if shape == "mitered-frame" and not _long_at_zero(upright):
        upright = flipped(upright, 0)
    sides = [
        moved(rail, across[0]),
        moved(flipped(rail, 1), across[0], far_up),
        upright,
        moved(flipped(upright, 0), far_right),
    ]
    solids = [hull(side) for side in sides]
    outside = (wide + 2 * border) * (high + 2 * border)
    assert overlap(solids) == pytest.approx(0, abs=1e-6)
    assert volume(union(solids)) == pytest.approx((outside - wide * high) * 0.75, abs=1e-6)


def _long_at_zero(upright):
    edge = upright[np.abs(upright[:, 0]) < 1e-6]
    return np.ptp(edge[:, 1]) >= np.ptp(upright[:, 1]) - 1e-6


def ring_planes(count, lean, apothems):
    """Half-spaces of walls that lean outward, each at its distance from the middle on the floor."""
    for number in range(count):
        turn = 2 * np.pi * number / count
        outward = np.array([cos(turn), sin(turn)])
        yield (*outward, -tan(radians(lean))), apothems[number % len(apothems)]


def wall(points, lean, number, count, reach):
    """A side stood up, leaning out, its outer face `reach` from the middle at the floor."""
    slope = radians(lean)
    centered = points - [(points[:, 0].max() + points[:, 0].min()) / 2, 0, 0]
    # length along y, width up the slope, front (outer) face outward
    stood = framed(centered, (0, 1, 0), (sin(slope), 0, cos(slope)), (cos(slope), 0, -sin(slope)))
    outer = stood @ np.array([1, 0, -tan(slope)])
    stood = stood - [outer.max() - reach, 0, stood[:, 2].min()]
    # the lean moves the face with height, so set the floor first and the distance after
    outer = stood @ np.array([1, 0, -tan(slope)])
    stood = stood - [outer.max() - reach, 0, 0]
    return turned(stood, "z", 360 * number / count)


@pytest.mark.parametrize("random", draws())
def test_the_sides_of_a_mitered_box_fill_its_walls(random):
    count, lean = random.choice([3, 4, 5, 6, 8]), random.choice([0, random.uniform(1, 40)])
    height, rim = random.uniform(2, 4), random.uniform(16, 24)
    box = figured("sloped-box", BOARD, sides=count, slope=float(lean), height=Fraction(height),
                  rim=Fraction(rim))  # fmt: skip
    side = corners(part_of(box, "side"))
    reach = rim / 2 / tan(np.pi / count) - height * tan(radians(lean))
    walls = [hull(wall(side, lean, number, count, reach)) for number in range(count)]
    thick = 0.75 / cos(radians(lean))
    outer = shell(ring_planes(count, lean, [reach]), height)
    inner = shell(ring_planes(count, lean, [reach - thick]), height)
    assert overlap(walls) == pytest.approx(0, abs=1e-5)
    assert volume(union(walls)) == pytest.approx(volume(outer) - volume(inner), rel=1e-6)


@pytest.mark.parametrize("corner", ["mitered", "butted"])
@pytest.mark.parametrize("random", draws(20))
def test_a_box_of_two_lengths_fills_its_walls(random, corner):
    lean, height = random.uniform(0, 30), random.uniform(2, 4)
    rims = random.uniform(16, 24), random.uniform(12, 15)
    box = figured("sloped-box", BOARD, sides=4, slope=lean, height=Fraction(height),
                  corners=corner, rim=(Fraction(rims[0]), Fraction(rims[1])))  # fmt: skip
    back = height * tan(radians(lean))
    reaches = [rims[1] / 2 - back, rims[0] / 2 - back]
    sides = [corners(part_of(box, id)) for id in ("side", "end-side")]
    walls = [
        hull(wall(sides[number % 2], lean, number, 4, reaches[number % 2])) for number in range(4)
    ]
    thick = 0.75 / cos(radians(lean))
    outer = shell(ring_planes(4, lean, reaches), height)
    inner = shell(ring_planes(4, lean, [reach - thick for reach in reaches]), height)
    assert overlap(walls) == pytest.approx(0, abs=1e-5)
    assert volume(union(walls)) == pytest.approx(volume(outer) - volume(inner), rel=1e-6)


@pytest.mark.parametrize("random", draws(20))
def test_the_sides_of_a_flat_ring_fill_it(random):
    count, across = random.randint(3, 12), random.uniform(24, 40)
    ring = figured("polygon", sides=count, across_flats=Fraction(across))
    side = corners(part_of(ring, "side"))
    side = side - [(side[:, 0].max() + side[:, 0].min()) / 2, 0, 0]
    sides = []
    for number in range(count):
        placed = moved(framed(side, (0, -1, 0), (-1, 0, 0), (0, 0, 1)), across / 2)
        sides.append(hull(turned(placed, "z", 360 * number / count)))
    outer = shell(ring_planes(count, 0, [across / 2]), 0.75)
    inner = shell(ring_planes(count, 0, [across / 2 - 2.5]), 0.75)
    assert overlap(sides) == pytest.approx(0, abs=1e-5)
    assert volume(union(sides)) == pytest.approx(volume(outer) - volume(inner), rel=1e-6)


@pytest.mark.parametrize("random", draws(20))
def test_the_sides_of_an_upright_ring_fill_its_walls(random):
    count, across = random.randint(3, 12), random.uniform(24, 40)
    ring = figured("polygon", sides=count, across_corners=Fraction(across), ring="upright")
    side = corners(part_of(ring, "side"))
    reach = across / 2 * cos(np.pi / count)
    walls = [hull(wall(side, 0, number, count, reach)) for number in range(count)]
    outer = shell(ring_planes(count, 0, [reach]), 2.5)
    inner = shell(ring_planes(count, 0, [reach - 0.75]), 2.5)
    assert overlap(walls) == pytest.approx(0, abs=1e-5)
    assert volume(union(walls)) == pytest.approx(volume(outer) - volume(inner), rel=1e-6)


@pytest.mark.parametrize("given", ["long-points", "center", "short-points"])
@pytest.mark.parametrize("random", draws(15))
def test_a_brace_closes_on_both_faces_of_its_corner(random, given):
    run, rise = random.uniform(9, 20), random.uniform(9, 20)
    brace = part_of(figured("brace", run=Fraction(run), rise=Fraction(rise), given=given), "brace")
    down = np.arctan2(rise, run)
    along, across = (cos(down), 0, -sin(down)), (-sin(down), 0, -cos(down))
    points = framed(corners(brace), along, across, (0, 1, 0))
    points = points - [points[:, 0].min(), 0, points[:, 2].min()]
    assert on_plane(points, (1, 0, 0), (0, 0, 0)) == 4
    assert on_plane(points, FLOOR, (0, 0, 0)) == 4
    for axis, asked in ((0, run), (2, rise)):
        face = points[np.abs(points[:, 2 - axis]) < 1e-6][:, axis]
        reached = {"long-points": face.max(), "short-points": face.min(),
                   "center": (face.max() + face.min()) / 2}[given]  # fmt: skip
        assert reached == pytest.approx(asked, abs=1e-6)


@pytest.mark.parametrize("given", ["long-points", "center", "short-points"])
@pytest.mark.parametrize("random", draws(15))
def test_a_brace_between_level_faces_reaches_as_far_as_asked(random, given):
    run, rise = random.uniform(9, 20), random.uniform(9, 20)
    answer = figured("brace", run=Fraction(run), rise=Fraction(rise), given=given,
                     between="level,level")  # fmt: skip
    lean = value_of(answer, "both ends off square, parallel")
    (points, *_) = [p for p in standing_ways(part_of(answer, "brace"), lean)
                    if on_plane(p, FLOOR, (0, 0, 0)) == 4]  # fmt: skip
    assert on_plane(points, FLOOR, (0, 0, rise)) == 4
    low, high = (points[np.abs(points[:, 2] - z) < 1e-6][:, 0] for z in (0, rise))
    reached = {
        "long-points": high.max() - low.min(),
        "short-points": high.min() - low.max(),
        "center": high.mean() - low.mean(),
    }[given]
    assert reached == pytest.approx(run, abs=1e-6)


@pytest.mark.parametrize("random", draws())
def test_crossed_legs_span_width_and_height_and_cross_at_the_lap(random):
    wide, high = random.uniform(14, 30), random.uniform(14, 30)
    answer = figured("crossed-legs", width=Fraction(wide), height=Fraction(high))
    lean = value_of(answer, "lean from vertical")
    (one, *_) = [p for p in standing_ways(part_of(answer, "leg"), lean)
                 if on_plane(p, FLOOR, (0, 0, 0)) == 4]  # fmt: skip
    other = flipped(one, 0)
    assert np.ptp(one[:, 0]) == pytest.approx(wide, abs=1e-6)
    assert np.ptp(one[:, 2]) == pytest.approx(high, abs=1e-6)
    slope = radians(lean)
    foot, top = (one[np.abs(one[:, 2] - z) < 1e-6].mean(axis=0) for z in (0, high))
    line = np.array([sin(slope), 0, cos(slope)])
    side = np.array([cos(slope), 0, -sin(slope)])
    thin = [
        foot + side * way * 1e-4 + end + line * more
        for way in (-1, 1)
        for end, more in ((0, -5), (top - foot, 5))
    ]
    strip = hull([moved(p, 0, y) for p in thin for y in (-1, 1)])
    lap = (hull(one) ^ hull(other) ^ strip).to_mesh64().vert_properties[:, :3]
    along = (lap - foot) @ line
    near = value_of(answer, "lap, from the center line's end to its near side")
    assert along.min() == pytest.approx(near, abs=1e-3)
    assert along.max() - along.min() == pytest.approx(
        value_of(answer, "lap, length along the leg"), abs=1e-3
    )


@pytest.mark.parametrize("random", draws())
def test_a_prop_closes_on_the_floor_and_on_the_back_of_the_board(random):
    lean, up = random.uniform(5, 40), random.uniform(7, 10)
    foot = up * sin(radians(lean)) + random.uniform(1, 8)
    answer = figured("prop", lean=lean, up=Fraction(up), foot=Fraction(foot))
    prop = part_of(answer, "prop")
    start = np.array([foot, 0, 0])
    end = np.array([up * sin(radians(lean)), 0, up * cos(radians(lean))])
    along = (end - start) / np.linalg.norm(end - start)
    through = np.array([along[2], 0, -along[0]])
    back = (cos(radians(lean)), 0, -sin(radians(lean)))
    middle = (start + end) / 2
    fits = []
    for axes in ((), (2,)):
        points = framed(flipped(corners(prop), *axes), along, (0, 1, 0), through)
        ends = [points[i : i + 4].mean(axis=0) for i in (0, 4)]
        points = points + middle - (ends[0] + ends[1]) / 2
        fits.append((on_plane(points, FLOOR, (0, 0, 0)), on_plane(points, back, (0, 0, 0))))
    assert (4, 4) in fits


@pytest.mark.parametrize("random", draws(20))
def test_a_side_rail_closes_plumb_between_front_and_back_legs(random):
    outside, top_at = random.uniform(9, 14), random.uniform(4, 8)
    answer, front, side, height = splayed(
        random, top_outside=(Fraction(outside), Fraction(outside)), rail_top_at=Fraction(top_at)
    )
    leg = leg_in_place(part_of(answer, "leg"), front, side)
    at_seat = leg[np.abs(leg[:, 2] - height) < 1e-6]
    fore = moved(leg, y=-outside / 2 - at_seat[:, 1].min())
    aft = fore * [1, -1, 1]
    closed = []
    for axes in ((), (1,)):
        # plumb, running from front to back, its face looking sideways
        rail = framed(
            flipped(corners(part_of(answer, "side-rail")), *axes), (0, 1, 0), (0, 0, 1), (1, 0, 0)
        )
        middle = fore[:, 0].mean() - rail[:, 0].mean()
        rail = moved(
            rail, middle, -(rail[:, 1].max() + rail[:, 1].min()) / 2, top_at - rail[:, 2].max()
        )
        shared = overlap([hull(fore), hull(aft), hull(rail)])
        closed.append(shared < 1e-6 and _closes(rail[rail[:, 1] < 0], fore))
    assert any(closed)
