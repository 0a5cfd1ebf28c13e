"""The published description: current, valid, whole, and without the traps of its kind."""

import re
from collections.abc import Iterator
from typing import Any

import pytest
from flask import Flask
from openapi_spec_validator import validate

from service.api.description import FILE
from service.publishing.writing import content_of, document
from tests.publishing.conftest import Json


def operations(published: Json) -> Iterator[tuple[str, Json]]:
    for path, methods in published["paths"].items():
        for method, operation in methods.items():
            yield f"{method.upper()} {path}", operation


def nodes(value: Any) -> Iterator[Json]:
    """Every object in a document, however deep."""
    if isinstance(value, dict):
        yield value
    for inner in value.values() if isinstance(value, dict) else value:
        if isinstance(inner, dict | list):
            yield from nodes(inner)


def texts_of(published: Json, name: str) -> list[str]:
    return [node[name] for node in nodes(published) if isinstance(node.get(name), str)]


def schema_nodes(published: Json) -> Iterator[Json]:
    return nodes(published["components"]["schemas"])


def test_the_file_is_what_the_code_says_today(app: Flask) -> None:
    assert FILE.read_bytes() == content_of(document(app)), "run scripts/publish-openapi"


def test_it_is_valid(published: Json) -> None:
    assert published["openapi"] == "3.1.0"
    validate(published)


def test_every_route_is_described_and_nothing_else(app: Flask, published: Json) -> None:
    routes = set()
    for rule in app.url_map.iter_rules():
        path = re.sub(r"<(?:\w+:)?(\w+)>", r"{\1}", str(rule))
        for method in (rule.methods or set()) - {"HEAD", "OPTIONS"}:
            routes.add(f"{method} {path}")
    told = {place for place, _ in operations(published)}
    shapes = {place for place in told - routes if place.startswith("GET /v1/angles/")}
    assert len(shapes) > 1
    assert told - shapes | {"GET /v1/angles/{shape}"} == routes


def test_every_operation_has_a_name_of_its_own_words_an_example_and_its_errors(
    published: Json,
) -> None:
    ids = [operation["operationId"] for _, operation in operations(published)]
    assert len(ids) == len(set(ids))
    for place, operation in operations(published):
        assert re.fullmatch(r"[a-z][A-Za-z]+", operation["operationId"]), place
        assert operation["summary"].endswith("?") or " " in operation["summary"], place
        assert len(operation["description"].split()) >= 4, place
        assert {"200", "500"} <= operation["responses"].keys(), place
        if "requestBody" in operation:
            assert {"400", "413", "415", "422"} <= operation["responses"].keys(), place
            assert operation["requestBody"]["content"]["application/json"]["examples"], place
        for parameter in operation["parameters"]:
            assert parameter["description"], (place, parameter["name"])


def test_every_refusal_is_a_problem_that_names_its_types(published: Json) -> None:
    for place, operation in operations(published):
        for status, response in operation["responses"].items():
            if status >= "400":
                assert list(response["content"]) == ["application/problem+json"], (place, status)
                schema = response["content"]["application/problem+json"]["schema"]
                assert schema["x-problem-types"], (place, status)


def test_requests_are_closed_and_answers_are_open(published: Json) -> None:
    schemas = published["components"]["schemas"]
    for name in ("Build", "Part", "Joint", "Run", "Resize", "LeaningShape", "Price", "Saw"):
        assert schemas[name]["additionalProperties"] is False, name
    for name in ("CheckAnswer", "Finding", "MeasuredLength", "Problem", "Source", "JointAnswer"):
        assert "additionalProperties" not in schemas[name], name


def test_a_size_of_none_is_told_from_a_size(published: Json) -> None:
    schemas = published["components"]["schemas"]
    assert schemas["Length"]["exclusiveMinimum"] == 0
    assert schemas["LengthOrNone"]["minimum"] == 0
    assert "exclusiveMinimum" not in schemas["LengthOrNone"]


def test_money_is_no_binary_fraction(published: Json) -> None:
    schemas = published["components"]["schemas"]
    assert schemas["Money"]["type"] == ["string", "integer"]
    cost = schemas["CutPlanAnswer"]["properties"]["cost"]
    assert cost["type"] == ["string", "null"]


def test_patterns_are_of_the_language_that_all_share(published: Json) -> None:
    patterns = set(texts_of(published, "pattern"))
    assert len(patterns) > 10
    for pattern in patterns:
        assert pattern.startswith("^") and pattern.endswith("$"), pattern
        assert not re.search(r"\\[AZzdDwWsSpP]|\(\?[^:]|[*+?}]\+", pattern), pattern


def test_every_reference_leads_somewhere_and_everything_is_used(published: Json) -> None:
    schemas = published["components"]["schemas"]
    named = [reference.rpartition("/")[2] for reference in texts_of(published, "$ref")]
    headers = published["components"]["headers"].keys()
    assert set(named) - headers <= schemas.keys()
    assert schemas.keys() <= set(named)


@pytest.mark.parametrize("word", ["null", "nullable"])
def test_what_may_be_null_says_so_as_json_schema(published: Json, word: str) -> None:
    assert not any(word in node for node in schema_nodes(published) if "type" in node)
