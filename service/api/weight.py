"""GET /v1/weight: what boards and sheets weigh."""

from collections.abc import Iterator, Mapping
from decimal import Decimal
from fractions import Fraction
from typing import Any

from flask import Blueprint, Response
from marshmallow import validates_schema

from service.api import found, shown
from service.api.answers import answered, carried
from service.api.described import boards
from service.api.described.operations import BOARDS, Example, Operation, described_as
from service.api.documents.fields import Length, Money, Text, Word
from service.api.documents.gathered import stock_or_sizes
from service.api.house import house
from service.api.one_piece import judged, piece_of
from service.api.parameters import NumberText, UnitsForm, WholeText, read_query
from service.domain.board_feet import NotCounted, cost, section_of, tally
from service.domain.build import Build
from service.domain.catalog import Catalog
from service.domain.errors import UnknownName
from service.domain.resolving import ResolvedBuild, resolve
from service.domain.rules import sizes
from service.domain.weight import (
    Mass,
    PartMass,
    lifting_line,
    moisture_taken,
    said,
    weigh,
)

routes = Blueprint("weight", __name__)

RULES = (sizes.nominal_for_actual, sizes.wider_than_stock, sizes.longer_than_stock)
NO_FEET = Fraction(0)  # board feet, where the price is not by them
PLACES = {f"#/parts/0/{name}": name for name in ("width", "thickness", "length")}


class WeightQuery(UnitsForm):
    """A stock, or thickness and width; how long, how many, of what wood, how moist, what price.

    A price by the sheet takes every piece for a whole sheet.
    """

    stock = Text()
    width = Length()
    thickness = Length()
    region = Text(load_default="us")
    length = Length(required=True)
    count = WholeText(1, 100_000, load_default=1)
    wood = Text()
    moisture = NumberText(0, 200)
    price = Money()
    per = Word("piece", "foot", "board-foot", "sheet", load_default="piece")

    @validates_schema
    def _section(self, data: dict[str, Any], **_: Any) -> None:
        stock_or_sizes(data)


_FORM = WeightQuery()


@routes.get("/v1/weight")
@described_as(Operation(
    "weighBoards", "What does it weigh?",
    "Mass of one board or sheet and of all of them, with its spread.",
    boards.WEIGHT, BOARDS, _FORM, refusals=(UnknownName, NotCounted),
    examples={"stud": Example("An 8 ft 2x4", {"stock": "2x4", "length": "8ft"})},
))  # fmt: skip
def weight_of_boards() -> Response:
    """Mass of one and of all, with its spread; over the lifting line it says so."""
    asked, catalog = read_query(_FORM), house().catalog
    metric = asked["units"] == "mm"
    part = piece_of(asked, catalog, asked["length"])
    build = resolve(
        Build("boards", asked["units"], asked["region"], parts=(part,)), catalog
    )  # fmt: skip
    (one,) = weigh(build)
    line, row = lifting_line(catalog)
    rows = [*one.part.rests_on, *(one.each.rests_on if one.each else ()), row]
    total = one.each.times(asked["count"]) if one.each else None
    answer = {
        "stock": asked.get("stock"),
        "count": asked["count"],
        "wood": one.part.wood.key if one.part.wood else None,
        "each": _mass(one.each),
        "total": _mass(total),
        "why_not": _why_not(one),
        "lifting": _lifting(one.each, total, line),
        "cost": _cost(asked, catalog),
        "findings": found.at_parameters(judged(build, RULES), PLACES, metric),
        **carried(catalog, rows, _assumed(build, asked)),
    }
    return answered(answer, _lines(answer, total, metric))


def _why_not(one: PartMass) -> str | None:
    """Why there is no mass; a sheet has no width of its own, and only here can it be said."""
    sized = one.part.sized
    if one.each is None and sized is not None and sized.width is None:
        return "it is sold by the sheet: say its width too"
    return one.why_not or None


def _cost(asked: Mapping[str, Any], catalog: Catalog) -> Decimal | None:
    price = asked.get("price")
    if price is None:
        return None
    length, count, per = asked["length"], asked["count"], asked["per"]
    if per != "board-foot":
        return cost(price, per, count, length, NO_FEET)
    thickness = None if "stock" in asked else asked["thickness"]
    section, _ = section_of(
        catalog, asked["region"], asked.get("stock"), thickness, asked.get("width")
    )
    return tally(section, length, count, price, per).cost


def _mass(mass: Mass | None) -> dict[str, Any] | None:
    if mass is None:
        return None
    return shown.mass(mass) | {"spread_percent": round(mass.spread_percent, 1)}


def _lifting(each: Mass | None, total: Mass | None, line: float) -> dict[str, Any] | None:
    if each is None or total is None:
        return None
    return {
        "line_lb": line,
        "one_is_over": each.high > line,
        "all_are_over": total.high > line,
    }


def _assumed(build: ResolvedBuild, asked: Mapping[str, Any]) -> Iterator[str]:
    yield from build.assumed
    part = build.parts[0]
    if part.wood is not None and part.wood.kind != "panel":
        yield f"at {moisture_taken(asked.get('moisture'))}"


def _lines(answer: Mapping[str, Any], total: Mass | None, metric: bool) -> Iterator[str]:
    if total is None:
        yield f"not known: {answer['why_not']}"
    else:
        low, high = said(total.low, metric), said(total.high, metric)
        yield f"{said(total.usual, metric)} in all ({answer['count']}), {low} to {high}"
        if answer["lifting"]["one_is_over"]:
            line = said(answer["lifting"]["line_lb"], metric)
            yield f"  one alone is over {line}, the line for a lift with two hands: get help"
        elif answer["lifting"]["all_are_over"]:
            line = said(answer["lifting"]["line_lb"], metric)
            yield f"  together over {line}, the line for a lift with two hands: carry them singly"
    if answer["cost"] is not None:
        yield f"  cost: {answer['cost']}"
    yield from found.in_lines(answer)
    yield from shown.closing(answer)
