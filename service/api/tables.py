"""GET /v1/tables…: the reference tables, whole or in part, with where each value comes from."""

from collections.abc import Iterable, Mapping
from typing import Any, Literal, NamedTuple, cast
from urllib.parse import urlencode

import orjson
from flask import Blueprint, Response, request

from service.api import table_lines
from service.api.answers import MEDIA_TYPES, as_text, chosen_form
from service.api.conditional import etag_of, kept
from service.api.described import browsing
from service.api.described.operations import TABLES, Example, Operation, described_as
from service.api.documents.fields import Text
from service.api.documents.forms import nearest, shown
from service.api.house import house
from service.api.parameters import QueryForm, WholeText, loaded, read_query, refuse_repeated
from service.api.refusals import Fault, InvalidParameter
from service.domain.errors import UnknownColumn, UnknownCursor, UnknownKey, UnknownTable
from service.reference.columns import key_in
from service.reference.shelf import MOST_ROWS, Page, Shelf

routes = Blueprint("tables", __name__)

Form = Literal["json", "csv", "text"]


class _Made(NamedTuple):
    """A page as it was sent, with its shelf, so that the shelf's identity stays taken."""

    shelf: Shelf
    body: bytes
    etag: str
    link: str | None


MOST_KEPT = 16  # pages, of 500 rows at most: some megabytes
_PAGES: dict[tuple[int, bytes], _Made] = {}  # by shelf and query, just as it was written


class PageQuery(QueryForm):
    """Which part of a table; its columns are parameters too."""

    sort = Text()
    limit = WholeText(1, 10**8)
    cursor = Text(400)


_PLAIN, _PAGE = QueryForm(), PageQuery()


@routes.get("/v1/tables")
@described_as(Operation(
    "listTables", "Which tables are there?",
    "Every reference table: what it is, and what its columns hold.",
    browsing.TABLES, TABLES, _PLAIN, keeps=True,
    examples={"all": Example("All of them", long=True)},
))  # fmt: skip
def list_tables() -> Response:
    """Every table: what it is, and what its columns hold."""
    read_query(_PLAIN)
    form = chosen_form("json", "text")
    tables = house().tables
    described = list(tables.descriptions())
    if form == "text":
        return _text(table_lines.listed(described, tables.edition))
    return _json({"edition": tables.edition, "tables": described, "assumed": [], "sources": []})


@routes.get("/v1/tables/<table>")
@described_as(Operation(
    "readTable", "A table, in part",
    "The rows of a table that every filter holds for. A column's name is a parameter that filters "
    "by it. The next page is at the cursor, and in the Link header.",
    browsing.TABLE, TABLES, _PAGE, {"table": "Name of the table."}, forms=("json", "csv", "text"),
    refusals=(UnknownTable, UnknownColumn, UnknownCursor), keeps=True, links="next", filters=True,
    examples={
        "boards": Example("The sizes of a 1x6", {"table": "lumber_sizes", "stock": "1x6"}),
    },
))  # fmt: skip
def read_table(table: str) -> Response:
    """The rows of a table that every filter holds for."""
    shelf = house().tables.table(table)
    form = cast(Form, chosen_form("json", "csv", "text"))
    made = _PAGES.get((id(shelf), request.query_string)) if form == "json" else None
    if made is not None:
        return _linked(kept(made.body, MEDIA_TYPES["json"], made.etag), made.link)
    filters, page = _asked(shelf)
    if form != "text" and not filters and not page.keys() & {"sort", "limit", "cursor"}:
        return _whole(shelf, form)
    return _part(shelf, form, filters, page)


def _whole(shelf: Shelf, form: Literal["json", "csv"]) -> Response:
    """The bytes that were prepared at start."""
    prepared = house().tables.whole(shelf.name, form)
    more = form == "json" and len(shelf.cells) > MOST_ROWS
    response = kept(prepared.body, MEDIA_TYPES[form], prepared.etag)
    return _linked(response, _link(shelf.page({}).next if more else None))


def _part(
    shelf: Shelf, form: Form, filters: Mapping[str, str], page: Mapping[str, Any]
) -> Response:
    sort, limit, cursor = page.get("sort"), page.get("limit"), page.get("cursor")
    if form == "csv":
        cells, following = shelf.found(filters, sort, limit, cursor)
        return _linked(kept(shelf.csv(cells).encode(), MEDIA_TYPES["csv"]), _link(following))
    if form == "text":
        found = shelf.page(filters, sort, limit, cursor)
        cells, _ = shelf.found(filters, sort, len(found.rows), cursor)
        lines = table_lines.rows(shelf, cells, house().tables.answer(shelf.name, found))
        return _linked(_text(lines), _link(found.next))
    found = shelf.page(filters, sort, limit, cursor)
    body = _bytes(house().tables.answer(shelf.name, found))
    made = _Made(shelf, body, etag_of(body), _link(found.next))
    for oldest in list(_PAGES)[: len(_PAGES) - MOST_KEPT + 1]:
        _PAGES.pop(oldest, None)
    _PAGES[id(shelf), request.query_string] = made
    return _linked(kept(made.body, MEDIA_TYPES["json"], made.etag), made.link)


@routes.get("/v1/tables/<table>/<path:key>")
@described_as(Operation(
    "readRow", "One row of a table",
    "A row by its key, with where its values come from.",
    browsing.TABLE_ROW, TABLES, _PLAIN,
    {"table": "Name of the table.", "key": "Key of the row."},
    forms=("json", "csv", "text"), refusals=(UnknownTable, UnknownKey), keeps=True,
    examples={"glue": Example("A glue", {"table": "glues", "key": "construction-adhesive"})},
))  # fmt: skip
def read_row(table: str, key: str) -> Response:
    """One row of a table."""
    read_query(_PLAIN)
    tables, shelf = house().tables, house().tables.table(table)
    row = shelf.row(key)
    form, answer = chosen_form("json", "csv", "text"), tables.answer(table, Page((row,), None))
    if form != "json":
        cells = [cells for cells in shelf.cells if key_in(shelf.model, cells) == key]
        if form == "text":
            return _text(table_lines.rows(shelf, cells, answer))
        return kept(shelf.csv(cells).encode(), MEDIA_TYPES["csv"])
    return _json({
        "edition": answer["edition"],
        "table": table,
        "row": row,
        "assumed": answer["assumed"],
        "sources": answer["sources"],
    })  # fmt: skip


def _text(lines: Iterable[str]) -> Response:
    return kept(as_text(lines).get_data(), MEDIA_TYPES["text"])


def _json(value: Mapping[str, Any]) -> Response:
    return kept(_bytes(value), MEDIA_TYPES["json"])


def _bytes(value: Mapping[str, Any]) -> bytes:
    # Names of columns are SQLAlchemy's own kind of text, which orjson takes only when told.
    options = orjson.OPT_INDENT_2 | orjson.OPT_APPEND_NEWLINE | orjson.OPT_NON_STR_KEYS
    return orjson.dumps(value, option=options)


def _asked(shelf: Shelf) -> tuple[dict[str, str], dict[str, Any]]:
    """Filters by column, and which page. Raises InvalidParameter for what is neither."""
    if not request.args:
        return {}, {}
    refuse_repeated()
    known = [*_PAGE.fields, *shelf.kinds]
    unknown = [name for name in request.args if name not in known]
    if unknown:
        faults = (Fault(_no_such(name, shelf, known), parameter=name[:60]) for name in unknown)
        raise InvalidParameter("The table has no such column.", *faults)
    given = request.args.to_dict()
    page = {name: given.pop(name) for name in _PAGE.fields if name in given}
    return given, loaded(_PAGE, page)


def _no_such(name: str, shelf: Shelf, known: Iterable[str]) -> str:
    return f"{shelf.name} has no column {shown(name)}{nearest(name, known)}"


def _link(cursor: str | None) -> str | None:
    """The address of the next page, for those who read headers (RFC 8288)."""
    if cursor is None:
        return None
    query = urlencode({**request.args.to_dict(), "cursor": cursor})
    return f'<{request.path}?{query}>; rel="next"'


def _linked(response: Response, link: str | None) -> Response:
    if link is not None:
        response.headers["Link"] = link
    return response
