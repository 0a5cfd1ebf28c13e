"""The published patterns say exactly how quantities are written: the readers are the judge."""

import re
from collections.abc import Callable

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from service import quantities
from service.quantities import QuantityError, patterns
from service.quantities.reading import LONGEST_TEXT
from service.quantities.units import KINDS

# What a reader refuses for how large a value is: no pattern says that.
SIZE = (
    "it is over 1,000 ft", "it must be more than zero", "it is too large", "must be under one",
    "it is more than a full turn", "nothing is that cold",
)  # fmt: skip

READERS: dict[str, Callable[[str], object]] = {
    patterns.LENGTH_TEXT: quantities.length,
    patterns.PAIR_TEXT: quantities.size_pair,
    patterns.ANGLE_TEXT: quantities.angle,
    patterns.MASS_TEXT: quantities.mass,
    patterns.LOAD_TEXT: quantities.load,
    patterns.PRESSURE_TEXT: quantities.pressure,
    patterns.COVERAGE_TEXT: quantities.coverage,
    patterns.VOLUME_TEXT: quantities.volume,
    patterns.DURATION_TEXT: lambda text: quantities.duration(text, "min", zero=True),
    patterns.TEMPERATURE_TEXT: quantities.temperature,
    patterns.MONEY_TEXT: quantities.money,
}
SPELLINGS = sorted({word for kind in KINDS for word in kind.spellings})
PIECES = [
    *"0123456789  ..,,--'\"/^xX°ºFCk+:\n",
    *("½", "⅛", "¾", "²", "³", "\u00a0", "\u2013", "\u2212", "\u2044", "\u2033", "\u2032"),
    *("\u00d7", "\u212a", "\uff11"),
    *("1/2", "3/4", "12", "999999", "1000000", "0.5", "1,5", "1,500", "deg", " per ", " / "),
    *("sq ", "sq. ", "sq ft", "sqft", "ft2", "1' ", "ft ", "FT", "E3", *SPELLINGS),
]
TEXTS = st.lists(st.sampled_from(PIECES), max_size=7).map("".join)
NUMBERS = st.sampled_from(["1", "20", "3/4", "20 3/4", "20-3/4", "20¾", "1.5", "1,5", ".5", "7/0"])
UNITS = st.sampled_from([*SPELLINGS, *map(str.upper, SPELLINGS), *map(str.title, SPELLINGS), "F"])
MEASURED = st.builds(
    "{}{}{}{}".format, NUMBERS, st.sampled_from(["", " ", "  "]), UNITS, st.sampled_from(["", "."])
)


def read(reader: Callable[[str], object], text: str) -> str:
    """What the reader says against a text; nothing where it reads it."""
    try:
        reader(text)
    except QuantityError as refusal:
        return str(refusal)
    return ""


@pytest.mark.parametrize("pattern", READERS, ids=lambda pattern: READERS[pattern].__name__)
@settings(max_examples=3000)
@given(text=TEXTS | MEASURED | st.builds("{}x{}".format, MEASURED | NUMBERS, MEASURED))
@example("20 3/4")
@example("1' 8 3/4\"")
@example("1 ft 8,75 in.")
@example("5 lb per sq. ft")
@example("16x20in")
@example("-12½°")
@example("68 °F")
@example("11.40\n")
def test_a_pattern_matches_what_is_read_and_nothing_else(pattern: str, text: str) -> None:
    matches = len(text) <= LONGEST_TEXT and re.search(f"{pattern[:-1]}\\Z", text) is not None
    said = read(READERS[pattern], text)
    if matches:
        assert not said or any(why in said for why in SIZE), said
    else:
        assert said


@pytest.mark.parametrize("text", ["1/2x3", "8 1/4 in", "12", "2'6", "3 mm"])
def test_an_item_of_a_list_is_a_length_without_a_comma(text: str) -> None:
    assert bool(re.search(patterns.LENGTH_IN_A_LIST, text)) == bool(
        re.search(patterns.LENGTH_TEXT, text)
    )
    assert not re.search(patterns.LENGTH_IN_A_LIST, "52,7 cm")
