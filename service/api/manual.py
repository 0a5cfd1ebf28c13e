"""GET /docs/…: the manual, made of what the description, the rules and the tables say."""

from collections import Counter
from collections.abc import Mapping
from functools import cache
from typing import Any

import orjson
from flask import Blueprint, Response, request
from werkzeug.exceptions import NotFound

from service.api import found
from service.api.answers import MEDIA_TYPES, PAGE_POLICY, chosen_form
from service.api.check import answer_of
from service.api.conditional import kept
from service.api.described.operations import SERVICE, Example, Operation, described_as
from service.api.described.words import TEXT
from service.api.description import FILE
from service.api.house import house
from service.api.parameters import QueryForm, read_query
from service.api.problems import known_problems
from service.domain.checking import Checked, check, rule_for
from service.domain.errors import UnknownCode, UnknownTable
from service.domain.findings import Finding
from service.domain.rules import RULES
from service.manual.findings import BASES, KINDS, family
from service.manual.lines import example_lines, source_in_words, table_lines
from service.manual.pages import grouped, made
from service.manual.telling import Question, forms, questions
from service.manual.twins import RISER, SPOILED, Twins, riser, riser_text, twins_by_code
from service.planning.yielding import purchasing_of

routes = Blueprint("manual", __name__)

BUILD = "Build"

_FORM = QueryForm()


@routes.get("/docs", strict_slashes=False)
@described_as(Operation(
    "readManual", "What does the manual hold?",
    "What the pages of the manual hold, how the service answers, and what it refuses.",
    TEXT, SERVICE, _FORM, forms=("html",), keeps=True,
    examples={"page": Example("Read it", long=True)},
))  # fmt: skip
def show_contents() -> Response:
    """What the manual holds, and how the service answers."""
    counts = {"questions": len(_questions()), "findings": len(RULES)}
    tables = len(house().tables.names())
    return _page("contents.html", "/docs", **counts, tables=tables, problems=known_problems())


@routes.get("/docs/example")
@described_as(Operation(
    "readExample", "What does a build look like?",
    "A sound build and its spoiled twin, with what is said of both and lines to paste.",
    TEXT, SERVICE, _FORM, forms=("html",), keeps=True,
    examples={"page": Example("Read it", long=True)},
))  # fmt: skip
def show_example() -> Response:
    """A sound build and its spoiled twin, with what is said of both."""
    twins = riser()
    said = {
        "sound": _said(_checked(twins, twins.sound)),
        "spoiled": _said(_checked(twins, twins.spoiled)),
    }
    spoiled = {"value": twins.spoiled, "at": f"#{twins.at}"}
    lines = example_lines()
    return _page(
        "example.html", "/docs", sound=riser_text(), spoiled=spoiled, said=said, lines=lines
    )


@routes.get("/docs/builds/<name>.json")
@described_as(Operation(
    "readExampleBuild", "How is the example sent on?",
    "A build of the manual as a document: the sound one, or its spoiled twin.",
    {"type": "object"}, SERVICE, _FORM, path={"name": "Name of the build."}, forms=("json",),
    refusals=(NotFound,), keeps=True, examples={"riser": Example("The riser", {"name": RISER})},
))  # fmt: skip
def send_build(name: str) -> Response:
    """A build of the manual, to be sent on to a question."""
    read_query(_FORM)
    chosen_form("json")
    twins = riser()
    values = {RISER: twins.sound, SPOILED: twins.spoiled}
    if name not in values:
        raise NotFound
    written = orjson.dumps(twins.with_value(values[name]), option=orjson.OPT_INDENT_2)
    return kept(written + b"\n", MEDIA_TYPES["json"])


@routes.get("/docs/questions")
@described_as(Operation(
    "readQuestions", "Which questions are there?",
    "Every question by what it is about, each with a page of its own.",
    TEXT, SERVICE, _FORM, forms=("html",), keeps=True,
    examples={"page": Example("Read it", long=True)},
))  # fmt: skip
def list_questions() -> Response:
    """Every question, by what it is about."""
    groups = grouped(_questions(), lambda one: str(one.group))
    return _page("questions.html", "/docs/questions", groups=groups)


@routes.get("/docs/questions/<name>")
@described_as(Operation(
    "readQuestion", "What is this question for?",
    "One question: what it is for, its parameters, lines to paste.",
    TEXT, SERVICE, _FORM, path={"name": "Name of the operation."}, forms=("html",), keeps=True,
    refusals=(NotFound,),
    examples={"page": Example("Read it", {"name": "checkBuild"}, long=True)},
))  # fmt: skip
def show_question(name: str) -> Response:
    """One question: what it is for, its parameters, lines to paste."""
    question = next((one for one in _questions() if one.id == name), None)
    if question is None:
        raise NotFound
    build = {form.name for form in forms(_description(), BUILD)}
    own = question.body not in ("", BUILD)
    told = forms(_description(), question.body) if own else ()
    body = [form for form in told if form.name not in build]
    return _page("question.html", "/docs/questions", question=question, body=body, elsewhere=build)


@routes.get("/docs/build")
@described_as(Operation(
    "readBuildForm", "What may a build hold?",
    "Every field of the build: what it takes, what it means, what holds without it.",
    TEXT, SERVICE, _FORM, forms=("html",), keeps=True,
    examples={"page": Example("Read it", long=True)},
))  # fmt: skip
def show_build() -> Response:
    """Every field of the build."""
    return _page("build.html", "/docs/build", forms=forms(_description(), BUILD))


@routes.get("/docs/findings")
@described_as(Operation(
    "readFindings", "What can be found?",
    "Every code by what it is about, each with a page of its own.",
    TEXT, SERVICE, _FORM, forms=("html",), keeps=True,
    examples={"page": Example("Read it", long=True)},
))  # fmt: skip
def list_findings() -> Response:
    """Every code, by what it is about."""
    return _page("findings.html", "/docs/findings", families=grouped(RULES, family))


@routes.get("/docs/findings/<code>")
@described_as(Operation(
    "readFinding", "What does this finding mean?",
    "One code: why it matters, what mends it, a build that has it and its twin that has not.",
    TEXT, SERVICE, _FORM, path={"code": "Code of the finding."}, forms=("html",), keeps=True,
    refusals=(UnknownCode,),
    examples={"page": Example("Read it", {"code": "run.tight"}, long=True)},
))  # fmt: skip
def show_finding(code: str) -> Response:
    """One code: why, what mends it, a build that has it and its twin that has not."""
    rule, twins = rule_for(code), twins_by_code()[code]
    findings = [one for one in _checked(twins, twins.spoiled).findings if one.code == code]
    named = dict.fromkeys([*rule.sources, *(s for one in findings for s in one.sources)])
    known = house().catalog.sources
    return _page(
        "finding.html", "/docs/findings", rule=rule, twins=twins,
        found=[_in_words(one) for one in findings], sources=[known[name] for name in named],
        kinds=KINDS, bases=BASES,
    )  # fmt: skip


@routes.get("/docs/tables")
@described_as(Operation(
    "readTables", "What do the tables hold?",
    "Every table, each with a page of its own.",
    TEXT, SERVICE, _FORM, forms=("html",), keeps=True,
    examples={"page": Example("Read it", long=True)},
))  # fmt: skip
def list_tables() -> Response:
    """Every table."""
    tables = house().tables
    return _page(
        "tables.html", "/docs/tables", tables=tables.descriptions(), edition=tables.edition
    )


@routes.get("/docs/tables/<name>")
@described_as(Operation(
    "readColumns", "What do the columns of this table hold?",
    "One table: its columns, lines to paste, and where its rows were read.",
    TEXT, SERVICE, _FORM, path={"name": "Name of the table."}, forms=("html",), keeps=True,
    refusals=(UnknownTable,),
    examples={"page": Example("Read it", {"name": "glues"}, long=True)},
))  # fmt: skip
def show_table(name: str) -> Response:
    """One table: its columns, lines to paste, and where its rows were read."""
    shelf = house().tables.table(name)
    counted = Counter(row["source"] for row in shelf.shown.values() if "source" in row)
    known = house().catalog.sources
    sources = sorted(((known[one], n) for one, n in counted.items()), key=lambda one: -one[1])
    lines = list(table_lines(name, next(iter(shelf.shown))))
    return _page(
        "table.html", "/docs/tables", table=shelf.description(), lines=lines, sources=sources
    )


@routes.get("/docs/sources")
@described_as(Operation(
    "readSources", "Where were the numbers read?",
    "Every source, and the tables whose rows were read in it.",
    TEXT, SERVICE, _FORM, forms=("html",), keeps=True,
    examples={"page": Example("Read it", long=True)},
))  # fmt: skip
def list_sources() -> Response:
    """Every source, and the tables whose rows were read in it."""
    tables, used = house().tables, dict[str, list[tuple[str, int]]]()
    for name in tables.names():
        rows = tables.table(name).shown.values()
        for source, count in Counter(row["source"] for row in rows if "source" in row).items():
            used.setdefault(source, []).append((name, count))
    told = [
        {"id": row["id"], "title": row["title"], "told": source_in_words(row),
         "tables": used.get(row["id"], [])}
        for row in tables.table("sources").shown.values()
    ]  # fmt: skip
    return _page("sources.html", "/docs/sources", sources=told)


def _page(template: str, room: str, **values: Any) -> Response:
    """A page with its ETag; the browser may keep it."""
    read_query(_FORM)
    chosen_form("html")
    html = made(template, room, request.host_url, **values)
    response = kept(html.encode(), MEDIA_TYPES["html"])
    response.headers["Content-Security-Policy"] = PAGE_POLICY
    return response


@cache
def _description() -> Any:
    return orjson.loads(FILE.read_bytes())


@cache
def _questions() -> tuple[Question, ...]:
    return questions(_description())


def _checked(twins: Twins, value: Any) -> Checked:
    build = house().build_form.load(twins.with_value(value))
    return check(build, house().catalog, purchasing_of)


def _said(checked: Checked) -> str:
    return "\n".join(found.lines(answer_of(checked)))


def _in_words(one: Finding) -> Mapping[str, Any]:
    return {
        "severity": one.severity,
        "detail": one.detail,
        "mend": one.mend.words if one.mend else None,
    }
