"""GET /v1/pilot-holes: what to drill for a screw."""

from collections.abc import Iterator, Mapping
from fractions import Fraction
from typing import Any

from flask import Blueprint, Response
from marshmallow import validates_schema

from service.api import found, shown
from service.api.answers import answered, carried
from service.api.described import gluing
from service.api.described.operations import JOINTS, Example, Operation, described_as
from service.api.documents.fields import Length, Text, Word
from service.api.documents.gathered import one_of
from service.api.documents.joints import SURFACES
from service.api.house import house
from service.api.parameters import UnitsForm, read_query
from service.domain.catalog import Catalog, Wood
from service.domain.errors import UnknownName
from service.domain.fastening.fastener_words import DRILL_STEP
from service.domain.fastening.pilot_holes import (
    Drilling,
    HoleRange,
    drilling,
    hardness,
    screw_named,
)
from service.domain.fastening.splitting import Distances, Standing, distances, too_near
from service.domain.findings import Finding, Spot, settled
from service.domain.rules import BY_CODE
from service.domain.tape import MM, nearest, plain, tape_step
from service.domain.woods import wood_named

routes = Blueprint("pilot_holes", __name__)

NEAR = "fastener.near-edge"
METRIC_DRILLS = MM / 10


class PilotHolesQuery(UnitsForm):
    """A screw by gauge or diameter, the wood, where it goes in, and how near to end and edge."""

    gauge = Text()
    diameter = Length()
    wood = Text()
    region = Text(load_default="us")
    spot = Word(*SURFACES, load_default="face")
    thickness = Length()
    end_distance = Length(zero=True)
    edge_distance = Length(zero=True)

    @validates_schema
    def _one_screw(self, data: dict[str, Any], **_: Any) -> None:
        one_of(data, ("gauge", "diameter"))


_FORM = PilotHolesQuery()


@routes.get("/v1/pilot-holes")
@described_as(Operation(
    "holesForScrew", "What do I drill for that screw?",
    "Pilot, clearance hole and countersink as ranges, and how far to stay from end and edge.",
    gluing.PILOT_HOLES, JOINTS, _FORM, refusals=(UnknownName,),
    examples={
        "oak": Example("A #8 in oak", {"gauge": "8", "wood": "oak"}),
        "near": Example(
            "A #8 half an inch from the end", {"gauge": "8", "wood": "pine", "end_distance": "1/2"}
        ),
    },
))  # fmt: skip
def holes_for_a_screw() -> Response:
    """Pilot, clearance hole and countersink as ranges, and how far to stay from end and edge."""
    asked, catalog = read_query(_FORM), house().catalog
    metric = asked["units"] == "mm"
    name = asked.get("wood")
    wood = wood_named(catalog, asked["region"], name) if name else None
    screw = screw_named(catalog, asked.get("gauge"), asked.get("diameter"))
    drilled = drilling(catalog, screw, wood, asked["spot"])
    standing = _standing(catalog, drilled, wood, asked)
    kept = distances(catalog, standing)
    given = asked.get("end_distance"), asked.get("edge_distance")
    findings = found.of_parameters(_near(catalog, standing, given, metric), "", metric)
    rows = (*drilled.rests_on, *(row for d in (kept.end, kept.edge) for row in d.rests_on))
    answer = {
        "screw": {"key": screw.key, "name": screw.name, "gauge": screw.gauge,
                  "diameter": shown.length(screw.diameter.value, metric)},
        "wood": wood.key if wood else None,
        "spot": asked["spot"],
        **_holes(drilled, metric),
        **_kept(kept, metric),
        "findings": findings,
        **carried(catalog, rows, drilled.assumed),
    }  # fmt: skip
    return answered(answer, _lines(answer))


def _standing(
    catalog: Catalog, drilled: Drilling, wood: Wood | None, asked: Mapping[str, Any]
) -> Standing:
    """The screw with its pilot drilled: that is what is asked for."""
    screw = drilled.screw
    return Standing(
        diameter=screw.diameter.value,
        piloted=True,
        thickness=asked.get("thickness") or 4 * screw.diameter.value,
        spot=asked["spot"],
        material=wood.key if wood is not None and wood.kind == "panel" else None,
        hard=hardness(catalog, wood)[0] == "hard",
        gauge=screw.gauge,
    )


def _near(
    catalog: Catalog,
    standing: Standing,
    given: tuple[Fraction | None, Fraction | None],
    metric: bool,
) -> Iterator[Finding]:
    for place, distance, limit in too_near(catalog, standing, *given):
        spot = Spot(
            at=place,
            detail=(
                f"{plain(distance, metric)} from the {place.partition('_')[0]}: with a pilot the "
                f"screw wants {plain(limit.least, metric)}."
            ),
            numbers={"distance": distance, "least": limit.least},
            rests_on=limit.rests_on,
        )
        yield settled(BY_CODE[NEAR], spot, catalog)


def _holes(drilled: Drilling, metric: bool) -> dict[str, Any]:
    depth = drilled.depth
    return {
        "need": drilled.need,
        "why": drilled.why,
        "pilot": _range(drilled.pilot, metric),
        "clearance_hole": _range(drilled.clearance, metric),
        "countersink": _range(drilled.countersink, metric),
        "pilot_depth": {"of_thread_low": depth[0], "of_thread_high": depth[1]} if depth else None,
    }


def _range(hole: HoleRange | None, metric: bool) -> dict[str, Any] | None:
    if hole is None:
        return None
    ends = {"low": hole.low, "usual": hole.usual, "high": hole.high}
    return {name: _drill(size, metric) for name, size in ends.items()}


def _drill(size: Fraction, metric: bool) -> dict[str, Any]:
    """A diameter, and the drill nearest to it: a tape is too coarse."""
    step = METRIC_DRILLS if metric else DRILL_STEP
    return shown.length(size, metric) | {"drill": plain(round(size / step) * step, metric)}


def _kept(kept: Distances, metric: bool) -> dict[str, Any]:
    return {
        name: {
            "least": shown.length(_up(one.least, metric), metric),
            "advised": shown.length(one.advised, metric),
        }
        for name, one in (("end_distance", kept.end), ("edge_distance", kept.edge))
    }


def _up(size: Fraction, metric: bool) -> Fraction:
    """A least distance as a tape can keep it: never less."""
    return nearest(size, tape_step(metric), "up")


def _lines(answer: Mapping[str, Any]) -> Iterator[str]:
    screw, pilot = answer["screw"], answer["pilot"]
    yield f"{screw['name']}: {answer['why']}"
    for name, said in (("pilot", "pilot hole"), ("clearance_hole", "hole for the shank")):
        if answer[name] is not None:
            yield f"  {said}: {_in_words(answer[name])}"
    if pilot is None:
        yield "  pilot hole: no chart was read for this screw in this wood"
    end, edge = answer["end_distance"], answer["edge_distance"]
    yield (
        f"  keep {end['least']['tape']} from the end ({end['advised']['tape']} is advised), "
        f"{edge['least']['tape']} from the edge"
    )
    yield from found.in_lines(answer)
    yield from shown.closing(answer)


def _in_words(hole: Mapping[str, Any]) -> str:
    low, usual, high = (hole[end]["drill"] for end in ("low", "usual", "high"))
    spread = "" if low == high else f" ({low} to {high})"
    also = "" if usual.endswith("mm") else f", {hole['usual']['mm']:.1f} mm"
    return f"{usual}{spread}{also}"
