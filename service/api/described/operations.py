"""An operation as its question declares it, beside the handler that answers."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any, TypeVar, cast

from marshmallow import Schema

from service.api.described.words import Json
from service.api.documents.forms import Form
from service.api.documents.schemas import Book

Handler = TypeVar("Handler", bound=Callable[..., Any])
Body = Callable[[Book], Json]  # keeps the schema of a body in the book, and gives a reference

FORMS = ("json", "text")
BUILDS, JOINTS, BOARDS = "Whole builds", "Joints", "Boards and sheets"
ANGLED, IN_USE, GLUE = "Angles and rows", "In use", "Glue and finish"
TABLES, SERVICE = "Tables and rules", "The service"


@dataclass(frozen=True, slots=True)
class Example:
    """A request worth showing: what it asks, its parameters in path and query, and its body.

    `long` says that the answer is too long to be shown with it.
    """

    asks: str
    given: Mapping[str, str] = field(default_factory=dict)
    body: Any = None
    long: bool = False


@dataclass(frozen=True, slots=True)
class Operation:
    """What the description says of one route and method.

    `asks` is its question in a line, `about` what it is for. `answer` is the shape of its JSON
    answer, `forms` the forms it can be had in, the one that comes unasked first. `refusals` are
    those of this question beside what every request can meet. `variants` are the forms of a route
    whose parameter in the path decides its form: each is told as a path of its own. `keeps` says
    that answers have an ETag and come with 304 where nothing has changed, `links` where a Link
    header points to, and `filters` that further parameters are columns of the table. `media` are
    the media types of what has no form to choose. `setting` names the setting without which there
    is nothing at the address.
    """

    id: str
    asks: str
    about: str
    answer: Json
    group: str
    query: Form | None = None
    path: Mapping[str, str] = field(default_factory=dict)
    variants: Mapping[str, Form] = field(default_factory=dict)
    body: Schema | Body | None = None
    forms: tuple[str, ...] = FORMS
    refusals: tuple[type[Exception], ...] = ()
    examples: Mapping[str, Example] = field(default_factory=dict)
    keeps: bool = False
    links: str = ""
    filters: bool = False
    media: tuple[str, ...] = ()
    setting: str = ""


_NAME = "operation"


def described_as(operation: Operation) -> Callable[[Handler], Handler]:
    """Say what a handler answers; the handler itself stays as it is."""

    def declare(handler: Handler) -> Handler:
        setattr(handler, _NAME, operation)
        return handler

    return declare


def operation_of(handler: Callable[..., Any]) -> Operation | None:
    """What a handler says that it answers."""
    return cast(Operation | None, getattr(handler, _NAME, None))
