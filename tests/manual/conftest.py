"""The manual of a service on the real tables: asked directly, and over a socket."""

from collections.abc import Iterator

import pytest
from flask import Flask
from flask.testing import FlaskClient

from service.app import create_app
from service.manual.client import a_service
from service.settings import read_settings


@pytest.fixture(scope="session")
def app(reference_url: str) -> Flask:
    """The service, once a run."""
    return create_app(read_settings({"DRYFIT_REFERENCE_URL": reference_url}))


@pytest.fixture
def client(app: Flask) -> FlaskClient:
    """A reader."""
    return app.test_client()


@pytest.fixture(scope="module")
def address(reference_url: str) -> Iterator[str]:
    """Where a service answers over a socket."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("DRYFIT_REFERENCE_URL", reference_url)
        patch.setenv("DRYFIT_METRICS", "loopback")  # so that every question has an answer
        patch.setenv("DRYFIT_SECURITY_CONTACT", "mailto:holes@dryfit.test")
        patch.delenv("DRYFIT_URL", raising=False)
        with a_service() as client:
            yield client.address
