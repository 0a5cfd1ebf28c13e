"""POST /v1/handout: the page to buy, cut and build from, in the form asked for."""

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from typing import Any

from flask import Blueprint, Response, request
from marshmallow import ValidationError

from service.api.answers import chosen_form
from service.api.bodies import read_json
from service.api.described import scenes
from service.api.described.handed import HANDOUT
from service.api.described.operations import BUILDS, Example, Operation, described_as
from service.api.documents.build import BuildForm
from service.api.documents.fields import Field, Text, Units, Word
from service.api.documents.schemas import Book, Json, any_of, schema_of
from service.api.handed import FORMS, handed, refuse_stray
from service.api.house import house
from service.api.parameters import QueryForm, read_query
from service.api.reading import read_as
from service.api.remaking import MadeOverForm, read_wanted, remake
from service.api.restating import restated
from service.domain.build import Build
from service.domain.errors import UnknownName
from service.domain.resizing.answer import CannotResize
from service.handouts.answers import ask
from service.handouts.changes import Change, changes, made_over
from service.handouts.telling import tell

routes = Blueprint("handout", __name__)

PLAN_SECONDS = 10.0  # as long as the cut plan itself takes: both then show the same boards

DAY = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")
ENVELOPE = frozenset({"build", "earlier"})


class Day(Field[date]):
    """A date written as `2026-11-25`."""

    def _deserialize(self, value: Any, attr: str | None, data: Any, **_: Any) -> date:
        if not isinstance(value, str) or not DAY.fullmatch(value):
            raise ValidationError("This must be a date, like 2026-11-25.")
        try:
            return date.fromisoformat(value)
        except ValueError:
            raise ValidationError("There is no such day.") from None


@schema_of.register
def _(field: Day, book: Book) -> Json:
    return {"type": "string", "format": "date", "pattern": f"^{DAY.pattern}$"}


class HandoutQuery(QueryForm):
    """Units of the page, its date, the paper of a PDF, and the one table or drawing wanted."""

    units = Word("in", "mm", "both")
    date = Day()
    round = Word("tape", "none", load_default="tape")
    paper = Word("letter", "a4")
    table = Word("parts", "purchases")
    drawing = Text()


_QUERY, _OVER = HandoutQuery(), MadeOverForm()


def handout_schema(book: Book, build: BuildForm | None = None) -> Json:
    """The schema of the body: a build, or a build with what is asked of it besides."""
    bare, own = book.form(build or BuildForm()), book.object_of(_OVER)
    properties = {"build": bare, "earlier": bare, **own["properties"]}
    told = "A build with another size, stock or region asked for, or an earlier version of it."
    over = own | {"properties": properties, "required": ["build"], "description": told}
    return book.named("Handout", any_of([bare, book.named("BuildMadeOver", over)]))


@dataclass(frozen=True, slots=True)
class Wanted:
    """The build as the page shows it, and what is not as it was."""

    build: Build
    since: tuple[Change, ...] | None
    over: tuple[Change, ...]


@routes.post("/v1/handout")
@described_as(Operation(
    "handOutBuild", "What do I print and hand on?",
    "One page to buy, cut and build from, by a bare build or by one with what is asked of it: "
    "another size, stock or region, and what changed since an earlier version.",
    HANDOUT, BUILDS, _QUERY, body=handout_schema, forms=FORMS,
    refusals=(UnknownName, CannotResize, *CannotResize.__subclasses__()),
    examples={
        "ledge": Example(
            "A ledge, as values", {"format": "json", "date": "2026-11-25"}, scenes.LEDGE
        ),
        "over": Example(
            "The same in millimeters and narrower", {"format": "json", "units": "mm"},
            {"build": scenes.LEDGE, "to": {"width": "18"}}, long=True,
        ),
    },
))  # fmt: skip
def hand_out_a_build() -> Response:
    """One page: what it is, what to buy, how to cut it and put it together, what is still open."""
    asked = read_query(_QUERY)
    form = chosen_form(*FORMS)
    refuse_stray(form, asked)
    wanted = _wanted(read_json(request), asked)
    both = asked.get("units") == "both"
    answers = ask(wanted.build, house().catalog, both=both, seconds=PLAN_SECONDS)
    page = tell(answers, asked.get("date") or house().today(), wanted.since, wanted.over)
    return handed(form, page, answers, asked)


def _wanted(body: Any, asked: Mapping[str, Any]) -> Wanted:
    """The build of the body, made over and in the page's units; bare, or with what is asked."""
    inside = isinstance(body, Mapping) and "build" in body
    document = body["build"] if inside else body
    form = house().build_form
    build = read_as(form, document, "#/build" if inside else "#")
    wanted = {name: value for name, value in body.items() if name not in ENVELOPE} if inside else {}
    units: Units | None = asked["units"] if asked.get("units") in ("in", "mm") else None
    over: Iterable[Change] = ()
    data = read_wanted(_OVER, document, wanted) if wanted else {}
    if data:
        made = remake(document, build, data, units, asked["round"] == "tape")
        document, over = made.document, made_over(made.resized)
    elif units is not None:
        document = restated(form, document, units)
    now = read_as(form, document)
    since = None
    if inside and "earlier" in body:
        since = tuple(changes(read_as(form, body["earlier"], "#/earlier"), build))
    return Wanted(now, since, tuple(over))
