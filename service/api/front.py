"""GET /: what can be asked, with lines to paste."""

from collections.abc import Iterator

from flask import Blueprint, Response, request

from service.api.answers import as_json, as_text, chosen_form
from service.api.described import browsing
from service.api.described.operations import SERVICE, Example, Operation, described_as
from service.api.description import ADDRESS
from service.api.house import house
from service.api.lines_to_paste import ABOUT, Question, pasted
from service.api.pages import FRONT, page_file
from service.api.parameters import QueryForm, read_query

routes = Blueprint("front", __name__)

_FORM = QueryForm()


@routes.get("/")
@described_as(Operation(
    "showFront", "What can be asked?",
    "The questions with lines to paste: text for curl, JSON for programs, a page for a browser.",
    browsing.FRONT, SERVICE, _FORM, forms=("text", "json", "html"), keeps=True,
    links="service-desc",
    examples={"all": Example("All of them", {"format": "json"})},
))  # fmt: skip
def show_front() -> Response:
    """The questions: text for curl, JSON for programs; the phone page for a browser."""
    read_query(_FORM)
    form, address = chosen_form("text", "json", "html"), request.host_url
    questions = list(pasted(address))
    if form == "html":
        response = page_file(FRONT)
    elif form == "json":
        response = as_json({
            "about": ABOUT,
            "manual": f"{address}docs",
            "questions": [
                {"about": group, "asks": one.asks, "line": one.line} for group, one in questions
            ],
            "edition": house().catalog.edition,
        })  # fmt: skip
    else:
        response = as_text(_text(questions, address))
    response.headers["Link"] = f'<{ADDRESS}>; rel="service-desc"'
    response.headers.add("Vary", "Accept")
    return response


def _text(questions: list[tuple[str, Question]], address: str) -> Iterator[str]:
    yield ABOUT
    yield f"In a browser: {address} and, with every field and finding, {address}docs"
    yield "Without format=text the same answers come as JSON, for programs."
    before = ""
    for group, one in questions:
        if group != before:
            yield from ("", f"{group.upper()}")
            before = group
        yield from (f"# {one.asks}", one.line)
