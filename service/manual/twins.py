"""Builds that show something: a sound one with its spoiled twin, and a pair for every finding."""

import json
from collections.abc import Mapping
from copy import deepcopy
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

from service.manual.telling import Line, sending

FOLDER = Path(__file__).with_name("builds")
RISER = "counter-riser"
SPOILED = f"{RISER}.spoiled"
WRONG_AT, WRONG = "/parts/1/length", "23 1/2"  # 25 1/2 less two boards of 1 in, which are 3/4 in


@dataclass(frozen=True, slots=True)
class Twins:
    """A build, and one place of it that holds a sound value, or a spoiled one."""

    build: Any
    at: str
    sound: Any
    spoiled: Any

    def with_value(self, value: Any) -> Any:
        """The build with a value at the place."""
        build = deepcopy(self.build)
        *steps, last = self.at.strip("/").split("/")
        place = build
        for step in steps:
            place = place[int(step)] if isinstance(place, list) else place[step]
        place[int(last) if isinstance(place, list) else last] = value
        return build

    @property
    def line(self) -> Line:
        """A line that sends the spoiled twin."""
        spoiled = self.with_value(self.spoiled)
        return sending("Send the spoiled one", "v1/check?format=text", spoiled)


@cache
def riser() -> Twins:
    """The riser of the manual and of the demo."""
    build = json.loads((FOLDER / f"{RISER}.json").read_text(encoding="utf-8"))
    return Twins(build, WRONG_AT, "24", WRONG)


def riser_text() -> str:
    """The sound riser as it is written."""
    return (FOLDER / f"{RISER}.json").read_text(encoding="utf-8")


@cache
def twins_by_code() -> Mapping[str, Twins]:
    """For every code a small build that has the finding, and its twin that has not."""
    told = json.loads((FOLDER / "findings.json").read_text(encoding="utf-8"))
    return {code: Twins(**one) for code, one in told.items()}
