"""The service on the real tables, and the scenes that handouts are made of."""

import json
from pathlib import Path
from typing import Any

import pytest
from flask import Flask
from flask.testing import FlaskClient

from service.app import create_app
from service.settings import read_settings
from tests.api.judged_client import JudgedClient

SCENES = Path(__file__).parents[1] / "builds" / "handouts"
WHOLE = Path(__file__).parents[1] / "builds" / "whole"
DATE = "2026-03-04"


@pytest.fixture(scope="session")
def app(reference_url: str) -> Flask:
    """The service, once a run; every answer is held against the description."""
    app = create_app(read_settings({"DRYFIT_REFERENCE_URL": reference_url}))
    app.test_client_class = JudgedClient
    return app


@pytest.fixture
def client(app: Flask) -> FlaskClient:
    """A caller."""
    return app.test_client()


@pytest.fixture
def easy() -> Any:
    """A tray of five pieces."""
    return scene("letter-tray")


@pytest.fixture
def hard() -> Any:
    """A bench of 40 kinds of parts: angled ones, boards, sheets, drawers."""
    return scene("potting-bench")


def scene(name: str) -> Any:
    """One of the scenes, fresh."""
    return json.loads((SCENES / f"{name}.json").read_text(encoding="utf-8"))


def handout(client: FlaskClient, build: Any, form: str, **query: str) -> Any:
    """The handout in a form: text, bytes for pdf, values for json."""
    answer = client.post(
        "/v1/handout", json=build, query_string={"format": form, "date": DATE, **query}
    )
    assert answer.status_code == 200, answer.get_data(as_text=True)
    if form == "json":
        return answer.get_json()
    return answer.get_data() if form == "pdf" else answer.get_data(as_text=True)
