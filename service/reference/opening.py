"""Opening the reference database: to build it, or only to read it."""

from pathlib import Path
from typing import Any
from urllib.parse import quote

from sqlalchemy import Engine, create_engine, event
from sqlalchemy.engine import URL, make_url
from sqlalchemy.pool import NullPool


def file_of(url: str) -> Path | None:
    """The file of an SQLite address, or None for another kind of database."""
    address = make_url(url)
    if address.get_backend_name() != "sqlite":
        return None
    return Path(address.database or "")


def open_for_reading(url: str) -> Engine:
    """An engine that can't write to an SQLite file.

    The file is never changed in place, only swapped whole, so SQLite may skip its locks.
    """
    path = file_of(url)
    if path is None:
        return create_engine(url)
    where = {"mode": "ro", "immutable": "1", "uri": "true"}
    address = URL.create("sqlite", database=f"file:{quote(str(path.absolute()))}", query=where)
    return create_engine(address, poolclass=NullPool)


def open_for_building(url: str) -> Engine:
    """An engine that holds an SQLite database to its foreign keys, as PostgreSQL always does."""
    engine = create_engine(url, poolclass=NullPool)
    if engine.dialect.name == "sqlite":
        event.listen(engine, "connect", _keep_foreign_keys)
    return engine


def _keep_foreign_keys(connection: Any, _record: Any) -> None:
    connection.execute("PRAGMA foreign_keys = ON")
    # A build that is cut short is thrown away, so it need not survive a power cut.
    connection.execute("PRAGMA synchronous = OFF")
