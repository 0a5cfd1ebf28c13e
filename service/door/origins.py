"""Pages of other origins that may call this service from a browser: an exact list, or none (CORS).

No credentials are allowed: there are none.
"""

from dataclasses import dataclass
from http import HTTPStatus

from flask import Response, request

READABLE = ", ".join(
    ("ETag", "Link", "Location", "RateLimit", "RateLimit-Policy", "Retry-After", "X-Request-Id")
)
SENDABLE = "Content-Type, If-None-Match, X-Request-Id"
METHODS = "GET, HEAD, POST"
KEPT = "600"  # seconds for which a browser may keep the answer to a preflight


@dataclass(frozen=True, slots=True)
class Origins:
    """The origins on the list. An empty list leaves every answer as it is."""

    listed: frozenset[str]

    def preflight(self) -> Response | None:
        """What a browser asks before it sends: answered for listed origins, else not by us."""
        if (
            request.method != "OPTIONS"
            or "Access-Control-Request-Method" not in request.headers
            or request.headers.get("Origin") not in self.listed
        ):
            return None
        response = Response(status=HTTPStatus.NO_CONTENT)
        response.headers["Access-Control-Allow-Methods"] = METHODS
        response.headers["Access-Control-Allow-Headers"] = SENDABLE
        response.headers["Access-Control-Max-Age"] = KEPT
        return response

    def mark(self, response: Response) -> None:
        """Let the page that asked read the answer, where it is on the list."""
        if not self.listed:
            return
        response.vary.add("Origin")
        origin = request.headers.get("Origin")
        if origin in self.listed:
            response.headers["Access-Control-Allow-Origin"] = origin
            response.headers["Access-Control-Expose-Headers"] = READABLE


def origins_of(setting: str) -> Origins:
    """The list as the settings give it."""
    return Origins(frozenset() if setting == "none" else frozenset(setting.split(",")))
