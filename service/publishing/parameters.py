"""What an operation takes in its address, as OpenAPI parameters."""

from collections.abc import Iterator
from typing import Any

from marshmallow import missing

from service.api.described.operations import Operation
from service.api.described.parameters import meaning
from service.api.documents.forms import Form
from service.api.documents.schemas import Book, Json

SIMPLE = (str, int, float, bool)


def parameters_of(
    operation: Operation, path: tuple[str, ...], form: Form | None, book: Book
) -> list[Json]:
    """Parameters in the path, then those of the query in the order of their form."""
    listed = [_in_path(name, operation.path[name]) for name in path]
    listed += _in_query(operation, form, book) if form else []
    if operation.filters:
        listed.append(FILTERS)
    if operation.keeps:
        listed.append(IF_NONE_MATCH)
    return listed


FILTERS: Json = {
    "name": "filters",
    "in": "query",
    "description": "Columns of the table: rows that hold all of these values, text or numbers as "
    "printed. /v1/tables names the columns.",
    "style": "form",
    "explode": True,
    "schema": {"type": "object", "additionalProperties": {"type": "string", "maxLength": 1000}},
    "example": {},
}
IF_NONE_MATCH: Json = {
    "name": "If-None-Match",
    "in": "header",
    "description": "ETags that the caller has: 304 where one of them is still right.",
    "schema": {"type": "string"},
}


def _in_path(name: str, description: str) -> Json:
    schema = {"type": "string", "minLength": 1}
    return {
        "name": name, "in": "path", "required": True, "description": description, "schema": schema,
    }  # fmt: skip


def _in_query(operation: Operation, form: Form, book: Book) -> Iterator[Json]:
    for attribute, field in form.load_fields.items():
        name = field.data_key or attribute
        schema = book.field(field)
        if name == "format":
            schema = {"type": "string", "enum": list(operation.forms)}
        said = schema.pop("description") if "description" in field.metadata else ""
        examples = schema.pop("examples") if "examples" in field.metadata else []
        parameter: Json = {"name": name, "in": "query"}
        if field.required:
            parameter["required"] = True
        parameter["description"] = said or meaning(operation.id, name)
        parameter["schema"] = schema | _default(field.load_default)
        if schema.get("type") == "array":
            parameter |= {"style": "form", "explode": False}
        if examples and not isinstance(examples[0], dict | list):
            parameter["example"] = str(examples[0])
        yield parameter


def _default(value: Any) -> Json:
    given = value is not missing and isinstance(value, SIMPLE)
    return {"default": value} if given else {}
