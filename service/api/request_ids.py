"""A name for each request, which its answer, its problem and its line in the log all say."""

import re
from secrets import token_hex

from flask import g, request

HEADER = "X-Request-Id"
GIVEN = re.compile(r"[A-Za-z0-9][A-Za-z0-9._-]{0,63}")


def request_id() -> str:
    """The id that the caller or a proxy gave, where it is one; else one made up, once a request."""
    known: str | None = g.get("request_id")
    if known is None:
        given = request.headers.get(HEADER, "")
        known = g.request_id = given if GIVEN.fullmatch(given) else token_hex(8)
    return known
