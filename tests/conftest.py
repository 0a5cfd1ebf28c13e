"""Fixtures shared by every test, and one fixed profile for the property tests."""

from pathlib import Path

import pytest
from hypothesis import HealthCheck, settings

from service.domain.catalog import Catalog
from service.reference.building import build
from service.reference.cataloging import catalog_of
from service.reference.opening import open_for_reading
from service.reference.reading import Rows, read_rows

REFERENCE_DATA = Path(__file__).parent.parent / "reference_data"

settings.register_profile(
    "dryfit",
    derandomize=True,
    deadline=None,
    max_examples=100,
    suppress_health_check=[HealthCheck.too_slow],
)
settings.load_profile("dryfit")


@pytest.fixture(scope="session")
def reference_url(tmp_path_factory: pytest.TempPathFactory) -> str:
    """Address of a database built from the real tables, once a run."""
    url = f"sqlite:///{tmp_path_factory.mktemp('reference') / 'reference.sqlite'}"
    build(REFERENCE_DATA, url)
    return url


@pytest.fixture(scope="session")
def reference_rows(reference_url: str) -> Rows:
    """Every row of the real tables."""
    return read_rows(open_for_reading(reference_url))


@pytest.fixture(scope="session")
def catalog(reference_rows: Rows) -> Catalog:
    """The real tables as values."""
    return catalog_of(reference_rows)
