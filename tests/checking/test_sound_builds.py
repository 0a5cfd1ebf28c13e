"""A sound build gets no fault and no warning: a false alarm is a defect like a miss."""

from collections.abc import Callable
from fractions import Fraction
from random import Random
from typing import Any

import pytest

from service.domain.checking import Checked
from tests.checking.sound import TEMPLATES, sound_build, sound_build_with_steps

Check = Callable[[dict[str, Any]], Checked]

BUILDS = 5000
BATCHES = 10
WITH_STEPS = 2000


@pytest.mark.parametrize("batch", range(BATCHES))
def test_sound_builds_give_no_fault_and_no_warning(check_json: Check, batch: int) -> None:
    for seed in range(batch, BUILDS, BATCHES):
        findings = check_json(sound_build(seed)).findings
        grave = [(f.code, f.at, f.detail) for f in findings if f.severity != "note"]
        assert grave == [], sound_build(seed)


@pytest.mark.parametrize("batch", range(BATCHES))
def test_sound_steps_give_nothing_about_finish_or_glue_times(check_json: Check, batch: int) -> None:
    """Notes about glue are left aside: end grain and the like hold with steps or without."""
    for seed in range(batch, WITH_STEPS, BATCHES):
        document = sound_build_with_steps(seed)
        found = [
            (f.code, f.at, f.detail)
            for f in check_json(document).findings
            if f.severity != "note" or f.code.startswith("finish.")
        ]
        assert found == [], document


@pytest.mark.parametrize(
    ("spoils", "code"),
    [
        ({"do": "cut"}, "finish.order"),
        ({"do": "stain", "finish": "oil-stain", "count": 1}, "finish.order"),
        ({"do": "use"}, "finish.not-cured"),
    ],
)
def test_a_step_out_of_place_is_found_in_every_generated_order(
    check_json: Check, spoils: dict[str, Any], code: str
) -> None:
    for seed in range(100):
        document = sound_build_with_steps(seed)
        steps = document["steps"]
        last = max(i for i, step in enumerate(steps) if step["do"] == "finish")
        steps.insert(last + 1, spoils)
        assert code in {f.code for f in check_json(document).findings}, document


def test_the_generator_makes_every_kind_of_piece() -> None:
    made = {tuple(part["id"] for part in sound_build(seed)["parts"]) for seed in range(200)}
    assert len(made) == len(TEMPLATES)


def test_a_generated_build_spoiled_by_a_sixteenth_is_found(check_json: Check) -> None:
    """The generator would be worth nothing if its runs could not fail."""
    found = 0
    for seed in range(300):
        document = sound_build(seed)
        for run in document.get("runs", []):
            if isinstance(run.get("equals"), str):
                run["equals"] = f"{float(Fraction(Random(seed).randint(1, 9), 16)) + 70}"
                found += bool(check_json(document).findings)
                break
        else:
            found += 1
    assert found == 300
