"""A name for each request, which its answer, its problem and its line in the log all say."""

import re
from os import urandom

from flask import g, request

HEADER = "X-Request-Id"
IN_ENVIRON = "HTTP_X_REQUEST_ID"  # the same field as WSGI names it, quicker to look up
GIVEN = re.compile(r"[A-Za-z0-9][A-Za-z0-9._-]{0,63}")


def request_id() -> str:
    """The id that the caller or a proxy gave, where it is one; else one made up, once a request."""
    known: str | None = g.get("request_id")
    if known is None:
        given = request.environ.get(IN_ENVIRON, "")
        known = g.request_id = given if GIVEN.fullmatch(given) else urandom(8).hex()
    return known
