"""POST /v1/check: will it go together?"""

from collections import Counter
from collections.abc import Iterator, Mapping
from typing import Any

from flask import Blueprint, Response, request

from service.api import found, shown
from service.api.answers import answered, carried
from service.api.bodies import read_json
from service.api.documents.fields import Word
from service.api.house import house
from service.api.parameters import QueryForm, read_query
from service.api.patching import mended
from service.api.reading import read_as
from service.domain.checking import Checked, check
from service.domain.deadline import kept_time
from service.planning.yielding import purchasing_of

routes = Blueprint("check", __name__)

MOST_ROUNDS = 10  # mends of at most so many codes in one answer


class CheckQuery(QueryForm):
    """Whether to give the build back with every exact mend applied."""

    mended = Word("true", "false", load_default="false")


_QUERY = CheckQuery()


@routes.post("/v1/check")
def check_build() -> Response:
    """Findings, worst first, and what was not judged."""
    asked = read_query(_QUERY)
    document = read_json(request)
    checked = check(read_as(house().build_form, document), house().catalog, purchasing_of)
    answer = _answer(checked)
    if asked["mended"] == "true":
        answer["mended"] = _mended(document, checked)
    return answered(answer, shown.folded(_lines(answer)))


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


def _answer(checked: Checked) -> dict[str, Any]:
    resolved = checked.resolved
    named = [source for finding in checked.findings for source in finding.sources]
    return {
        "verdict": checked.verdict,
        "findings": [found.finding(f, resolved.metric) for f in kept_time(checked.findings)],
        "not_judged": list(checked.not_judged),
        "parts": [found.part(part, resolved.metric) for part in kept_time(resolved.parts)],
        **carried(resolved.catalog, _rows(checked), resolved.assumed, named),
    }


def _lines(answer: Mapping[str, Any]) -> Iterator[str]:
    findings = answer["findings"]
    counts = Counter(finding["severity"] for finding in findings)
    said = [f"{n} {word}{'' if n == 1 else 's'}" for word, n in counts.items()]  # worst first
    yield f"{answer['verdict']}: {', '.join(said)}" if said else answer["verdict"]
    for finding in findings:
        yield from ("", f"{finding['severity']}: {finding['title']}", f"  at {finding['at']}")
        yield f"  {finding['detail']}"
        if finding["mend"]:
            yield f"  mend: {finding['mend']['words']}"
        yield f"  why: {finding['why']}"
    yield from ("", "not judged:", *(f"  {text}" for text in answer["not_judged"]), "")
    yield from shown.closing(answer)


def _rows(checked: Checked) -> Iterator[str]:
    for finding in checked.findings:
        yield from finding.rests_on
    for part in checked.resolved.parts:
        yield from part.rests_on
