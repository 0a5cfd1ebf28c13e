"""Where programs find the description, and the schema of each document."""

import json

import jsonschema_rs
import pytest
from flask import Flask

from service.api.description import FILE
from service.app import create_app
from service.settings import read_settings
from tests.api.mutating import TOTE

BODIES = {
    "build": json.loads(TOTE.read_bytes()),
    "resize": {"build": json.loads(TOTE.read_bytes()), "to": {"length": "18"}},
    "handout": {"build": json.loads(TOTE.read_bytes()), "earlier": json.loads(TOTE.read_bytes())},
}


def test_the_front_points_to_the_description(app: Flask) -> None:
    client = app.test_client()
    for accept in ("text/plain", "application/json", "text/html"):
        link = client.get("/", headers={"Accept": accept}).headers.getlist("Link")
        assert any('rel="service-desc"' in one and "</openapi.json>" in one for one in link)


def test_the_description_is_sent_as_it_is_published_and_kept(app: Flask) -> None:
    client = app.test_client()
    first = client.get("/openapi.json")
    assert first.data == FILE.read_bytes()
    again = client.get("/openapi.json", headers={"If-None-Match": first.headers["ETag"]})
    assert (again.status_code, again.data) == (304, b"")


@pytest.mark.parametrize("name", BODIES)
def test_a_schema_stands_alone_and_takes_a_document(app: Flask, name: str) -> None:
    schema = app.test_client().get(f"/v1/schemas/{name}").get_json()
    assert schema["$id"] == f"/v1/schemas/{name}"
    gate = jsonschema_rs.validator_for({word: v for word, v in schema.items() if word != "$id"})
    assert gate.is_valid(BODIES[name])
    assert not gate.is_valid({**BODIES[name], "nonsense": 1})
    assert not gate.is_valid({})


def test_the_schema_of_a_resize_wants_something_asked(app: Flask) -> None:
    schema = app.test_client().get("/v1/schemas/resize").get_json()
    gate = jsonschema_rs.validator_for({word: v for word, v in schema.items() if word != "$id"})
    assert not gate.is_valid({"build": BODIES["build"], "cut": ["side"]})


def test_there_is_no_schema_of_anything_else(app: Flask) -> None:
    assert app.test_client().get("/v1/schemas/house").status_code == 404


def test_a_service_that_takes_fewer_parts_says_so(reference_url: str) -> None:
    settings = {"DRYFIT_REFERENCE_URL": reference_url, "DRYFIT_MAX_PARTS": "3"}
    client = create_app(read_settings(settings)).test_client()
    document = client.get("/openapi.json").get_json()
    parts = document["components"]["schemas"]["Build"]["properties"]["parts"]
    assert parts["maxItems"] == 3
    schema = client.get("/v1/schemas/build").get_json()
    assert schema["$defs"]["Build"]["properties"]["parts"]["maxItems"] == 3
