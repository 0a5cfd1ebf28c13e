"""POST /v1/check: will it go together?"""

from collections.abc import Iterator
from typing import Any

from flask import Blueprint, Response, request

from service.api import found
from service.api.answers import answered, carried
from service.api.bodies import read_json
from service.api.described import builds, scenes
from service.api.described.operations import BUILDS, Example, Operation, described_as
from service.api.documents.build import BuildForm
from service.api.documents.fields import Word
from service.api.house import house
from service.api.parameters import QueryForm, read_query
from service.api.patching import mended
from service.api.reading import read_as
from service.domain.checking import Checked, check
from service.domain.deadline import kept_time
from service.domain.errors import UnknownName
from service.planning.yielding import purchasing_of

routes = Blueprint("check", __name__)

MOST_ROUNDS = 10  # mends of at most so many codes in one answer


class CheckQuery(QueryForm):
    """Whether to give the build back with every exact mend applied."""

    mended = Word("true", "false", load_default="false")


_QUERY = CheckQuery()


@routes.post("/v1/check")
@described_as(Operation(
    "checkBuild", "Will it go together?",
    "Every rule is held against the build. Findings come worst first, each at its place in the "
    "document, with the change that mends it where exactly one does.",
    builds.CHECK, BUILDS, _QUERY, body=BuildForm(), refusals=(UnknownName,),
    examples={
        "spoiled": Example("A ledge figured with a printed size", body=scenes.SPOILED_LEDGE),
        "mended": Example("The same, mended", {"mended": "true"}, scenes.SPOILED_LEDGE),
        "sound": Example("A ledge that goes together", body=scenes.LEDGE),
    },
))  # fmt: skip
def check_build() -> Response:
    """Findings, worst first, and what was not judged."""
    asked = read_query(_QUERY)
    document = read_json(request)
    checked = check(read_as(house().build_form, document), house().catalog, purchasing_of)
    answer = answer_of(checked)
    if asked["mended"] == "true":
        answer["mended"] = _mended(document, checked)
    return answered(answer, found.lines(answer))


def _mended(document: Any, checked: Checked) -> Any:
    """The document with every exact mend applied.

    One code at a time, worst first, and checked again after each: what one mend has put right,
    another must not put right once more.
    """
    for _ in range(MOST_ROUNDS):
        worst = next((f.code for f in checked.findings if f.mend and f.mend.changes), None)
        if worst is None:
            break
        document = mended(document, [f for f in checked.findings if f.code == worst])
        checked = check(read_as(house().build_form, document), house().catalog, purchasing_of)
    return document


def answer_of(checked: Checked) -> dict[str, Any]:
    """What is said of a checked build."""
    return {**judged(checked), "parts": found.parts(checked.resolved), **carried_by(checked)}


def judged(checked: Checked) -> dict[str, Any]:
    """The verdict, what it comes from, and what it says nothing of."""
    metric = checked.resolved.metric
    return {
        "verdict": checked.verdict,
        "findings": [found.finding(f, metric) for f in kept_time(checked.findings)],
        "not_judged": list(checked.not_judged),
    }


def carried_by(checked: Checked) -> dict[str, Any]:
    """What every answer carries, for a checked build."""
    named = [source for finding in checked.findings for source in finding.sources]
    return carried(checked.resolved.catalog, _rows(checked), checked.resolved.assumed, named)


def _rows(checked: Checked) -> Iterator[str]:
    for finding in checked.findings:
        yield from finding.rests_on
    for part in checked.resolved.parts:
        yield from part.rests_on
