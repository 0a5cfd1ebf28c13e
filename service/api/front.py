"""GET /: what can be asked, with lines to paste."""

from collections.abc import Iterator
from html import escape

from flask import Blueprint, Response, request

from service.api.answers import as_json, as_page, as_text, chosen_form
from service.api.house import house
from service.api.lines_to_paste import ABOUT, Question, pasted
from service.api.parameters import QueryForm, read_query

routes = Blueprint("front", __name__)

_PAGE = """<!doctype html>
<html lang="en">
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>Dryfit</title>
<style>
body {{ font: 1rem/1.5 system-ui, sans-serif; margin: 2rem auto }}
body {{ max-width: 44rem; padding: 0 1rem }}
pre {{ background: #f2efe9; color: #222; padding: .75rem; white-space: pre-wrap }}
</style>
<h1>Dryfit</h1>
<p>{about}</p>
{questions}
</html>
"""

_FORM = QueryForm()


@routes.get("/")
def show_front() -> Response:
    """The questions: text for curl, JSON for programs, a page for a browser."""
    read_query(_FORM)
    form, address = chosen_form("text", "json", "html"), request.host_url
    questions = list(pasted(address))
    if form == "html":
        response = as_page(_page([one for _, one in questions]))
    elif form == "json":
        response = as_json({
            "about": ABOUT,
            "manual": f"{address}docs/",
            "questions": [
                {"about": group, "asks": one.asks, "line": one.line} for group, one in questions
            ],
            "edition": house().catalog.edition,
        })  # fmt: skip
    else:
        response = as_text(_text(questions, address))
    response.vary.add("Accept")
    return response


def _text(questions: list[tuple[str, Question]], address: str) -> Iterator[str]:
    yield ABOUT
    yield f"In a browser: {address} and, with every field and finding, {address}docs/"
    yield "Without format=text the same answers come as JSON, for programs."
    before = ""
    for group, one in questions:
        if group != before:
            yield from ("", f"{group.upper()}")
            before = group
        yield from (f"# {one.asks}", one.line)


def _page(questions: list[Question]) -> str:
    told = "\n".join(
        f"<h2>{escape(one.asks)}</h2>\n<pre>{escape(one.line)}</pre>" for one in questions
    )
    return _PAGE.format(about=escape(ABOUT), questions=told)
