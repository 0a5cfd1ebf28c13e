"""The factors against pint, and pint kept away from callers."""

import subprocess
import sys
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pint import UnitRegistry

from service.quantities import length, mass
from service.quantities.units import KINDS, Kind, exact_factor

PINT = UnitRegistry(non_int_type=Fraction)


@pytest.mark.parametrize("kind", KINDS, ids=lambda kind: kind.name)
def test_every_factor_is_exactly_the_one_of_pint(kind: Kind) -> None:
    base = kind.units[0]
    for unit in kind.units:
        assert unit.factor == exact_factor(unit, base), unit.key


@pytest.mark.parametrize("kind", KINDS, ids=lambda kind: kind.name)
def test_no_spelling_means_two_units(kind: Kind) -> None:
    spellings = [word for unit in kind.units for word in (unit.key, *unit.spelled)]
    assert sorted(set(spellings)) == sorted(spellings)


@given(
    st.fractions(Fraction(1, 100), 300, max_denominator=1000),
    st.sampled_from(["in", "ft", "mm", "cm", "m"]),
)
def test_a_plain_length_agrees_with_pint(number: Fraction, unit: str) -> None:
    assert length(f"{number} {unit}") == PINT.Quantity(number, unit).to("inch").magnitude


@given(st.integers(1, 10**6), st.sampled_from(["lb", "oz", "kg", "g"]))
def test_a_plain_weight_agrees_with_pint(number: int, unit: str) -> None:
    assert mass(f"{number} {unit}") == PINT.Quantity(Fraction(number), unit).to("pound").magnitude


def test_the_service_reads_lengths_without_loading_pint() -> None:
    script = (
        "import sys; from service.quantities import length;"
        "length('3 in'); print('pint' in sys.modules)"
    )
    done = subprocess.run(
        [sys.executable, "-c", script], capture_output=True, text=True, check=True
    )
    assert done.stdout.strip() == "False"
