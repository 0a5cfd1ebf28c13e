"""GET /v1/sizes/{stock}: what a board or panel really measures."""

from collections.abc import Iterator, Mapping
from typing import Any

from flask import Blueprint, Response

from service.api import found, shown
from service.api.answers import answered, carried
from service.api.described import boards
from service.api.described.operations import BOARDS, Example, Operation, described_as
from service.api.documents.fields import Length, Text
from service.api.house import house
from service.api.parameters import UnitsForm, read_query
from service.domain.board_feet import EXPLAINED, Section, board_feet, own_section
from service.domain.catalog import BoardSize, PanelSize
from service.domain.checking import check
from service.domain.errors import UnknownName
from service.domain.sizes import StockSizes, look_up, of_size, piece_of
from service.domain.tape import sold as sold_as

routes = Blueprint("sizes", __name__)

NONE_ALIKE = "no stock of the region measures that"


class SizesQuery(UnitsForm):
    """Where a stock is sold; the sizes of a piece of it, to be judged."""

    region = Text(load_default="us")
    length = Length()
    width = Length()
    thickness = Length()


class OfSizeQuery(UnitsForm):
    """A real size, to find the stocks that have it."""

    region = Text(load_default="us")
    thickness = Length()
    width = Length()


_STOCK, _SIZE = SizesQuery(), OfSizeQuery()


@routes.get("/v1/sizes/<path:stock>")
@described_as(Operation(
    "sizesOfStock", "What does a board really measure?",
    "What a shop sells under a name by default, its real sizes with their limits, and what else "
    "goes by that name.",
    boards.SIZES, BOARDS, _STOCK, {"stock": "A stock as a shop spells it; slashes may stand."},
    refusals=(UnknownName,),
    examples={
        "board": Example("A 1x8", {"stock": "1x8"}),
        "judged": Example("Is a 1x6 six inches wide?", {"stock": "1x6", "width": "6"}),
    },
))  # fmt: skip
def sizes_of_a_stock(stock: str) -> Response:
    """What a shop sells under that name by default, and what else goes by it."""
    asked = read_query(_STOCK)
    catalog, metric = house().catalog, asked["units"] == "mm"
    sizes = look_up(catalog, asked["region"], stock)
    section, length = own_section(sizes), asked.get("length")
    piece = piece_of(sizes, length, asked.get("width"), asked.get("thickness"))
    findings = found.of_parameters(check(piece, catalog).findings, "#/parts/0/", metric)
    rows = [*sizes.sold.rests_on, *(row for size in sizes.others for row in size.rests_on)]
    answer = {
        "asked": stock,
        "stock": sizes.stock,
        "region": sizes.region,
        "sold": shown.stock_size(sizes.sold, metric),
        "others": [shown.stock_size(size, metric) for size in sizes.others],
        "board_feet_per_foot": shown.number(section.each_foot) if section else None,
        "board_feet": _board_feet(section, length) if section and length else None,
        "findings": findings,
        **carried(catalog, rows, sizes.assumed),
    }
    return answered(answer, _lines(sizes, section, answer, metric))


def _board_feet(section: Section, length: Any) -> float:
    return shown.number(board_feet(section.thickness, section.width, length))


def _lines(
    sizes: StockSizes, section: Section | None, answer: Mapping[str, Any], metric: bool
) -> Iterator[str]:
    yield shown.in_words(sizes.sold, metric)
    sold = sizes.sold
    if isinstance(sold, BoardSize) and sold.lengths:
        yield f"  lengths: {', '.join(sold_as(one, metric) for one in sold.lengths)}"
    if isinstance(sold, PanelSize) and sold.sheets:
        yield f"  sheets: {', '.join(shown.sheet(one, metric) for one in sold.sheets)}"
    if section:
        feet, why = answer["board_feet_per_foot"], EXPLAINED[section.counted]
        yield f"  board feet a foot: {feet:.3g} ({why})"
    if answer["board_feet"] is not None:
        yield f"  board feet of that length: {shown.hundredths(answer['board_feet'])}"
    yield from found.in_lines(answer)
    for size in sizes.others:
        yield f"also {shown.in_words(size, metric)}"
    yield from shown.closing(answer)


@routes.get("/v1/sizes")
@described_as(Operation(
    "stocksOfSize", "Which stock measures this?",
    "Stocks that really have a thickness and a width; all of the region where neither is given.",
    boards.STOCKS, BOARDS, _SIZE, refusals=(UnknownName,),
    examples={
        "size": Example("What is 3/4 x 5 1/2?", {"thickness": "3/4", "width": "5 1/2"}),
    },
))  # fmt: skip
def stocks_of_a_size() -> Response:
    """Which stocks really have a thickness and a width; all of the region when none is given."""
    asked = read_query(_SIZE)
    catalog, metric = house().catalog, asked["units"] == "mm"
    alike = of_size(catalog, asked["region"], asked.get("thickness"), asked.get("width"))
    answer = {
        "region": asked["region"],
        "stocks": [shown.stock_size(size, metric) for size in alike],
        "findings": [],
        **carried(catalog, [row for size in alike for row in size.rests_on]),
    }
    said = [shown.in_words(size, metric) for size in alike] or [NONE_ALIKE]
    return answered(answer, [*said, *shown.closing(answer)])
