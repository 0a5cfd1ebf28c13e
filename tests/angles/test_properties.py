"""What must always hold of a shape, and a few sizes worked out by hand."""

from math import cos, radians, sqrt, tan
from random import Random

import pytest

from service.domain.angles.answer import NotFigured
from service.domain.angles.settings import Stops, on_edge, saw_cuts
from service.domain.build import End
from tests.angles.figures import BOARD, NARROW, SQUARE_STICK, figured, inches, part_of, value_of


@pytest.mark.parametrize("sides", range(3, 13))
def test_an_upright_box_has_plain_bevels_of_half_a_turn_shared_out(sides):
    box = figured("sloped-box", BOARD, sides=sides, slope=0.0, height="4", rim="12")
    (end, _) = part_of(box, "side").part.ends
    assert (end.miter, end.bevel) == (0, pytest.approx(180 / sides))
    assert part_of(box, "side").width == 4


@pytest.mark.parametrize(
    ("shape", "measures"),
    [
        ("leaning", {"height": "20"}),
        ("splayed-legs", {"height": "20", "top_outside": "12", "rail_top_at": "6"}),
    ],
)
def test_without_a_lean_every_part_is_square_and_plumb(shape, measures):
    answer = figured(shape, lean=0.0, **measures)
    for wanted in answer.wanted:
        assert all(end.is_square for end in wanted.part.ends)
    assert part_of(answer, "leg").part.length == 20


@pytest.mark.parametrize("seed", range(30))
def test_both_ways_round_a_brace_has_the_same_blank(seed):
    random = Random(seed)
    one, other = (inches(f"{random.randint(100, 300)}/16") for _ in "ab")
    blanks = [
        part_of(figured("brace", run=a, rise=b), "brace").solid.blank_length
        for a, b in ((one, other), (other, one))
    ]
    assert float(blanks[0] - blanks[1]) == pytest.approx(0, abs=1e-8)


@pytest.mark.parametrize("shape", ["mitered-frame"])
def test_a_frame_turned_on_its_side_takes_the_same_wood(shape):
    one = figured(shape, contents=(inches(16), inches(20)), rabbet="3/8", clearance="1/8")
    other = figured(shape, contents=(inches(20), inches(16)), rabbet="3/8", clearance="1/8")
    assert part_of(one, "rail").part.length == part_of(other, "stile").part.length
    assert part_of(one, "stile").part.length == part_of(other, "rail").part.length


@pytest.mark.parametrize("seed", range(30))
def test_leans_seen_from_front_and_side_change_places(seed):
    random = Random(seed)
    one, other = random.uniform(1, 25), random.uniform(1, 25)
    first, second = (
        figured("splayed-legs", SQUARE_STICK, height="18", lean_front=a, lean_side=b)
        for a, b in ((one, other), (other, one))
    )
    assert part_of(first, "leg").part.length == part_of(second, "leg").part.length
    assert value_of(first, "true lean") == pytest.approx(value_of(second, "true lean"))


@pytest.mark.parametrize("slope", [0.0, 5.0, 12.5, 30.0])
def test_a_slope_from_level_is_the_complement_of_one_from_plumb(slope):
    boxes = [
        figured("sloped-box", BOARD, sides=5, height="3", rim="14", slope=s, slope_from=word)
        for s, word in ((slope, "vertical"), (90 - slope, "horizontal"))
    ]
    ends = [part_of(box, "side").part.ends[0] for box in boxes]
    assert ends[0].miter == pytest.approx(ends[1].miter)
    assert ends[0].bevel == pytest.approx(ends[1].bevel)


@pytest.mark.parametrize("seed", range(30))
def test_the_cut_lies_in_one_plane_whichever_way_the_part_is_held(seed):
    """On its edge, turn and tilt change places; held so twice, the first setting comes back."""
    random = Random(seed)
    end = End(random.uniform(1, 50), random.uniform(1, 45))
    back = on_edge(End(*on_edge(end)))
    assert back == (pytest.approx(end.miter), pytest.approx(end.bevel))


def test_a_box_leaning_in_the_saw_needs_only_the_flat_setting():
    box = figured("sloped-box", BOARD, sides=6, slope=20.0, height="3", rim="12")
    (both, *_) = saw_cuts(box, Stops())
    leaning = [way for way in both.ways if way.how.startswith("leaning")]
    assert [(way.turned, way.tilted) for way in leaning] == [(30, 0)]


def test_a_stool_that_leans_one_way_by_hand():
    """Outside at the rail's top 11 + 2 x 10 x tan 10 = 14.527, less two legs of 2.539."""
    stool = figured("splayed-legs", height="16", lean=10.0, top_outside="11", rail_top_at="6")
    assert float(part_of(stool, "leg").part.length) == pytest.approx(16 / cos(radians(10)))
    between = 11 + 2 * 10 * tan(radians(10)) - 2 * 2.5 / cos(radians(10))
    assert float(part_of(stool, "rail").part.length) == pytest.approx(between)
    assert between == pytest.approx(9.449, abs=0.0005)


def test_a_picture_frame_by_hand():
    """16 1/8 - 3/4 = 15 3/8, and two sides of 2 1/2: 20 3/8."""
    frame = figured("mitered-frame", contents=(inches(16), inches(24)), rabbet="3/8",
                    clearance="1/8")  # fmt: skip
    assert part_of(frame, "rail").part.length == inches("163/8")
    assert part_of(frame, "stile").part.length == inches("227/8")


def test_a_brace_of_equal_legs_by_hand():
    """10 by 10: long edge 14.142, and 45 degrees take a width off each end: 5 less inside."""
    brace = part_of(figured("brace", run="10", rise="10"), "brace")
    assert float(brace.part.length) == pytest.approx(10 * sqrt(2))
    assert float(brace.solid.lengths()["short-to-short"]) == pytest.approx(10 * sqrt(2) - 5)
    assert brace.part.ends[0].miter == pytest.approx(45)


def test_a_hexagon_by_hand():
    """Across corners of 24 the side is half of it, 12, and across flats 12 x sqrt 3."""
    ring = figured("polygon", sides=6, across_corners="24")
    assert float(part_of(ring, "side").part.length) == pytest.approx(12)
    assert value_of(ring, "across flats") == pytest.approx(12 * sqrt(3))


def test_a_taper_by_hand():
    """1/2 in over 24: 1.1935 degrees on one side, 0.5968 on two."""
    leg = figured("tapered-leg", SQUARE_STICK, length="28", straight="4", top="3/2", foot="1")
    assert value_of(leg, "taper on one side") == pytest.approx(1.19349, abs=1e-4)
    assert value_of(leg, "taper on each of two opposite sides") == pytest.approx(0.59681, abs=1e-4)


@pytest.mark.parametrize(
    ("shape", "measures", "named"),
    [
        ("brace", {"run": "3", "rise": "3"}, "run"),
        ("brace", {"run": "10", "rise": "10", "opening": "19"}, "run"),
        ("polygon", {"sides": 8, "side": "2"}, "side"),
        ("mitered-frame", {"outside": (inches(4), inches(20))}, "outside"),
        ("sloped-box", {"sides": 4, "slope": 45.0, "height": "5", "rim": "9"}, "rim"),
        ("sloped-box", {"sides": 5, "slope": 5.0, "height": "5", "corners": "butted"}, "corners"),
        ("crossed-legs", {"width": "2", "height": "30"}, "width"),
        ("prop", {"lean": 30.0, "up": "10", "foot": "4"}, "foot"),
        ("tapered-leg", {"length": "20", "top": "1", "foot": "2"}, "foot"),
        ("leaning", {"height": "1/2", "lean": 30.0, "top": "square"}, "height"),
    ],
)
def test_a_shape_that_does_not_exist_is_refused_at_its_measure(shape, measures, named):
    with pytest.raises(NotFigured) as refusal:
        figured(shape, NARROW, **measures)
    assert refusal.value.complaints[0].place == named


def test_past_the_stop_another_way_is_offered_that_leaves_guards_where_they_are():
    brace = figured("brace", run="6", rise="20")
    cuts = saw_cuts(brace, Stops(50, 45))
    steep = next(cut for cut in cuts if cut.cut == "first end")
    assert all(way.reaches is False for way in steep.ways)
    assert "hand saw" in (steep.other_way or "")
    shallow = next(cut for cut in cuts if cut.cut == "second end")
    assert shallow.other_way is None
