"""Whatever is sent, a reader answers an exact value or one sentence, at once."""

import time
from collections.abc import Callable
from contextlib import suppress
from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.quantities import (
    QuantityError,
    angle,
    coverage,
    density,
    duration,
    length,
    load,
    mass,
    money,
    number,
    pressure,
    size_pair,
    spelling,
    temperature,
)

READERS: list[Callable[..., object]] = [
    *(length, size_pair, mass, load, pressure, coverage, density, duration),
    *(temperature, angle, money, number, spelling),
]
HOSTILE = {
    "digits": "9" * 100_000,
    "spaces": " " * 100_000,
    "mixed": "1 " * 50_000,
    "slashes": "1/" * 50_000,
    "dashes": "1-" * 50_000,
    "commas": "1," * 50_000,
    "powers": "10**" * 25_000,
    "feet": "1' " * 33_000,
    "fractions": "½" * 100_000,
    "crosses": "1x" * 50_000,
    "superscripts": "2 ft" + "²" * 100_000,
    "letters": "a" * 100_000,
    "brackets": "(" * 100_000,
    "controls": "\x00" * 100_000,
    "surrogates": "\ud800" * 100_000,
    "expanding": "\ufdfa" * 100_000,
}
WRITTEN = st.text("0123456789 /-.,'\"½¾⅛″infeetmlbxkgNF°C²eE+_\u2019\u2013", max_size=24)
NUMBERS = st.integers() | st.floats() | st.decimals() | st.booleans() | st.none()


def seconds(reader: Callable[..., object], text: str) -> float:
    """Processor time of the best of three, so that a busy machine changes nothing."""
    spent = []
    for _ in range(3):
        started = time.process_time()
        with suppress(QuantityError):
            reader(text)
        spent.append(time.process_time() - started)
    return min(spent)


@pytest.mark.parametrize("text", HOSTILE.values(), ids=HOSTILE)
@pytest.mark.parametrize("reader", READERS)
def test_a_hundred_thousand_characters_are_refused_at_once(
    reader: Callable[..., object], text: str
) -> None:
    assert seconds(reader, text) < 0.010
    with pytest.raises(QuantityError) as refused:
        reader(text)
    assert len(str(refused.value)) < 400


@pytest.mark.parametrize("reader", READERS)
@pytest.mark.parametrize("pattern", ["1", " ", "1 ", "1/", "1-", "1,", "1' ", "½", "x", "1x", "²"])
def test_the_longest_text_that_is_looked_at_costs_next_to_nothing(
    reader: Callable[..., object], pattern: str
) -> None:
    text = (pattern * 100)[:64]
    assert seconds(reader, text) < 0.005


@given(st.text(max_size=70) | WRITTEN | NUMBERS)
def test_a_length_is_exact_and_above_zero_or_refused(value: str | int | float | Decimal) -> None:
    try:
        inches = length(value)
    except QuantityError as refused:
        assert str(refused).isprintable()
    else:
        assert isinstance(inches, Fraction)
        assert 0 < inches <= 12_000


@pytest.mark.parametrize("reader", READERS)
@given(value=st.text(max_size=70) | WRITTEN | NUMBERS)
def test_every_reader_answers_or_refuses_in_one_sentence(
    reader: Callable[..., object], value: object
) -> None:
    try:
        reader(value)
    except QuantityError as refused:
        said = str(refused)
        assert said.isprintable()
        assert said.endswith(".")
        said.encode()


@given(WRITTEN)
def test_spaces_around_a_text_never_change_what_is_read(text: str) -> None:
    try:
        inches = length(text)
    except QuantityError:
        with pytest.raises(QuantityError):
            length(f" {text} ")
    else:
        assert length(f" {text} ") == inches
