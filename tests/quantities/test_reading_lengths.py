"""Lengths as people write them. Expected inches by hand: 1 ft is 12 in, 1 in is 25.4 mm."""

from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.quantities import QuantityError, length, size_pair

FIVE_THOUSAND_DIGITS = pytest.param(10**4999, id="five-thousand-digits")
PRIME = "\N{PRIME}"
SINGLE_QUOTE = "\u2019"
EN_DASH = "\u2013"


@pytest.mark.parametrize(
    ("text", "inches"),
    [
        ("20 3/4", Fraction(83, 4)),
        ('20-3/4"', Fraction(83, 4)),
        ("20¾ in", Fraction(83, 4)),
        ("20 ¾ in", Fraction(83, 4)),
        ("1' 8 3/4\"", Fraction(83, 4)),
        ("1 ft 8.75 in", Fraction(83, 4)),
        ("527 mm", Fraction(5270, 254)),
        ("52,7 cm", Fraction(5270, 254)),
        ("0.5 m", Fraction(5000, 254)),
        ("3 1/2 in", Fraction(7, 2)),
        ("3-1/2 in", Fraction(7, 2)),
        ('1½"', Fraction(3, 2)),
        ("8 ft 6 in", Fraction(102)),
        ("8' 6\"", Fraction(102)),
        ("8'6\"", Fraction(102)),
        ("8'-6 1/2\"", Fraction(205, 2)),
        ("8' 6", Fraction(102)),
        ("8 ft", Fraction(96)),
        ("8 feet", Fraction(96)),
        ("1 foot", Fraction(12)),
        ("1 1/2 ft 3 in", Fraction(21)),
        ("18 mm", Fraction(90, 127)),
        ("0.75 in", Fraction(3, 4)),
        (".75 in", Fraction(3, 4)),
        ("2.4 m", Fraction(12000, 127)),
        ("11 inches", Fraction(11)),
        ("1 inch", Fraction(1)),
        ("3 in.", Fraction(3)),
        ("20 IN", Fraction(20)),
        ("  20   3/4   in  ", Fraction(83, 4)),
        ("6''", Fraction(6)),
        ("6″", Fraction(6)),
        (f"8{PRIME} 6″", Fraction(102)),
        (f"8{SINGLE_QUOTE} 6”", Fraction(102)),
        (f"20{EN_DASH}3/4 in", Fraction(83, 4)),
        ("20\u00a03/4\u00a0in", Fraction(83, 4)),
        ("3\N{FRACTION SLASH}4 in", Fraction(3, 4)),
        ("5/4", Fraction(5, 4)),
        ("0 3/4", Fraction(3, 4)),
        ("20", Fraction(20)),
        ("1000 ft", Fraction(12000)),
    ],
)
def test_shop_text_is_read_exactly(text: str, inches: Fraction) -> None:
    assert length(text) == inches


@pytest.mark.parametrize(
    "text",
    [
        *("", " ", "in", '"', "ft", "/", "3/", "/4", "1/0", "0/0", "1 1/0 in", "3 / 4 in"),
        *("6-10 in", "2 5 in", "2 5/4 in", "20 - 3/4", "20.5 3/4", "3/4 1/2", "1/2/3", "1.5/2"),
        *("3 pin", "3 zork", "3 kg", "3 hand", "3 yd", "3 in3", "3 in in", "3 * in", "2 5"),
        *("1 ft 8 mm", "1 ft 8 ft", "6\" 8'", "1 mm 2 in", "1' -8\" 2", "1 in 1/2"),
        *("1,250", "1,250 mm", "0,125 in", "1,250.5 mm", "1.250,5 mm", "1,2,3 mm", "1,"),
        *("1e9 in", "1e3", "1E2 mm", "10**10**10", "2^3 in", "2² in", "0x10 in", "1_0"),
        *(
            "\uff13",
            "\uff13 in",
            "१ in",
            "\uff13/\uff14",
            "20¾¾ in",
            "¾5 in",
            "1/¾",
            "¾/2",
            "20.¾",
            "1½½",
        ),
        *("-3 in", "\N{MINUS SIGN}3 in", "- 3 in", "0", "0 in", "0 mm", "0/4", "+3 in"),
        *("nan", "NaN in", "inf", "Infinity", "-inf", "1001 ft", "12000.1", "304.9 m", "9" * 60),
        *("3 in\n", "3\tin", "3 in\x00", "\ud800", "3 i\u200bn", "3; in", "1/1000000"),
    ],
)
def test_what_is_not_a_length_is_refused(text: str) -> None:
    with pytest.raises(QuantityError):
        length(text)


@pytest.mark.parametrize(
    "value",
    [
        *(0, -1, 0.0, -0.5, float("nan"), float("inf"), float("-inf"), 1e10, 1e300, 1e-300),
        *(12001, 12000.5, FIVE_THOUSAND_DIGITS, True, False, None, [], {}, b"3", 3j),
        *(Decimal("NaN"), Decimal("sNaN"), Decimal("Infinity"), Decimal("1e999999999")),
        *(Decimal("0e999999999"), Decimal("1e-999999"), Decimal("1" * 5000)),
    ],
)
def test_a_number_that_is_not_a_length_is_refused(value: object) -> None:
    with pytest.raises(QuantityError):
        length(value)  # type: ignore[arg-type]  # what a JSON document may hold


def test_a_bare_number_is_in_the_unit_of_the_document() -> None:
    assert (length(20.75), length(20), length(Decimal("1.5"))) == (
        Fraction(83, 4),
        Fraction(20),
        Fraction(3, 2),
    )
    assert (length(527, "mm"), length("527", "mm")) == (Fraction(5270, 254), Fraction(5270, 254))


def test_a_written_unit_wins_over_the_unit_of_the_document() -> None:
    assert length("20 3/4 in", "mm") == Fraction(83, 4)
    assert length("8' 6", "mm") == Fraction(102)


def test_a_float_is_read_as_it_is_written() -> None:
    assert length(0.1) == Fraction(1, 10)
    assert length(1e-5) == Fraction(1, 100_000)


def test_zero_is_a_length_only_where_it_is_allowed() -> None:
    assert (length("0", zero=True), length(0, zero=True), length("0 mm", zero=True)) == (0, 0, 0)
    with pytest.raises(QuantityError, match="negative"):
        length(-1, zero=True)


@pytest.mark.parametrize(
    ("text", "part"),
    [
        ("3 pin", "“pin” is not one of its units (in, ft, mm, cm, m)"),
        ("1,250 mm", "comma"),
        ("1/0", "lower number of a fraction"),
        ("3/", "fraction is not finished"),
        ("6-10 in", "more than one number"),
        ("2 5/4", "under one"),
        ("-3 in", "negative"),
        ("0", "more than zero"),
        ("1001 ft", "over 1,000 ft"),
        ("1e9 in", "exponents"),
        ("", "nothing is written"),
        ("9" * 65, "64 characters"),
        ("1 ft 8 mm", "only inches"),
    ],
)
def test_a_refusal_names_the_text_the_reason_and_what_would_do(text: str, part: str) -> None:
    with pytest.raises(QuantityError) as refused:
        length(text)
    said = str(refused.value)
    assert text[:30] in said
    assert part in said
    assert "; write " in said


@given(st.integers(0, 9999), st.integers(1, 127), st.sampled_from([2, 3, 4, 8, 16, 32, 64, 128]))
def test_a_mixed_number_is_the_sum_of_its_two_parts(whole: int, over: int, under: int) -> None:
    over %= under
    if whole or over:
        assert length(f"{whole} {over}/{under} in") == whole + Fraction(over, under)
        assert length(f"{whole}-{over}/{under}") == whole + Fraction(over, under)


@given(st.integers(0, 900), st.integers(0, 11), st.integers(1, 15))
def test_feet_and_inches_add_up(feet: int, inches: int, sixteenths: int) -> None:
    text = f"{feet}' {inches} {sixteenths}/16\""
    assert length(text) == 12 * feet + inches + Fraction(sixteenths, 16)


@given(st.decimals("0.001", "11999", places=4))
def test_a_decimal_is_exact_as_text_as_decimal_and_with_a_comma(value: Decimal) -> None:
    assert (
        length(str(value))
        == length(value)
        == length(str(value).replace(".", ","))
        == Fraction(value)
    )


@pytest.mark.parametrize(
    ("text", "width", "height"),
    [
        ("16x20in", Fraction(16), Fraction(20)),
        ("16 x 20 in", Fraction(16), Fraction(20)),
        ("16X20", Fraction(16), Fraction(20)),
        ("16\N{MULTIPLICATION SIGN}20 in", Fraction(16), Fraction(20)),
        ('16" x 20"', Fraction(16), Fraction(20)),
        ("48x96 in", Fraction(48), Fraction(96)),
        ("4x8 ft", Fraction(48), Fraction(96)),
        ("1 1/2 x 3 1/2", Fraction(3, 2), Fraction(7, 2)),
        ('1\' 4" x 20"', Fraction(16), Fraction(20)),
        ("400x500 mm", Fraction(4000, 254), Fraction(5000, 254)),
    ],
)
def test_a_pair_is_read_in_the_order_written(text: str, width: Fraction, height: Fraction) -> None:
    assert size_pair(text) == (width, height)


def test_a_bare_pair_is_in_the_unit_of_the_document() -> None:
    assert size_pair("400x500", "mm") == (Fraction(4000, 254), Fraction(5000, 254))


@pytest.mark.parametrize(
    "text", ["", "x", "16", "16x", "x20", "16x20x2", "16 in x 20", "0x20", "16x-20", "2001x2001 ft"]
)
def test_what_is_not_a_pair_is_refused(text: str) -> None:
    with pytest.raises(QuantityError):
        size_pair(text)
