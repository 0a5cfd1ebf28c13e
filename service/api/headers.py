"""Headers that every answer carries, whatever it says."""

from flask import Flask, Response

FIXED = {
    "X-Content-Type-Options": "nosniff",
    "Content-Security-Policy": "default-src 'none'; frame-ancestors 'none'",
    "Referrer-Policy": "no-referrer",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Cache-Control": "no-cache",
}


def set_headers(app: Flask) -> None:
    """Add the fixed headers to every answer that has not set its own."""

    @app.after_request
    def _fixed(response: Response) -> Response:
        for name, value in FIXED.items():
            response.headers.setdefault(name, value)
        return response
