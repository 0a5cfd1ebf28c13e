"""GET /v1/spacing: equal pieces in a row; with `at`, whether a list of positions is right."""

from collections.abc import Iterator
from fractions import Fraction
from functools import lru_cache
from typing import Any

from flask import Blueprint, Response

from service.api import found, shown
from service.api.angles import KEPT, stick_of
from service.api.answers import as_content, carried, chosen_form, content_in
from service.api.asked_shape import AnglesForm, written
from service.api.described import shapes
from service.api.described.operations import ANGLED, Example, Operation, described_as
from service.api.documents.fields import Length
from service.api.documents.measures import MEASURES
from service.api.documents.writing import part_as_document, shape_as_document
from service.api.house import house
from service.api.parameters import read_query
from service.domain.angles.answer import Asked, NotFigured
from service.domain.angles.drawing import drawn, meaning
from service.domain.angles.figuring import Answer, answer
from service.domain.angles.rows import read_row
from service.domain.angles.settings import Stops
from service.domain.build import Build
from service.domain.checking import check
from service.domain.errors import Complaint, UnknownName
from service.domain.findings import Finding
from service.domain.rounding import finest
from service.domain.spacing import NoRow, Row
from service.domain.tape import plain, tape_step
from service.handouts.svg import standalone

routes = Blueprint("spacing", __name__)

ROW = {"pieces", "piece", "ends", "centers", "at"}


class SpacingQuery(AnglesForm):
    """What the pieces share out, how many they are, what each takes; or positions to judge."""

    within = Length(required=True)
    pieces, ends, at = (written(MEASURES["row"][name]()) for name in ("pieces", "ends", "at"))
    piece, centers = Length(), Length()


_FORM = SpacingQuery()


@routes.get("/v1/spacing")
@described_as(Operation(
    "spacePieces", "Where do the slats go?",
    "Equal pieces in a row: the gap, each place from one end, and what a tape reads there. With "
    "at, whether a list of places is right.",
    shapes.SPACING, ANGLED, _FORM, forms=("json", "text", "svg"),
    refusals=(UnknownName, NotFigured),
    examples={
        "five": Example("Five slats in 36 in", {"within": "36", "pieces": "5", "piece": "1 1/2"}),
        "judged": Example("Are these right?", {"within": "12", "piece": "2", "at": "2,8"}),
    },
))  # fmt: skip
def space_pieces() -> Response:
    """Gap, ends, positions from one end and what a tape reads there."""
    asked = read_query(_FORM)
    form = chosen_form("json", "text", "svg")
    given = tuple(sorted(item for item in asked.items() if item[0] != "format"))
    return as_content(form, _made(given, form, house().catalog.edition))


@routes.get("/v1/angles/row")
@described_as(Operation(
    "figureRow", "Where do the slats go, as a shape?",
    "The same as /v1/spacing, among the shapes.",
    shapes.SPACING, ANGLED, _FORM, forms=("json", "text", "svg"),
    refusals=(UnknownName, NotFigured),
    examples={
        "five": Example(
            "Five slats in 36 in", {"within": "36", "pieces": "5", "piece": "1 1/2"}, long=True
        ),
    },
))  # fmt: skip
def figure_a_row() -> Response:
    """The same answer at the address of a shape."""
    return space_pieces()


def forget() -> None:
    """Make every answer anew from here on."""
    _made.cache_clear()


@lru_cache(maxsize=KEPT)
def _made(given: tuple[tuple[str, Any], ...], form: str, edition: str) -> bytes:
    asked = dict(given)
    catalog, metric = house().catalog, asked["units"] == "mm"
    taken = stick_of("row", asked, catalog)
    fields = {name: value for name, value in asked.items() if name in ROW}
    fields["opening"] = asked["within"]
    if "piece" not in fields and taken.stick is not None:
        fields["piece"] = taken.stick.width
    try:
        row = read_row(fields)
    except NoRow as refusal:
        places = {"opening": "within"}
        complaints = (Complaint(places.get(c.place, c.place), c.detail) for c in refusal.complaints)
        raise NotFigured(*complaints) from None
    sticks = {"": taken.stick} if taken.stick else {}
    figured = answer("row", Asked(fields, sticks), Stops(), finest(metric))
    piece = Build("a row", units=asked["units"], shapes=(figured.entry,))
    findings = check(piece, catalog).findings if "at" in fields else ()
    to = asked.get("to") or tape_step(metric)
    carries = carried(catalog, taken.rests_on, (*taken.assumed, *figured.assumed))
    return content_in(form, {
        "json": lambda: {
            **_shown(figured, row, to, metric),
            "findings": found.of_parameters(findings, "#/shapes/0/", metric),
            **carries,
        },
        "text": lambda: [
            *_lines(figured, row, to, findings, metric), *shown.closing(carries),
        ],
        "svg": lambda: standalone(drawn("row", figured.figured.drawing, metric)),
    })  # fmt: skip


def _shown(figured: Answer, row: Row, to: Fraction, metric: bool) -> dict[str, Any]:
    exact = figured.figured
    return {
        "shape": "row",
        "gap": shown.length(row.gap, metric),
        "ends": shown.length(row.end, metric),
        "step": shown.length(row.step, metric),
        "at": [shown.length(at, metric) for at in row.near_sides],
        "centers": [shown.length(at, metric) for at in row.centers],
        "readings": [plain(at, metric) for at in row.readings(to)],
        "drift": shown.length(abs(row.drift(to)), metric),
        "parts": [part_as_document(cut.part, metric) for cut in figured.parts],
        "shapes": [shape_as_document(figured.entry, metric)],
        "trace": exact.trace,
        "test_cut": exact.test_cut,
        "axes": exact.axes,
        "formula": exact.formula,
        "svg": standalone(drawn("row", exact.drawing, metric)),
    }


def _lines(
    figured: Answer, row: Row, to: Fraction, findings: tuple[Finding, ...], metric: bool
) -> Iterator[str]:
    exact = figured.figured
    yield f"gap {plain(row.gap, metric)}, at each end {plain(row.end, metric)}"
    readings = row.readings(to)
    for number, (at, reading) in enumerate(zip(row.near_sides, readings, strict=True), 1):
        exactly = "" if reading == at else f" (exactly {plain(at, metric)})"
        yield f"  {number}: {plain(reading, metric)}{exactly}"
    drift = abs(row.drift(to))
    if drift:
        yield f"one rounded step laid off again and again would end {plain(drift, metric)} off"
    yield from (f"{finding.severity}: {finding.detail}" for finding in findings)
    yield from (f"drawing: {meaning(letter, metric)}" for letter in exact.drawing.letters)
    yield f"trace: {exact.trace}"
    yield f"test cut: {exact.test_cut}"
    yield f"axes: {exact.axes}"
