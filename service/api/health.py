"""Is the process alive, and can it answer?"""

from flask import Blueprint, Response

from service.api.answers import as_json
from service.api.described import browsing
from service.api.described.operations import SERVICE, Example, Operation, described_as
from service.api.house import house
from service.api.refusals import NotReady

routes = Blueprint("health", __name__)


@routes.get("/healthz")
@described_as(Operation(
    "sayAlive", "Does the process run?",
    "Says nothing of the database.",
    browsing.ALIVE, SERVICE, forms=("json",), examples={"now": Example("Now")},
))  # fmt: skip
def say_alive() -> Response:
    """The process runs; says nothing of the database."""
    return _fresh({"status": "alive"})


@routes.get("/readyz")
@described_as(Operation(
    "sayReady", "Can it answer?",
    "The tables are read, and the database that they came from can be opened.",
    browsing.READY, SERVICE, forms=("json",), refusals=(NotReady,),
    examples={"now": Example("Now")},
))  # fmt: skip
def say_ready() -> Response:
    """The tables are read and the database that they came from can be opened."""
    if not house().is_ready():
        raise NotReady("The reference database can't be opened.")
    return _fresh({"status": "ready", "edition": house().catalog.edition})


def _fresh(value: dict[str, str]) -> Response:
    response = as_json(value)
    response.headers["Cache-Control"] = "no-store"
    return response
