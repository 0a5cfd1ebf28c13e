"""Single joints against hand arithmetic: the bite, the wood left, and what is found."""

from fractions import Fraction
from typing import Any

import pytest

from service.api.documents.build import BuildForm
from service.domain.catalog import Catalog
from service.domain.checking import check
from service.domain.fastening.advising import advise
from service.domain.fastening.fixing import placed
from service.domain.resolving import resolve
from tests.fastening.joints import WORKED, Worked

FORM = BuildForm()
NEAR = 2e-6  # in; where the arithmetic has an angle in it


def document(worked: Worked) -> dict[str, Any]:
    sides = {"touches": "face", "enters": "face"}
    return {
        "name": "One joint", "units": "in", "wood": "spf",
        "parts": [{"id": "first", "length": "20", **worked.through},
                  {"id": "second", "length": "20", **worked.into}],
        "joints": [{"id": "j", "through": "first", "into": "second", **sides, **worked.joint}],
        **worked.build,
    }  # fmt: skip


def inches(text: str) -> float:
    sign = -1 if text.startswith("-") else 1
    return sign * float(sum(map(Fraction, text.removeprefix("-").split())))


@pytest.mark.parametrize("worked", WORKED, ids=lambda worked: worked.why[:60])
def test_a_joint_is_as_worked_by_hand(catalog: Catalog, worked: Worked) -> None:
    judged = resolve(FORM.load(document(worked)), catalog).judged_joints[0]
    assert judged.meeting is not None and judged.fixing is not None
    here = placed(judged.meeting, judged.fixing)
    assert here is not None
    near = NEAR if "." in worked.bite + worked.clear else 0
    assert float(here.bite) == pytest.approx(inches(worked.bite), abs=near and 5e-5)
    assert float(here.clear) == pytest.approx(inches(worked.clear), abs=near)


@pytest.mark.parametrize("worked", WORKED, ids=lambda worked: worked.why[:60])
def test_what_is_found_is_what_the_arithmetic_says(catalog: Catalog, worked: Worked) -> None:
    findings = check(FORM.load(document(worked)), catalog).findings
    letters = {"fault": "F", "warn": "W"}
    assert tuple(f"{letters[f.severity]} {f.code}" for f in findings if f.severity != "note") == (
        worked.found
    )


def test_there_are_forty_and_ten_where_the_usual_length_is_wrong() -> None:
    assert len(WORKED) >= 40
    assert sum(worked.usual for worked in WORKED) >= 10
    assert all(worked.found for worked in WORKED if worked.usual)


@pytest.mark.parametrize(
    "worked", [one for one in WORKED if one.usual], ids=lambda worked: worked.why[:60]
)
def test_where_the_usual_length_is_wrong_a_right_way_is_offered(
    catalog: Catalog, worked: Worked
) -> None:
    told = advise(resolve(FORM.load(document(worked)), catalog))[0].suggestions
    assert told.options
    stated = sum(map(Fraction, worked.joint["fastener"]["length"].split()))
    same = [one for one in told.options if one.method == worked.joint["method"]]
    assert all(one.choice.fixing.length != stated for one in same)
