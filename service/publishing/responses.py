"""What an operation can answer, as OpenAPI responses: every form, every refusal, every header."""

from collections.abc import Iterable, Iterator, Mapping
from itertools import groupby
from typing import Any

from service.api.answers import MEDIA_TYPES
from service.api.described.browsing import PROBLEM
from service.api.described.operations import SERVICE, TABLES, Operation
from service.api.described.words import TEXT
from service.api.documents.schemas import Json
from service.api.problems import MEDIA_TYPE, known_problems, slug_of
from service.api.refusals import (
    InvalidDocument,
    InvalidParameter,
    NothingAcceptable,
    NotJson,
    QuotaExceeded,
    RepeatedName,
    TooManyValues,
    UnreadableMediaType,
)
from service.domain.errors import OutOfTime

BYTES: Json = {"type": "string", "format": "binary"}
OF_A_BODY = (NotJson, RepeatedName, TooManyValues, UnreadableMediaType, InvalidDocument)
BY_FRAMEWORK = {"NotFound": "unknown-route"}
BODY_TOO_LARGE, INTERNAL_ERROR = "body-too-large", "internal-error"
ADDRESS_TOO_LONG = "address-too-long"  # over 8,190 bytes; refused by the server itself
# Asked by machines all the time, so nobody counts.
FREE = frozenset({"sayAlive", "sayReady", "showMetrics"})

HEADERS: dict[str, Json] = {
    "ETag": {"description": "Strong tag of the answer.", "schema": {"type": "string"}},
    "Link": {"description": "Related addresses (RFC 8288).", "schema": {"type": "string"}},
    "Retry-After": {"description": "Seconds to wait.", "schema": {"type": "integer"}},
    "X-Request-Id": {
        "description": "Id of the request: the caller's own, or a new one.",
        "schema": {"type": "string"},
    },
    "RateLimit": {
        "description": "Where quotas are on: what is left of each, and seconds until it is whole.",
        "schema": {"type": "string"},
    },
    "RateLimit-Policy": {
        "description": "Where quotas are on: requests and seconds of each.",
        "schema": {"type": "string"},
    },
    "Vary": {
        "description": "Headers of the request that decide the form.",
        "schema": {"type": "string"},
    },
    "Cache-Control": {"description": "How long to keep it.", "schema": {"type": "string"}},
}
ALWAYS, QUOTAS, WITH_RETRY = ("X-Request-Id",), ("RateLimit", "RateLimit-Policy"), (429, 503)
NOTES = {
    "json": "Values for programs.",
    "md": "Markdown.",
    "pdf": "To print.",
    "text": "Lines for people, 80 columns.",
    "csv": "RFC 4180, a header line first.",
    "svg": "The drawing alone.",
    "html": "A page for a browser.",
}


def responses_of(operation: Operation, asks_query: bool, answers: Mapping[str, Any]) -> Json:
    """Every response by its status."""
    responses: Json = {"200": _answer(operation, answers)}
    if operation.keeps:
        told = "The caller has it already."
        responses["304"] = {
            "description": told,
            "headers": _headers("ETag", "Cache-Control", *ALWAYS),
        }
    for status, slugs in by_status(slugs_of(operation, asks_query)):
        responses[str(status)] = _refusal(status, slugs)
    return dict(sorted(responses.items()))


def _answer(operation: Operation, answers: Mapping[str, Any]) -> Json:
    content: Json = {}
    for form in operation.forms:
        schema = operation.answer if form == "json" else BYTES if form == "pdf" else TEXT
        content[MEDIA_TYPES[form]] = {"schema": schema}
    content |= {media: {"schema": TEXT} for media in operation.media}
    if answers and "json" in operation.forms:
        content[MEDIA_TYPES["json"]]["examples"] = {
            name: {"summary": operation.examples[name].asks, "value": value}
            for name, value in answers.items()
        }
    names = [
        *(("ETag",) if operation.keeps else ()),
        *(("Link",) if operation.links else ()),
        *(("Vary",) if len(operation.forms) > 1 else ()),
        "Cache-Control",
        *ALWAYS,
        *(QUOTAS if operation.id not in FREE else ()),
    ]
    told = " ".join(f"`{MEDIA_TYPES[form]}`: {NOTES[form]}" for form in operation.forms)
    return {"description": told or "The file.", "headers": _headers(*names), "content": content}


def slugs_of(operation: Operation, asks_query: bool) -> list[str]:
    """The types of problem that an operation can answer with."""
    kinds: list[type[Exception]] = list(OF_A_BODY) if operation.body else []
    kinds += [InvalidParameter] if asks_query else []
    kinds += [NothingAcceptable] if asks_query else []
    kinds += operation.refusals
    kinds += [QuotaExceeded] if operation.id not in FREE else []
    kinds += [OutOfTime] if operation.group not in (TABLES, SERVICE) else []
    slugs = [BY_FRAMEWORK.get(kind.__name__) or slug_of(kind) for kind in kinds]
    slugs += [BODY_TOO_LARGE] if operation.body else []
    slugs += [ADDRESS_TOO_LONG] if asks_query else []
    return list(dict.fromkeys([*slugs, INTERNAL_ERROR]))


def by_status(slugs: Iterable[str]) -> Iterator[tuple[int, list[str]]]:
    """Types of problem, gathered by the status that they come with."""
    known = known_problems()
    ordered = sorted(slugs, key=lambda slug: known[slug][0])
    for status, group in groupby(ordered, key=lambda slug: known[slug][0]):
        yield status, list(group)


def _refusal(status: int, slugs: list[str]) -> Json:
    known = known_problems()
    told = " ".join(f"`/problems/{slug}`: {known[slug][1]}" for slug in slugs)
    headers = _headers(*(("Retry-After",) if status in WITH_RETRY else ()), *ALWAYS)
    schema = PROBLEM | {"x-problem-types": [f"/problems/{slug}" for slug in slugs]}
    content = {MEDIA_TYPE: {"schema": schema}}
    return {"description": told, "headers": headers, "content": content}


def _headers(*names: str) -> Json:
    return {name: {"$ref": f"#/components/headers/{name}"} for name in names}
