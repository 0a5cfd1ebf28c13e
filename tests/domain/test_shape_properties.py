"""What holds for every part that can be cut, whatever its sizes and angles."""

from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from service.domain.build import End, Part, Stock
from service.domain.shape import shape_part, shape_round
from service.domain.solid import Crossed, Rod, Solid

OTHER = {"bottom": "top", "top": "bottom", "front": "back", "back": "front"}
SIDES = (("bottom", "top"), ("front", "back"))

angles = st.one_of(st.just(0.0), st.just(45.0), st.floats(0.1, 55).map(lambda a: round(a, 2)))


def inches(low, high):
    return st.integers(low * 64, high * 64).map(lambda count: Fraction(count, 64))


def named(*pairs):
    return st.tuples(*(st.sampled_from(pair) for pair in pairs)).map(frozenset)


cut_ends = st.builds(End, angles, angles, named(*SIDES))
cut_edges = st.builds(End, st.just(0.0), angles, named(SIDES[1]))
parts = st.builds(
    Part,
    st.just("part"),
    st.just(Stock()),
    st.none(),
    ends=st.tuples(cut_ends, cut_ends),
    edges=st.tuples(cut_edges, cut_edges),
    measured=st.sampled_from(("long-to-long", "short-to-short", "center")),
    measured_on=st.sampled_from(("front", "back")),
)
sizes = st.tuples(inches(2, 80), inches(1, 14), inches(1, 4))


def solid(part, size):
    shaped = shape_part(part, *size)
    assume(isinstance(shaped, Solid))
    return shaped


def swapped(end, pair):
    return replace(end, long=frozenset(OTHER[s] if s in pair else s for s in end.long))


def end_for_end(part):
    """Seen in a mirror square to its length."""
    return replace(part, ends=part.ends[::-1])


def edge_for_edge(part):
    ends = tuple(swapped(end, SIDES[0]) for end in part.ends)
    return replace(part, ends=ends, edges=part.edges[::-1])


def face_for_face(part):
    return replace(
        part,
        ends=tuple(swapped(end, SIDES[1]) for end in part.ends),
        edges=tuple(swapped(edge, SIDES[1]) for edge in part.edges),
        measured_on=OTHER[part.measured_on],
    )


@pytest.mark.parametrize("mirror", [end_for_end, edge_for_edge, face_for_face])
@given(part=parts, size=sizes)
def test_a_mirror_image_has_the_same_volume_surface_and_blank(mirror, part, size):
    one, image = solid(part, size), solid(mirror(part), size)
    assert image.volume == one.volume
    assert float(image.surface) == pytest.approx(float(one.surface))
    assert (image.blank_length, image.blank_width) == (one.blank_length, one.blank_width)


@given(part=parts, size=sizes, face=st.sampled_from(("front", "back")))
def test_a_part_built_again_from_any_other_of_its_lengths_is_the_same_part(part, size, face):
    one = solid(part, size)
    width = one.face_widths[0 if face == "back" else 1]
    for word, length in one.lengths(face).items():
        again = shape_part(replace(part, measured=word, measured_on=face), length, width, size[2])
        assert isinstance(again, Solid)
        assert again.points == one.points


@given(part=parts, size=sizes)
def test_the_stated_length_and_width_are_found_again_on_the_measured_face(part, size):
    one = solid(part, size)
    assert one.lengths(part.measured_on)[part.measured] == size[0]
    assert one.face_widths[0 if part.measured_on == "back" else 1] == size[1]


@given(part=parts, size=sizes)
def test_a_part_lies_inside_its_blank_and_touches_all_of_its_sides(part, size):
    one = solid(part, size)
    for axis, extent in enumerate((one.blank_length, one.blank_width, one.thickness)):
        along = [point[axis] for point in one.points]
        assert (min(along), max(along)) == (0, extent)
    assert one.volume <= one.blank_length * one.blank_width * one.thickness


@given(miter=st.floats(0.1, 55), size=sizes)
def test_equal_parallel_miters_keep_the_volume_of_a_box_as_long_as_the_edge(miter, size):
    ends = (End(miter), End(miter))
    part = Part("p", Stock(), None, ends=ends, ends_lean="same", measured="long-to-short")
    length, width, thickness = size
    assert solid(part, size).volume == length * width * thickness


@given(part=parts, size=sizes)
def test_the_center_length_is_the_mean_of_the_arrises_where_edges_are_square(part, size):
    part = replace(part, edges=(End(), End()))
    one = solid(part, size)
    assert one.center_length == sum(one.arrises.values()) / 4


@given(part=parts, size=sizes)
def test_no_length_is_shorter_than_short_to_short_nor_longer_than_the_blank(part, size):
    one = solid(part, size)
    for face in ("front", "back"):
        lengths = one.lengths(face)
        assert min(lengths.values()) == lengths["short-to-short"]
        assert max(lengths.values()) == lengths["long-to-long"] <= one.blank_length


@given(part=parts, size=sizes)
def test_cuts_cross_once_a_part_is_shortened_by_its_shortest_long_corner(part, size):
    assume(not all(end.is_square for end in (*part.ends, *part.edges)))
    one = solid(part, size)
    length, width, thickness = size
    spare = min(one.arrises.values())
    sliver = Fraction(1, 64)
    bare = shape_part(part, length - spare, width, thickness)
    short = shape_part(part, length - spare - sliver, width, thickness)
    left = solid(part, (length - spare + sliver, width, thickness))
    assert isinstance(bare, Crossed)
    assert isinstance(short, Crossed)
    assert (bare.by, short.by) == (0, sliver)
    assert one.arrises[short.arris] == spare
    assert min(left.arrises.values()) == left.arrises[short.arris] == sliver


@given(part=parts, length=inches(4, 60), diameter=inches(1, 3))
def test_a_round_built_again_from_any_other_of_its_lengths_is_the_same_round(
    part, length, diameter
):
    part = replace(part, edges=(End(), End()))
    one = shape_round(part, length, diameter)
    assume(isinstance(one, Rod))
    assert one.lengths()[part.measured] == length
    for word, other in one.lengths().items():
        assert shape_round(replace(part, measured=word), other, diameter) == one
