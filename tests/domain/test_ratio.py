"""A `Ratio` is the standard library's `Fraction` in all but time: that is the oracle."""

import copy
import operator
import pickle
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.domain.ratio import Ratio, ratio

SIZES = st.fractions(max_denominator=10**6) | st.sampled_from(
    [Fraction(0), Fraction(1), Fraction(-3, 4), Fraction(5, 127), Fraction(10**30, 7)]
)
OTHERS = SIZES | st.integers() | st.floats(allow_nan=False) | st.booleans()
TWO_SIDED = (
    operator.add, operator.sub, operator.mul, operator.truediv, operator.floordiv, operator.mod,
    divmod, operator.lt, operator.le, operator.gt, operator.ge, operator.eq, operator.ne,
)  # fmt: skip
ONE_SIDED = (
    operator.neg, operator.pos, abs, bool, float, hash, str, round, int,
    Fraction.as_integer_ratio, copy.copy, copy.deepcopy,
    lambda one: pickle.loads(pickle.dumps(one)),
    lambda one: one**2, lambda one: round(one, 3), lambda one: f"{float(one):.3f}",
    lambda one: one.limit_denominator(64), lambda one: sum([one, one], Fraction(0)),
)  # fmt: skip


def outcome(work: Any, *values: Any) -> Any:
    """What comes out, with the kind of number that it is; or the kind of error."""
    try:
        found = work(*values)
    except (ArithmeticError, TypeError, ValueError) as error:
        return type(error)
    kind = Fraction if isinstance(found, Fraction) else type(found)
    if isinstance(found, Fraction):
        found = found.as_integer_ratio()  # also tells whether it is in lowest terms
    return kind, repr(found)


@pytest.mark.parametrize("work", TWO_SIDED)
@given(SIZES, OTHERS)
def test_two_numbers_make_what_fractions_make(work: Any, one: Fraction, other: Any) -> None:
    mine = Ratio(one)
    assert outcome(work, mine, other) == outcome(work, one, other)
    assert outcome(work, other, mine) == outcome(work, other, one)
    if isinstance(other, Fraction):
        assert outcome(work, mine, Ratio(other)) == outcome(work, one, other)


@pytest.mark.parametrize("work", ONE_SIDED)
@given(SIZES)
def test_one_number_makes_what_a_fraction_makes(work: Any, one: Fraction) -> None:
    assert outcome(work, Ratio(one)) == outcome(work, one)


@given(st.integers(), st.integers(min_value=1))
def test_two_whole_numbers_are_reduced(over: int, under: int) -> None:
    assert ratio(over, under).as_integer_ratio() == Fraction(over, under).as_integer_ratio()


@pytest.mark.parametrize("work", [operator.add, operator.sub, operator.mul, operator.truediv])
@given(SIZES, SIZES.filter(bool) | st.integers(min_value=1))
def test_what_is_figured_with_one_is_one_again(work: Any, one: Fraction, other: Any) -> None:
    assert type(work(Ratio(one), other)) is Ratio
    assert type(work(other, Ratio(one or 1))) is Ratio
