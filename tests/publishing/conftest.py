"""The service, and the description as it is published."""

import json
from typing import Any

import pytest
from flask import Flask

from service.api.description import FILE
from service.app import create_app
from service.settings import read_settings

Json = dict[str, Any]


@pytest.fixture(scope="session")
def app(reference_url: str) -> Flask:
    """The service, once a run."""
    return create_app(read_settings({"DRYFIT_REFERENCE_URL": reference_url}))


@pytest.fixture(scope="session")
def published() -> Json:
    """The checked-in description."""
    document: Json = json.loads(FILE.read_bytes())
    return document
