"""Every example of the published description, asked of the service as a reader would ask it."""

import json
from typing import Any
from urllib.parse import quote, urlencode

import pytest
from flask import Flask

from service.api.description import FILE
from tests.api.judged_client import Judge
from tests.publishing.conftest import Json

PUBLISHED: Json = json.loads(FILE.read_bytes())


def asked() -> list[tuple[str, str, str]]:
    """Path, method and name of every example that the file holds.

    What a setting opens is asked in `tests/door`.
    """
    found = set()
    for path, methods in PUBLISHED["paths"].items():
        for method, operation in methods.items():
            if "x-setting" in operation:
                continue
            names = {name for one in operation["parameters"] for name in one.get("examples", ())}
            body = operation.get("requestBody", {}).get("content", {}).get("application/json", {})
            names |= body.get("examples", {}).keys() | shown_answers(operation).keys()
            found |= {(path, method, name) for name in names or {""}}
    return sorted(found)


def shown_answers(operation: Json) -> Json:
    content = operation["responses"]["200"]["content"].get("application/json", {})
    examples: Json = content.get("examples", {})
    return examples


def written(parameter: Json, value: Any) -> str:
    if isinstance(value, list):
        assert (parameter["style"], parameter["explode"]) == ("form", False)
        return ",".join(f"{item:g}" if isinstance(item, float) else item for item in value)
    if isinstance(value, bool):
        return str(value).lower()
    return f"{value:g}" if isinstance(value, float) else str(value)


@pytest.mark.parametrize(("path", "method", "name"), asked())
def test_an_example_is_answered_as_the_description_shows_it(
    app: Flask, path: str, method: str, name: str
) -> None:
    operation = PUBLISHED["paths"][path][method]
    query, body = {}, None
    for parameter in operation["parameters"]:
        if name in parameter.get("examples", ()):
            value = written(parameter, parameter["examples"][name]["value"])
            if parameter["in"] == "path":
                path = path.replace(f"{{{parameter['name']}}}", quote(value, safe=""))
            elif isinstance(parameter["examples"][name]["value"], dict):
                query |= parameter["examples"][name]["value"]
            else:
                query[parameter["name"]] = value
    if "requestBody" in operation:
        body = operation["requestBody"]["content"]["application/json"]["examples"][name]["value"]
    target = f"{path}?{urlencode(query)}" if query else path
    response = app.test_client().open(target, method=method.upper(), json=body)
    assert response.status_code == 200, response.get_data(as_text=True)
    Judge.of(app).judge(response)
    shown = shown_answers(operation).get(name)
    if shown is not None:
        answer = response.get_json()
        assert shown["value"] == answer | {"edition": shown["value"].get("edition")} or (
            "edition" not in answer and shown["value"] == answer
        )


def test_every_operation_has_one() -> None:
    named = {(path, method) for path, method, name in asked() if name}
    plain = {(path, method) for path, method, name in asked() if not name}
    # What takes nothing and answers with itself, or with a whole catalog, needs no values.
    pages = ("docs", "docs/example", "docs/questions", "docs/build", "docs/findings",
             "docs/tables", "docs/sources")  # fmt: skip
    whole = {(f"/{path}", "get") for path in ("openapi.json", "v1/tables", *pages)}
    assert plain == whole
    every = [one for methods in PUBLISHED["paths"].values() for one in methods.values()]
    assert len(named) + len(plain) == sum("x-setting" not in one for one in every)
