"""A caller's own document with some values replaced, and everything else left as written."""

from collections.abc import Iterable
from copy import deepcopy
from fractions import Fraction
from typing import Any

from service.domain.resizing.answer import Changed
from service.domain.tape import MM, decimal, exact, is_binary


def rewritten(document: Any, changes: Iterable[Changed], metric: bool) -> Any:
    """A copy of the document with the changes made. What is taken out goes last, from the end."""
    copy = deepcopy(document)
    out: list[list[str]] = []
    for change in changes:
        steps = [step.replace("~1", "/").replace("~0", "~") for step in change.path.split("/")[1:]]
        if change.is_now is None:
            out.append(steps)
        else:
            _put(copy, steps, as_written(change.is_now, metric))
    for steps in sorted(out, key=_from_the_end, reverse=True):
        _take_out(copy, steps)
    return copy


def as_written(value: object, metric: bool) -> Any:
    """A value as a document holds it; lengths are text that reads back exactly."""
    if isinstance(value, Fraction):
        return _length(value, metric)
    if isinstance(value, dict):
        return {name: as_written(v, metric) for name, v in value.items() if v is not None}
    return value


def _length(size: Fraction, metric: bool) -> str:
    """Exact text; in inches, decimals rather than a fraction that no tape has."""
    decimals = decimal(size, 4)
    in_mm = metric or decimal(size / MM, 2) is not None
    if decimals is None or in_mm or is_binary(size):
        return exact(size, metric)
    return f"{decimals} in"


def _put(document: Any, steps: list[str], value: Any) -> None:
    place = document
    for step in steps[:-1]:
        place = place[int(step)] if isinstance(place, list) else place.setdefault(step, {})
    if isinstance(place, list):
        place[int(steps[-1])] = value
    else:
        place[steps[-1]] = value


def _take_out(document: Any, steps: list[str]) -> None:
    """Take a value out; an object that is left empty goes with it, but for a list."""
    place, above = document, []
    for step in steps[:-1]:
        above.append((place, step))
        place = place[int(step)] if isinstance(place, list) else place.get(step, {})
    if isinstance(place, list):
        del place[int(steps[-1])]
    else:
        place.pop(steps[-1], None)
    if place in ({}, []) and above and isinstance(above[-1][0], dict):
        above[-1][0].pop(above[-1][1], None)


def _from_the_end(steps: list[str]) -> tuple[tuple[int, str], ...]:
    return tuple((int(step), "") if step.isdigit() else (-1, step) for step in steps)
