"""The description as one document, from the routes of the application and what stands beside."""

import re
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from apispec import APISpec
from flask import Flask
from marshmallow import Schema

from service.api.described.carried import known_findings
from service.api.described.operations import Operation, operation_of
from service.api.described.words import PLACE, SHAPES
from service.api.documents.forms import Form
from service.api.documents.schemas import DIALECT, Book, Json
from service.publishing.parameters import FILTERS, parameters_of
from service.publishing.responses import HEADERS, responses_of

VERSION = "1.0.0"
TITLE = "Dryfit"
ABOUT = (
    "A dry fit on paper: checks a small woodworking build before a board is bought. The build is "
    "one JSON document; every question takes it and leaves it unchanged. Nothing is stored, so "
    "every operation may be repeated. Requests are closed: unknown fields are refused by name. "
    "Answers are open: later versions may add fields, findings and words. Refusals are problem "
    "details (RFC 9457); a build that is unwise is never refused, it gets findings."
)
_VARIABLE = re.compile(r"<(?:[a-z]+:)?([a-z]+)>")

Answers = Callable[["Place"], Mapping[str, Any]]


@dataclass(frozen=True, slots=True)
class Place:
    """One operation where it is found: its path, its method, the form of its query.

    `variant` is the value that stands in the path of one variant of an operation.
    """

    path: str
    method: str
    operation: Operation
    form: Form | None
    variant: str = ""

    @property
    def id(self) -> str:
        """The operation's own id; a variant's name is added to it."""
        return self.operation.id + self.variant.title().replace("-", "")

    @property
    def variables(self) -> tuple[str, ...]:
        """Parameters in the path."""
        return tuple(re.findall(r"{([a-z]+)}", self.path))

    @property
    def examples(self) -> dict[str, Any]:
        """The examples of this place by name."""
        if self.variant:
            return {self.variant: self.operation.examples[self.variant]}
        return dict(self.operation.examples)


def places(app: Flask) -> Iterator[Place]:
    """Every operation of the application, in the order of its paths.

    Raises LookupError for a route that nothing is said of.
    """
    for rule in sorted(app.url_map.iter_rules(), key=str):
        operation = operation_of(app.view_functions[rule.endpoint])
        if operation is None:
            raise LookupError(f"nothing describes {rule}")
        path = _VARIABLE.sub(r"{\1}", str(rule))
        for method in sorted((rule.methods or set()) - {"HEAD", "OPTIONS"}):
            if not operation.variants:
                yield Place(path, method.lower(), operation, operation.query)
            for variant, form in operation.variants.items():
                whole = re.sub("{[a-z]+}", variant, path)
                yield Place(whole, method.lower(), operation, form, variant)


def described(app: Flask, answers: Answers = lambda place: {}) -> Json:
    """The OpenAPI 3.1.0 document. `answers` gives the answers to a place's examples by name."""
    spec = APISpec(
        title=TITLE,
        version=VERSION,
        openapi_version="3.1.0",
        info={"description": ABOUT, "license": {"name": "MIT", "identifier": "MIT"}},
        jsonSchemaDialect=DIALECT,
        servers=[{"url": "/", "description": "The service that sends this document."}],
    )
    asked, told = Book(PLACE, in_address=True), Book(PLACE)
    found = list(places(app))
    for group in dict.fromkeys(place.operation.group for place in found):
        spec.tag({"name": group})
    for place in found:
        spec.path(place.path, operations={place.method: _operation(place, asked, told, answers)})
    in_order = dict(sorted(SHAPES.items()))  # not as modules happen to be imported
    for schemas in (told.schemas, asked.schemas, in_order):
        for name, schema in schemas.items():
            if spec.components.schemas.get(name) != schema:
                spec.components.schema(name, schema)
    for name, header in HEADERS.items():
        spec.components.header(name, header)
    return spec.to_dict() | {"x-findings": known_findings()}


def _operation(place: Place, asked: Book, told: Book, answers: Answers) -> Json:
    operation, form = place.operation, place.form
    variables = () if place.variant else place.variables
    listed = parameters_of(operation, variables, form, asked)
    written: Json = {
        "operationId": place.id,
        "summary": f"{operation.asks} ({place.variant})" if place.variant else operation.asks,
        "description": operation.about,
        "tags": [operation.group],
        "parameters": [_with_examples(parameter, place, listed) for parameter in listed],
        "responses": responses_of(operation, form is not None, answers(place)),
    }
    if operation.setting:
        written["x-setting"] = operation.setting
    if operation.body is not None:
        written["requestBody"] = _body(place, told)
    return written


def _body(place: Place, book: Book) -> Json:
    body = place.operation.body
    assert body is not None
    schema = book.form(body) if isinstance(body, Schema) else body(book)
    examples = {
        name: {"summary": example.asks, "value": example.body}
        for name, example in place.examples.items()
    }
    return {
        "required": True,
        "content": {"application/json": {"schema": schema, "examples": examples}},
    }


def _with_examples(parameter: Json, place: Place, listed: list[Json]) -> Json:
    """The parameter with the values that it has in the examples of its place."""
    given: Json = {}
    for name, example in place.examples.items():
        texts: Mapping[str, Any] = example.given
        if parameter is FILTERS:
            known = {one["name"] for one in listed}
            texts = {"filters": {n: text for n, text in texts.items() if n not in known}}
        if parameter["name"] in texts:
            given[name] = {"summary": example.asks, "value": _value(parameter, texts)}
    if not given:
        return parameter
    return {k: v for k, v in parameter.items() if k != "example"} | {"examples": given}


def _value(parameter: Json, given: Mapping[str, Any]) -> Any:
    """A value as the parameter's schema has it; in an address it is text."""
    text = given[parameter["name"]]
    kind = parameter["schema"].get("type")
    if kind == "object":
        return text
    if kind == "array":
        each = parameter["schema"]["items"].get("type")
        return [float(item) if each == "number" else item for item in text.split(",")]
    if kind in ("integer", "number"):
        return int(text) if kind == "integer" else float(text)
    return text == "true" if kind == "boolean" else text
