"""GET /v1/board-feet: how much sawn lumber is counted, and what it costs."""

from collections.abc import Iterator, Mapping
from typing import Any

from flask import Blueprint, Response
from marshmallow import validates_schema

from service.api import shown
from service.api.answers import answered, carried
from service.api.described import boards
from service.api.described.operations import BOARDS, Example, Operation, described_as
from service.api.documents.fields import Length, Money, Text, Word
from service.api.documents.gathered import stock_or_sizes
from service.api.house import house
from service.api.parameters import UnitsForm, WholeText, read_query
from service.domain.board_feet import EXPLAINED, SOURCES, NotCounted, Tally, section_of, tally
from service.domain.errors import UnknownName

routes = Blueprint("board_feet", __name__)


class BoardFeetQuery(UnitsForm):
    """A stock, or thickness and width as they are counted; how long, how many, what one costs."""

    stock = Text()
    thickness = Length()
    width = Length()
    region = Text(load_default="us")
    length = Length(required=True)
    count = WholeText(1, 100_000, load_default=1)
    price = Money()
    per = Word("piece", "foot", "board-foot", load_default="board-foot")

    @validates_schema
    def _section(self, data: dict[str, Any], **_: Any) -> None:
        stock_or_sizes(data)


_FORM = BoardFeetQuery()


@routes.get("/v1/board-feet")
@described_as(Operation(
    "countBoardFeet", "How many board feet?",
    "Board feet as the trade counts them, by the size in the name for softwood, and their price.",
    boards.BOARD_FEET, BOARDS, _FORM, refusals=(UnknownName, NotCounted),
    examples={
        "four": Example(
            "Four 1x6, 8 ft long, at 3.20 a board foot",
            {"stock": "1x6", "length": "8ft", "count": "4", "price": "3.20"},
        ),
    },
))  # fmt: skip
def count_board_feet() -> Response:
    """Board feet by the rule of the trade, and their price."""
    asked, catalog = read_query(_FORM), house().catalog
    section, assumed = section_of(
        catalog, asked["region"], asked.get("stock"), asked.get("thickness"), asked.get("width")
    )
    counted = tally(section, asked["length"], asked["count"], asked.get("price"), asked["per"])
    answer = {
        "stock": asked.get("stock"),
        **_shown(counted, asked["units"] == "mm"),
        "findings": [],
        **carried(catalog, section.rests_on, assumed, SOURCES),
    }
    return answered(answer, _lines(answer))


def _shown(counted: Tally, metric: bool) -> dict[str, Any]:
    section = counted.section
    return {
        "counted": {
            "sizes": section.counted,
            "why": EXPLAINED[section.counted],
            "thickness": shown.length(section.thickness, metric),
            "width": shown.length(section.width, metric),
            "length": shown.length(counted.length, metric),
        },
        "count": counted.count,
        "board_feet_each": shown.number(counted.each),
        "board_feet": shown.number(counted.total),
        "surface_measure": counted.surface_measure,
        "cost": counted.cost,
    }


def _lines(answer: Mapping[str, Any]) -> Iterator[str]:
    counted = answer["counted"]
    sizes = " x ".join(counted[name]["tape"] for name in ("thickness", "width", "length"))
    feet = shown.hundredths(answer["board_feet"])
    yield f"{feet} board feet: {answer['count']} of {sizes}"
    yield f"  {counted['why']}"
    if answer["surface_measure"] is not None:
        yield f"  surface measure of one board on a tally: {answer['surface_measure']}"
    if answer["cost"] is not None:
        yield f"  cost: {answer['cost']}"
    yield from shown.closing(answer)
