"""GET /v1/coverage: how much finish a surface takes, and how long its coats take."""

import re
from collections.abc import Iterator, Mapping
from fractions import Fraction
from typing import Any

from flask import Blueprint, Response
from marshmallow import ValidationError, validates_schema

from service import quantities
from service.api import shown
from service.api.answers import answered, carried
from service.api.described import gluing
from service.api.described.operations import GLUE, Example, Operation, described_as
from service.api.documents.fields import Quantity, Text
from service.api.documents.schemas import Book, Json, schema_of, text_of
from service.api.house import house
from service.api.parameters import NumberText, QueryForm, WholeText, read_query
from service.domain.cost import LITER
from service.domain.errors import UnknownName
from service.domain.finish_values import Finishing
from service.domain.finishing import (
    LABEL_DECIDES,
    Span,
    cured,
    finish_loss,
    handled,
    needed,
    recoat,
    span,
)
from service.domain.known_names import known_key
from service.quantities import patterns

routes = Blueprint("coverage", __name__)

_AREA = re.compile(r"([0-9]{1,6}(?:\.[0-9]{1,6})?) ?(ft2|m2|in2)")
_FEET = {"ft2": Fraction(1), "in2": Fraction(1, 144), "m2": Fraction(1250, 381) ** 2}  # 0.3048 m
_SIDES = 6
WAITS = {
    "recoat": "before the next coat",
    "handle": "before it is handled",
    "cure": "before it is used in full",
}


class Area(Quantity[Fraction]):
    """Square feet, from text that says its unit: `20 ft2`, `2 m2`."""

    def read(self, value: Any) -> Fraction:
        match = _AREA.fullmatch(value) if isinstance(value, str) else None
        feet = Fraction(match[1]) * _FEET[match[2]] if match else Fraction(0)
        if not 0 < feet <= 1_000_000:
            raise ValidationError("This must be an area with its unit, like 20 ft2 or 2 m2.")
        return feet


class Spreads(Quantity[Fraction]):
    """Square feet a gallon: `400 ft2/gal`, `100 ft2/qt` or `10 m2/L`."""

    def read(self, value: Any) -> Fraction:
        return quantities.coverage(value)


@schema_of.register
def _(field: Area, book: Book) -> Json:
    return book.named("Area", {"type": "string", "pattern": f"^{_AREA.pattern}$"})


@schema_of.register
def _(field: Spreads, book: Book) -> Json:
    return book.named("Coverage", text_of(patterns.COVERAGE_TEXT))


class CoverageQuery(QueryForm):
    """A finish or the label's own spread, an area, and how often."""

    finish = Text()
    area = Area(required=True)
    faces = WholeText(1, _SIDES, load_default=1)
    coats = WholeText(1, 100)
    spread = Spreads()
    loss = NumberText(0, 90)
    region = Text(load_default="us")

    @validates_schema
    def _known_spread(self, data: dict[str, Any], **_: Any) -> None:
        if "finish" not in data and "spread" not in data:
            raise ValidationError("Say finish, or the spread of the label.", field_name="finish")


_FORM = CoverageQuery()


@routes.get("/v1/coverage")
@described_as(Operation(
    "coverSurface", "How much finish?",
    "Amount from and to, and hours between coats, to handling and to use.",
    gluing.COVERAGE, GLUE, _FORM, refusals=(UnknownName,),
    examples={
        "top": Example("20 ft2 of varnish", {"finish": "water-polyurethane", "area": "20 ft2"}),
        "label": Example("By the label", {"spread": "10 m2/L", "area": "2 m2", "coats": "3"}),
    },
))  # fmt: skip
def cover_surface() -> Response:
    """Amount from and to, and hours between coats, to handling and to use."""
    asked, catalog = read_query(_FORM), house().catalog
    finish = _finish(asked)
    coats = _coats(asked, finish)
    spread = _stated(asked.get("spread")) or span(finish.figure("coverage") if finish else None)
    loss = finish_loss(catalog) if "loss" not in asked else _stated(Fraction(asked["loss"]) / 100)
    area = asked["area"] * asked["faces"]
    gallons = needed(area, coats, spread, loss) if spread and loss else None
    drying = _drying(finish)
    rows = [row for one in (gallons, *drying.values()) if one for row in one.rests_on]
    answer = {
        "finish": finish.key if finish else None,
        "area": {"ft2": shown.number(area), "m2": shown.number(area / _FEET["m2"])},
        "coats": {"low": int(coats.low), "high": int(coats.high)},
        "amount": amount(gallons) if gallons else None,
        "why_not": None if gallons else "no coverage of it is in the tables: give spread",
        "hours": {name: hours(one) for name, one in drying.items()},
        "label": LABEL_DECIDES,
        "findings": [],
        **carried(catalog, rows, _assumed(asked, coats, loss)),
    }
    return answered(answer, _lines(answer))


def amount(gallons: Span) -> dict[str, Any]:
    """An amount as quarts, fluid ounces and liters, from and to."""
    ends = {"low": gallons.low, "high": gallons.high}
    return {
        "qt": {name: round(float(end * 4), 3) for name, end in ends.items()},
        "fl_oz": {name: round(float(end * 128), 1) for name, end in ends.items()},
        "L": {name: round(float(end / LITER), 3) for name, end in ends.items()},
    }


def hours(one: Span | None) -> dict[str, Any] | None:
    """Hours from and to; null where the tables have none."""
    if one is None:
        return None
    low, high = (int(float(end) * 100 + 0.5) / 100 for end in (one.low, one.high))
    return {"low": low, "high": high, "at_least": one.at_least}


def _finish(asked: Mapping[str, Any]) -> Finishing | None:
    name, catalog = asked.get("finish"), house().catalog
    if name is None:
        return None
    return catalog.finishes[known_key(catalog, "finish", asked["region"], name, "finish")]


def _coats(asked: Mapping[str, Any], finish: Finishing | None) -> Span:
    usual = span(finish.figure("coats")) if finish else None
    stated = _stated(Fraction(asked["coats"])) if "coats" in asked else None
    return stated or usual or Span(Fraction(1), Fraction(1))


def _stated(number: Fraction | None) -> Span | None:
    return None if number is None else Span(number, number)


def _drying(finish: Finishing | None) -> dict[str, Span | None]:
    if finish is None:
        return {}
    return {"recoat": recoat(finish), "handle": handled(finish), "cure": cured(finish)}


def _assumed(asked: Mapping[str, Any], coats: Span, loss: Span | None) -> Iterator[str]:
    if "coats" not in asked:
        yield f"coats: {shown.span(int(coats.low), int(coats.high))}"
    if "loss" not in asked and loss is not None:
        percent = shown.span(float(loss.low * 100), float(loss.high * 100))
        yield f"{percent} % stays in can, brush and rag (common practice, from memory)"


def _lines(answer: Mapping[str, Any]) -> Iterator[str]:
    if answer["amount"] is None:
        yield answer["why_not"]
    else:
        quarts, liters = answer["amount"]["qt"], answer["amount"]["L"]
        yield (
            f"{quarts['low']:.2f} to {quarts['high']:.2f} qt "
            f"({liters['low']:.2f} to {liters['high']:.2f} L) in all"
        )
    for name, one in answer["hours"].items():
        if one is not None:
            low, high = one["low"], one["high"]
            took = f"{low:g} h at least" if one["at_least"] else f"{shown.span(low, high)} h"
            yield f"  {WAITS.get(name, name)}: {took}"
    yield answer["label"]
    yield from shown.closing(answer)
