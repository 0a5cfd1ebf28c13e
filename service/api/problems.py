"""Every refusal as problem details (RFC 9457): the only status codes for refusals.

`type` is ``/problems/<slug>``, which stays; a GET there explains it.
"""

import re
from collections.abc import Iterable, Mapping
from http import HTTPStatus
from typing import Any
from urllib.parse import quote

import orjson
from flask import Blueprint, Flask, Response, current_app, request
from werkzeug.exceptions import HTTPException, NotFound

from service.api import refusals
from service.api.answers import as_json
from service.api.described import browsing
from service.api.described.operations import SERVICE, Example, Operation, described_as
from service.api.refusals import Fault
from service.api.request_ids import request_id
from service.domain import errors
from service.domain.angles.answer import NotFigured
from service.domain.board_feet import NotCounted
from service.domain.resizing import answer as resizing

MEDIA_TYPE = "application/problem+json"
MOST_ERRORS = 50
IN_A_PATH = "/:@!$&'()*+,;=~-._"  # what RFC 3986 lets stand in a path as it is

# The domain knows no HTTP, so its refusals get their status here, beside our own.
STATUS: dict[type[Exception], int] = {
    errors.UnknownName: 422,
    errors.UnknownCode: 404,
    errors.UnknownTable: 404,
    errors.UnknownKey: 404,
    errors.UnknownColumn: 422,
    errors.UnknownCursor: 422,
    NotCounted: 422,
    resizing.CannotResize: 422,
    resizing.UnknownInResize: 422,
    resizing.RunsContradict: 422,
    resizing.NothingGives: 422,
    resizing.SeveralCanGive: 422,
    resizing.NothingLeft: 422,
    NotFigured: 422,
    refusals.NotJson: 400,
    refusals.RepeatedName: 400,
    refusals.TooManyValues: 413,
    refusals.UnreadableMediaType: 415,
    refusals.InvalidDocument: 422,
    refusals.InvalidParameter: 422,
    refusals.NothingAcceptable: 406,
    refusals.NotReady: 503,
    refusals.QuotaExceeded: 429,
    errors.OutOfTime: 503,
}

# Seconds after which the same request may do better.
RETRY_AFTER: dict[type[Exception], int] = {refusals.NotReady: 5, errors.OutOfTime: 30}

PARAMETER_OF = {
    errors.UnknownColumn: "sort",
    errors.UnknownCursor: "cursor",
}  # filters are refused before, as parameters

# Statuses that the framework, the server or the proxy in front raises, in words of this house.
FRAMEWORK = {
    400: ("bad-request", "The request can't be read."),
    404: ("unknown-route", "There is nothing at this address."),
    405: ("wrong-method", "This address doesn't take that method."),
    413: ("body-too-large", "The body is too large."),
    414: ("address-too-long", "The address is too long."),
    417: ("expectation-failed", "What the request expects can't be met."),
    431: ("headers-too-large", "The headers are too large, or too many."),
    500: ("internal-error", "Something went wrong on our side."),
    501: ("unknown-coding", "The body is coded in a way that is not read."),
}

routes = Blueprint("problems", __name__)


def slug_of(kind: type[Exception]) -> str:
    """UnknownName -> unknown-name."""
    return re.sub(r"(?<=[a-z])(?=[A-Z])", "-", kind.__name__).lower()


def known_problems() -> dict[str, tuple[int, str]]:
    """Status and title of every problem type, by slug."""
    ours = {slug_of(kind): (status, _title_of(kind)) for kind, status in STATUS.items()}
    return ours | {slug: (status, title) for status, (slug, title) in FRAMEWORK.items()}


def _title_of(kind: type[Exception]) -> str:
    return (kind.__doc__ or "").strip().splitlines()[0]


def problem(
    status: int,
    slug: str,
    title: str,
    detail: str = "",
    faults: Iterable[Fault] = (),
    *,
    members: Mapping[str, Any] | None = None,
) -> Response:
    """One problem as a response; at most 50 errors are listed.

    `instance` is this one request: its path, and its id as the fragment.
    """
    listed = [_as_error(fault) for fault in faults]
    body: dict[str, Any] = {"type": f"/problems/{slug}", "title": title, "status": status}
    if detail:
        body["detail"] = detail
    body["instance"] = f"{quote(request.path, safe=IN_A_PATH)}#{request_id()}"
    if listed:
        body["errors"] = listed[:MOST_ERRORS]
    if len(listed) > MOST_ERRORS:
        body["errors_left_out"] = len(listed) - MOST_ERRORS
    body |= members or {}
    content = orjson.dumps(body, option=orjson.OPT_INDENT_2 | orjson.OPT_APPEND_NEWLINE)
    response = Response(content, status, mimetype=MEDIA_TYPE)
    response.headers["Cache-Control"] = "no-store"
    return response


def _as_error(fault: Fault) -> dict[str, str]:
    place = {"pointer": fault.pointer, "parameter": fault.parameter}
    return {name: text for name, text in place.items() if text is not None} | {
        "detail": fault.detail
    }


def _from_complaint(complaint: errors.Complaint) -> Fault:
    if complaint.place.startswith("#"):
        return Fault(complaint.detail, pointer=complaint.place)
    return Fault(complaint.detail, parameter=complaint.place)


def _refused(error: Exception) -> Response:
    kind = type(error)
    faults: tuple[Fault, ...] = getattr(error, "faults", ())
    if isinstance(error, errors.UnknownName | NotCounted | NotFigured | resizing.CannotResize):
        faults = tuple(_from_complaint(complaint) for complaint in error.complaints)
    elif kind in PARAMETER_OF:
        faults = (Fault(str(error), parameter=PARAMETER_OF[kind]),)
    members: Mapping[str, Any] = getattr(error, "members", {})
    response = problem(
        STATUS[kind], slug_of(kind), _title_of(kind), str(error), faults, members=members
    )
    retry_after = getattr(error, "retry_after", RETRY_AFTER.get(kind))
    if retry_after is not None:
        response.headers["Retry-After"] = str(retry_after)
    if isinstance(error, refusals.UnreadableMediaType):
        response.headers["Accept"] = "application/json"
        response.headers["Accept-Encoding"] = "identity"
    return response


def _by_framework(error: HTTPException) -> Response:
    status = error.code or 500
    slug, title = of_status(status)
    response = problem(status, slug, title)
    for name, value in error.get_headers():
        if name in ("Allow", "Retry-After"):
            response.headers[name] = value
    return response


def of_status(status: int) -> tuple[str, str]:
    """Slug and title of a refusal that no question made."""
    if status in FRAMEWORK:
        return FRAMEWORK[status]
    phrase = HTTPStatus(status).phrase
    return re.sub("[^a-z]+", "-", phrase.lower()), f"{phrase}."


def _unforeseen(error: Exception) -> Response:
    current_app.logger.error("unforeseen error", exc_info=error)
    return problem(500, *FRAMEWORK[500])


@routes.get("/problems/<slug>")
@described_as(Operation(
    "explainProblem", "What does a type of problem mean?",
    "The address that is the type of every problem.",
    browsing.PROBLEM_TYPE, SERVICE, path={"slug": "The last part of the type."}, forms=("json",),
    refusals=(NotFound,),
    examples={"document": Example("A wrong document", {"slug": "invalid-document"})},
))  # fmt: skip
def explain_problem(slug: str) -> Response:
    """What a problem type means."""
    if slug not in known_problems():
        raise NotFound
    status, title = known_problems()[slug]
    return as_json({"type": f"/problems/{slug}", "title": title, "status": status})


def map_problems(app: Flask) -> None:
    """Answer every refusal, and whatever else goes wrong, as a problem."""
    for kind in STATUS:
        app.register_error_handler(kind, _refused)
    app.register_error_handler(HTTPException, _by_framework)
    app.register_error_handler(Exception, _unforeseen)
    app.register_blueprint(routes)
