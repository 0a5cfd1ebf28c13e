"""GET /v1/moisture: how moist wood gets in the air of a place."""

from collections.abc import Iterator, Mapping
from typing import Any

from flask import Blueprint, Response
from marshmallow import validates_schema

from service.api import found, shown
from service.api.answers import answered, carried
from service.api.described import standing
from service.api.described.operations import IN_USE, Example, Operation, described_as
from service.api.documents.fields import Temperature, Text, Word
from service.api.documents.gathered import one_of
from service.api.documents.place import WHERE
from service.api.house import house
from service.api.one_piece import judged
from service.api.parameters import NumberText, QueryForm, SeveralTexts, read_query
from service.domain.build import Build, Part, Place, Stock, StockNote
from service.domain.catalog import Catalog
from service.domain.errors import UnknownName
from service.domain.moisture import ROOM, celsius, equilibrium, swing
from service.domain.resolving import resolve
from service.domain.rules import wood
from service.domain.woods import wood_named

routes = Blueprint("moisture", __name__)

SOURCES = ("wood-handbook-2021-ch4",)
LEAST_F, MOST_F = 30.0, 210.0  # the temperatures that the handbook's table is printed for


class MoistureQuery(QueryForm):
    """The air: one or two humidities and a temperature, or only a place; a meter's reading."""

    humidity = SeveralTexts(NumberText(0, 100), 1, 2)
    temperature = Temperature(load_default=None)
    where = Word(*WHERE)
    wood = Text()
    region = Text(load_default="us")
    moisture = NumberText(0, 200)

    @validates_schema
    def _air_or_place(self, data: dict[str, Any], **_: Any) -> None:
        one_of(data, ("humidity", "where"))


_FORM = MoistureQuery()


@routes.get("/v1/moisture")
@described_as(Operation(
    "moistureOfWood", "How moist does wood get?",
    "The moisture at which wood comes to rest in the air of a place, by the handbook's equation.",
    standing.MOISTURE, IN_USE, _FORM, refusals=(UnknownName,),
    examples={
        "room": Example("Dry winter and damp summer", {"humidity": "30,60", "temperature": "68F"}),
        "shed": Example(
            "Under a roof outdoors, a meter reading 19", {"where": "covered", "moisture": "19"}
        ),
    },
))  # fmt: skip
def moisture_of_wood() -> Response:
    """The moisture at which wood comes to rest, by the handbook's equation."""
    asked, catalog = read_query(_FORM), house().catalog
    warmth = float(asked["temperature"]) if asked["temperature"] is not None else ROOM
    if "wood" in asked:
        wood_named(catalog, asked["region"], asked["wood"])  # refused where no table has it
    rests, rows = rests_at(asked, catalog, warmth)
    answer = {
        "humidity": list(asked.get("humidity", ())),
        "where": asked.get("where"),
        "temperature": {"F": round(warmth, 1), "C": round(celsius(warmth), 1)},
        "moisture_percent": [round(each, 1) for each in rests],
        "findings": found.at_parameters(
            _found(asked, catalog), {"#/parts/0/moisture": "moisture"}, False
        ),
        **carried(catalog, rows, _assumed(asked, warmth), SOURCES),
    }
    return answered(answer, _lines(answer))


def rests_at(
    asked: Mapping[str, Any], catalog: Catalog, warmth: float
) -> tuple[tuple[float, ...], tuple[str, ...]]:
    """Percent at each humidity, or the range over the year at a place."""
    if "humidity" in asked:
        return tuple(equilibrium(each, celsius(warmth)) for each in asked["humidity"]), ()
    year = swing(catalog, asked["where"], None, warmth)
    return (year.low, year.high), year.rests_on


def _found(asked: Mapping[str, Any], catalog: Catalog) -> list[Any]:
    if "moisture" not in asked:
        return []
    known = StockNote(wood=asked.get("wood"), moisture=asked["moisture"])
    piece = Part("wood", Stock(), None, known=known)
    place = Place(
        asked.get("where"), asked["temperature"], max(asked.get("humidity", ()), default=None)
    )
    build = Build("wood", region=asked["region"], place=place, parts=(piece,))
    return judged(resolve(build, catalog), (wood.wet,))


def _assumed(asked: Mapping[str, Any], warmth: float) -> Iterator[str]:
    if "humidity" in asked and asked["temperature"] is None:
        yield f"at {ROOM:g} F"
    if "wood" in asked:
        yield "the equation is the same for every wood"
    if not LEAST_F <= warmth <= MOST_F:
        yield f"the equation is printed for {LEAST_F:g} to {MOST_F:g} F"


def _lines(answer: Mapping[str, Any]) -> Iterator[str]:
    rests = " to ".join(f"{each:g}" for each in answer["moisture_percent"])
    air = answer["where"] or " and ".join(f"{each:g} %" for each in answer["humidity"])
    yield f"wood comes to {rests} % moisture ({air}, {answer['temperature']['F']:g} F)"
    yield from found.in_lines(answer)
    yield from shown.closing(answer)
