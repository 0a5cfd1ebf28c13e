"""Mends as JSON Patch (RFC 6902), and a document with mends applied."""

from collections.abc import Iterable
from copy import deepcopy
from typing import Any

from service.domain.findings import Change, Finding


def as_patch(changes: Iterable[Change]) -> list[dict[str, Any]]:
    """The changes of one mend as a JSON Patch."""
    return [
        {"op": "add" if change.adds else "replace", "path": change.path, "value": change.value}
        for change in changes
    ]


def mended(document: Any, findings: Iterable[Finding]) -> Any:
    """A copy of the document with the mends of some findings; at one place the first one's."""
    copy = deepcopy(document)
    done: set[str] = set()
    for finding in findings:
        changes = finding.mend.changes if finding.mend else ()
        if done.isdisjoint(change.path for change in changes):
            for change in changes:
                _put(copy, change)
            done.update(change.path for change in changes)
    return copy


def _put(document: Any, change: Change) -> None:
    *steps, last = (_unescaped(step) for step in change.path.split("/")[1:])
    place = document
    for step in steps:
        place = place[_index(place, step)]
    place[_index(place, last)] = change.value


def _index(place: Any, step: str) -> str | int:
    return int(step) if isinstance(place, list) else step


def _unescaped(step: str) -> str:
    return step.replace("~1", "/").replace("~0", "~")
