"""A change inside v1 may add, and never take away: each kind of break is named, no addition is."""

import copy
import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from service.api.description import FILE
from service.publishing.breaking import breaks
from tests.publishing.conftest import Json

Change = Callable[[Json], Any]
RELEASED = sorted((FILE.parent / "released").glob("v1*.json"))


def schemas(d: Json) -> Json:
    found: Json = d["components"]["schemas"]
    return found


def part(d: Json) -> Json:
    found: Json = schemas(d)["Part"]["properties"]
    return found


def check(d: Json) -> Json:
    found: Json = d["paths"]["/v1/check"]["post"]
    return found


def sag(d: Json, name: str) -> Json:
    listed = d["paths"]["/v1/sag"]["get"]["parameters"]
    found: Json = next(one for one in listed if one["name"] == name)
    return found


BREAKS: dict[str, Change] = {
    "a path is gone": lambda d: d["paths"].pop("/v1/sag"),
    "a method is gone": lambda d: d["paths"]["/v1/fasteners"].pop("get"),
    "an operation is called otherwise": lambda d: check(d).update(operationId="checkAll"),
    "a parameter is gone": lambda d: d["paths"]["/v1/sag"]["get"]["parameters"].remove(
        sag(d, "lip")
    ),
    "a parameter is now required": lambda d: sag(d, "lip").update(required=True),
    "a new parameter is required": lambda d: check(d)["parameters"].append(
        {"name": "key", "in": "query", "required": True, "schema": {"type": "string"}}
    ),
    "a list is written otherwise": lambda d: sag(d, "points").update(explode=True),
    "a parameter takes fewer words": lambda d: sag(d, "held")["schema"]["enum"].remove("several"),
    "a parameter ends earlier": lambda d: sag(d, "boards")["schema"].update(maximum=99),
    "a body is no longer JSON": lambda d: check(d)["requestBody"].update(
        content={"text/yaml": check(d)["requestBody"]["content"]["application/json"]}
    ),
    "a field of a request is gone": lambda d: part(d).pop("mirrored"),
    "a field of a request is required": lambda d: schemas(d)["Part"]["required"].append("length"),
    "a word of a request is gone": lambda d: part(d)["grain"]["enum"].remove("any"),
    "a request takes words alone": lambda d: part(d)["id"].update(enum=["a"], type="string"),
    "a type is gone": lambda d: schemas(d)["Length"].update(type="string"),
    "another type": lambda d: part(d).update(quantity={"type": "string"}),
    "a least is raised": lambda d: part(d)["quantity"].update(minimum=2),
    "nothing is no longer a length": lambda d: schemas(d)["LengthOrNone"].update(
        exclusiveMinimum=0
    ),
    "a most is lowered": lambda d: schemas(d)["Build"]["properties"]["parts"].update(maxItems=400),
    "a text is shorter": lambda d: schemas(d)["Text"].update(maxLength=60),
    "a pattern changed": lambda d: schemas(d)["Id"].update(pattern="^[a-z]+$"),
    "fields go together anew": lambda d: schemas(d)["Part"].update(
        allOf=[{"required": ["width"]}]
    ),
    "a way to write it is gone": lambda d: part(d)["stock"]["anyOf"].pop(),
    "a kind of shape is gone": lambda d: schemas(d)["Shape"]["oneOf"].pop(),
    "an open name is closed": lambda d: schemas(d)["RowShape"]["properties"]["parts"].update(
        additionalProperties=False
    ),
    "a field of an answer is gone": lambda d: schemas(d)["Finding"]["properties"].pop("mend"),
    "a field of an answer may be missing": lambda d: schemas(d)["CheckAnswer"]["required"].remove(
        "verdict"
    ),
    "an answer may be null": lambda d: schemas(d)["Finding"]["properties"]["detail"].update(
        type=["string", "null"]
    ),
    "an answer has another type": lambda d: schemas(d)["MeasuredLength"]["properties"].update(
        mm={"type": "string"}
    ),
    "an answer is one of more": lambda d: schemas(d)["SizesAnswer"]["properties"].update(
        sold={"anyOf": [schemas(d)["SizesAnswer"]["properties"]["sold"], {"type": "null"}]}
    ),
    "a list holds something else": lambda d: schemas(d)["CheckAnswer"]["properties"].update(
        not_judged={"type": "array", "items": {"type": "integer"}}
    ),
    "a form of the answer is gone": lambda d: check(d)["responses"]["200"]["content"].pop(
        "text/plain"
    ),
    "a header is gone": lambda d: d["paths"]["/v1/tables"]["get"]["responses"]["200"][
        "headers"
    ].pop("ETag"),
    "304 is gone": lambda d: d["paths"]["/v1/tables"]["get"]["responses"].pop("304"),
    "a code is gone": lambda d: d["x-findings"].pop("run.tight"),
    "a number of a code is gone": lambda d: d["x-findings"]["run.tight"]["numbers"][
        "properties"
    ].pop("sum"),
}  # fmt: skip

ADDS: dict[str, Change] = {
    "nothing": lambda d: None,
    "a path": lambda d: d["paths"].update({"/v1/new": copy.deepcopy(d["paths"]["/v1/sag"])}),
    "a parameter": lambda d: check(d)["parameters"].append(
        {"name": "new", "in": "query", "schema": {"type": "string"}}
    ),
    "a field of a request": lambda d: part(d).update(new={"type": "string"}),
    "a word of a request": lambda d: part(d)["grain"]["enum"].append("diagonal"),
    "a word of an answer": lambda d: schemas(d)["CheckAnswer"]["properties"]["verdict"][
        "enum"
    ].append("new"),
    "a field of an answer": lambda d: (
        schemas(d)["Finding"]["properties"].update(new={"type": "string"}),
        schemas(d)["Finding"]["required"].append("new"),
    ),
    "more parts": lambda d: schemas(d)["Build"]["properties"]["parts"].update(maxItems=900),
    "a longer text": lambda d: schemas(d)["Text"].update(maxLength=120),
    "a length of none": lambda d: (
        schemas(d)["Length"].pop("exclusiveMinimum"),
        schemas(d)["Length"].update(minimum=0),
    ),
    "any text": lambda d: schemas(d)["Id"].pop("pattern"),
    "a required field that need not be there": lambda d: schemas(d)["Joint"]["required"].remove(
        "into"
    ),
    "fields that need not go together": lambda d: schemas(d)["Run"].pop("allOf"),
    "another way to write it": lambda d: part(d)["stock"]["anyOf"].append({"type": "integer"}),
    "several ways instead of one": lambda d: part(d).update(
        quantity={"anyOf": [part(d)["quantity"], {"type": "string"}]}
    ),
    "an answer that is never null": lambda d: schemas(d)["Finding"]["properties"].update(
        also_at={"type": "string"}
    ),
    "a refusal": lambda d: check(d)["responses"].update(
        {"451": copy.deepcopy(check(d)["responses"]["422"])}
    ),
    "a form of the answer": lambda d: check(d)["responses"]["200"]["content"].update(
        {"text/csv": {"schema": {"type": "string"}}}
    ),
    "a code": lambda d: d["x-findings"].update(
        {"new.code": copy.deepcopy(d["x-findings"]["run.tight"])}
    ),
    "other words": lambda d: check(d).update(summary="Does it fit?", description="Anew."),
}  # fmt: skip


@pytest.mark.parametrize("change", BREAKS)
def test_a_break_is_named(published: Json, change: str) -> None:
    later = copy.deepcopy(published)
    BREAKS[change](later)
    assert breaks(published, later)


@pytest.mark.parametrize("change", ADDS)
def test_an_addition_is_no_break(published: Json, change: str) -> None:
    later = copy.deepcopy(published)
    ADDS[change](later)
    assert breaks(published, later) == []


def test_a_break_says_where(published: Json) -> None:
    later = copy.deepcopy(published)
    part(later).pop("mirrored")
    said = breaks(published, later)
    assert any("/v1/check" in line and line.endswith("/mirrored: removed") for line in said)


@pytest.mark.parametrize("released", RELEASED, ids=lambda path: path.name)
def test_nothing_that_was_released_is_broken(published: Json, released: Path) -> None:
    assert breaks(json.loads(released.read_bytes()), published) == []
