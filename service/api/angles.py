"""GET /v1/angles/{shape}: a shape figured, ready to cut."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from typing import Any

from flask import Blueprint, Response
from werkzeug.exceptions import NotFound

from service.api import shown
from service.api.answers import as_content, carried, chosen_form, content_in
from service.api.asked_shape import NO_STICK, form_of, forms
from service.api.described import figured, shapes
from service.api.described.operations import ANGLED, Operation, described_as
from service.api.documents.measures import MEASURES
from service.api.documents.writing import part_as_document, shape_as_document
from service.api.house import house
from service.api.parameters import read_query
from service.domain.angles.answer import Asked, Figure, NotFigured, Stick, impossible
from service.domain.angles.drawing import drawn, meaning
from service.domain.angles.figuring import Answer, CutPart, answer
from service.domain.angles.settings import SawCut, Stops
from service.domain.build import Build, Part, Stock
from service.domain.catalog import Catalog
from service.domain.errors import Complaint, UnknownName
from service.domain.known_names import known_region
from service.domain.rounding import finest
from service.domain.stocks import Sizing, UnknownStock, size_part
from service.domain.tape import plain
from service.handouts.svg import standalone

routes = Blueprint("angles", __name__)

ROUNDED_ANGLE = 2
KEPT = 32  # answers of some 40 kB each in memory
QUESTION = ("format", "units", "region", "stock", "width", "thickness", "to")


@routes.get("/v1/angles/<shape>")
@described_as(Operation(
    "figureShape", "How is the saw set?",
    "One shape figured, ready to cut: parts, saw settings on both scales, marks, what was rounded, "
    "how to trace it instead, a test cut and a drawing.",
    shapes.ANGLES, ANGLED, variants=forms(), forms=("json", "text", "svg"),
    refusals=(UnknownName, NotFigured), examples=figured.EXAMPLES,
))  # fmt: skip
def figure_a_shape(shape: str) -> Response:
    """Parts, saw settings, marks and a drawing of one shape."""
    if shape not in MEASURES or shape in NO_STICK:
        raise NotFound
    return respond(shape, read_query(form_of(shape)))


def respond(shape: str, asked: Mapping[str, Any]) -> Response:
    """The answer in the form asked for. The same question has the same answer, so it is kept."""
    form = chosen_form("json", "text", "svg")
    given = tuple(sorted(item for item in asked.items() if item[0] != "format"))
    return as_content(form, _made(shape, given, form, house().catalog.edition))


def forget() -> None:
    """Make every answer anew from here on."""
    _made.cache_clear()


@lru_cache(maxsize=KEPT)
def _made(shape: str, given: tuple[tuple[str, Any], ...], form: str, edition: str) -> bytes:
    asked = dict(given)
    catalog, metric = house().catalog, asked["units"] == "mm"
    taken = stick_of(shape, asked, catalog)
    fields = {n: v for n, v in asked.items() if n not in QUESTION and n != "stock_width"}
    if "width" in MEASURES[shape] and "width" in asked:
        fields["width"] = asked["width"]
    sticks = {"": taken.stick} if taken.stick else {}
    stops = Stops(fields.pop("saw_miter_to", None), fields.pop("saw_bevel_to", None))
    figured = answer(shape, Asked(fields, sticks), stops, asked.get("to") or finest(metric))
    refuse_narrow(figured, taken.stick, metric)
    carries = carried(catalog, taken.rests_on, (*taken.assumed, *figured.assumed))
    return content_in(form, {
        "json": lambda: {**_shown(figured, metric), **carries},
        "text": lambda: [*_lines(figured, metric), *shown.closing(carries)],
        "svg": lambda: standalone(drawn(shape, figured.figured.drawing, metric)),
    })  # fmt: skip


@dataclass(frozen=True, slots=True)
class Taken:
    """The stick that a question is about, and what it rests on."""

    stick: Stick | None
    rests_on: tuple[str, ...] = ()
    assumed: tuple[str, ...] = ()


def width_name(shape: str) -> str:
    """The parameter that says how wide the stick is."""
    return "stock_width" if "width" in MEASURES[shape] else "width"


def stick_of(shape: str, asked: Mapping[str, Any], catalog: Catalog) -> Taken:
    """The stick by its stock, or by width and thickness; a row may do without."""
    named = width_name(shape)
    wide, thick, stock = asked.get(named), asked.get("thickness"), asked.get("stock")
    if stock is None and wide is None and thick is None and shape in NO_STICK:
        return Taken(None)
    if stock is None:
        if wide is None or thick is None:
            name = named if wide is None else "thickness"
            told = f"Say stock, or {named} and thickness."
            raise NotFigured(Complaint("stock" if wide is thick else name, told))
        return Taken(Stick(wide, thick, Stock(thickness=thick, width=wide)))
    known_region(catalog, asked["region"])
    sizing = Sizing(Build("one shape", units=asked["units"], region=asked["region"]), catalog)
    sized = size_part(Part("piece", Stock(stock), None, width=wide, thickness=thick), sizing)
    if isinstance(sized, UnknownStock):
        near = f" Nearest: {', '.join(sized.nearest)}." if sized.nearest else ""
        raise impossible("stock", f'Nothing sold there is called "{stock}".{near}')
    if sized.width is None:
        raise impossible(named, f"{stock} is sold by the sheet: say how wide the strip is.")
    stick = Stick(sized.width.listed, sized.thickness.listed, Stock(stock))
    return Taken(stick, sized.rests_on, sized.assumed)


def refuse_narrow(figured: Answer, stick: Stick | None, metric: bool) -> None:
    """A board that is narrower than the blank can't give the part."""
    for cut in figured.parts:
        if stick is None or cut.solid is None or cut.wanted.width is None:
            continue
        if cut.solid.blank_width > stick.width:
            needs, has = plain(cut.solid.blank_width, metric), plain(stick.width, metric)
            told = (
                f"The blank must be {needs} wide, and this is {has}: take or glue up a wider one."
            )
            raise impossible("stock" if stick.stock.name else width_name(figured.shape), told)


def angle(degrees: float) -> float:
    """Degrees as answers give them."""
    return round(degrees, ROUNDED_ANGLE)


def _shown(figured: Answer, metric: bool) -> dict[str, Any]:
    exact = figured.figured
    return {
        "shape": figured.shape,
        "parts": [part_as_document(cut.part, metric) for cut in figured.parts],
        "shapes": [shape_as_document(figured.entry, metric)],
        "figures": {figure.name: value(figure, metric) for figure in exact.figures},
        "lengths": {c.part.id: _lengths(c, metric) for c in figured.parts if c.solid},
        "blanks": {c.part.id: _blank(c, metric) for c in figured.parts if c.solid},
        "saw": [saw_cut(cut) for cut in figured.cuts],
        "marks": [
            {"on": mark.on, "at": shown.length(mark.at, metric), "words": mark.words}
            for mark in exact.marks
        ],
        "rounded": [said for cut in figured.parts if (said := cut.said(metric))],
        "order": [{"part": turn.part, "fit": turn.fit, "why": turn.why} for turn in figured.order],
        "trace": exact.trace,
        "test_cut": exact.test_cut,
        "axes": exact.axes,
        "formula": exact.formula,
        "svg": standalone(drawn(figured.shape, exact.drawing, metric)),
        "findings": [],
    }


def value(figure: Figure, metric: bool) -> Any:
    """A named result as answers show it."""
    size = figure.value
    return shown.length(size, metric) if isinstance(size, Fraction) else angle(size)


def _lengths(cut: CutPart, metric: bool) -> dict[str, Any]:
    assert cut.solid is not None
    return {word: shown.length(size, metric) for word, size in cut.solid.lengths().items()}


def _blank(cut: CutPart, metric: bool) -> dict[str, Any]:
    assert cut.solid is not None
    return {
        "length": shown.length(cut.solid.blank_length, metric),
        "width": shown.length(cut.solid.blank_width, metric),
        "thickness": shown.length(cut.solid.thickness, metric),
    }


def saw_cut(cut: SawCut) -> dict[str, Any]:
    """A cut with its ways: degrees off square, and on a scale that reads 90 there."""
    return {
        "part": cut.part,
        "cut": cut.cut,
        "ways": [
            {
                "how": way.how,
                "off_square": {"table": angle(way.turned), "blade": angle(way.tilted)},
                "from_90": {"table": angle(way.turned_scale), "blade": angle(way.tilted_scale)},
                "reaches": way.reaches,
            }
            for way in cut.ways
        ],
        "other_way": cut.other_way,
    }


def _lines(figured: Answer, metric: bool) -> Iterator[str]:
    exact = figured.figured
    yield f"{figured.shape}: {exact.formula}"
    for cut in figured.parts:
        yield _part_line(cut, metric)
    for figure in exact.figures:
        yield f"  {figure.name}: {_said(figure, metric)}"
    for saw in figured.cuts:
        for way in saw.ways:
            yield (
                f"saw, {saw.part}, {saw.cut}, {way.how}: table {way.turned:.2f}, blade "
                f"{way.tilted:.2f} off square ({way.turned_scale:.2f}, {way.tilted_scale:.2f} "
                f"from 90){'' if way.reaches is not False else '; past the stop'}"
            )
        if saw.other_way:
            yield f"  {saw.other_way}"
    for mark in exact.marks:
        yield f"mark {mark.on}: {plain(mark.at, metric)} {mark.words}"
    yield from (said for cut in figured.parts if (said := cut.said(metric)))
    for turn in figured.order:
        yield f"cut {turn.part} {turn.fit}: {turn.why}"
    yield from (f"drawing: {meaning(letter, metric)}" for letter in exact.drawing.letters)
    yield f"trace: {exact.trace}"
    yield f"test cut: {exact.test_cut}"
    yield f"axes: {exact.axes}"


def _part_line(cut: CutPart, metric: bool) -> str:
    part, length = cut.part, cut.part.length
    size = "length open" if length is None else plain(length, metric)
    to = f" {part.measured}" if part.measured else ""
    line = f"{part.quantity} {part.id}: {size}{to}"
    if cut.solid is None:
        return line
    blank = cut.solid
    return f"{line}, from {plain(blank.blank_length, metric)} x {plain(blank.blank_width, metric)}"


def _said(figure: Figure, metric: bool) -> str:
    size = figure.value
    return plain(size, metric) if isinstance(size, Fraction) else f"{angle(size):g} degrees"
