"""Board feet and their price, against arithmetic by hand."""

from decimal import Decimal
from fractions import Fraction

import pytest

from service.domain.board_feet import Section, cost, tally

ONE_BY_SIX = Section(Fraction(1), Fraction(6), "nominal")


def test_a_foot_of_a_one_by_six_is_half_a_board_foot() -> None:
    assert ONE_BY_SIX.each_foot == Fraction(1, 2)


@pytest.mark.parametrize(
    ("per", "expected"),
    [
        ("piece", "6.00"),  # 3 pieces
        ("foot", "48.00"),  # 3 x 8 ft
        ("board-foot", "24.00"),  # 3 x 4 board feet
    ],
)
def test_a_price_of_two_is_counted_by_its_unit(per: str, expected: str) -> None:
    boards = tally(ONE_BY_SIX, Fraction(96), 3, Decimal("2"), per)  # type: ignore[arg-type]
    assert boards.cost == Decimal(expected)


def test_half_a_cent_goes_up() -> None:
    assert cost(Decimal("0.01"), "foot", 1, Fraction(6), Fraction(0)) == Decimal("0.01")
