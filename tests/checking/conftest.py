"""A document as JSON, checked against the real tables."""

from collections.abc import Callable
from typing import Any

import pytest

from service.api.documents.build import BuildForm
from service.domain.catalog import Catalog
from service.domain.checking import Checked, check
from service.planning.yielding import purchasing_of


@pytest.fixture(scope="session")
def check_json(catalog: Catalog) -> Callable[[dict[str, Any]], Checked]:
    form = BuildForm()
    return lambda document: check(form.load(document), catalog, purchasing_of)
