"""How findings and resolved parts look in answers."""

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from typing import Any

from service.api import shown
from service.api.patching import as_patch
from service.domain.deadline import kept_time
from service.domain.findings import Finding, Mend, Number, NumberKind
from service.domain.parts import ResolvedPart
from service.domain.resolving import ResolvedBuild
from service.domain.rules import BY_CODE
from service.domain.solid import Crossed, Rod, Solid, Unclear
from service.domain.stocks import Sized

_PLACES = ("at", "also_at")


def finding(found: Finding, metric: bool) -> dict[str, Any]:
    """One finding, with a link to the reason behind it."""
    kinds = BY_CODE[found.code].numbers
    return {
        "code": found.code,
        "severity": found.severity,
        "at": found.at,
        "also_at": found.also_at,
        "title": found.title,
        "detail": found.detail,
        "numbers": {
            name: number(value, kinds.get(name, "word"), metric)
            for name, value in found.numbers.items()
        },
        "mend": _mend(found.mend) if found.mend else None,
        "basis": found.basis,
        "rests_on": list(found.rests_on),
        "sources": list(found.sources),
        "why": f"/v1/why/{found.code}",
    }


def lines(answer: Mapping[str, Any]) -> Iterator[str]:
    """The end of every answer about a build: the verdict, its findings, what was not judged."""
    findings = answer["findings"]
    counts = Counter(finding["severity"] for finding in findings)
    said = [f"{n} {word}{'' if n == 1 else 's'}" for word, n in counts.items()]  # worst first
    yield f"{answer['verdict']}: {', '.join(said)}" if said else answer["verdict"]
    for finding in findings:
        yield from ("", f"{finding['severity']}: {finding['title']}", f"  at {finding['at']}")
        yield f"  {finding['detail']}"
        if finding["mend"]:
            yield f"  mend: {finding['mend']['words']}"
        yield f"  why: {finding['why']}"
    yield from ("", "not judged:", *(f"  {text}" for text in answer["not_judged"]), "")
    yield from shown.closing(answer)


def of_parameters(findings: Iterable[Finding], place: str, metric: bool) -> list[dict[str, Any]]:
    """Findings about the one thing that a question states, at parameters rather than pointers."""
    return [
        _about(found, found.at.removeprefix(place), metric)
        for found in findings
        if found.at.startswith(place)
    ]


def at_parameters(
    findings: Iterable[Finding], parameter: Mapping[str, str], metric: bool
) -> list[dict[str, Any]]:
    """Findings with the parameter that each is about, by the place it has in the build."""
    return [
        _about(found, parameter[found.at], metric) for found in findings if found.at in parameter
    ]


def _about(found: Finding, parameter: str, metric: bool) -> dict[str, Any]:
    told = finding(found, metric)
    return {"parameter": parameter} | {n: v for n, v in told.items() if n not in _PLACES}


def in_lines(answer: Mapping[str, Any]) -> Iterator[str]:
    """The findings of a one-line question, a line each."""
    yield from (f"{one['severity']}: {one['detail']}" for one in answer["findings"])


def number(value: Number, kind: NumberKind, metric: bool) -> Any:
    """A number of a finding in the way of its kind; angles are rounded here, once."""
    if kind == "length" and not isinstance(value, str | tuple):
        return dict(shown.length(shown.exactly(value), metric))
    if kind == "angle" and not isinstance(value, str | tuple):
        return round(float(value), 2)
    return list(value) if isinstance(value, tuple) else value


def _mend(mend: Mend) -> dict[str, Any]:
    return {"words": mend.words, "patch": as_patch(mend.changes) if mend.changes else None}


def parts(resolved: ResolvedBuild) -> list[dict[str, Any]]:
    """Every part with the sizes that the tables and geometry give it."""
    metric = resolved.metric
    sizes: dict[int, dict[str, Any]] = {}  # of one stock for all its parts, by the value's identity
    answer = []
    for one in kept_time(resolved.parts):
        if id(one.sized) not in sizes:
            sizes[id(one.sized)] = _sizes(one.sized, metric)
        answer.append(_part(one, sizes[id(one.sized)], metric))
    return answer


def _part(resolved: ResolvedPart, sizes: dict[str, Any], metric: bool) -> dict[str, Any]:
    stated = resolved.part
    return {
        "at": resolved.at,
        "id": stated.id,
        "quantity": stated.quantity,
        **sizes,
        "length": shown.optional_length(stated.length, metric),
        "wood": resolved.wood.key if resolved.wood else None,
        "density_lb_ft3": _density(resolved),
        "rests_on": list(resolved.rests_on),
        "cut": _solid(resolved.solid, metric),
    }


def _sizes(sized: Sized | None, metric: bool) -> dict[str, Any]:
    """What a part is cut from."""
    return {
        "stock": sized.key if sized else None,
        "form": sized.form if sized else None,
        "thickness": shown.limits(sized.thickness, metric) if sized else None,
        "width": shown.limits(sized.width, metric) if sized and sized.width else None,
    }


def _density(resolved: ResolvedPart) -> dict[str, float] | None:
    spread = resolved.density
    return {"low": round(spread.low, 1), "high": round(spread.high, 1)} if spread else None


def _solid(solid: Solid | Rod | Crossed | Unclear | None, metric: bool) -> dict[str, Any] | None:
    if not isinstance(solid, Solid | Rod):
        return None
    blank_length = shown.length(solid.blank_length, metric)
    return {
        "blank_length": blank_length,
        "blank_width": shown.length(solid.blank_width, metric),
        "center_length": blank_length
        if solid.is_square
        else shown.length(solid.center_length, metric),
        "lengths": {}
        if solid.is_square
        else {word: shown.length(size, metric) for word, size in solid.lengths().items()},
        "volume_in3": shown.number(solid.volume),
        "surface_in2": shown.number(solid.surface),
    }
