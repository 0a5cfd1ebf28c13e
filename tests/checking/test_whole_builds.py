"""Whole small pieces: the sound ones give no fault and no warning, the spoiled ones exactly one.

Every sound build is judged by every rule there is, so that later rules meet earlier builds.
"""

import json
from collections.abc import Callable
from difflib import unified_diff
from pathlib import Path
from typing import Any

import pytest

from service.domain.checking import Checked

Check = Callable[[dict[str, Any]], Checked]

FOLDER = Path(__file__).parents[1] / "builds" / "whole"
EXPECTED = json.loads((FOLDER / "expected.json").read_text())
SOUND = [name for name, finding in EXPECTED.items() if finding is None]
SPOILED = [name for name, finding in EXPECTED.items() if finding is not None]


def read(name: str) -> dict[str, Any]:
    document: dict[str, Any] = json.loads((FOLDER / name).read_text())
    return document


def leaves(value: Any, at: str = "") -> dict[str, Any]:
    """Every single value of a document by its pointer."""
    if isinstance(value, dict):
        pairs = [(f"{at}/{key}", below) for key, below in value.items()]
    elif isinstance(value, list):
        pairs = [(f"{at}/{index}", below) for index, below in enumerate(value)]
    else:
        return {at: value}
    return {path: leaf for place, below in pairs for path, leaf in leaves(below, place).items()}


def test_every_file_is_expected() -> None:
    files = {path.name for path in FOLDER.glob("*.json")} - {"expected.json"}
    assert files == set(EXPECTED)
    assert len(SOUND) >= 8


@pytest.mark.parametrize("name", SOUND)
def test_a_sound_build_gives_no_fault_and_no_warning(check_json: Check, name: str) -> None:
    checked = check_json(read(name))
    assert [(f.code, f.at) for f in checked.findings if f.severity != "note"] == []
    assert checked.not_judged


@pytest.mark.parametrize("name", SPOILED)
def test_a_spoiled_build_gives_the_one_finding_expected(check_json: Check, name: str) -> None:
    findings = check_json(read(name)).findings
    grave = [(f.code, f.at) for f in findings if f.severity != "note"]
    expected = (EXPECTED[name]["code"], EXPECTED[name]["at"])
    if grave:
        assert grave == [expected]
    else:
        assert expected in [(f.code, f.at) for f in findings]


@pytest.mark.parametrize("name", SPOILED)
def test_a_spoiled_build_differs_in_one_value(name: str) -> None:
    sound = leaves(read(f"{name.partition('.')[0]}.json"))
    spoiled = leaves(read(name))
    changed = [path for path in sound | spoiled if sound.get(path) != spoiled.get(path)]
    assert len(changed) == 1, "\n".join(unified_diff(list(sound), list(spoiled), lineterm=""))
