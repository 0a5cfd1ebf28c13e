"""POST /v1/resize: what if it must be another size, of other boards, or in another region?"""

import json
from collections.abc import Iterator, Mapping
from fractions import Fraction
from typing import Any

from flask import Blueprint, Response, request

from service.api import found, shown
from service.api.answers import answered, chosen_form
from service.api.bodies import read_json
from service.api.check import carried_by, judged
from service.api.described import builds, scenes
from service.api.described.operations import BUILDS, Example, Operation, described_as
from service.api.documents.build import BuildForm
from service.api.documents.fields import Word
from service.api.documents.schemas import Book, Json
from service.api.documents.telling import told
from service.api.house import house
from service.api.parameters import QueryForm, read_query
from service.api.reading import read_as
from service.api.refusals import Fault, InvalidDocument
from service.api.remaking import MadeOverForm, Remade, read_wanted, remake
from service.api.rewriting import as_written
from service.domain.checking import Checked, check
from service.domain.errors import UnknownName
from service.domain.resizing.answer import CannotResize, Changed, Kept
from service.domain.rounding import Turn

routes = Blueprint("resize", __name__)


class ResizeQuery(QueryForm):
    """Whether lengths stay exact or go to the marks of a tape."""

    round = Word("tape", "none", load_default="none")


class ResizeForm(MadeOverForm):
    """A resize; bare numbers in it are in the units of the build."""

    units = Word(
        "in",
        "mm",
        metadata=told("What the new build is written in.", "mm", left_out="the units of the build"),
    )


def resize_schema(book: Book, build: BuildForm | None = None) -> Json:
    """The schema of the whole body: a resize, and the build that it is about."""
    own = book.object_of(_FORM)
    properties = {"build": book.form(build or BuildForm()), **own["properties"]}
    something = {"anyOf": [{"required": [name]} for name in own["properties"] if name != "cut"]}
    whole = {"properties": properties, "required": ["build"], "allOf": [something]}
    return book.named("Resize", own | whole)


_QUERY = ResizeQuery()
_FORM = ResizeForm()


@routes.post("/v1/resize")
@described_as(Operation(
    "resizeBuild", "What if it must be another size?",
    "The build with other sizes of runs, other real sizes of its stocks, in another region or in "
    "other units: what changes and why, what is kept, and what the new size brings.",
    builds.RESIZE, BUILDS, _QUERY, body=resize_schema,
    refusals=(UnknownName, CannotResize, *CannotResize.__subclasses__()),
    examples={
        "narrower": Example(
            "The ledge 18 in wide", body={"build": scenes.LEDGE, "to": {"width": "18"}}
        ),
        "metric": Example("The ledge in millimeters", body={"build": scenes.LEDGE, "units": "mm"}),
    },
))  # fmt: skip
def resize_build() -> Response:
    """The build in another size: what changes, what is kept, and what the new size brings."""
    asked = read_query(_QUERY)
    chosen_form("json", "text")
    document, wanted = _apart(read_json(request))
    form = house().build_form
    build = read_as(form, document, "#/build")
    data = _read_asked(document, wanted)
    made = remake(document, build, data, data.get("units"), asked["round"] == "tape")
    answer = _answer(made, check(read_as(form, made.document), house().catalog))
    return answered(answer, _lines(answer))


def _apart(body: Any) -> tuple[Any, dict[str, Any]]:
    """The build, and what is asked of it."""
    if not isinstance(body, Mapping) or "build" not in body:
        fault = Fault("This is required.", pointer="#/build")
        raise InvalidDocument('Send {"build": ..., "to": ...}.', fault)
    wanted = {name: value for name, value in body.items() if name != "build"}
    return body["build"], wanted


def _read_asked(document: Any, wanted: dict[str, Any]) -> dict[str, Any]:
    data = read_wanted(_FORM, document, wanted)
    if not set(data) - {"cut"}:
        raise InvalidDocument(
            "Nothing is asked: say to, stock, region or units.",
            Fault("Say to, stock, region or units.", pointer="#"),
        )
    return data


def _answer(made: Remade, checked: Checked) -> dict[str, Any]:
    new, resized, was = made.document, made.resized, made.was
    metric = checked.resolved.metric
    changed = [_changed(change, metric) for change in resized.changed]
    if checked.resolved.build.units != was:
        why = "asked for; sizes without a unit now carry the one they had"
        changed.insert(0, {"at": "#/units", "was": was, "is": new["units"], "why": why})
    return {
        "build": new,
        "changed": changed,
        "kept": [_kept(kept) for kept in resized.kept],
        "order": [_turn(turn) for turn in resized.order],
        **judged(checked),
        **carried_by(checked),
    }


def _changed(change: Changed, metric: bool) -> dict[str, Any]:
    return {
        "at": f"#{change.path}",
        "was": _value(change.was, metric),
        "is": _value(change.is_now, metric),
        "why": change.why,
    }


def _value(value: object, metric: bool) -> Any:
    """A length with its tape reading and how far that is off; anything else as it is written."""
    return shown.length(value, metric) if isinstance(value, Fraction) else as_written(value, metric)


def _kept(kept: Kept) -> dict[str, str]:
    return {"at": f"#{kept.path}", "why": kept.why}


def _lines(answer: Mapping[str, Any]) -> Iterator[str]:
    many = len(answer["changed"])
    yield f"{many} {'change' if many == 1 else 'changes'} of {answer['build']['name']}"
    for change in answer["changed"]:
        was, now = (_in_words(change[when]) for when in ("was", "is"))
        yield f"  {change['at']}: {was}, now {now} ({change['why']})"
    for one in answer["kept"]:
        yield f"  {one['at']}: kept ({one['why']})"
    for turn in answer["order"]:
        yield f"  cut {turn['part']} {turn['fit']}: {turn['why']}"
    yield from ("  (the build itself comes with JSON: leave out format=text)", "")
    yield from found.lines(answer)


def _in_words(value: Any) -> str:
    """A length by its tape reading, and exactly where that is off; else as the document has it."""
    if value is None:
        return "nothing"
    if not isinstance(value, dict) or "tape" not in value:
        return str(value) if isinstance(value, str | int | float) else json.dumps(value)
    unit = "mm" if value["tape"].endswith("mm") else "in"
    exact = "" if value["off_by"] == "0" else f" ({value[unit]:.3f} {unit})"
    return f"{value['tape']}{exact}"


def _turn(turn: Turn) -> dict[str, str]:
    return {"part": turn.part, "fit": turn.fit, "why": turn.why}
