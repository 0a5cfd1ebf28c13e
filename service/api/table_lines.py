"""Reference tables in plain lines: a row is a statement, its empty cells left out."""

import re
from collections.abc import Iterable, Iterator, Mapping
from typing import Any

from service.reference.columns import Cells, key_in
from service.reference.shelf import Shelf

Json = Mapping[str, Any]

_LISTED = re.compile(";(?! )")  # between the values of one cell


def listed(tables: Iterable[Json], edition: str) -> Iterator[str]:
    """Every table with what it is and the names of its columns."""
    for table in tables:
        many = "1 row" if table["rows"] == 1 else f"{table['rows']} rows"
        yield f"{table['table']}: {table['title']} ({many})"
        yield f"  columns: {', '.join(column['name'] for column in table['columns'])}"
    yield f"edition: {edition}"


def rows(shelf: Shelf, found: Iterable[Cells], answer: Json) -> Iterator[str]:
    """Rows as printed, by their keys; where further ones follow, and the sources by name."""
    for cells in found:
        key = key_in(shelf.model, cells)
        told = (
            f"{name} {_LISTED.sub(', ', text)}"
            for name, text in shelf.printed(cells).items()
            if text and text != key  # the key is said already
        )
        yield f"{key}: {'; '.join(told)}"
    if not answer["rows"]:
        yield "no row is like that"
    if answer["next"]:
        yield f"more rows follow: cursor={answer['next']}"
    yield from (f"source: {source['id']} is {source['title']}" for source in answer["sources"])
    yield f"edition: {answer['edition']}"
