"""Parts as solids: examples that a reader can check by hand."""

from fractions import Fraction
from math import cos, pi, radians, sqrt, tan

import pytest

from service.domain.build import SQUARE, End, Part, Stock
from service.domain.shape import shape_part, shape_round
from service.domain.solid import Crossed, Rod, Solid, Unclear

WIDTH, THICKNESS = Fraction(7, 2), Fraction(3, 4)
ALL_WORDS = ("long-to-long", "short-to-short", "long-to-short", "short-to-long", "center")


def stated(*, miters=(0, 0), bevels=(0, 0), long=((), ()), **fields):
    """A part with these cuts at its first and second end."""
    ends = tuple(
        End(miter, bevel, frozenset(sides))
        for miter, bevel, sides in zip(miters, bevels, long, strict=True)
    )
    return Part("part", Stock(), None, ends=ends, **fields)


def beveled_edges(top, bottom, lean=None, **fields):
    return Part(
        "part", Stock(), None, edges=(End(0, top), End(0, bottom)), edges_lean=lean, **fields
    )


def shape(part, length=20, width=WIDTH, thickness=THICKNESS):
    return shape_part(part, Fraction(length), Fraction(width), Fraction(thickness))


def solid(part, length=20, width=WIDTH, thickness=THICKNESS):
    shaped = shape(part, length, width, thickness)
    assert isinstance(shaped, Solid), shaped
    return shaped


# Square parts: exact.


def test_a_square_part_is_its_own_blank_exactly():
    board = solid(stated(), Fraction(62, 3), Fraction(90, 127), Fraction(3, 4))
    assert (board.blank_length, board.blank_width) == (Fraction(62, 3), Fraction(90, 127))
    assert board.exact
    assert board.assumed == ()


def test_a_square_part_has_the_volume_and_surface_of_a_box():
    board = solid(stated(), 20, 3, 2)
    assert board.volume == 120
    assert board.surface == 2 * (60 + 40 + 6)
    assert board.center_length == 20
    assert board.section == 6


def test_a_square_part_has_the_corners_of_a_box():
    corners = solid(stated(), 20, 3, 2).corners
    assert corners["first-bottom-back"] == (0, 0, 0)
    assert corners["first-top-back"] == (0, 3, 0)
    assert corners["second-bottom-front"] == (20, 0, 2)
    assert corners["second-top-front"] == (20, 3, 2)


@pytest.mark.parametrize("word", ALL_WORDS)
@pytest.mark.parametrize("measured_on", ["front", "back"])
def test_any_word_gives_a_square_part_the_same_length(word, measured_on):
    board = solid(stated(measured=word, measured_on=measured_on))
    assert board.blank_length == 20
    assert board.lengths(measured_on) == dict.fromkeys(ALL_WORDS, 20)


# Miters: 45 degrees takes off its own width.


def test_a_frame_rail_loses_its_width_at_each_end():
    rail = solid(stated(miters=(45, 45), ends_lean="opposite", measured="long-to-long"))
    assert rail.exact
    assert rail.lengths() == {
        "long-to-long": 20,
        "short-to-short": 13,
        "center": Fraction(33, 2),
    }
    assert rail.volume == Fraction(33, 2) * WIDTH * THICKNESS
    assert rail.arrises == {
        "bottom-back": 20,
        "bottom-front": 20,
        "top-back": 13,
        "top-front": 13,
    }


def test_a_frame_rail_measured_in_the_rabbet_needs_a_blank_two_widths_longer():
    rail = solid(stated(miters=(45, 45), ends_lean="opposite", measured="short-to-short"), 16)
    assert rail.blank_length == 23


def test_the_surface_of_a_frame_rail_counts_its_slanted_ends():
    rail = solid(stated(miters=(45, 45), ends_lean="opposite", measured="long-to-long"))
    faces, edges = 2 * 16.5 * 3.5, (20 + 13) * 0.75
    ends = 2 * 3.5 * sqrt(2) * 0.75
    assert float(rail.surface) == pytest.approx(faces + edges + ends)


def test_a_parallelogram_at_45_degrees_is_a_width_longer_tip_to_tip_than_along_its_edge():
    brace = solid(stated(miters=(45, 45), ends_lean="same", measured="long-to-short"))
    assert brace.blank_length == Fraction(47, 2)
    assert brace.volume == 20 * WIDTH * THICKNESS
    assert brace.lengths() == {
        "long-to-long": Fraction(47, 2),
        "short-to-short": Fraction(33, 2),
        "long-to-short": 20,
        "short-to-long": 20,
        "center": 20,
    }


def test_a_leg_with_parallel_ends_at_10_degrees_has_equal_edges():
    leg = solid(stated(miters=(10, 10), ends_lean="same", measured="long-to-short"), 30)
    assert all(length == 30 for length in leg.arrises.values())
    assert not leg.exact
    assert float(leg.blank_length) == pytest.approx(30 + 3.5 * 0.17632698, abs=1e-7)


def test_with_one_square_end_long_is_the_longer_edge_and_short_the_shorter():
    part = stated(miters=(0, 45), measured="short-to-short")
    assert solid(part).lengths() == {
        "long-to-long": Fraction(47, 2),
        "short-to-short": 20,
        "center": Fraction(87, 4),
    }


def test_the_first_end_is_long_on_the_bottom_edge_unless_it_says_so():
    bottom = solid(stated(miters=(45, 0), measured="long-to-long"))
    top = solid(stated(miters=(45, 0), long=(("top",), ()), measured="long-to-long"))
    assert bottom.corners["first-bottom-front"] == (0, 0, THICKNESS)
    assert bottom.corners["first-top-front"] == (WIDTH, WIDTH, THICKNESS)
    assert top.corners["first-bottom-front"] == (WIDTH, 0, THICKNESS)
    assert top.corners["first-top-front"] == (0, WIDTH, THICKNESS)


def test_long_to_short_runs_along_the_edge_with_the_first_long_point():
    """45 at the first end, long on the bottom; 0.75 in 3 1/2 at the second, long on the top."""
    part = stated(miters=(45, 26.56505117707799), ends_lean="same", measured="long-to-short")
    arrises = solid(part).arrises
    assert arrises["bottom-front"] == 20
    assert float(arrises["top-front"]) == pytest.approx(20 - 3.5 + 1.75)


def test_a_named_long_side_wins_over_ends_lean():
    part = stated(
        miters=(45, 45),
        ends_lean="opposite",
        long=(("bottom",), ("top",)),
        measured="long-to-short",
    )
    assert solid(part).arrises["top-front"] == 20


def test_the_first_end_follows_a_side_named_on_the_second():
    part = stated(
        miters=(45, 45), ends_lean="same", long=((), ("bottom",)), measured="long-to-short"
    )
    assert solid(part).corners["first-top-back"][0] == 0


# Bevels: the same words, read on the edge.


def test_a_beveled_box_side_loses_its_thickness_at_each_end():
    side = solid(stated(bevels=(45, 45), ends_lean="opposite", measured="long-to-long"))
    assert side.arrises["bottom-front"] == side.arrises["top-front"] == 20
    assert side.arrises["bottom-back"] == side.arrises["top-back"] == Fraction(37, 2)
    assert side.volume == Fraction(77, 4) * WIDTH * THICKNESS
    assert side.exact


@pytest.mark.parametrize("measured_on", ["front", "back"])
def test_a_word_for_beveled_ends_means_the_same_on_either_face(measured_on):
    part = stated(
        bevels=(45, 45), ends_lean="opposite", measured="short-to-short", measured_on=measured_on
    )
    assert solid(part).blank_length == Fraction(43, 2)


def test_beveled_ends_without_a_word_are_read_on_the_face_that_was_measured():
    part = stated(bevels=(45, 45), ends_lean="opposite", measured_on="back")
    board = solid(part)
    assert board.arrises["top-back"] == 20
    assert board.blank_length == Fraction(43, 2)
    assert any("along the back face" in sentence for sentence in board.assumed)


def test_a_word_that_names_the_front_face_wins_over_measured_on_back_and_says_so():
    part = stated(
        bevels=(45, 45), ends_lean="opposite", measured="long-to-long", measured_on="back"
    )
    board = solid(part)
    assert board.arrises["top-front"] == 20
    assert any("long-to-long" in sentence for sentence in board.assumed)


def test_a_word_that_names_the_back_face_agrees_with_measured_on_back():
    part = stated(
        bevels=(45, 45),
        ends_lean="opposite",
        long=(("back",), ()),
        measured="long-to-long",
        measured_on="back",
    )
    assert solid(part).assumed == ()


# Miter and bevel together.


def test_a_bevel_on_a_mitered_end_runs_off_by_its_tangent_over_the_miters_cosine():
    part = stated(
        miters=(30, 0), bevels=(20, 0), long=(("bottom", "front"), ()), measured="long-to-long"
    )
    corners = solid(part).corners
    along = corners["first-bottom-back"][0] - corners["first-bottom-front"][0]
    assert float(along) == pytest.approx(0.75 * tan(radians(20)) / cos(radians(30)))


def test_a_mitered_part_measured_on_the_back_has_its_length_there():
    part = stated(
        miters=(45, 45),
        bevels=(30, 30),
        long=(("bottom", "front"), ("bottom", "front")),
        measured="long-to-long",
        measured_on="back",
    )
    board = solid(part)
    assert board.lengths("back")["long-to-long"] == 20
    longer = 2 * 0.75 * tan(radians(30)) / cos(radians(45))
    assert float(board.lengths("front")["long-to-long"]) == pytest.approx(20 + longer)


def test_a_compound_part_is_never_called_exact():
    part = stated(miters=(45, 0), bevels=(45, 0), measured="long-to-long")
    assert not solid(part).exact


# Edges.


def test_a_beveled_edge_makes_the_back_narrower_by_its_thickness_at_45_degrees():
    board = solid(beveled_edges(45, 0))
    assert board.face_widths == (Fraction(11, 4), WIDTH)
    assert board.blank_width == WIDTH
    assert board.volume == 20 * Fraction(25, 8) * THICKNESS


def test_width_measured_on_the_narrow_face_needs_a_wider_blank():
    board = solid(beveled_edges(45, 45, "opposite", measured_on="back"))
    assert board.face_widths == (WIDTH, 5)
    assert board.blank_width == 5


def test_parallel_edge_bevels_shift_the_back_sideways():
    board = solid(beveled_edges(45, 45, "same"))
    assert board.face_widths == (WIDTH, WIDTH)
    assert board.blank_width == Fraction(17, 4)
    assert board.corners["first-top-front"][1] == Fraction(17, 4)
    assert board.corners["first-bottom-back"][1] == 0


def test_the_surface_counts_a_beveled_edge_along_its_slope():
    board = solid(beveled_edges(45, 0), 10, 3, 1)
    faces, edges = 10 * (3 + 2), 10 * (1 + sqrt(2))
    assert float(board.surface) == pytest.approx(faces + edges + 2 * 2.5)


# What had to be assumed.


def test_a_part_with_every_cut_stated_assumes_nothing():
    part = stated(miters=(10, 10), ends_lean="same", measured="center")
    assert solid(part).assumed == ()


def test_two_miters_without_a_lean_are_read_as_opposite_and_listed():
    board = solid(stated(miters=(45, 45), measured="long-to-long"))
    assert board.arrises["top-front"] == 13
    assert [s.split()[0] for s in board.assumed] == ["ends_lean"]


def test_a_slanted_length_without_a_word_is_read_long_to_long_and_listed():
    board = solid(stated(miters=(45, 45), ends_lean="same"))
    assert board.blank_length == 20
    assert [s.split()[0] for s in board.assumed] == ["measured"]


def test_a_lean_is_not_assumed_where_both_long_points_are_named():
    part = stated(miters=(45, 45), long=(("top",), ("bottom",)), measured="center")
    assert solid(part).assumed == ()


def test_the_face_of_a_bevel_is_listed_where_it_changes_the_blank():
    lists = stated(miters=(10, 0), bevels=(10, 0), measured="center")
    named = stated(miters=(10, 0), bevels=(10, 0), long=(("front",), ()), measured="center")
    assert any("front face is taken" in sentence for sentence in solid(lists).assumed)
    assert solid(named).assumed == ()


def test_the_edge_of_a_miter_is_listed_where_the_edges_differ():
    part = stated(
        miters=(10, 0), measured="center", edges=(End(0, 10, frozenset(["front"])), SQUARE)
    )
    assert any("bottom edge is taken" in sentence for sentence in solid(part).assumed)


def test_edge_bevels_without_a_lean_are_read_as_opposite_and_listed():
    board = solid(beveled_edges(45, 45))
    assert board.face_widths == (2, WIDTH)
    assert any("edges_lean" in sentence for sentence in board.assumed)
    assert any("No edge says" in sentence for sentence in board.assumed)


# What can't be read, and what can't be cut.


@pytest.mark.parametrize("word", ["long-to-short", "short-to-long"])
@pytest.mark.parametrize(
    "cuts",
    [
        {"miters": (45, 45), "ends_lean": "opposite"},
        {"miters": (45, 0)},
        {"bevels": (0, 45)},
        {"bevels": (45, 30), "ends_lean": "opposite"},
        {"miters": (45, 0), "bevels": (0, 45)},
    ],
)
def test_a_word_for_unlike_points_is_unclear_without_long_points_on_both_sides(word, cuts):
    shaped = shape(stated(measured=word, **cuts))
    assert isinstance(shaped, Unclear)
    assert word in shaped.reason
    assert shaped.words == ("long-to-long", "short-to-short", "center")


def test_an_end_that_is_long_on_both_sides_is_unclear():
    shaped = shape(stated(miters=(45, 0), long=(("top", "bottom"), ())))
    assert isinstance(shaped, Unclear)
    assert "both sides" in shaped.reason


def test_two_45_degree_miters_cross_when_the_part_is_two_widths_long():
    part = stated(miters=(45, 45), ends_lean="opposite", measured="long-to-long")
    shaped = shape(part, 7)
    assert isinstance(shaped, Crossed)
    assert (shaped.arris, shaped.by) == ("top-back", 0)


def test_two_45_degree_miters_leave_a_sixty_fourth_on_a_part_a_sixty_fourth_longer():
    part = stated(miters=(45, 45), ends_lean="opposite", measured="long-to-long")
    assert solid(part, Fraction(449, 64)).arrises["top-front"] == Fraction(1, 64)


def test_crossed_cuts_say_by_how_much():
    part = stated(miters=(45, 45), ends_lean="opposite", measured="long-to-long")
    shaped = shape(part, 6)
    assert isinstance(shaped, Crossed)
    assert shaped.by == 1


def test_crossed_bevels_name_the_short_face():
    part = stated(
        bevels=(45, 45), ends_lean="opposite", long=(("back",), ()), measured="long-to-long"
    )
    shaped = shape(part, 1, WIDTH, 2)
    assert isinstance(shaped, Crossed)
    assert (shaped.arris, shaped.by) == ("bottom-front", 3)


@pytest.mark.parametrize(("width", "crosses"), [("1 1/2", True), ("97/64", False)])
def test_edges_cross_when_their_bevels_eat_the_width(width, crosses):
    wide = sum(Fraction(piece) for piece in width.split())
    shaped = shape(beveled_edges(45, 45, "opposite"), 20, wide)
    assert isinstance(shaped, Crossed if crosses else Solid)


def test_edges_that_cross_name_the_face_that_is_gone():
    shaped = shape(beveled_edges(45, 45, "opposite"), 20, 1)
    assert isinstance(shaped, Crossed)
    assert (shaped.arris, shaped.by) == ("back", Fraction(1, 2))


def test_crossed_cuts_still_list_what_was_assumed():
    shaped = shape(stated(miters=(45, 45)), 6)
    assert isinstance(shaped, Crossed)
    assert len(shaped.assumed) == 2


# Rounds.


def rod(part, length=20, diameter=2):
    shaped = shape_round(part, Fraction(length), Fraction(diameter))
    assert isinstance(shaped, Rod), shaped
    return shaped


def test_a_square_dowel_is_a_cylinder():
    dowel = rod(stated())
    assert dowel.blank_length == dowel.center_length == 20
    assert dowel.is_square
    assert float(dowel.volume) == pytest.approx(20 * pi)
    assert float(dowel.surface) == pytest.approx(2 * pi * 20 + 2 * pi)
    assert dowel.lengths() == dict.fromkeys(ALL_WORDS, 20)


def test_a_slanted_dowel_has_the_volume_of_its_center_length():
    dowel = rod(stated(miters=(45, 45), ends_lean="same", measured="long-to-long"))
    assert (dowel.center_length, dowel.blank_length) == (18, 20)
    assert dowel.exact
    assert float(dowel.volume) == pytest.approx(18 * pi)
    assert float(dowel.surface) == pytest.approx(2 * pi * 18 + 2 * pi * sqrt(2))


def test_a_leg_turned_round_with_parallel_ends_has_equal_lines_along_it():
    leg = rod(stated(miters=(45, 45), ends_lean="same", measured="long-to-short"))
    assert leg.lengths() == {
        "long-to-long": 22,
        "short-to-short": 18,
        "center": 20,
        "long-to-short": 20,
        "short-to-long": 20,
    }


def test_miter_and_bevel_on_a_round_make_one_slant():
    """tan 45 across and, at 45 miter, tan(b) / cos 45 = 1 through: a slope of root 2."""
    bevel = 35.264389682754654
    dowel = rod(stated(miters=(45, 0), bevels=(bevel, 0), measured="long-to-long"))
    assert float(dowel.center_length) == pytest.approx(20 - sqrt(2))


@pytest.mark.parametrize("second_bevel_long", ["front", "back"])
@pytest.mark.parametrize("second_miter", [0, 30])
def test_slants_askew_to_each_other_leave_no_line_with_a_long_and_a_short_point(
    second_miter, second_bevel_long
):
    part = stated(
        miters=(45, second_miter),
        bevels=(0, 45),
        long=(("bottom",), ("top", second_bevel_long)),
        measured="long-to-short",
    )
    assert isinstance(shape_round(part, Fraction(20), Fraction(2)), Unclear)


@pytest.mark.parametrize(("length", "crosses"), [("4", True), ("257/64", False)])
def test_a_round_crosses_when_its_shortest_line_is_gone(length, crosses):
    part = stated(miters=(45, 45), ends_lean="opposite", measured="long-to-long")
    shaped = shape_round(part, Fraction(length), Fraction(2))
    assert isinstance(shaped, Crossed if crosses else Rod)


def test_a_crossed_round_says_by_how_much():
    part = stated(miters=(45, 45), ends_lean="opposite", measured="long-to-long")
    shaped = shape_round(part, Fraction(3), Fraction(2))
    assert isinstance(shaped, Crossed)
    assert (shaped.arris, shaped.by) == ("shortest line", 1)


def test_a_round_lists_what_it_assumes_and_that_it_has_no_edges():
    part = stated(miters=(45, 45), bevels=(10, 0), edges=(End(0, 10), SQUARE))
    sentences = rod(part).assumed
    assert [s.split()[0] for s in sentences] == ["ends_lean", "measured", "A"]


def test_a_round_that_is_long_on_both_sides_is_unclear():
    part = stated(miters=(45, 0), long=(("top", "bottom"), ()))
    assert isinstance(shape_round(part, Fraction(20), Fraction(2)), Unclear)
