"""Callers of a service with settings of their own, all on the same tables."""

from collections.abc import Callable
from dataclasses import replace

import pytest
from flask import Flask
from flask.testing import FlaskClient

from service.api.house import NAME, House
from service.app import create_app, open_house
from service.settings import read_settings

Asking = Callable[..., FlaskClient]


@pytest.fixture(scope="session")
def furnished(reference_url: str) -> House:
    """Tables and forms, read once."""
    app: Flask = create_app(read_settings({"DRYFIT_REFERENCE_URL": reference_url}))
    house: House = app.extensions[NAME]
    return house


@pytest.fixture
def asking(furnished: House) -> Asking:
    """A caller of a service with these settings: `asking(DRYFIT_RATE="5/minute")`."""

    def client(**environment: str) -> FlaskClient:
        settings = read_settings(environment)
        return open_house(replace(furnished, settings=settings)).test_client()

    return client
