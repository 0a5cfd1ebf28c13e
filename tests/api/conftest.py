"""The service on the real tables, and one whole build to spoil."""

import json
from pathlib import Path
from typing import Any

import pytest
from flask import Flask
from flask.testing import FlaskClient

from service.app import create_app
from service.settings import read_settings
from tests.api.judged_client import JudgedClient

TOTE = Path(__file__).parent / "tote.json"


@pytest.fixture(scope="session")
def app(reference_url: str) -> Flask:
    """The service, once a run; every answer that a test gets is held against the description."""
    app = create_app(read_settings({"DRYFIT_REFERENCE_URL": reference_url}))
    app.test_client_class = JudgedClient
    return app


@pytest.fixture
def client(app: Flask) -> FlaskClient:
    """A caller."""
    return app.test_client()


@pytest.fixture
def tote() -> Any:
    """A whole build that uses most of the document, fresh for every test."""
    return json.loads(TOTE.read_text(encoding="utf-8"))
