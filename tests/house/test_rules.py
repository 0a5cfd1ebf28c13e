"""The list of rules: complete, explained, and published with the shape of its numbers."""

import pkgutil
import re

import pytest

from service.domain import rules
from service.domain.findings import Rule
from service.domain.rules import BY_CODE, RULES, cuts, fits, panels, parts, runs, shapes, sizes

SUBJECTS = (cuts, fits, panels, parts, runs, shapes, sizes)


def test_every_rule_that_is_written_is_in_the_list() -> None:
    written = {id(v) for subject in SUBJECTS for v in vars(subject).values() if type(v) is Rule}
    assert written == {id(rule) for rule in RULES}


def test_every_file_of_rules_is_looked_at() -> None:
    names = {module.name for module in pkgutil.iter_modules(rules.__path__)}
    assert names == {subject.__name__.split(".")[-1] for subject in SUBJECTS}


def test_no_code_is_used_twice() -> None:
    assert len(BY_CODE) == len(RULES)


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.code)
def test_a_rule_is_named_and_explained(rule: Rule) -> None:
    assert re.fullmatch(r"[a-z]+\.[a-z]+(-[a-z]+)*", rule.code)
    assert len(rule.why.split()) >= 15, "the explanation is a mere phrase"
    assert rule.title[0].isupper() and not rule.title.endswith(".")
    assert not (rule.basis == "practice" and rule.severity == "fault")
