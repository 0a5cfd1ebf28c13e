"""What changed since an earlier version of a build, or for another size or region, in words."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, fields
from decimal import Decimal
from fractions import Fraction
from typing import Any

from service.domain.build import Build, Fastener, GluedFrom, Stock, StockNote
from service.domain.resizing.answer import Resized
from service.domain.tape import plain
from service.handouts.places import BY_ID, place_in_words

WHOLE = ("name", "units", "region", "wood", "place", "uses", "youngest", "stands", "moving",
         "loads", "steps", "shop", "buying", "stocks")  # fmt: skip
CALLED = {"youngest": "people", "known": "wood and measurements"}
SHORT = 60
NESTED = (Fastener, GluedFrom, StockNote)


@dataclass(frozen=True, slots=True)
class Change:
    """One thing that is not as it was: what, and how it was and is, in words."""

    what: str
    how: str


def changes(earlier: Build, now: Build) -> Iterator[Change]:
    """Every difference between two builds, parts and joints by their ids, in document order."""
    metric = now.units == "mm"
    for name in WHOLE[:4]:
        yield from _values(name, getattr(earlier, name), getattr(now, name), metric)
    for name, kind in BY_ID.items():
        yield from _listed(kind, getattr(earlier, name), getattr(now, name), metric)
    for name in WHOLE[4:]:
        if getattr(earlier, name) != getattr(now, name):
            yield from _values(name, getattr(earlier, name), getattr(now, name), metric)


def made_over(resized: Resized) -> Iterator[Change]:
    """What another size, stock or region changed, each with its reason."""
    build = resized.build
    metric = build.units == "mm"
    for one in resized.changed:
        was, now = _plainly(one.was, metric), _plainly(one.is_now, metric)
        yield Change(place_in_words(build, one.path), f"{was} before, now {now}; {one.why}")


def _plainly(value: object, metric: bool) -> str:
    if isinstance(value, dict):
        return ", ".join(f"{name} {_plainly(inner, metric)}" for name, inner in value.items())
    return _words(value, metric) or "other values"


def _listed(
    kind: str, before: Iterable[Any], after: Iterable[Any], metric: bool
) -> Iterator[Change]:
    was, now = {one.id: one for one in before}, {one.id: one for one in after}
    for id, one in now.items():
        if id not in was:
            yield Change(f"{kind} {id}", "new")
        elif was[id] != one:
            yield from _fields(f"{kind} {id}", was[id], one, metric)
    for id in was:
        if id not in now:
            yield Change(f"{kind} {id}", "gone")


def _fields(what: str, was: Any, now: Any, metric: bool) -> Iterator[Change]:
    for field in fields(now):
        before, after = getattr(was, field.name), getattr(now, field.name)
        called = f"{what}, {CALLED.get(field.name, field.name).replace('_', ' ')}"
        if before != after and type(before) is type(after) and isinstance(after, NESTED):
            yield from _fields(called, before, after, metric)
        else:
            yield from _values(called, before, after, metric)


def _values(what: str, was: object, now: object, metric: bool) -> Iterator[Change]:
    if was == now:
        return
    before, after = _words(was, metric), _words(now, metric)
    told = before is not None and after is not None
    how = f"{before} before, now {after}" if told else "changed"
    yield Change(CALLED.get(what, what), how)


def _words(value: object, metric: bool) -> str | None:
    """A value in a few words; None where it takes more."""
    words: str | None = None
    match value:
        case None:
            words = "nothing"
        case bool():
            words = "yes" if value else "no"
        case Fraction():
            words = plain(value, metric)
        case float():
            words = f"{value:g}"
        case str() | int() | Decimal():
            words = f"{value}"
        case Stock(name=str(name)):
            words = name
        case tuple() | frozenset() if all(isinstance(one, str) for one in value):
            told = ", ".join(sorted(value) if isinstance(value, frozenset) else value)
            words = (told or "nothing") if len(told) <= SHORT else None
    return words
