"""GET /v1/movement: how far a width moves when the wood gets drier or damper."""

from collections.abc import Iterator, Mapping
from typing import Any

from flask import Blueprint, Response
from marshmallow import ValidationError, validates_schema

from service.api import shown
from service.api.answers import answered, carried
from service.api.described import standing
from service.api.described.operations import IN_USE, Example, Operation, described_as
from service.api.documents.fields import Length, Temperature, Text, Word
from service.api.documents.gathered import one_of
from service.api.documents.place import WHERE
from service.api.house import house
from service.api.parameters import NumberText, SeveralTexts, UnitsForm, read_query
from service.api.refusals import Fault, InvalidParameter
from service.domain.catalog import Catalog
from service.domain.errors import UnknownName
from service.domain.loads import inches
from service.domain.moisture import ROOM, Swing, celsius, equilibrium, moves, swing
from service.domain.tape import plain
from service.domain.wood_values import Known, MovingValues
from service.domain.woods import wood_named

routes = Blueprint("movement", __name__)

SOURCES = ("wood-handbook-2010-ch13", "wood-handbook-2021-ch4")
WAYS = (
    "slots for the screws",
    "clips that slide in a groove",
    "a joint that is loose but for its middle",
)


class MovementQuery(UnitsForm):
    """A width of some wood, and between which moistures, or in what air."""

    wood = Text()
    coefficient = NumberText(0, 0.02)
    region = Text(load_default="us")
    width = Length(required=True)
    sawn = Word("flat", "quarter", "unknown", load_default="unknown")
    moisture_from = NumberText(0, 200)
    moisture_to = NumberText(0, 200)
    humidity = SeveralTexts(NumberText(0, 100), 2, 2)
    temperature = Temperature(load_default=None)
    where = Word(*WHERE)
    held = Word("edge", "middle", load_default="edge")

    @validates_schema
    def _one_wood(self, data: dict[str, Any], **_: Any) -> None:
        one_of(data, ("wood", "coefficient"))
        if "moisture_from" in data or "moisture_to" in data:
            if "humidity" in data:
                raise ValidationError("Say humidity or moistures, not both.", field_name="humidity")
            for name in {"moisture_from", "moisture_to"} - data.keys():
                raise ValidationError("moisture_from and moisture_to go together.", field_name=name)


_FORM = MovementQuery()


@routes.get("/v1/movement")
@described_as(Operation(
    "movementOfWidth", "How far does a wide board move?",
    "Up to how far a width grows or shrinks across the grain between two moistures.",
    standing.MOVEMENT, IN_USE, _FORM, refusals=(UnknownName,),
    examples={
        "top": Example(
            "A red oak top, 12 in wide, between 30 and 60 %",
            {"wood": "red oak", "width": "12", "humidity": "30,60"},
        ),
    },
))  # fmt: skip
def movement_of_a_width() -> Response:
    """Up to how far a width moves, flat and quarter sawn; only across the grain."""
    asked, catalog = read_query(_FORM), house().catalog
    metric = asked["units"] == "mm"
    values = values_of(asked, catalog)
    span = swing_of(asked, catalog)
    width = float(asked["width"])
    least, most = moves(values, width, min(span.low, span.high), max(span.low, span.high))
    if asked["sawn"] != "unknown":
        least = most = most if asked["sawn"] == "flat" else least
    each_side = 2 if asked["held"] == "middle" else 1
    answer = {
        "width": shown.length(asked["width"], metric),
        "moisture": {"from": round(span.low, 1), "to": round(span.high, 1)},
        "moves": {
            "least": shown.length(inches(least), metric),
            "most": shown.length(inches(most), metric),
        },
        "each_side": shown.length(inches(most / each_side), metric),
        "direction": direction(span),
        "held": asked["held"],
        "coefficients": {"flat": values.flat.value, "quarter": values.quarter.value},
        "let_it_move": list(WAYS),
        "findings": [],
        **carried(
            catalog,
            [*values.flat.rests_on, *values.quarter.rests_on, *span.rests_on],
            _assumed(asked, values, span, catalog),
            SOURCES,
        ),
    }
    return answered(answer, _lines(asked, answer, metric))


def direction(span: Swing) -> str:
    """Which way a width moves as its moisture goes from the one to the other."""
    if span.high == span.low:
        return "neither"
    return "wider" if span.high > span.low else "narrower"


def values_of(asked: Mapping[str, Any], catalog: Catalog) -> MovingValues:
    """The wood's coefficients, or the caller's own. Raises InvalidParameter and UnknownName."""
    if "coefficient" in asked:
        own = Known(asked["coefficient"], "your own figure", ())
        return MovingValues(own, own)
    wood = wood_named(catalog, asked["region"], asked["wood"])
    if wood.key not in catalog.moving:
        why = (
            f"{wood.name} is a panel: it hardly moves in its plane, and no figure is given"
            if wood.kind == "panel"
            else f"the tables do not say how {wood.name} moves"
        )
        raise InvalidParameter("The movement is not known.", Fault(why, parameter="wood"))
    return catalog.moving[wood.key]


def swing_of(asked: Mapping[str, Any], catalog: Catalog) -> Swing:
    """Between which moistures: stated, from two humidities, or over the year at a place."""
    if "moisture_from" in asked:
        return Swing(asked["moisture_from"], asked["moisture_to"], ())
    warmth = float(asked["temperature"]) if asked["temperature"] is not None else ROOM
    if "humidity" in asked:
        low, high = (equilibrium(each, celsius(warmth)) for each in asked["humidity"])
        return Swing(low, high, ())
    return swing(catalog, asked.get("where"), None, warmth)


def _assumed(
    asked: Mapping[str, Any], values: MovingValues, span: Swing, catalog: Catalog
) -> Iterator[str]:
    if "coefficient" not in asked:
        named, taken = wood_named(catalog, asked["region"], asked["wood"]), values.flat.of
        if named.key != taken:
            told = catalog.woods[taken].name
            yield f"of the woods sold under that name the one that moves most: {told}"
    if "moisture_from" not in asked and "humidity" not in asked:
        yield f"over the year {asked.get('where', 'indoors')}, {span.low:g} to {span.high:g} %"
    elif "where" in asked:
        yield "where is passed over: the air or the moistures are given"
    if "moisture_from" in asked and asked["temperature"] is not None:
        yield "temperature is passed over: the moistures are given"
    if "humidity" in asked and asked["temperature"] is None:
        yield f"at {ROOM:g} F"
    if min(span.low, span.high) < 6 or max(span.low, span.high) > 14:
        yield "the coefficients are printed for 6 to 14 %; beyond that they are less exact"


def _lines(asked: Mapping[str, Any], answer: Mapping[str, Any], metric: bool) -> Iterator[str]:
    moves, moisture = answer["moves"], answer["moisture"]
    unit, mark = ("mm", " mm") if metric else ("in", '"')
    low, high = moves["least"][unit], moves["most"][unit]
    wide = plain(asked["width"], metric)
    least = f", {low:.3g}{mark} quarter sawn" if low != high else ""
    if answer["direction"] == "neither":
        yield f"{wide} stays as wide as it is: its moisture does not change"
    else:
        yield f"{wide} gets {answer['direction']} by up to {high:.3g}{mark}{least}"
    yield f"  from {moisture['from']:g} to {moisture['to']:g} % moisture"
    if answer["held"] == "middle":
        yield f"  held in the middle: {answer['each_side'][unit]:.3g}{mark} on each side"
    yield f"  let it move: {', '.join(answer['let_it_move'])}"
    yield from shown.closing(answer)
