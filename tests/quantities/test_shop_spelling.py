"""One spelling for the names that a shop uses."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.quantities import QuantityError, spelling


@pytest.mark.parametrize(
    ("text", "plain"),
    [
        ("1x12", "1x12"),
        ("1 X 12", "1x12"),
        ("1 \N{MULTIPLICATION SIGN} 12", "1x12"),
        ('1" x 12"', "1x12"),
        ("2 x 4 x 96", "2x4x96"),
        ("5/4x6", "5/4x6"),
        ("5\N{FRACTION SLASH}4 x 6", "5/4x6"),
        ("1¼ x 6", "1 1/4x6"),
        ("MDF ½", "mdf 1/2"),
        ('mdf 1/2"', "mdf 1/2"),
        ("  Red   Oak ", "red oak"),
        ("#8", "#8"),
        ("box 12", "box 12"),
        ("carpenter\u2019s glue", "carpenters glue"),
        ("\uff11\uff58\uff11\uff12", "1x12"),
        ("Stra\N{LATIN SMALL LETTER SHARP S}e", "strasse"),
    ],
)
def test_shop_names_come_to_one_spelling(text: str, plain: str) -> None:
    assert spelling(text) == plain


@pytest.mark.parametrize(
    "text",
    ["", " ", '"', "1x12\n", "1\tx", "\x00", "1\u200bx12", "\u202e1x12", "\ud800", "a" * 101],
)
def test_empty_and_unseen_text_is_refused(text: str) -> None:
    with pytest.raises(QuantityError):
        spelling(text)


def test_what_is_not_text_is_no_name() -> None:
    with pytest.raises(QuantityError, match="not text"):
        spelling(8)  # type: ignore[arg-type]  # what a JSON document may hold


@given(st.text(max_size=30) | st.text("0123456789 xX/½¾\"'\u2019-", max_size=30))
def test_spelling_twice_changes_nothing(text: str) -> None:
    try:
        once = spelling(text)
    except QuantityError:
        return
    assert spelling(once) == once
