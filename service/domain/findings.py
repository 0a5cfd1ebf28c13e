"""What a rule is, and what it finds."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import field
from fractions import Fraction
from inspect import cleandoc
from typing import TYPE_CHECKING, Literal

from service.domain.catalog import Catalog
from service.domain.deadline import keep_time
from service.domain.values import dataclass

if TYPE_CHECKING:
    from service.domain.resolving import ResolvedBuild

Severity = Literal["fault", "warn", "note"]
Basis = Literal["geometry", "standard", "handbook", "practice"]
NumberKind = Literal["length", "angle", "count", "word", "words"]
Number = Fraction | float | int | str | tuple[str, ...]

RANK: Mapping[Severity, int] = {"fault": 0, "warn": 1, "note": 2}


@dataclass(frozen=True, slots=True)
class Change:
    """One exact change to the document: the value that now stands at a JSON pointer.

    The pointer has no leading ``#``. The value is as the document would hold it: text for a size,
    a number for a gauge or a count, true or false, an object for a whole fastener.
    """

    path: str
    value: "str | int | float | Mapping[str, str | int]"
    adds: bool = False


@dataclass(frozen=True, slots=True)
class Mend:
    """What would put it right, in words, and as changes where exactly one mends it."""

    words: str
    changes: tuple[Change, ...] = ()


@dataclass(frozen=True, slots=True)
class Spot:
    """One place where a rule found something. `severity` and `basis` differ from the rule's
    only where the finding itself says so."""

    at: str
    detail: str
    numbers: Mapping[str, Number] = field(default_factory=dict)
    mend: Mend | None = None
    also_at: str | None = None
    rests_on: tuple[str, ...] = ()
    severity: Severity | None = None
    basis: Basis | None = None


@dataclass(frozen=True, slots=True)
class Finding:
    """A spot with everything that a caller needs to judge it."""

    code: str
    severity: Severity
    at: str
    title: str
    detail: str
    numbers: Mapping[str, Number]
    basis: Basis
    rests_on: tuple[str, ...]
    sources: tuple[str, ...]
    mend: Mend | None = None
    also_at: str | None = None


@dataclass(frozen=True, slots=True)
class Rule:
    """A rule: its code, what it says, why, on what basis, and the function that looks.

    `numbers` names what each finding's `numbers` holds and of which kind.
    """

    code: str
    title: str
    severity: Severity
    basis: Basis
    why: str
    numbers: Mapping[str, NumberKind]
    sources: tuple[str, ...]
    find: "Callable[[ResolvedBuild], Iterator[Spot]]"

    def judge(self, build: "ResolvedBuild") -> Iterator[Finding]:
        """Every finding of this rule, with its severity settled by what it rests on."""
        for spot in self.find(build):
            keep_time()
            yield settled(self, spot, build.catalog)


def rule(
    code: str,
    *,
    title: str,
    severity: Severity,
    basis: Basis = "geometry",
    numbers: Mapping[str, NumberKind] | None = None,
    sources: tuple[str, ...] = (),
) -> "Callable[[Callable[[ResolvedBuild], Iterator[Spot]]], Rule]":
    """Make a rule of a function; its docstring is the explanation that callers read."""

    def make(find: "Callable[[ResolvedBuild], Iterator[Spot]]") -> Rule:
        why = cleandoc(find.__doc__ or "")
        return Rule(code, title, severity, basis, why, numbers or {}, sources, find)

    return make


def settled(rule: Rule, spot: Spot, catalog: Catalog) -> Finding:
    """A finding whose severity its evidence can carry.

    Practice warns at most, and a row that nobody has read in print never carries a fault.
    """
    severity, basis = spot.severity or rule.severity, spot.basis or rule.basis
    rests_on = tuple(dict.fromkeys(spot.rests_on))
    remembered = catalog.from_memory(rests_on)
    detail = spot.detail
    if severity == "fault" and (remembered or basis == "practice"):
        severity = "warn"
        if remembered:
            detail += " The table value behind this is from memory: measure before you rely on it."
    cited = [catalog.cited[row].source for row in rests_on]
    return Finding(
        code=rule.code,
        severity=severity,
        at=spot.at,
        title=rule.title,
        detail=detail,
        numbers=spot.numbers,
        basis=basis,
        rests_on=rests_on,
        sources=tuple(dict.fromkeys([*rule.sources, *cited])),
        mend=spot.mend,
        also_at=spot.also_at,
    )
