"""The codes that are published: those that were promised, as the rules have them today."""

from typing import Any

import jsonschema_rs
import pytest

from service.domain.rules import BY_CODE, RULES
from tests.publishing.conftest import Json

# What callers were promised before the first rule was written: fault, warn, note. Where two letters
# stand, the finding decides. All are there; one that had to go would stand in GONE with the reason.
PROMISED = {
    "size": "unknown-stock F, nominal-for-actual F, wider-than-stock F, longer-than-stock F",
    "run": "does-not-add-up F, does-not-fit F, tight W",
    "shape": "length F, angle F, lean F, unlike F, blank F, uneven W",
    "fit": "binds F, loose W, proud F",
    "cut": "points-cross F, measured-unclear W, goes-through F, beyond-saw FW, too-short-to-hold W",
    "buy": "not-enough F, over-budget W",
    "fastener": "pokes-out FW, too-short FW, too-thick W, breaks-out F, pocket-length W, "
    "pocket-thread W, pocket-thin F, end-grain NW, near-edge W, no-pilot N, into-panel-edge W, "
    "corrodes W, no-tool N, mismatch W",
    "glue": "outdoors W, end-grain N, over-finish W, missing N, too-slow W, too-cold W",
    "wood": "crossed-grain W, outdoors W, wet W",
    "load": "sags W, overstressed FW, not-judged N",
    "stands": "tips W, racks N",
    "hang": "misses-studs W, bite W, wall-unknown N",
    "finish": "blotches N, order W, unfit W, not-cured W",
    "panel": "too-big F, against-grain W",
    "part": "unused N, unjoined N, duplicate-id F",
    "joint": "unknown-part F",
    "safety": "gap W, moving NW, sharp NW",
}
GONE: dict[str, str] = {}
LETTERS = {"F": "fault", "W": "warn", "N": "note"}


def promised() -> dict[str, set[str]]:
    found = {}
    for group, listed in PROMISED.items():
        for entry in listed.split(", "):
            name, letters = entry.split(" ")
            found[f"{group}.{name}"] = {LETTERS[letter] for letter in letters}
    return found


def test_every_promised_code_is_published_or_its_absence_is_explained(published: Json) -> None:
    told = published["x-findings"]
    assert len(promised()) > 60
    assert promised().keys() - told.keys() == GONE.keys()
    assert all(len(reason.split()) > 5 for reason in GONE.values())


@pytest.mark.parametrize(("code", "severities"), promised().items())
def test_a_promised_code_is_as_grave_as_promised(
    published: Json, code: str, severities: set[str]
) -> None:
    assert published["x-findings"][code]["severity"] in severities


def test_what_is_published_is_what_the_rules_say(published: Json) -> None:
    told = published["x-findings"]
    assert list(told) == [rule.code for rule in RULES]
    for code, finding in told.items():
        rule = BY_CODE[code]
        assert (finding["title"], finding["severity"], finding["basis"]) == (
            rule.title, rule.severity, rule.basis
        )  # fmt: skip
        assert finding["numbers"]["properties"].keys() == rule.numbers.keys()
        assert finding["why"] == f"/v1/why/{code}"


@pytest.mark.parametrize(
    ("numbers", "fits"),
    [
        ({"stated": MEASURED, "real": MEASURED, "nominal": MEASURED}, True)
        for MEASURED in ({"in": 5.5, "mm": 139.7, "tape": '5 1/2"', "off_by": "0"},)
    ]
    + [({"stated": 5.5, "real": 5.5, "nominal": 6}, False), ({}, False)],
)
def test_numbers_have_a_published_shape(
    published: Json, numbers: dict[str, Any], fits: bool
) -> None:
    shape = published["x-findings"]["size.nominal-for-actual"]["numbers"]
    gate = jsonschema_rs.validator_for({**shape, "components": published["components"]})
    assert gate.is_valid(numbers) is fits
