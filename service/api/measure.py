"""GET /v1/measure: a length as a tape reads it."""

from collections.abc import Iterator, Mapping
from fractions import Fraction
from typing import Any

from flask import Blueprint, Response

from service import quantities
from service.api import shown
from service.api.answers import answered, carried
from service.api.described import boards
from service.api.described.operations import BOARDS, Example, Operation, described_as
from service.api.documents.fields import Length, Word
from service.api.house import house
from service.api.parameters import UnitsForm, read_query
from service.domain.tape import plain

routes = Blueprint("measure", __name__)


class MeasureQuery(UnitsForm):
    """A length, and how to round it."""

    value = Length(zero=True, required=True)
    round = Word("nearest", "down", "up", load_default="nearest")
    to = Length()


_FORM = MeasureQuery()


@routes.get("/v1/measure")
@described_as(Operation(
    "measureLength", "What does a tape read?",
    "A length in inches and millimeters, and rounded to a mark of the tape.",
    boards.MEASURE, BOARDS, _FORM,
    examples={
        "metric": Example("527 mm to the sixteenth", {"value": "527mm", "to": "1/16"}),
        "down": Example("A third of 20 in, rounded down", {"value": "20/3", "round": "down"}),
    },
))  # fmt: skip
def measure_a_length() -> Response:
    """A length in inches and millimeters, and rounded to what a tape reads."""
    asked = read_query(_FORM)
    metric = asked["units"] == "mm"
    step = asked.get("to") or quantities.length(1 if metric else "1/16", asked["units"])
    exact: Fraction = asked["value"]
    rounded = quantities.nearest(exact, step, asked["round"])
    answer = {
        "value": shown.length(exact, metric),
        "exact": quantities.written(exact, metric=metric),
        "round": asked["round"],
        "to": quantities.written(step, metric=metric),
        "rounded": shown.length(rounded, metric),
        "rounded_exact": quantities.written(rounded, metric=metric),
        "off_by": _signed(rounded - exact, metric),
        "findings": [],
        **carried(house().catalog),
    }
    return answered(answer, _lines(answer))


def _signed(difference: Fraction, metric: bool) -> str:
    if difference == 0:
        return "0"
    sign = "-" if difference < 0 else "+"
    return sign + plain(abs(difference), metric)


def _lines(answer: Mapping[str, Any]) -> Iterator[str]:
    value = answer["value"]
    yield f"{answer['exact']} = {value['in']} in = {value['mm']} mm"
    yield f"{answer['round']} {answer['to']}: {answer['rounded_exact']} (off by {answer['off_by']})"
    yield from shown.closing(answer)
