"""CSV tables -> database: built whole or not at all, and only when something has changed."""

import hashlib
import os
import sys
from pathlib import Path
from typing import Any

from sqlalchemy import Connection, Engine, insert, inspect, select
from sqlalchemy.exc import DatabaseError
from sqlalchemy.schema import CreateTable

from service.reference.columns import Row, table_of, whole_layout
from service.reference.judging import load
from service.reference.loading import Refusal, Sheet, edition_of
from service.reference.opening import file_of, open_for_building, open_for_reading
from service.reference.sources import Citation, Edition
from service.reference.tables import MODELS


class Refused(Exception):
    """The tables can't be built; `refusals` says why, line by line."""

    def __init__(self, refusals: list[Refusal]) -> None:
        super().__init__("\n".join(str(refusal) for refusal in refusals))
        self.refusals = refusals


def build(folder: Path, url: str) -> str:
    """Bring the database up to date with the CSV files and give its edition.

    Raises `Refused` and leaves the database as it was when any row can't be trusted.
    """
    edition, layout = edition_of(folder), _layout()
    if _stamp(url) == (edition, layout):
        return edition
    sheets, refusals = load(folder, MODELS)
    if refusals:
        raise Refused(refusals)
    stamp = {"data": edition, "layout": layout}
    path = file_of(url)
    if path is None:
        _fill(open_for_building(url), sheets, stamp)
    else:
        _swap_in(path, sheets, stamp)
    return edition


def run(folder: Path, url: str) -> int:
    """Build as a command: say what was built, or print every refusal and answer 1."""
    try:
        edition = build(folder, url)
    except Refused as refused:
        print(refused, file=sys.stderr)
        return 1
    print(f"Reference tables: edition {edition}", file=sys.stderr)
    return 0


def _layout() -> str:
    """A digest of the tables' columns, so that a changed model is built anew."""
    tables = "".join(str(CreateTable(table)) for table in whole_layout().sorted_tables)
    return hashlib.sha256(tables.encode()).hexdigest()[:12]


def _stamp(url: str) -> tuple[str, str] | None:
    """Edition and layout of the database there is, or None."""
    path = file_of(url)
    if path is not None and not path.exists():
        return None
    engine = open_for_reading(url)
    try:
        if not inspect(engine).has_table(Edition.__tablename__):
            return None
        with engine.connect() as connection:
            found = connection.execute(select(Edition.data, Edition.layout)).first()
        return (found[0], found[1]) if found else None
    except DatabaseError:
        if path is None:
            raise
        return None  # not a database, or one cut short: it is built anew
    finally:
        engine.dispose()


def _swap_in(path: Path, sheets: list[Sheet], stamp: dict[str, str]) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    fresh = path.with_name(f"{path.name}.{os.getpid()}.tmp")
    fresh.unlink(missing_ok=True)
    try:
        _fill(open_for_building(f"sqlite:///{fresh}"), sheets, stamp)
        os.replace(fresh, path)
    finally:
        fresh.unlink(missing_ok=True)


def _fill(engine: Engine, sheets: list[Sheet], stamp: dict[str, str]) -> None:
    """Make every table anew in one transaction."""
    try:
        with engine.begin() as connection:
            whole_layout().drop_all(connection)
            whole_layout().create_all(connection)
            for sheet in sorted(sheets, key=_parents_first):
                _insert(connection, sheet.model, [dict(line.cells) for line in sheet.lines])
            for sheet in sheets:
                _insert(connection, Citation, _citations(sheet))
            _insert(connection, Edition, [stamp])
    finally:
        engine.dispose()


def _parents_first(sheet: Sheet) -> int:
    return whole_layout().sorted_tables.index(sheet.table)


def _insert(connection: Connection, model: type[Row], rows: list[dict[str, Any]]) -> None:
    if rows:
        connection.execute(insert(table_of(model)), rows)


def _citations(sheet: Sheet) -> list[dict[str, Any]]:
    return [
        {
            "table_name": sheet.table.name,
            "row_key": sheet.key(line),
            "source": source,
            "position": position,
        }
        for line in sheet.lines
        for position, source in enumerate(line.agrees)
    ]
