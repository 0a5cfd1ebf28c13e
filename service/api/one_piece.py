"""One piece of a stock as a build, so that one-line questions are judged by the same rules."""

from collections.abc import Iterable, Mapping
from fractions import Fraction
from typing import Any

from service.api import found
from service.domain.build import Part, Stock, StockNote
from service.domain.catalog import Catalog
from service.domain.errors import Complaint, UnknownName
from service.domain.findings import Finding, Rule
from service.domain.resolving import ResolvedBuild
from service.domain.sizes import look_up

PIECE = "piece"


def named_wood(catalog: Catalog, region: str, name: str | None) -> str | None:
    """A wood that the tables know, by its name. Raises UnknownName at the parameter."""
    if name is None:
        return None
    key = catalog.key("wood", region, name)
    if key is None:
        near = catalog.nearest("wood", region, name)
        hint = f"; nearest: {', '.join(near)}" if near else ""
        raise UnknownName(Complaint("wood", f'no wood called "{name}" is in the tables{hint}'))
    return key


def piece_of(asked: Mapping[str, Any], catalog: Catalog, length: Fraction | None) -> Part:
    """The piece that a question states: a stock by name, or its thickness and width."""
    note = StockNote(
        wood=named_wood(catalog, asked["region"], asked.get("wood")),
        moisture=asked.get("moisture"),
    )
    if "stock" in asked:
        stock = Stock(name=look_up(catalog, asked["region"], asked["stock"]).stock)
        width, thickness = asked.get("width"), asked.get("thickness")
        return Part(PIECE, stock, length, width=width, thickness=thickness, known=note)
    stock = Stock(thickness=asked["thickness"], width=asked.get("width"))
    return Part(PIECE, stock, length, width=asked.get("width"), known=note)


def judged(build: ResolvedBuild, rules: Iterable[Rule]) -> list[Finding]:
    """What some rules find in a build."""
    return [finding for rule in rules for finding in rule.judge(build)]


def at_parameters(
    findings: Iterable[Finding], parameter: Mapping[str, str], metric: bool
) -> list[dict[str, Any]]:
    """Findings with the parameter that each is about, by the place it has in the build."""
    return [
        {"parameter": parameter[finding.at]}
        | {
            name: value
            for name, value in found.finding(finding, metric).items()
            if name not in ("at", "also_at")
        }
        for finding in findings
        if finding.at in parameter
    ]
