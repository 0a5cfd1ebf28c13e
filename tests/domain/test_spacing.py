"""Rows by hand arithmetic, and rounding that never adds up."""

from fractions import Fraction as Frac
from random import Random

import pytest

from service.domain.spacing import NoRow, judge_positions, space, space_by_centers


@pytest.mark.parametrize(
    ("ends", "gap", "end"),
    [
        ("gap", Frac(19, 4), Frac(19, 4)),  # (36 - 7 1/2) / 6
        ("flush", Frac(57, 8), Frac(0)),  # (36 - 7 1/2) / 4
        ("half", Frac(57, 10), Frac(57, 20)),  # (36 - 7 1/2) / 5
        (Frac(2), Frac(49, 8), Frac(2)),  # (36 - 4 - 7 1/2) / 4
    ],
)
def test_five_pieces_of_an_inch_and_a_half_share_out_a_yard(ends, gap, end):
    row = space(Frac(36), 5, Frac(3, 2), ends)
    assert (row.gap, row.end) == (gap, end)


def test_given_centers_leave_the_rest_at_both_ends():
    """Five at 7 in from center to center: (36 - 28 - 1 1/2) / 2 at each end."""
    row = space_by_centers(Frac(36), 5, Frac(3, 2), Frac(7))
    assert (row.gap, row.end) == (Frac(11, 2), Frac(13, 4))
    assert row.centers[1] - row.centers[0] == 7


@pytest.mark.parametrize("seed", range(50))
def test_ends_pieces_and_gaps_come_to_the_whole_exactly(seed):
    random = Random(seed)
    pieces, piece = random.randint(2, 20), Frac(random.randint(8, 40), 16)
    opening = pieces * piece + Frac(random.randint(1, 500), 16)
    row = space(opening, pieces, piece, random.choice(["gap", "flush", "half"]))
    assert 2 * row.end + pieces * piece + (pieces - 1) * row.gap == opening


@pytest.mark.parametrize("seed", range(50))
def test_no_reading_is_off_by_more_than_half_a_mark(seed):
    random = Random(seed)
    row = space(Frac(random.randint(400, 900), 7), random.randint(2, 20), Frac(3, 2), "gap")
    for reading, at in zip(row.readings(Frac(1, 16)), row.near_sides, strict=True):
        assert abs(reading - at) <= Frac(1, 32)


def test_a_rounded_step_laid_off_again_and_again_drifts():
    """A gap of 5 7/10 and a piece make steps of 7 1/5; 7 3/16 four times is 1/20 short."""
    assert space(Frac(36), 5, Frac(3, 2), "half").drift(Frac(1, 16)) == Frac(-1, 20)


@pytest.mark.parametrize(
    ("made", "place"),
    [
        (lambda: space(Frac(10), 8, Frac(3, 2), "gap"), "pieces"),
        (lambda: space(Frac(13), 8, Frac(3, 2), Frac(1)), "ends"),
        (lambda: space(Frac(13), 1, Frac(3, 2), "flush"), "pieces"),
        (lambda: space_by_centers(Frac(36), 5, Frac(3, 2), Frac(1)), "centers"),
        (lambda: space_by_centers(Frac(20), 5, Frac(3, 2), Frac(7)), "centers"),
    ],
)
def test_a_row_that_does_not_go_in_is_refused(made, place):
    with pytest.raises(NoRow) as refusal:
        made()
    assert refusal.value.complaints[0].place == place


@pytest.mark.parametrize(("offset", "taken"), [(Frac(3, 4), "center"), (Frac(3, 2), "far")])
def test_a_list_of_middles_or_far_sides_is_told_as_such(offset, taken):
    row = space(Frac(36), 5, Frac(3, 2), "gap")
    uneven = judge_positions(row, tuple(at + offset for at in row.near_sides), Frac(1, 32))
    assert uneven is not None
    assert uneven.taken == taken
