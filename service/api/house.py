"""What a handler may ask for: the settings, the tables, and the forms of documents, made once."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import UTC, date, datetime
from typing import cast

from flask import current_app

from service.api.documents.build import BuildForm
from service.domain.catalog import Catalog
from service.reference.browsing import Tables
from service.settings import Settings

NAME = "dryfit"


def _today() -> date:
    return datetime.now(UTC).date()


@dataclass(frozen=True)
class House:
    """The rooms as this process has furnished them. `is_ready` tries the database; `today` is the
    date that pages carry where none is given."""

    settings: Settings
    catalog: Catalog
    tables: Tables
    build_form: BuildForm
    is_ready: Callable[[], bool]
    today: Callable[[], date] = _today


def house() -> House:
    """The house of the app that answers this request."""
    return cast(House, current_app.extensions[NAME])
