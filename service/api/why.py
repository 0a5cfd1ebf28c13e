"""GET /v1/why/{code}: the reason behind a finding."""

from collections.abc import Iterator

from flask import Blueprint, Response

from service.api import shown
from service.api.answers import answered, carried
from service.api.described import browsing
from service.api.described.operations import TABLES, Example, Operation, described_as
from service.api.house import house
from service.api.parameters import QueryForm, read_query
from service.domain.checking import rule_for
from service.domain.errors import UnknownCode
from service.domain.findings import Rule

routes = Blueprint("why", __name__)

_FORM = QueryForm()


@routes.get("/v1/why/<code>")
@described_as(Operation(
    "explainFinding", "Why was that found?",
    "What a finding says, on what basis, and why it matters.",
    browsing.WHY, TABLES, _FORM, {"code": "The code of a finding."}, refusals=(UnknownCode,),
    examples={"nominal": Example("A printed size", {"code": "size.nominal-for-actual"})},
))  # fmt: skip
def explain_finding(code: str) -> Response:
    """What a finding says, on what basis, and why it matters."""
    read_query(_FORM)
    rule = rule_for(code)
    answer = {
        "code": rule.code,
        "title": rule.title,
        "severity": rule.severity,
        "basis": rule.basis,
        "why": rule.why,
        "numbers": dict(rule.numbers),
        **carried(house().catalog, sources=rule.sources),
    }
    return answered(answer, [*_lines(rule), *shown.closing(answer)])


def _lines(rule: Rule) -> Iterator[str]:
    yield f"{rule.code}: {rule.title} ({rule.severity}, {rule.basis})"
    for paragraph in rule.why.split("\n\n"):
        yield from ("", " ".join(paragraph.split()))
    yield ""
