"""Parameters as published, and as they are read: two judges, one verdict."""

import itertools
import json
from collections.abc import Iterator
from typing import Any

import jsonschema_rs
import pytest
from flask import Flask
from marshmallow import ValidationError

from service.api.description import FILE
from service.api.documents.forms import Form, pointers
from service.api.documents.schemas import BEYOND_SCHEMAS
from service.publishing.document import places
from tests.api.mutating import VALUES
from tests.publishing.conftest import Json

TEXTS = sorted({value for value in VALUES if isinstance(value, str)} | {
    *("1", "2", "3", "1e-07", "1.5", "-1", "007", "1e400", "0.0", "yes", "no", "books"),
    *("10in:90lb", "10:9 kg"),
    *("8x1-5/8in", "#8 x 2", "4x40mm", "no. 6 ga x 1", "40x2", "0.0915x2in", "20 ft2", "2 m2"),
    *("400 ft2/gal", "10 m2/L", "85 lb", "40", "12 kg", "2026-11-25", "2026-13-25", "json", "text"),
    *("drill", "drill press", "lumber", "nearest", "in", "1/16", "USD", "dresser", "quarter"),
})  # fmt: skip
# Here the form itself also knows numbers that a text can't have.
BEYOND = (
    *BEYOND_SCHEMAS,
    "Gauges go to",
    "There is no such day",
    "1 to 80",
    "an area with",
    "This must be more than zero",
)


PUBLISHED: Json = json.loads(FILE.read_bytes())
ASKED = [
    operation["operationId"]
    for methods in PUBLISHED["paths"].values()
    for operation in methods.values()
    if any(one["in"] == "query" and one["name"] != "format" for one in operation["parameters"])
]


def as_value(schema: Json, text: str) -> Any:
    """A text as the schema of its parameter takes it; what it can't be stays text."""
    kind = schema.get("type")
    try:
        if kind == "integer":
            return int(text) if text.isascii() and text.isdigit() else text
        if kind == "number":
            return float(text) if not {*text} - {*"0123456789.-+eE"} else text
    except ValueError:
        return text
    if kind == "boolean":
        return {"true": True, "false": False}.get(text, text)
    return text


def texts_for(schema: Json) -> Iterator[tuple[str, Any]]:
    """Texts to try, each with the value that it stands for."""
    if schema.get("type") != "array":
        words = [*schema.get("enum", ()), *TEXTS]
        yield from ((text, as_value(schema, text)) for text in words)
        return
    items = [text for text in TEXTS if "," not in text and text == text.strip()]
    for one in items:
        yield one, [as_value(schema["items"], one)]
    for pair in itertools.islice(itertools.permutations(items, 2), 1500):
        yield ",".join(pair), [as_value(schema["items"], text) for text in pair]
    yield ",".join(["1"] * 2000), [as_value(schema["items"], "1")] * 2000


def said_against(form: Form, name: str, text: str) -> str:
    """What the form says against one parameter, whatever it says of others."""
    try:
        form.load({name: text})
    except ValidationError as refusal:
        said = pointers(refusal.messages, "")
        return " ".join(detail for at, detail in said if f"{at}/".startswith(f"/{name}/"))
    return ""


@pytest.mark.parametrize("id", ASKED)
def test_a_parameter_is_read_as_it_is_published(app: Flask, id: str) -> None:
    place = next(place for place in places(app) if place.id == id)
    form = place.form
    assert form is not None
    own = {field.data_key or name for name, field in form.load_fields.items()} - {"format"}
    operation = PUBLISHED["paths"][place.path][place.method]
    for parameter in (one for one in operation["parameters"] if one["name"] in own):
        schema = parameter["schema"]
        gate = jsonschema_rs.validator_for({**schema, "components": PUBLISHED["components"]})
        verdicts = set()
        for text, value in texts_for(schema):
            passes, said = gate.is_valid(value), said_against(form, parameter["name"], text)
            if passes and said:
                assert any(why in said for why in BEYOND), (parameter["name"], text, said)
            else:
                assert passes == (not said), (parameter["name"], text, said)
            verdicts.add(passes)
        assert verdicts == {True, False}, parameter["name"]
