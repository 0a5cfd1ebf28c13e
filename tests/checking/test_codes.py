"""Every code: where it fires, where it is silent, and the threshold from both sides."""

from collections.abc import Callable
from typing import Any

import pytest

from service.domain.checking import Checked
from service.domain.rules import RULES
from tests.checking.cases import CASES, Case, Json

Check = Callable[[Json], Checked]

FIRING = [(case, value) for case in CASES for value in case.fires]
SILENT = [(case, value) for case in CASES for value in case.silent]


def named(value: Any) -> str:
    return value.code if isinstance(value, Case) else str(value)


def test_every_code_has_a_build_where_it_fires() -> None:
    assert {case.code for case in CASES} == {rule.code for rule in RULES}


@pytest.mark.parametrize(("case", "value"), FIRING, ids=named)
def test_a_mistake_gives_one_finding_at_its_place(
    check_json: Check, case: Case, value: Any
) -> None:
    findings = check_json(case.with_value(value)).findings
    grave = [(f.code, f.at, f.severity) for f in findings if f.severity != "note"]
    expected = (case.code, case.at, case.severity)
    if case.severity == "note":
        assert expected in [(f.code, f.at, f.severity) for f in findings]
        assert grave == []
    else:
        assert grave == [expected]


@pytest.mark.parametrize(("case", "value"), SILENT, ids=named)
def test_a_sound_value_gives_no_finding_there(check_json: Check, case: Case, value: Any) -> None:
    findings = check_json(case.with_value(value)).findings
    assert [f for f in findings if f.severity != "note" or f.code == case.code] == []


@pytest.mark.parametrize(("case", "value"), FIRING, ids=named)
def test_the_numbers_of_a_finding_are_those_its_rule_publishes(
    check_json: Check, case: Case, value: Any
) -> None:
    rules = {rule.code: rule for rule in RULES}
    for finding in check_json(case.with_value(value)).findings:
        assert set(finding.numbers) == set(rules[finding.code].numbers)
