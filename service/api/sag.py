"""GET /v1/sag: how far a plank sags under a load, how hard it is bent, and what would help."""

from collections.abc import Iterator, Mapping
from dataclasses import replace
from fractions import Fraction
from typing import Any

from flask import Blueprint, Response

from service.api import found, shown
from service.api.answers import answered, carried
from service.api.described import standing
from service.api.described.operations import IN_USE, Example, Operation, described_as
from service.api.house import house
from service.api.one_piece import PIECE, judged
from service.api.one_plank import BOOKS, SagQuery, books, build_of
from service.api.parameters import read_query
from service.domain.bending import SAID, Allowed, allowed, usual_limits
from service.domain.errors import UnknownName
from service.domain.loads import Carried, NotJudged, carries_people, inches, only_load
from service.domain.resolving import ResolvedBuild, resolve
from service.domain.rules import loads
from service.domain.rules.loads import called, psi, what_would_help
from service.domain.stiffening import counted, longest_span, most_counted, what_counts
from service.domain.tape import plain
from service.domain.weight import said

routes = Blueprint("sag", __name__)

RULES = (loads.span, loads.sags, loads.overstressed, loads.not_judged)
PLACES = {"#/loads/0": "load", "#/loads/0/span": "span"}
SOURCES = ("wood-handbook-2010-table-9-1",)
TOO_FAR = "the span is longer than the piece"

HELD = {
    "resting": "resting on both ends",
    "both-ends": "fixed at both ends",
    "one-end": "sticking out from one end",
    "several": "on several supports",
}

_FORM = SagQuery()


@routes.get("/v1/sag")
@described_as(Operation(
    "sagOfPlank", "Will the shelf sag?",
    "Sag now and after years, against the limits that people use, and what would help.",
    standing.SAG, IN_USE, _FORM, refusals=(UnknownName,),
    examples={
        "shelf": Example(
            "A 36 in pine shelf under 40 lb that stay",
            {"stock": "1x8", "span": "36", "load": "40lb", "wood": "spf", "stays": "yes"},
        ),
        "longest": Example(
            "How far may it span under books?",
            {"stock": "1x10", "load": "books", "wood": "pine", "limit": "L/360"},
        ),
    },
))  # fmt: skip
def sag_of_a_plank() -> Response:
    """Sag now and after years, the usual limits, stress against a named value, what would help."""
    asked, catalog = read_query(_FORM), house().catalog
    metric = asked["units"] == "mm"
    build = resolve(build_of(asked, catalog), catalog)
    one = only_load(build)
    longest = None
    if isinstance(one, Carried) and "span" not in asked and not one.load.supports:
        longest = longest_span(one, allowed(catalog, one.load.limit, one.reach))
        if longest is not None:
            build, one = at_span(build, sixteenths(longest))
    findings = found.at_parameters(judged(build, RULES), PLACES, metric)
    if not isinstance(one, Carried):
        why = one.why.removeprefix(f"{PIECE}: ") if isinstance(one, NotJudged) else TOO_FAR
        answer = {"judged": False, "why": why, "findings": findings, **carried(catalog)}
        return answered(
            answer, [f"not judged: {why}", *found.in_lines(answer), *shown.closing(answer)]
        )
    answer = {
        "judged": True,
        **_shown(build, one, metric),
        "findings": findings,
        **carried(catalog, _rows(build, one, asked), _assumed(build, one, asked), SOURCES),
    }
    return answered(answer, _lines(build, one, answer, metric))


def sixteenths(size: float) -> Fraction:
    """Down to the sixteenth of an inch, but never to nothing."""
    return max(Fraction(int(size * 16), 16), Fraction(1, 16))


def at_span(
    build: ResolvedBuild, span: Fraction
) -> tuple[ResolvedBuild, Carried | NotJudged | None]:
    """The same plank, as long as another span, on it."""
    load, part = replace(build.build.loads[0], span=span), build.parts[0]
    sizing = replace(build.sizing, build=replace(build.build, loads=(load,)))
    plank = replace(part, part=replace(part.part, length=span), solid=None)
    longer = replace(build, sizing=sizing, parts=(plank,), shared={})
    return longer, only_load(longer)


def _shown(build: ResolvedBuild, one: Carried, metric: bool) -> dict[str, Any]:
    plank, chosen = one.plank, allowed(build.catalog, one.load.limit, one.reach)
    longest = longest_span(one, chosen)
    people = carries_people(build, one.load)
    return {
        "span": shown.length(inches(one.span), metric),
        "held": one.load.held or "resting",
        "laid": one.load.laid,
        "load": shown.weight(one.weight, 2),
        "own_weight": shown.weight(plank.own * one.span, 2),
        "section": {
            "width": _fine(plank.wide),
            "height": _fine(plank.high),
            "boards": plank.boards,
            "inertia_in4": round(plank.section.rigidity / plank.material.stiffness.value, 4),
        },
        "stiffness": {
            "psi": round(plank.material.stiffness.value),
            "kind": plank.material.kind,
            "of": called(build, plank.material.stiffness.of),
            "says": SAID[plank.material.kind],
        },
        "sag": _sag(one),
        "limits": [_limit(one, limit) for limit in usual_limits(build.catalog, one.reach)],
        "chosen_limit": _limit(one, chosen),
        "longest_span": shown.length(sixteenths(longest), metric) if longest else None,
        "stress": _stress(build, one, people),
        "what_would_help": list(what_would_help(build, one)),
    }


def _fine(inches: float) -> dict[str, float]:
    """A small or figured length, finer than a tape reads."""
    return {"in": round(inches, 4), "mm": round(inches * 25.4, 3)}


def _sag(one: Carried) -> dict[str, Any]:
    after = one.lasting
    return {
        "now": _fine(one.now),
        "at": _fine(one.sag_at),
        "after_long_loading": {"low": _fine(after[0]), "high": _fine(after[1])} if after else None,
    }


def _limit(one: Carried, limit: Allowed) -> dict[str, Any]:
    low, high = counted(one, limit), most_counted(one, limit)
    verdict = "over" if low > limit.inches else "under" if high <= limit.inches else "in between"
    return {
        "name": limit.name,
        "allows": _fine(limit.inches),
        "counts": f"the {what_counts(one, limit)} sag",
        "verdict": verdict,
        "basis": "practice",
    }


def _stress(build: ResolvedBuild, one: Carried, people: bool) -> dict[str, Any]:
    named, rupture = one.plank.named, one.plank.material.rupture
    answer: dict[str, Any] = {
        "psi": round(one.stress),
        "against_psi": round(named.psi) if named else None,
        "breaks_at_psi": round(rupture.value) if rupture else None,
        "of": called(build, rupture.of) if rupture else None,
        "factor": round(named.factor, 4) if named else None,
        "compare_load": None,
        "why_no_compare_load": None,
    }
    if people:
        why = "no load is given for what carries a person: compare the stress, and build stronger"
    elif named is None:
        why = "the tables have no strength of it that the usual factors are made for"
    else:
        compare = one.load_at(named.psi)
        return answer | {"compare_load": shown.weight(compare, 2)}
    return answer | {"why_no_compare_load": why}


def _rows(build: ResolvedBuild, one: Carried, asked: Mapping[str, Any]) -> list[str]:
    named = one.plank.named
    creep = one.plank.creep
    limits = usual_limits(build.catalog, one.reach)
    rows = [*one.plank.rests_on, *(creep.rests_on if creep else ())]
    rows += named.rests_on if named else ()
    rows += [books(build.catalog).row] if asked.get("carries") == BOOKS else []
    return [*rows, *(row for limit in limits for row in limit.rests_on)]


def _assumed(build: ResolvedBuild, one: Carried, asked: Mapping[str, Any]) -> Iterator[str]:
    yield from (text.removeprefix(f"{PIECE}: ") for text in one.assumed)
    if "stays" not in asked:
        yield "the load comes and goes; with stays=yes the lasting sag is held to the limits"
    if asked.get("carries") == BOOKS:
        each = said(float(books(build.catalog).high or 0), build.metric)
        yield f"books: a row of average size, {each} a foot, full from end to end"
    if "wood" not in asked and "stiffness" not in asked:
        yield "the wood is that of the panel"
    if one.load.laid == "flat" and one.load.stiffened_by:
        yield "the lip stands on edge, its top flush with the plank's"


def _lines(
    build: ResolvedBuild, one: Carried, answer: Mapping[str, Any], metric: bool
) -> Iterator[str]:
    sag, stress = answer["sag"], answer["stress"]
    yield (
        f"sags {plain(inches(one.now), metric)} under {said(one.weight, metric)} over "
        f"{plain(inches(one.span), metric)}, {HELD[answer['held']]}"
    )
    if one.sticks_out is not None:
        counted_as = plain(inches(one.reach), metric)
        yield f"  limits count the end that sticks out as a span twice as long: {counted_as}"
    if one.lasting and sag["after_long_loading"]:
        low, high = (plain(inches(each), metric) for each in one.lasting)
        yield f"  after long loading: {low} to {high}"
    for limit in answer["limits"]:
        allows = limit["allows"]["mm" if metric else "in"]
        mark = " mm" if metric else '"'
        yield f"  {limit['name']} allows {allows:.3g}{mark}: {limit['verdict']} ({limit['counts']})"
    stiff = answer["stiffness"]
    yield f"  stiffness: {stiff['of']}" + (
        "" if stiff["says"] == stiff["of"] else f", {stiff['says']}"
    )
    if answer["longest_span"]:
        yield (
            f"  longest span for {answer['chosen_limit']['name']}: "
            + (answer["longest_span"]["tape"])
        )
    yield f"  bent to {psi(one.stress, metric)}" + (
        f"; held against {psi(stress['against_psi'], metric)}" if stress["against_psi"] else ""
    )
    if stress["compare_load"]:
        load = said(stress["compare_load"]["lb"], metric)
        yield f"  this plank alone comes to that stress at about {load}, spread like this"
    elif stress["why_no_compare_load"]:
        yield f"  {stress['why_no_compare_load']}"
    for way in answer["what_would_help"]:
        yield f"  {way}"
    yield from found.in_lines(answer)
    yield from shown.closing(answer)
