"""Headers that every answer carries, whatever it says."""

from flask import Flask, Response

FIXED = {
    "X-Content-Type-Options": "nosniff",
    "Content-Security-Policy": "default-src 'none'; frame-ancestors 'none'",
    "Referrer-Policy": "no-referrer",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Cache-Control": "no-cache",
}
_LOWER = tuple((name.lower(), name, value) for name, value in FIXED.items())


def set_headers(app: Flask) -> None:
    """Add the fixed headers to every answer that has not set its own."""

    @app.after_request
    def _fixed(response: Response) -> Response:
        own = {name.lower() for name, _ in response.headers}
        for lower, name, value in _LOWER:
            if lower not in own:
                response.headers.add(name, value)
        return response
