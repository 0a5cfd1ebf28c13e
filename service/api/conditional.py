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
    headers = {"ETag": f'"{tag}"', "Cache-Control": CACHED, "Vary": "Accept"}
    if _is_had(tag):
        return Response(status=304, headers=headers)
    return Response(body, headers=headers, mimetype=media_type)


def _is_had(tag: str) -> bool:
    """Whether the caller has the bytes of that tag; most send the one tag back as it was."""
    given = request.environ.get("HTTP_IF_NONE_MATCH")
    if given is None:
        return False
    return given == f'"{tag}"' or request.if_none_match.contains_weak(tag)
