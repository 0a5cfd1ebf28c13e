"""One piece of a stock as a build, so that one-line questions are judged by the same rules."""

from collections.abc import Iterable, Mapping
from fractions import Fraction
from typing import Any

from service.domain.build import Part, Stock, StockNote
from service.domain.catalog import Catalog
from service.domain.findings import Finding, Rule
from service.domain.resolving import ResolvedBuild
from service.domain.sizes import look_up
from service.domain.woods import wood_named

PIECE = "piece"


def piece_of(asked: Mapping[str, Any], catalog: Catalog, length: Fraction | None) -> Part:
    """The piece that a question states: a stock by name, or its thickness and width."""
    note = StockNote(
        wood=wood_named(catalog, asked["region"], asked["wood"]).key if "wood" in asked else None,
        moisture=asked.get("moisture"),
    )
    if "stock" in asked:
        stock = Stock(name=look_up(catalog, asked["region"], asked["stock"]).stock)
    else:
        stock = Stock(thickness=asked["thickness"], width=asked.get("width"))
    return Part(PIECE, stock, length, width=asked.get("width"), known=note)


def judged(build: ResolvedBuild, rules: Iterable[Rule]) -> list[Finding]:
    """What some rules find in a build."""
    return [finding for rule in rules for finding in rule.judge(build)]
