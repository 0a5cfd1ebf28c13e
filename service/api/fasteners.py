"""POST and GET /v1/fasteners: what holds it?"""

from collections.abc import Sequence
from typing import Any

import orjson
from flask import Blueprint, Response, request

from service.api import fastened, fastened_lines
from service.api.answers import MEDIA_TYPES, as_json, as_text, carried, chosen_form
from service.api.asked_joint import AskedJoint, JointQuery, as_build, terms_of
from service.api.bodies import read_json
from service.api.described import fastened as described
from service.api.described import scenes
from service.api.described.operations import BUILDS, JOINTS, Example, Operation, described_as
from service.api.documents.build import BuildForm
from service.api.documents.fields import Word
from service.api.house import house
from service.api.parameters import QueryForm, read_query
from service.api.reading import read_as
from service.api.valued import factor_rows
from service.domain.checking import NEVER_JUDGED, unjudged_uses
from service.domain.deadline import kept_time
from service.domain.errors import UnknownName
from service.domain.fastening.adjusting import DURATIONS, SERVICES, Terms
from service.domain.fastening.advising import Advice, advise
from service.domain.keeping import kept
from service.domain.resolving import ResolvedBuild, resolve

routes = Blueprint("fasteners", __name__)


class FastenersQuery(QueryForm):
    """Whether design values are wanted beside the ratios, and for what load and wood."""

    design_values = Word("true", "false")
    duration = Word(*DURATIONS)
    service = Word(*SERVICES)


_BUILD, _JOINT = FastenersQuery(), JointQuery()


@routes.post("/v1/fasteners")
@described_as(Operation(
    "fastenBuild", "What holds its joints?",
    "For every joint of a build: ranked ways to fasten it with holes, spacing and glue, what is "
    "ruled out and why, and whether the way that the build states is right.",
    described.FASTEN_BUILD, BUILDS, _BUILD, body=BuildForm(), refusals=(UnknownName,),
    examples={"ledge": Example("A ledge with one kind of joint", body=scenes.LEDGE)},
))  # fmt: skip
def fasten_a_build() -> Response:
    """Every joint of a build: ranked fastenings, what is out, and what the plan says judged."""
    asked = read_query(_BUILD)
    form = chosen_form("json", "text")
    catalog = house().catalog
    resolved = resolve(read_as(house().build_form, read_json(request)), catalog)
    advice = advise(resolved)
    terms = terms_of(asked)
    told = {"not_judged": _not_judged(resolved), **_carried(resolved, advice, terms)}
    if form == "text":
        joints = [fastened.joint(one, catalog, terms) for one in kept_time(advice)]
        response = as_text(fastened_lines.every_joint(told, advice, joints, terms))
    else:
        listed = [fastened.joint_in_list(one, catalog, terms) for one in kept_time(advice)]
        response = as_json({"joints": listed, **told})
    response.headers.add("Vary", "Accept")
    return response


@routes.get("/v1/fasteners")
@described_as(Operation(
    "fastenJoint", "What holds this joint? Is this screw right?",
    "One joint by its two stocks: ways to fasten it, best first. With a fastener given, whether "
    "that one is right; with lengths given, which of them.",
    described.FASTEN_JOINT, JOINTS, _JOINT, refusals=(UnknownName,),
    examples={
        "which": Example(
            "What joins two 1x4s, with a drill and clamps",
            {"through": "1x4", "into": "1x4", "tools": "drill,clamps"},
            long=True,
        ),
        "this-one": Example(
            "Is a #8 screw 1 5/8 in long right?",
            {"through": "1x4", "into": "1x4", "fastener": "8x1-5/8in"},
        ),
        "bolt": Example(
            "What does a 3/8 in bolt through two 2x4s take?",
            {"through": "2x4", "into": "2x4", "method": "bolt", "fastener": "3/8x4in"},
        ),
    },
))  # fmt: skip
def fasten_a_joint() -> Response:
    """One joint by its two stocks: which fastener, how long, how many; or is this one right?"""
    form = chosen_form("json", "text")
    question = ("question", form, request.query_string)
    content = kept(house().catalog, question, lambda: _answered(form))
    response = Response(content, mimetype=MEDIA_TYPES[form])
    response.headers.add("Vary", "Accept")
    return response


def _answered(form: str) -> bytes:
    """The answer for one joint, as JSON or as a few lines. What joints share is text already."""
    asked: AskedJoint = read_query(_JOINT)
    catalog = house().catalog
    resolved = resolve(as_build(asked, catalog), catalog, asked.wishes)
    advice = advise(resolved, asked.lengths)
    own = fastened.head(advice[0])
    carries = _carried(resolved, advice, asked.terms)
    carries["assumed"] = [*asked.assumed, *carries["assumed"]]
    told = {
        "method": own["method"],
        "verdict": own["verdict"],
        "findings": [_at_parameter(finding) for finding in own["findings"]],
        "not_judged": _not_judged(resolved),
        **carries,
    }
    shared = fastened.shared(advice[0], catalog, asked.terms, 0)
    if form == "json":
        return b"{" + fastened.fields_as_text(told, 0) + b"," + shared + b"\n}\n"
    whole = {**told, **orjson.loads(b"{" + shared + b"}")}
    lines = fastened_lines.one_joint(
        whole, advice[0], asked.fastener_said, bool(asked.lengths), asked.terms
    )
    return as_text(lines).get_data()


PARAMETERS = {
    "fastener/length": "fastener",
    "fastener/gauge": "fastener",
    "fastener/diameter": "fastener",
    "fastener/thread": "thread",
    "fastener/coating": "coating",
    "": "method",
}


def _at_parameter(finding: dict[str, Any]) -> dict[str, Any]:
    """A finding of the one joint, at the parameter that says what it is about."""
    field = finding["at"].removeprefix("#/joints/0").lstrip("/")
    rest = {name: value for name, value in finding.items() if name not in ("at", "also_at")}
    if rest["mend"]:
        rest["mend"] = {"words": rest["mend"]["words"], "patch": None}  # there is no document
    return {"parameter": PARAMETERS.get(field, field), **rest}


def _not_judged(resolved: ResolvedBuild) -> list[str]:
    refused = [
        f"strength, stability and gaps for {use}: separate standards apply"
        for use in unjudged_uses(resolved)
    ]
    return [*refused, *NEVER_JUDGED]


def _carried(
    resolved: ResolvedBuild, advice: Sequence[Advice], terms: Terms | None
) -> dict[str, Any]:
    rows = dict.fromkeys(row for one in advice for row in (*one.rests_on, *factor_rows(one, terms)))
    said = dict.fromkeys([*resolved.assumed, *(text for one in advice for text in one.assumed)])
    named = [source for one in advice for f in one.findings for source in f.sources]
    return carried(resolved.catalog, rows, said, dict.fromkeys(named))
