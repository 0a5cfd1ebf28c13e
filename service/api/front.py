"""GET /: what can be asked, with lines to paste."""

from collections.abc import Iterator
from dataclasses import dataclass

from flask import Blueprint, Response, request

from service.api.answers import as_json, as_text, chosen_form
from service.api.house import house
from service.api.pages import FRONT, page_file
from service.api.parameters import QueryForm, read_query

routes = Blueprint("front", __name__)

ABOUT = "Dryfit: a dry fit on paper. It checks a small woodworking build before a board is bought."


@dataclass(frozen=True, slots=True)
class Question:
    """A question, and a line to paste that asks it; `{at}` is this service's own address."""

    asks: str
    line: str


SHELF = (
    '{"name": "Book ledge", "parts": ['
    '{"id": "shelf", "stock": "1x6", "length": "24", "width": "6"}, '
    '{"id": "back", "stock": "1x4", "length": "24"}]}'
)

QUESTIONS = (
    Question(
        "Will it go together?",
        f"curl -s {{at}}v1/check -H 'Content-Type: application/json' -d '{SHELF}'",
    ),
    Question(
        "Which fastener holds it?",
        "curl -s '{at}v1/fasteners?through=1x4&into=1x4&tools=drill,clamps&format=text'",
    ),
    Question(
        "Is this screw right?",
        "curl -s '{at}v1/fasteners?through=1x4&into=1x4&fastener=8x1-5/8in&format=text'",
    ),
    Question(
        "How is the saw set for a leaning leg?",
        "curl -s '{at}v1/angles/leaning?height=16&lean=12&stock=2x2&format=text'",
    ),
    Question(
        "Where do the slats go?",
        "curl -s '{at}v1/spacing?within=36&pieces=5&piece=1+1/2&format=text'",
    ),
    Question(
        "Will the shelf sag?",
        "curl -s '{at}v1/sag?stock=1x8&span=36&load=40lb&wood=spf&stays=yes&format=text'",
    ),
    Question(
        "How far does a wide board move?",
        "curl -s '{at}v1/movement?wood=red+oak&width=12&humidity=30,60&format=text'",
    ),
    Question("What does it weigh?", "curl -s '{at}v1/weight?stock=2x4&length=8ft&format=text'"),
    Question(
        "Could it tip over?",
        "curl -s '{at}v1/tip-over?height=40&depth=12&weight=60lb&format=text'",
    ),
    Question(
        "Does the screw reach the stud?",
        "curl -s '{at}v1/hanging?rail=36&studs=16&through=3/4&screw=3&format=text'",
    ),
    Question(
        "How much finish?",
        "curl -s '{at}v1/coverage?finish=water-polyurethane&area=20ft2&format=text'",
    ),
    Question("What does a board really measure?", "curl -s '{at}v1/sizes/1x6?format=text'"),
    Question(
        "Which stock measures this?", "curl -s '{at}v1/sizes?thickness=3/4&width=5+1/2&format=text'"
    ),
    Question(
        "How many board feet?",
        "curl -s '{at}v1/board-feet?stock=1x6&length=8ft&count=4&price=3.20&format=text'",
    ),
    Question(
        "What do I drill for that screw?",
        "curl -s '{at}v1/pilot-holes?gauge=8&wood=oak&format=text'",
    ),
    Question(
        "How much can I glue at once?",
        "curl -s '{at}v1/glue-up?glue=yellow+glue&joints=12&minutes_each=1&format=text'",
    ),
    Question(
        "How many clamps?", "curl -s '{at}v1/clamps?length=36&thickness=3/4&wood=pine&format=text'"
    ),
    Question("What does a tape read?", "curl -s '{at}v1/measure?value=527mm&to=1/16&format=text'"),
    Question("Why was that found?", "curl -s {at}v1/why/size.nominal-for-actual"),
    Question("Which tables are there?", "curl -s {at}v1/tables"),
    Question("A table, in part", "curl -s '{at}v1/tables/lumber_sizes?stock=1x6&format=csv'"),
)

_FORM = QueryForm()


@routes.get("/")
def show_front() -> Response:
    """The questions: text for curl, JSON for programs; the phone page for a browser."""
    read_query(_FORM)
    form = chosen_form("text", "json", "html")
    lines = [
        (question.asks, question.line.replace("{at}", request.host_url)) for question in QUESTIONS
    ]
    if form == "html":
        response = page_file(FRONT)
    elif form == "json":
        response = as_json({
            "about": ABOUT,
            "questions": [{"asks": asks, "line": line} for asks, line in lines],
            "edition": house().catalog.edition,
        })  # fmt: skip
    else:
        response = as_text(_text(lines))
    response.vary.add("Accept")
    return response


def _text(lines: list[tuple[str, str]]) -> Iterator[str]:
    yield ABOUT
    for asks, line in lines:
        yield from ("", f"# {asks}", line)
