"""GET /openapi.json and /v1/schemas/{name}: what can be asked, for programs that read it."""

from collections.abc import Callable
from functools import lru_cache

import orjson
from flask import Blueprint, Response
from werkzeug.exceptions import NotFound

from service.api.answers import MEDIA_TYPES, chosen_form
from service.api.conditional import kept
from service.api.described import browsing
from service.api.described.operations import SERVICE, Example, Operation, described_as
from service.api.documents.build import MOST_PARTS, BuildForm
from service.api.documents.schemas import Book, Json
from service.api.handout import handout_schema
from service.api.house import house
from service.api.parameters import QueryForm, read_query
from service.api.resize import resize_schema
from service.settings import PROJECT

routes = Blueprint("description", __name__)

FILE = PROJECT / "openapi" / "openapi.json"
ADDRESS = "/openapi.json"
BODIES: dict[str, Callable[[Book, BuildForm], Json]] = {
    "build": lambda book, form: book.form(form),
    "resize": resize_schema,
    "handout": handout_schema,
}

_QUERY = QueryForm()


@routes.get(ADDRESS)
@described_as(Operation(
    "readDescription", "What can be asked, for programs?",
    "This document: every operation, every field and every finding.",
    browsing.DESCRIPTION, SERVICE, _QUERY, forms=("json",), keeps=True,
    examples={"all": Example("All of it", long=True)},
))  # fmt: skip
def read_description() -> Response:
    """The published description, with the number of parts that this service takes."""
    read_query(_QUERY)
    chosen_form("json")
    return kept(_document(house().settings.max_parts), MEDIA_TYPES["json"])


@routes.get("/v1/schemas/<name>")
@described_as(Operation(
    "readSchema", "What may a document hold?",
    "The JSON Schema (2020-12) of the body of a request, standing alone: build, resize or "
    "handout.",
    browsing.SCHEMA, SERVICE, _QUERY, {"name": "build, resize or handout."}, forms=("json",),
    refusals=(NotFound,), keeps=True,
    examples={"resize": Example("A resize", {"name": "resize"}, long=True)},
))  # fmt: skip
def read_schema(name: str) -> Response:
    """The schema of one kind of document."""
    read_query(_QUERY)
    chosen_form("json")
    if name not in BODIES:
        raise NotFound
    return kept(_schema(name, house().settings.max_parts), MEDIA_TYPES["json"])


@lru_cache(maxsize=4)
def _document(most_parts: int) -> bytes:
    content = FILE.read_bytes()
    if most_parts == MOST_PARTS:
        return content
    document = orjson.loads(content)
    document["components"]["schemas"]["Build"]["properties"]["parts"]["maxItems"] = most_parts
    return orjson.dumps(document, option=orjson.OPT_INDENT_2 | orjson.OPT_APPEND_NEWLINE)


@lru_cache(maxsize=4)
def _schema(name: str, most_parts: int) -> bytes:
    book, form = Book(), BuildForm(most_parts)
    whole = {"$id": f"/v1/schemas/{name}", **book.whole(BODIES[name](book, form))}
    return orjson.dumps(whole, option=orjson.OPT_INDENT_2 | orjson.OPT_APPEND_NEWLINE)
