"""Values to bytes: JSON for programs and curl, text for people, CSV for spreadsheets."""

from collections.abc import Callable, Iterable, Mapping
from decimal import Decimal
from typing import Any

import orjson
from flask import Response, request
from werkzeug.datastructures import MIMEAccept

from service.api.folding import folded
from service.api.refusals import Fault, InvalidParameter, NothingAcceptable
from service.domain.catalog import Catalog, Cited, Source

MEDIA_TYPES = {
    "json": "application/json",
    "text": "text/plain",
    "csv": "text/csv",
    "html": "text/html",
    "md": "text/markdown",
    "pdf": "application/pdf",
    "svg": "image/svg+xml",
}
PAGE_POLICY = (
    "default-src 'none'; style-src 'unsafe-inline'; base-uri 'none'; form-action 'none'; "
    "frame-ancestors 'none'"
)


def chosen_form(*offered: str) -> str:
    """The form to answer in: `?format=` wins, then the best of Accept, else the first offered.

    An Accept that names nothing takes anything. Raises InvalidParameter and NothingAcceptable.
    """
    if "format" in request.args:
        asked = request.args["format"]
        if asked in offered:
            return asked
        raise InvalidParameter(
            "That form is not offered here.",
            Fault(f"format is one of {', '.join(offered)}.", parameter="format"),
        )
    if "HTTP_ACCEPT" not in request.environ:
        return offered[0]
    # An answer has one charset and no other parameter, so those of Accept can't part two forms.
    taken = MIMEAccept((kind.partition(";")[0].strip(), q) for kind, q in request.accept_mimetypes)
    if not taken:
        return offered[0]
    by_type = {MEDIA_TYPES[form]: form for form in offered}
    best = taken.best_match(list(by_type))
    if best is None:
        raise NothingAcceptable(f"Offered here: {', '.join(by_type)}.")
    return by_type[best]


def as_json(value: Any, status: int = 200) -> Response:
    """JSON, indented, with a final newline, so that it reads well in a terminal."""
    content = orjson.dumps(
        value, default=_plainly, option=orjson.OPT_INDENT_2 | orjson.OPT_APPEND_NEWLINE
    )
    return Response(content, status, mimetype=MEDIA_TYPES["json"])


def _plainly(value: object) -> object:
    if isinstance(value, Decimal):
        return str(value)
    if isinstance(value, Mapping):
        return dict(value)
    raise TypeError(f"no JSON for {type(value).__name__}")


def as_text(lines: Iterable[str]) -> Response:
    """Plain lines in 80 columns, each with its newline."""
    content = "".join(f"{line}\n" for line in folded(lines))
    return Response(content, mimetype=MEDIA_TYPES["text"])


def as_page(html: str) -> Response:
    """A page for a browser, which may carry its own style and nothing else."""
    response = Response(html, mimetype=MEDIA_TYPES["html"])
    response.headers["Content-Security-Policy"] = PAGE_POLICY
    return response


def answered(value: Mapping[str, Any], lines: Iterable[str]) -> Response:
    """An answer to a one-line question, in JSON or in text as asked."""
    response = as_text(lines) if chosen_form("json", "text") == "text" else as_json(value)
    response.headers.add("Vary", "Accept")
    return response


def content_in(form: str, forms: Mapping[str, Callable[[], Any]]) -> bytes:
    """An answer in one of several forms, only that one made: json, text or svg."""
    made = forms[form]()
    if form == "json":
        return as_json(made).get_data()
    return as_text(made).get_data() if form == "text" else bytes(made, "utf-8")


def as_content(form: str, content: bytes) -> Response:
    """Bytes that are made already, in a form that depends on Accept."""
    response = Response(content, mimetype=MEDIA_TYPES[form])
    response.headers.add("Vary", "Accept")
    return response


def carried(
    catalog: Catalog,
    rests_on: Iterable[str] = (),
    assumed: Iterable[str] = (),
    sources: Iterable[str] = (),
) -> dict[str, Any]:
    """What every answer carries: the edition of the tables, what was assumed, and the sources."""
    # Rows and sources are shown as they were before: there are as many as the tables have.
    rows = catalog.worked_out.setdefault("rows shown", {})
    known = catalog.worked_out.setdefault("sources shown", {})
    shown = [
        rows.get(row) or rows.setdefault(row, _row(catalog.cited[row]))
        for row in dict.fromkeys(rests_on)
    ]
    named = dict.fromkeys([*sources, *(row["source"] for row in shown)])
    return {
        "edition": catalog.edition,
        "assumed": list(assumed),
        "rests_on": shown,
        "sources": [
            known.get(source) or known.setdefault(source, _source(catalog.sources[source]))
            for source in named
        ],
    }


def _row(one: Cited) -> dict[str, Any]:
    return {
        "row": one.row,
        "source": one.source,
        "locator": one.locator,
        "confidence": one.confidence,
        "basis": one.basis,
    }


def _source(one: Source) -> dict[str, Any]:
    return {
        "id": one.id,
        "title": one.title,
        "publisher": one.publisher or None,
        "year": one.year or None,
        "kind": one.kind,
    }
