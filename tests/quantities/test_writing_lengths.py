"""What a tape reads, how far it is off, and text that reads back as the same length."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.domain.tape import exact, nearest, tape
from service.quantities import length, measured

MM = Fraction(10, 254)  # inches


@pytest.mark.parametrize(
    ("inches", "reading"),
    [
        (Fraction(83, 4), '20 3/4"'),
        (Fraction(3, 4), '3/4"'),
        (Fraction(132), '132"'),
        (Fraction(0), '0"'),
        (Fraction(-3, 2), '-1 1/2"'),
        (Fraction(1, 40), '0"'),
        (Fraction(1, 32), '1/16"'),
        (18 * MM, '11/16"'),
    ],
)
def test_a_tape_is_read_to_the_nearest_sixteenth(inches: Fraction, reading: str) -> None:
    assert tape(inches) == reading


def test_a_tape_can_be_read_finer() -> None:
    assert tape(Fraction(5, 64), to=Fraction(1, 64)) == '5/64"'
    assert tape(Fraction("527.3") * MM, to=MM / 2, metric=True) == "527.5 mm"


def test_a_metric_tape_is_read_to_the_millimeter() -> None:
    assert tape(Fraction(83, 4), metric=True) == "527 mm"


def test_an_exact_length_is_off_by_nothing() -> None:
    assert measured(Fraction(83, 4)) == {
        "in": 20.75,
        "mm": 527.05,
        "tape": '20 3/4"',
        "off_by": "0",
    }


def test_a_metric_build_reads_in_millimeters_and_says_what_is_left() -> None:
    # 527 mm on the tape, 527.05 mm in truth.
    assert measured(Fraction(83, 4), metric=True) == {
        "in": 20.75,
        "mm": 527.05,
        "tape": "527 mm",
        "off_by": "-0.05 mm",
    }


@pytest.mark.parametrize(
    ("inches", "metric", "off_by"),
    [
        (Fraction(3, 64), False, '+1/64"'),  # halves go up: 1/16 on the tape
        (Fraction(5, 64), False, '-1/64"'),
        (18 * MM, False, '-43/2032"'),  # 11/16 - 90/127, by hand
        (Fraction("20.3") * MM, True, "-0.3 mm"),
        (Fraction("19.6") * MM, True, "+0.4 mm"),
        (Fraction(1, 3), True, "-7/15 mm"),  # 8 - 8 7/15
    ],
)
def test_off_by_is_the_tape_less_the_true_size(inches: Fraction, metric: bool, off_by: str) -> None:
    assert measured(inches, metric=metric)["off_by"] == off_by


def test_a_size_from_an_angle_is_off_by_three_digits() -> None:
    assert measured(Fraction(1.23456789))["off_by"] == '+0.0154"'  # 1 1/4 - 1.23456789


@pytest.mark.parametrize(
    ("sixteenths", "mode", "expected"),
    [
        (Fraction(1, 2), "nearest", 1),
        (Fraction(49, 100), "nearest", 0),
        (Fraction(-1, 2), "nearest", 0),
        (Fraction(-51, 100), "nearest", -1),
        (Fraction(9, 10), "down", 0),
        (Fraction(-1, 10), "down", -1),
        (Fraction(1, 10), "up", 1),
        (Fraction(-9, 10), "up", 0),
        (Fraction(3), "up", 3),
        (Fraction(3), "down", 3),
    ],
)
def test_rounding_is_the_same_on_every_machine(
    sixteenths: Fraction, mode: str, expected: int
) -> None:
    step = Fraction(1, 16)
    assert nearest(sixteenths * step, step, mode) == expected * step  # type: ignore[arg-type]  # parametrized


@given(st.fractions(-1000, 1000), st.fractions(Fraction(1, 1000), 10))
def test_the_nearest_reading_is_at_most_half_a_step_away(inches: Fraction, to: Fraction) -> None:
    down, close, up = (nearest(inches, to, mode) for mode in ("down", "nearest", "up"))
    assert abs(close - inches) <= to / 2
    assert down <= inches <= up
    assert close in (down, up)
    assert close % to == 0


@given(st.integers(1, 64 * 12000))
def test_every_sixty_fourth_is_read_back_from_the_tape(sixty_fourths: int) -> None:
    inches = Fraction(sixty_fourths, 64)
    assert length(tape(inches, to=Fraction(1, 64))) == inches
    assert length(exact(inches)) == inches


@given(st.integers(1, 3_000_000))
def test_every_tenth_of_a_millimeter_is_read_back_from_the_tape(tenths: int) -> None:
    inches = Fraction(tenths, 10) * MM
    assert length(tape(inches, to=MM / 10, metric=True)) == inches
    assert length(exact(inches, metric=True)) == inches
    assert length(exact(inches)) == inches


@given(st.integers(0, 6400), st.integers(0, 20000))
def test_a_sum_of_inches_and_millimeters_is_read_back(sixty_fourths: int, tenths: int) -> None:
    inches = Fraction(sixty_fourths, 64) + Fraction(tenths, 10) * MM
    assert length(exact(inches), zero=True) == inches


@given(
    st.one_of(
        st.decimals(0, 200, places=12).map(lambda value: f"{value:f}"),
        st.builds("{} {}/{}".format, st.integers(0, 90), st.just(1), st.integers(2, 999_999)),
    ),
    st.sampled_from(["in", "ft", "mm", "cm", "m"]),
    st.booleans(),
)
def test_whatever_is_read_can_be_written_and_read_again(
    number: str, unit: str, metric: bool
) -> None:
    inches = length(f"{number} {unit}", zero=True)
    assert length(exact(inches, metric), zero=True) == inches


@pytest.mark.parametrize(
    ("inches", "metric", "text"),
    [
        (Fraction("4.882007768"), False, "4.882007768 in"),  # its fraction is finer than is read
        (Fraction(83, 4), False, "20 3/4 in"),
        (Fraction(83, 4), True, "527.05 mm"),
        (18 * MM, False, "18 mm"),
        (Fraction(1, 3), True, "1/3 in"),
    ],
)
def test_an_exact_size_is_written_in_the_shorter_unit(
    inches: Fraction, metric: bool, text: str
) -> None:
    assert exact(inches, metric=metric) == text
