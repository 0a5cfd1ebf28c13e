"""Bytes to plain JSON values, strictly.

orjson refuses what the standard library lets through: NaN, numbers beyond a double, more than
1,024 levels, half surrogates, bad UTF-8, a byte order mark. It keeps the last of two equal names,
so where one may have been lost, a second reading looks for it.
"""

import json
from typing import Any

import orjson
from flask import Request
from werkzeug.exceptions import HTTPException, RequestEntityTooLarge

from service.api.refusals import NotJson, RepeatedName, TooManyValues, UnreadableMediaType

# A full build of 500 parts has about 15,000. Commas are counted: cheap, and never too few.
MOST_VALUES = 30_000


def read_json(request: Request) -> Any:
    """The JSON value in the body.

    Raises UnreadableMediaType, TooManyValues, NotJson and RepeatedName; and Werkzeug's
    RequestEntityTooLarge where the body is too long.
    """
    _demand_plain_json(request)
    body = _whole_body(request)
    if not body.strip():
        raise NotJson("The body is empty; send the document as JSON.")
    if body.count(b",") > MOST_VALUES:
        raise TooManyValues(f"A document holds {MOST_VALUES:,} values at most.")
    try:
        value = orjson.loads(body)
    except orjson.JSONDecodeError as error:
        raise NotJson(f"The body is not JSON: {error.msg}, line {error.lineno}.") from None
    if not _keeps_every_name(body, value):
        _refuse_repeated_names(body)
    return value


def _whole_body(request: Request) -> bytes:
    """All bytes, or 413; 400 where they do not come as they were announced.

    Werkzeug cuts a body that comes in chunks off at its limit without a word, so that limit is
    set one byte over ours: a body that reaches it was too long.
    """
    try:
        body = request.get_data(cache=False)
    except HTTPException:
        raise
    except Exception:  # each server has its own error for chunks that make no sense
        raise NotJson("The body breaks off, or its chunks make no sense.") from None
    if request.max_content_length is not None and len(body) >= request.max_content_length:
        raise RequestEntityTooLarge
    return body


def _demand_plain_json(request: Request) -> None:
    if request.headers.get("Content-Encoding", "identity").strip().lower() != "identity":
        raise UnreadableMediaType("Send the body as it is, without Content-Encoding.")
    charset = request.mimetype_params.get("charset", "utf-8").lower()
    if request.mimetype != "application/json" or charset not in ("utf-8", "utf8"):
        said = f" not {request.mimetype[:60]}" if request.mimetype else " and say so"
        raise UnreadableMediaType(f"Send Content-Type: application/json in UTF-8,{said}.")


def _keeps_every_name(body: bytes, value: Any) -> bool:
    """Whether no name can have been lost: as many colons were read as were written.

    A name that stands twice is kept once, so written again the value lacks a colon.
    """
    if b"\\u" in body:  # what is escaped may be a colon
        return False
    try:
        return orjson.dumps(value).count(b":") == body.count(b":")
    except orjson.JSONEncodeError:  # nested too deeply to be written
        return False


def _refuse_repeated_names(body: bytes) -> None:
    try:
        # Integers stay text: turning thousands of digits into a number is slow, or refused.
        json.loads(body, object_pairs_hook=_names_once, parse_int=str)
    except RecursionError:
        raise NotJson("The body is nested too deeply.") from None


def _names_once(pairs: list[tuple[str, Any]]) -> None:
    if len(dict(pairs)) == len(pairs):
        return
    seen: set[str] = set()
    for name, _ in pairs:
        if name in seen:
            raise RepeatedName(f"The name {name[:60]!r} stands twice in one object.")
        seen.add(name)
