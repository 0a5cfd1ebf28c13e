"""Beams by the handbook's table and by hand."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.domain.beams import Beam, Point, Spread, Support, bend

ENDS = (Support(0), Support(1))
FIXED = (Support(0, True), Support(1, True))
EVEN = (Spread(0, 1, 1),)
QUARTERS = (Point(0.25, 0.5), Point(0.75, 0.5))

# Wood Handbook 2010, Table 9-1: kb, the deflection for a whole load of 1 over a span of 1.
TABLE_9_1 = [
    ("even, simply supported", Beam(1, ENDS, EVEN), 5 / 384),
    ("even, both clamped", Beam(1, FIXED, EVEN), 1 / 384),
    ("midspan, simply supported", Beam(1, ENDS, points=(Point(0.5, 1),)), 1 / 48),
    ("midspan, both clamped", Beam(1, FIXED, points=(Point(0.5, 1),)), 1 / 192),
    ("quarter points, simply supported", Beam(1, ENDS, points=QUARTERS), 11 / 768),
    ("even, cantilever", Beam(1, FIXED[:1], EVEN), 1 / 8),
    ("free end, cantilever", Beam(1, FIXED[:1], points=(Point(1, 1),)), 1 / 3),
]


@pytest.mark.parametrize(
    ("beam", "kb"), [row[1:] for row in TABLE_9_1], ids=[row[0] for row in TABLE_9_1]
)
def test_deflection_is_that_of_the_handbook_table(beam: Beam, kb: float) -> None:
    assert bend(beam).sag == pytest.approx(kb, rel=1e-9)


def test_two_equal_spans_by_the_three_moment_equation() -> None:
    """Even load w on two spans L: M = -w L^2 / 8 over the middle, ends carry 3/8 w L each."""
    bent = bend(Beam(20, (Support(0), Support(10), Support(20)), (Spread(0, 20, 3),)))
    assert bent.moment == pytest.approx(-3 * 100 / 8)
    assert bent.reactions == pytest.approx((11.25, 37.5, 11.25))


def test_an_overhang_lifts_what_lies_between() -> None:
    bent = bend(Beam(15, (Support(0), Support(10)), points=(Point(15, 4),)))
    assert bent.reactions == pytest.approx((-2, 6))
    assert bent.moment == pytest.approx(-20)


def test_a_beam_on_one_loose_support_falls() -> None:
    with pytest.raises(ValueError, match="nothing holds"):
        bend(Beam(10, (Support(5),), (Spread(0, 10, 1),)))


@given(st.floats(5, 200), st.floats(0.1, 50), st.floats(1.1, 4))
def test_sag_of_an_even_load_a_foot_grows_with_the_fourth_power(
    span: float, weight: float, times: float
) -> None:
    def sag(n: float) -> float:
        return bend(Beam(n, (Support(0), Support(n)), (Spread(0, n, weight),))).sag

    assert sag(span * times) == pytest.approx(sag(span) * times**4)


@given(st.floats(0.05, 0.95), st.floats(1, 100))
def test_a_weight_and_its_mirror_image_sag_alike(at: float, weight: float) -> None:
    left = bend(Beam(30, (Support(0), Support(30)), points=(Point(30 * at, weight),)))
    right = bend(Beam(30, (Support(0), Support(30)), points=(Point(30 * (1 - at), weight),)))
    assert left.sag == pytest.approx(right.sag)
    assert left.reactions == pytest.approx(right.reactions[::-1])
