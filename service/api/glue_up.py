"""GET /v1/glue-up: how many joints go together before the glue sets."""

from collections.abc import Iterator, Mapping
from fractions import Fraction
from typing import Any

from flask import Blueprint, Response
from marshmallow import ValidationError, validates_schema

from service.api import found, shown
from service.api.answers import answered, carried
from service.api.described import gluing
from service.api.described.operations import GLUE, Example, Operation, described_as
from service.api.documents.fields import Duration, Temperature, Text
from service.api.house import house
from service.api.parameters import QueryForm, WholeText, read_query
from service.domain.catalog import Catalog
from service.domain.errors import UnknownName
from service.domain.findings import Finding, settled
from service.domain.glues import Glue
from service.domain.gluing import (
    FOR_INDOORS,
    LABEL_WINS,
    WARM_SHOP,
    GlueUp,
    Label,
    Limit,
    as_limit,
    clamp_time,
    coldest,
    glue_named,
    glue_up,
    too_cold,
    water_class,
    working_time,
)
from service.domain.rules.glue_ups import cold, cold_spot, slow_spot, span, told_by, too_slow

routes = Blueprint("glue_up", __name__)

LONG = 180  # minutes that are better said in hours
TIMES_TOLD = ("drying-time", "stressed-clamp-time", "full-cure")
FASTER = (
    "over 75 F glue sets faster than these times; no figure is in the tables, so work in smaller "
    "groups or by the label"
)


class GlueUpQuery(QueryForm):
    """Joints, minutes, people and temperature; what the bottle's own label says wins."""

    glue = Text()
    region = Text(load_default="us")
    joints = WholeText(1, 1000, load_default=1)
    minutes_each = Duration("min")
    people = WholeText(1, 20, load_default=1)
    temperature = Temperature()
    open_time = Duration("min")
    assembly_time = Duration("min")
    coldest = Temperature()

    @validates_schema
    def _some_time(self, data: dict[str, Any], **_: Any) -> None:
        for name in ("minutes_each", "open_time", "assembly_time"):
            if data.get(name) == 0:
                raise ValidationError("This must be more than zero.", field_name=name)


_FORM = GlueUpQuery()


@routes.get("/v1/glue-up")
@described_as(Operation(
    "timeGlueUp", "How much can I glue at once?",
    "Joints and minutes against the time that the glue leaves, and groups to split them into. "
    "What the bottle's own label says wins.",
    gluing.GLUE_UP, GLUE, _FORM, refusals=(UnknownName,),
    examples={
        "twelve": Example(
            "Twelve joints, a minute each",
            {"glue": "yellow glue", "joints": "12", "minutes_each": "1"},
        ),
        "cold": Example("A cold garage", {"glue": "yellow glue", "temperature": "45F"}),
    },
))  # fmt: skip
def time_a_glue_up() -> Response:
    """Joints and minutes against the time that the glue leaves, and groups to split into."""
    asked, catalog = read_query(_FORM), house().catalog
    glue = glue_named(catalog, asked["region"], asked.get("glue", FOR_INDOORS))
    label = Label(asked.get("open_time"), asked.get("assembly_time"), asked.get("coldest"))
    warmth = asked.get("temperature")
    limit = working_time(glue, label, warmth)
    each = asked.get("minutes_each")
    judged = glue_up(asked["joints"], each, asked["people"], limit) if each else None
    answer = {
        "glue": glue.key,
        "name": glue.name,
        **_times(glue, label, warmth, limit),
        "glue_up": _shown(judged, asked["people"]) if judged else None,
        "findings": found.of_parameters(_judged(glue, label, warmth, judged, catalog), "", False),
        "label": LABEL_WINS,
        **carried(catalog, _rows(glue, label, warmth, limit), _assumed(asked)),
    }
    return answered(answer, _lines(answer, limit))


def _times(
    glue: Glue, label: Label, warmth: Fraction | None, limit: Limit | None
) -> dict[str, Any]:
    held, cure = clamp_time(glue, warmth), as_limit(glue.figure("full-cure"))
    limits = water_class(glue)
    said = glue.said("end-grain")
    return {
        "working_time_min": _range(limit),
        "drying_time_min": _range(as_limit(glue.figure("drying-time"))),
        "clamp_time_min": _range(held),
        "stressed_after_min": _range(as_limit(glue.figure("stressed-clamp-time"))),
        "full_cure_min": _range(cure),
        "coldest_f": _range(coldest(glue, label)),
        "water_classes": list(limits.names),
        "end_grain": said.words if said else None,
    }


def _range(limit: Limit | None) -> dict[str, Any] | None:
    if limit is None:
        return None
    return {"low": _number(limit.low), "high": _number(limit.high), "from_label": limit.from_label}


def _number(amount: Fraction) -> float:
    return round(float(amount), 2)


def _shown(judged: GlueUp, people: int) -> dict[str, Any]:
    return {
        "joints": judged.joints,
        "people": people,
        "minutes": _number(judged.minutes),
        "fits": None if judged.limit is None else not (judged.too_slow or judged.close),
        "most_at_once": judged.most_at_once,
        "groups": list(judged.groups) if judged.groups else None,
    }


def _judged(
    glue: Glue, label: Label, warmth: Fraction | None, judged: GlueUp | None, catalog: Catalog
) -> Iterator[Finding]:
    if judged is not None and judged.too_slow:
        yield settled(too_slow, slow_spot("minutes_each", glue, judged), catalog)
    if warmth is not None and too_cold(glue, label, warmth):
        yield settled(cold, cold_spot("temperature", glue, warmth, label), catalog)


def _rows(glue: Glue, label: Label, warmth: Fraction | None, limit: Limit | None) -> Iterator[str]:
    yield glue.row
    told = (as_limit(glue.figure(of)) for of in TIMES_TOLD)
    used = (limit, clamp_time(glue, warmth), coldest(glue, label), *told)
    for one in used:
        yield from one.rests_on if one else ()
    yield from water_class(glue).rests_on
    said = glue.said("end-grain")
    if said is not None:
        yield said.row


def _assumed(asked: Mapping[str, Any]) -> Iterator[str]:
    if asked["joints"] > 1 and asked.get("minutes_each") is None:
        yield "the joints are not timed: minutes_each is not given"
    if "glue" not in asked:
        yield "no glue is named: white glue, the common one for indoors, is taken"
    if asked.get("temperature") is None:
        yield "a shop of about 70 F, for which times are printed"
    elif asked["temperature"] > WARM_SHOP:
        yield FASTER


def _lines(answer: Mapping[str, Any], limit: Limit | None) -> Iterator[str]:
    judged = answer["glue_up"]
    dries = answer["drying_time_min"]
    if limit is not None:
        yield f"{answer['name']}: {span(limit)} min to spread and close{told_by(limit)}"
    elif dries is not None:
        told = shown.span(dries["low"], dries["high"])
        yield f"{answer['name']}: dries {told} min before the parts touch, then holds at once"
    else:
        yield f"{answer['name']}: no time to work in is in the tables; see the label"
    if judged is not None:
        yield f"  {judged['joints']} joints take {judged['minutes']:g} min"
    if judged is not None and limit is not None:
        yield f"  {_advice(judged)}"
    held = answer["clamp_time_min"]
    if held is not None and held["high"]:
        told, rest = _lasting(held["low"], held["high"]), answer["stressed_after_min"]
        after = f", {rest['high'] / 60:g} h before it is stressed" if rest else ""
        yield f"  in clamps {told}{after}"
    yield from found.in_lines(answer)
    yield from shown.closing(answer)


def _lasting(low: float, high: float) -> str:
    """Minutes as people say them: long ones in hours."""
    if low < LONG:
        return f"{shown.span(low, high)} min"
    return f"{shown.span(low / 60, high / 60)} h"


def _advice(judged: Mapping[str, Any]) -> str:
    if judged["fits"]:
        return "all of them in one go"
    if judged["groups"] is None:
        return "one joint alone takes longer: a slower glue, or more hands"
    return f"in {len(judged['groups'])} groups: {', '.join(map(str, judged['groups']))}"
