"""The service on the real tables, for asking the handout and the other questions side by side."""

import pytest
from flask import Flask
from flask.testing import FlaskClient

from service.app import create_app
from service.settings import read_settings


@pytest.fixture(scope="session")
def app(reference_url: str) -> Flask:
    """The service, once a run."""
    return create_app(read_settings({"DRYFIT_REFERENCE_URL": reference_url}))


@pytest.fixture
def client(app: Flask) -> FlaskClient:
    """A caller."""
    return app.test_client()
