"""GET /v1/clamps: how many clamps a glued edge wants, and how hard."""

from collections.abc import Callable, Iterator, Mapping
from typing import Any

from flask import Blueprint, Response

from service.api import shown
from service.api.answers import answered, carried
from service.api.described import gluing
from service.api.described.operations import GLUE, Example, Operation, described_as
from service.api.documents.fields import Length, Text, Weight
from service.api.documents.loads import Stiffness
from service.api.house import house
from service.api.parameters import UnitsForm, read_query
from service.domain.clamping import JUST_CLOSED, Clamping, clamping
from service.domain.errors import UnknownName
from service.domain.gluing import Limit
from service.domain.rules.loads import psi as said_pressure
from service.domain.weight import said
from service.domain.woods import wood_named

routes = Blueprint("clamps", __name__)


class ClampsQuery(UnitsForm):
    """The glued edge, its wood or a pressure, and the force of one clamp where it is known."""

    length = Length(required=True)
    thickness = Length(required=True)
    wood = Text()
    region = Text(load_default="us")
    pressure = Stiffness()
    clamp_force = Weight()


_FORM = ClampsQuery()


@routes.get("/v1/clamps")
@described_as(Operation(
    "countClamps", "How many clamps?",
    "Clamps along a glued edge, how far apart, and how hard.",
    gluing.CLAMPS, GLUE, _FORM, refusals=(UnknownName,),
    examples={
        "panel": Example(
            "A 36 in edge of pine", {"length": "36", "thickness": "3/4", "wood": "pine"}
        ),
    },
))  # fmt: skip
def count_clamps() -> Response:
    """Clamps along a glued edge, the force of each, and the other school's word on it."""
    asked, catalog = read_query(_FORM), house().catalog
    metric = asked["units"] == "mm"
    name = asked.get("wood")
    wood = wood_named(catalog, asked["region"], name) if name else None
    stated = asked.get("pressure")
    planned = clamping(
        catalog,
        asked["length"],
        asked["thickness"],
        pressure=Limit(stated, stated, from_label=True) if stated else None,
        wood=wood,
        clamp_force=asked.get("clamp_force"),
    )
    closed = catalog.glue_classes[JUST_CLOSED]
    answer = {
        **_shown(planned, metric),
        "also_said": closed.statement,
        "findings": [],
        **carried(catalog, (*planned.rests_on, closed.row), planned.assumed),
    }
    return answered(answer, _lines(answer, metric))


def _shown(planned: Clamping, metric: bool) -> dict[str, Any]:
    return {
        "clamps": planned.count,
        "apart": {
            "low": shown.length(planned.apart.low, metric),
            "high": shown.length(planned.apart.high, metric),
        },
        "from_ends": {
            "low": shown.length(planned.from_ends.low, metric),
            "high": shown.length(planned.from_ends.high, metric),
        },
        "pressure_psi": {"low": float(planned.pressure.low), "high": float(planned.pressure.high)},
        "glued_area_in2": shown.number(planned.area),
        "force_lb": {"low": round(planned.force[0]), "high": round(planned.force[1])},
        "force_each_lb": {
            "low": round(planned.force_each[0]),
            "high": round(planned.force_each[1]),
        },
    }


def _lines(answer: Mapping[str, Any], metric: bool) -> Iterator[str]:
    apart, ends, each = answer["apart"], answer["from_ends"], answer["force_each_lb"]
    yield (
        f"{answer['clamps']} clamps, {apart['low']['tape']} to {apart['high']['tape']} apart, "
        f"the outer ones {ends['low']['tape']} to {ends['high']['tape']} from the ends"
    )
    force, psi = answer["force_lb"], answer["pressure_psi"]
    if metric:
        pressed = _ends(psi, lambda end: said_pressure(end, metric))
        every, single = (_ends(one, lambda end: said(end, metric)) for one in (force, each))
    else:
        pressed = f"{shown.span(**psi)} psi"
        every, single = (f"{shown.span(**one)} lb" for one in (force, each))
    yield f"  {pressed} makes {every} in all, {single} a clamp"
    yield f"  others say: {answer['also_said']}"
    yield from shown.closing(answer)


def _ends(span: Mapping[str, float], words: Callable[[float], str]) -> str:
    """A range in words, from and to where they differ."""
    low, high = words(span["low"]), words(span["high"])
    return low if low == high else f"{low} to {high}"
