"""Rounding to a tape: down between faces, nearest for a whole, one way for a frame."""

from fractions import Fraction as Frac
from random import Random

import pytest

from service.domain.rounding import cutting_order, finest, rounded


def test_a_part_between_faces_goes_down_and_a_whole_to_the_nearest_mark():
    sizes = [(Frac("9.99"), "between"), (Frac("9.99"), "overall"), (Frac("9.51"), "overall")]
    ours = [one.size for one in rounded(sizes, Frac(1, 16))]
    assert ours == [Frac(159, 16), Frac(10), Frac(19, 2)]


@pytest.mark.parametrize("seed", range(40))
def test_the_sides_of_a_frame_all_go_the_same_way(seed):
    random = Random(seed)
    sides = [(Frac(random.randint(2000, 9000), 173), "alike") for _ in range(4)]
    offs = [one.off_by for one in rounded(sides, Frac(1, 16))]
    assert all(off <= 0 for off in offs) or all(off >= 0 for off in offs)


@pytest.mark.parametrize("seed", range(40))
def test_a_rounded_size_says_what_it_was(seed):
    size = Frac(Random(seed).randint(2000, 9000), 173)
    (one,) = rounded([(size, "between")], Frac(1, 16))
    assert one.was == size
    assert one.size + -one.off_by == size
    assert 0 <= size - one.size < Frac(1, 16)


def test_what_goes_between_faces_is_cut_last_to_fit():
    order = cutting_order([("rail", "between"), ("leg", "overall"), ("side", "alike")])
    assert [(turn.part, turn.fit) for turn in order] == [
        ("leg", "to-list"), ("side", "to-list"), ("rail", "to-fit"),
    ]  # fmt: skip


def test_the_finest_step_is_half_of_what_a_tape_shows():
    assert finest(metric=False) == Frac(1, 32)
    assert finest(metric=True) == Frac(1, 2) * Frac(5, 127)
