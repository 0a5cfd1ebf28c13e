"""Every row of every table, read once from the database as exact values."""

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass

from sqlalchemy import Connection, Engine, select

from service.reference.columns import Cells, Row, key_columns, key_in, table_of
from service.reference.loading import AGREES, header_of
from service.reference.printed import Printed
from service.reference.sources import Citation, Edition
from service.reference.tables import MODELS


@dataclass(frozen=True, slots=True)
class Rows:
    """All rows as values by column, a tuple a table, sorted by key."""

    edition: str
    tables: Mapping[str, tuple[Cells, ...]]

    def of(self, model: type[Row]) -> tuple[Cells, ...]:
        return self.tables[model.__tablename__]

    def preferred(self, model: type[Row]) -> tuple[Cells, ...]:
        """The rows that answers use."""
        return tuple(cells for cells in self.of(model) if cells["preferred"] == "yes")


def read_rows(engine: Engine) -> Rows:
    """Read the whole database, then let go of it: servers fork after this.

    It asks tables, not models: nothing is mapped to objects, so their machinery stays cold.
    """
    with engine.connect() as connection:
        edition = connection.execute(select(table_of(Edition).c.data)).scalar_one()
        agreeing = _agreeing(connection)
        tables = {
            model.__tablename__: _read(connection, model, agreeing[model.__tablename__])
            for model in MODELS
        }
    engine.dispose()
    return Rows(edition, tables)


def _agreeing(connection: Connection) -> defaultdict[str, defaultdict[str, list[str]]]:
    """Further sources by table and key."""
    found: defaultdict[str, defaultdict[str, list[str]]] = defaultdict(lambda: defaultdict(list))
    cited = table_of(Citation).c
    wanted = select(cited.table_name, cited.row_key, cited.source).order_by(cited.position)
    for table, key, source in connection.execute(wanted):
        found[table][key].append(source)
    return found


def _read(
    connection: Connection, model: type[Row], agreeing: Mapping[str, list[str]]
) -> tuple[Cells, ...]:
    table = table_of(model)
    keys = key_columns(model)
    header = header_of(model)
    rows = []
    found = connection.execute(select(table))
    names = tuple(found.keys())
    for row in found:
        cells = dict(zip(names, row, strict=True))
        if AGREES in header:
            sources = agreeing.get(key_in(model, cells))
            cells[AGREES] = Printed(";".join(sources), tuple(sources)) if sources else None
        rows.append({name: cells[name] for name in header})
    return tuple(sorted(rows, key=lambda cells: [cells[name] for name in keys]))
