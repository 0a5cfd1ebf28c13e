"""What a case is: a small build, the place that changes, and what is found there."""

from copy import deepcopy
from dataclasses import dataclass
from typing import Any

Json = dict[str, Any]


@dataclass(frozen=True)
class Case:
    """A build, the place that changes, and what is found there."""

    code: str
    at: str
    build: Json
    path: str
    silent: tuple[Any, ...]
    fires: tuple[Any, ...]
    severity: str = "fault"

    def with_value(self, value: Any) -> Json:
        """The build with one value changed."""
        build = deepcopy(self.build)
        *steps, last = self.path.strip("/").split("/")
        place: Any = build
        for step in steps:
            place = place[int(step)] if isinstance(place, list) else place[step]
        place[int(last) if isinstance(place, list) else last] = value
        return build


def build(*parts: Json, **rest: Any) -> Json:
    return {"name": "Trial piece", "parts": list(parts), **rest}
