"""The list of rules: complete, explained, and published with the shape of its numbers."""

import importlib
import pkgutil
import re

import pytest

from service.domain import rules
from service.domain.findings import Rule
from service.domain.rules import BY_CODE, RULES

SUBJECTS = [
    importlib.import_module(f"{rules.__name__}.{module.name}")
    for module in pkgutil.iter_modules(rules.__path__)
]


def test_every_rule_that_is_written_is_in_the_list() -> None:
    written = {id(v) for subject in SUBJECTS for v in vars(subject).values() if type(v) is Rule}
    assert written == {id(rule) for rule in RULES}


def test_no_code_is_used_twice() -> None:
    assert len(BY_CODE) == len(RULES)


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.code)
def test_a_rule_is_named_and_explained(rule: Rule) -> None:
    assert re.fullmatch(r"[a-z]+\.[a-z]+(-[a-z]+)*", rule.code)
    assert len(rule.why.split()) >= 15, "the explanation is a mere phrase"
    assert rule.title[0].isupper() and not rule.title.endswith(".")
    assert not (rule.basis == "practice" and rule.severity == "fault")
