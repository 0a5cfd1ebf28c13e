"""Answers that a caller may keep: strong ETags, and 304 where nothing has changed (RFC 9110)."""

import hashlib

from flask import Response, request

CACHED = "public, max-age=3600, stale-while-revalidate=86400"


def etag_of(body: bytes) -> str:
    """The strong ETag of some bytes, without its quotes."""
    return hashlib.sha256(body).hexdigest()[:24]


def kept(body: bytes, media_type: str, etag: str | None = None) -> Response:
    """The bytes with their strong ETag, or 304 without them where the caller has these already."""
    tag = etag.strip('"') if etag else etag_of(body)
    unchanged = request.if_none_match.contains_weak(tag)
    response = Response(b"" if unchanged else body, 304 if unchanged else 200)
    if unchanged:
        del response.headers["Content-Type"]
    else:
        response.mimetype = media_type
    response.set_etag(tag)
    response.headers["Cache-Control"] = CACHED
    response.vary.add("Accept")
    return response
