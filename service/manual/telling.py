"""What the published description says, as values that pages are made of."""

import json
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from typing import Any
from urllib.parse import quote, urlencode

from service.manual.kinds import choices, forms_in, in_words, is_form, name_of

Json = Mapping[str, Any]

LEFT_OUT = " Left out: "  # between what a field means and what holds without it
HEADER = "-H 'Content-Type: application/json'"
FIRST, LAST = "Whole builds", "The service"  # groups of the description
AT = "{at}"  # this service's own address, in a line to paste


@dataclass(frozen=True, slots=True)
class Field:
    """A field or parameter: what it takes, what it means, what holds without it, examples."""

    name: str
    kind: str
    forms: tuple[str, ...]
    meaning: str
    left_out: str
    examples: tuple[str, ...]
    required: bool


@dataclass(frozen=True, slots=True)
class Form:
    """An object of the document and its fields; a choice has the names of its kinds instead."""

    name: str
    about: str
    fields: tuple[Field, ...]
    one_of: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Line:
    """A line to paste, and where it can be followed as a link, that address."""

    asks: str
    curl: str
    link: str | None


@dataclass(frozen=True, slots=True)
class Question:
    """An operation of the service, as somebody asks it."""

    id: str
    group: str
    asks: str
    about: str
    method: str
    path: str
    parameters: tuple[Field, ...]
    body: str
    forms: tuple[str, ...]
    lines: tuple[Line, ...]


def sending(asks: str, question: str, body: Any) -> Line:
    """A line that sends a body; an apostrophe in it would end the quotes of the shell."""
    sent = json.dumps(body).replace("'", "\\u0027")
    return Line(asks, f"curl -s '{AT}{question}' {HEADER} -d '{sent}'", None)


def questions(description: Json) -> tuple[Question, ...]:
    """Every operation: whole builds first, the service itself last, else as described."""
    found = [
        _question(path, method, operation, description["components"]["schemas"])
        for path, methods in description["paths"].items()
        for method, operation in methods.items()
    ]
    order = [FIRST, *(one.group for one in found if one.group not in (FIRST, LAST)), LAST]
    return tuple(sorted(found, key=lambda one: order.index(one.group)))


def _question(path: str, method: str, operation: Json, named: Mapping[str, Json]) -> Question:
    given = [one for one in operation.get("parameters", ()) if one["in"] in ("path", "query")]
    body = operation.get("requestBody", {}).get("content", {}).get("application/json", {})
    schema = body.get("schema")
    answer = operation["responses"]["200"].get("content", {})
    lines = _lines(path, method, given, body, "text/plain" in answer and len(answer) > 1)
    if "x-setting" in operation:  # nobody knows here whether anything is at the address
        lines = (replace(line, link=None) for line in lines)
    return Question(
        id=operation["operationId"],
        group=operation["tags"][0],
        asks=operation["summary"],
        about=operation["description"],
        method=method.upper(),
        path=path,
        parameters=tuple(_parameter(one, named) for one in given),
        body=name_of(schema) if schema and "$ref" in schema else "",
        forms=tuple(answer),
        lines=tuple(lines),
    )


def _parameter(one: Json, named: Mapping[str, Json]) -> Field:
    shown = [_in_address(example["value"]) for example in one.get("examples", {}).values()]
    schema = one["schema"]
    told = one["description"] if "default" not in schema else (
        f"{one['description']}{LEFT_OUT}{schema['default']}."
    )  # fmt: skip
    return _field(
        one["name"], {**schema, "description": told, "examples": shown},
        named, required=bool(one.get("required")),
    )  # fmt: skip


def _field(name: str, schema: Json, named: Mapping[str, Json], *, required: bool) -> Field:
    meaning, _, left_out = schema.get("description", "").partition(LEFT_OUT)
    examples = dict.fromkeys(_written(value) for value in schema.get("examples", ()))
    return Field(
        name=name,
        kind=in_words(schema, named),
        forms=tuple(dict.fromkeys(forms_in(schema, named))),
        meaning=meaning,
        left_out=left_out.removesuffix("."),
        examples=tuple(examples),
        required=required,
    )


def _written(value: Any) -> str:
    """A value as it stands in a document, text without its quotes."""
    return value if isinstance(value, str) else json.dumps(value, ensure_ascii=False)


def _lines(path: str, method: str, given: list[Any], body: Json, in_text: bool) -> Iterator[Line]:
    """A line to paste for each example of an operation."""
    if method == "post":
        for name, example in body.get("examples", {}).items():
            query = _query(given, name, in_text)
            yield sending(example["summary"], f"{path[1:]}{query}", example["value"])
        return
    names: dict[str, str] = {}
    for one in given:
        for name, example in one.get("examples", {}).items():
            names.setdefault(name, example["summary"])
    for name, asks in (names or {"": "Ask it"}).items():
        address = _filled(path, given, name) + _query(given, name, in_text)
        yield Line(asks, f"curl -s '{AT}{address[1:]}'", address)


def _filled(path: str, given: list[Any], example: str) -> str:
    """The path with an example's values in it."""
    for one in given:
        if one["in"] == "path":
            value = one["examples"][example]["value"]
            path = path.replace(f"{{{one['name']}}}", quote(value))
    return path


def _query(given: list[Any], example: str, in_text: bool) -> str:
    """The parameters of an example, asked for in plain text where there is a text."""
    asked: dict[str, str] = {}
    for one in given:
        if one["in"] == "query" and example in one.get("examples", {}):
            value = one["examples"][example]["value"]
            named = value if isinstance(value, dict) else {one["name"]: value}  # a dict: columns
            asked |= {name: _in_address(item) for name, item in named.items()}
    if in_text:
        asked["format"] = "text"
    return f"?{urlencode(asked, safe=',:/')}" if asked else ""


def _in_address(value: Any) -> str:
    """A value as it stands in an address: items of a list with commas between them."""
    if isinstance(value, dict):
        return urlencode({name: _in_address(one) for name, one in value.items()}, safe=",:/")
    if isinstance(value, list):
        return ",".join(map(_in_address, value))
    return f"{value:g}" if isinstance(value, float) else str(value)


def forms(description: Json, root: str) -> tuple[Form, ...]:
    """A form of the document and every form inside it, outer ones first."""
    named, found, waiting = description["components"]["schemas"], [], [root]
    seen = set(waiting)
    while waiting:
        name = waiting.pop(0)
        form = _form(name, named)
        found.append(form)
        inner = [*form.one_of, *(one for field in form.fields for one in field.forms)]
        waiting += [one for one in dict.fromkeys(inner) if one not in seen]
        seen.update(inner)
    return tuple(found)


def _form(name: str, named: Mapping[str, Json]) -> Form:
    schema = named[name]
    assert is_form(schema)
    required = schema.get("required", ())
    fields = tuple(
        _field(key, one, named, required=key in required)
        for key, one in schema.get("properties", {}).items()
    )
    return Form(name, schema.get("description", ""), fields, choices(schema))
