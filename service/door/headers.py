"""Headers that every answer carries, whatever it says."""

from flask import Response, request

FIXED = {
    "X-Content-Type-Options": "nosniff",
    "Content-Security-Policy": "default-src 'none'; frame-ancestors 'none'",
    "Referrer-Policy": "no-referrer",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cache-Control": "no-cache",
}
ONLY_TLS = "max-age=31536000"  # a year, RFC 6797
_LOWER = tuple((name.lower(), name, value) for name, value in FIXED.items())


def set_headers(response: Response) -> None:
    """Add the fixed headers that an answer has not set its own way."""
    own = {name.lower() for name, _ in response.headers}
    for lower, name, value in _LOWER:
        if lower not in own:
            response.headers.add(name, value)
    if request.is_secure:
        response.headers.setdefault("Strict-Transport-Security", ONLY_TLS)
