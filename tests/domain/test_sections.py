"""Sections: the handbook's formulas, hand arithmetic, and shapes cut out of a mesh."""

from math import pi

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.domain.sections import Layer, glued, loose

SIZES = st.floats(0.25, 12)


def test_a_rectangle_has_the_printed_properties() -> None:
    # HUD Residential Structural Design Guide, example 5.1: 2x8 has S 13.14 in3, I 47.63 in4.
    joist = Layer(1.5, 7.25)
    assert joist.modulus == pytest.approx(13.14, abs=0.005)
    assert joist.inertia == pytest.approx(47.63, abs=0.005)


def test_a_circle_has_the_handbook_properties() -> None:
    # Wood Handbook, equation 9-3: pi d^4 / 64.
    rod = Layer(2, 2, round=True)
    assert rod.inertia == pytest.approx(pi * 16 / 64)
    assert rod.area == pytest.approx(pi)


def test_a_tee_by_hand() -> None:
    """Shelf 8 by 1 with a lip 1 by 2, tops flush: neutral axis and inertia by arithmetic.

    From the top down: areas 8 and 2, middles 0.5 and 1.0; neutral (4 + 2)/10 = 0.6.
    I = 8/12 + 8 x 0.01 + 8/12 + 2 x 0.16 = 1.7333.
    """
    section = glued([Layer(8, 1, 0.0), Layer(1, 2, -1.0)])
    assert 1.0 - section.neutral == pytest.approx(0.6)
    assert section.rigidity == pytest.approx(26 / 15)
    assert section.stress_a_moment == pytest.approx(0.6 / (26 / 15))


def test_a_stiffer_layer_counts_as_wider() -> None:
    plain = glued([Layer(8, 1, 0.0, 1.0), Layer(3, 2, -1.0, 1.0)])
    stiff = glued([Layer(8, 1, 0.0, 1.0), Layer(1, 2, -1.0, 3.0)])
    assert stiff.rigidity == pytest.approx(plain.rigidity)
    assert stiff.stress_a_moment == pytest.approx(plain.stress_a_moment)


@given(SIZES, SIZES, SIZES, st.floats(-6, 6))
def test_glue_never_makes_it_less_stiff_than_nails(
    wide: float, high: float, lip: float, low: float
) -> None:
    layers = [Layer(wide, high), Layer(0.75, lip, low)]
    assert glued(layers).rigidity >= loose(layers).rigidity * (1 - 1e-9)


@given(SIZES, SIZES, st.floats(0.1, 0.9))
def test_a_section_sawn_in_two_and_glued_again_is_what_it_was(
    wide: float, high: float, share: float
) -> None:
    whole = loose([Layer(wide, high)])
    again = glued([Layer(wide, high * share, 0.0), Layer(wide, high * (1 - share), high * share)])
    assert again.rigidity == pytest.approx(whole.rigidity)


def test_two_boards_on_each_other_slip_at_a_quarter_of_the_stiffness() -> None:
    # b (2h)^3 / 12 is four times 2 x b h^3 / 12.
    pair = [Layer(5, 1, 0.0), Layer(5, 1, 1.0)]
    assert glued(pair).rigidity == pytest.approx(4 * loose(pair).rigidity)
