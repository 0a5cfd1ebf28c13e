"""All reference tables as callers read them, with the bytes of a whole table kept once made."""

import hashlib
import json
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Literal

from service.domain.errors import UnknownTable
from service.reference.reading import Rows
from service.reference.shelf import LONGEST_SHOWN, Page, Shelf, nearest
from service.reference.tables import MODELS

Format = Literal["json", "csv"]


@dataclass(frozen=True, slots=True)
class Prepared:
    """The bytes of a whole table in one format, and their strong ETag, quotes included."""

    body: bytes
    etag: str


class Tables:
    """Every reference table, read once."""

    def __init__(self, rows: Rows) -> None:
        self.edition = rows.edition
        self._shelves = {
            model.__tablename__: Shelf(model, rows.of(model))
            for model in sorted(MODELS, key=lambda model: model.__tablename__)
        }
        self._prepared: dict[tuple[str, Format], Prepared] = {}

    def names(self) -> tuple[str, ...]:
        return tuple(self._shelves)

    def descriptions(self) -> tuple[dict[str, Any], ...]:
        """What each table is and what its columns hold, ready for JSON."""
        return tuple(shelf.description() for shelf in self._shelves.values())

    def table(self, name: str) -> Shelf:
        """One table; raises `UnknownTable`."""
        if name not in self._shelves:
            raise UnknownTable(
                f"There is no table {name[:LONGEST_SHOWN]!r}{nearest(name, self._shelves)}."
            )
        return self._shelves[name]

    def whole(self, name: str, format_: Format) -> Prepared:
        """A whole table: in JSON the answer to a question without filters, in CSV every row."""
        if (name, format_) not in self._prepared:
            self._prepared[name, format_] = self._prepare(self.table(name), format_)
        return self._prepared[name, format_]

    def answer(self, name: str, page: Page) -> dict[str, Any]:
        """What a question for rows is answered with, ready for JSON."""
        sources = self._shelves["sources"].shown
        named = {row["source"]: None for row in page.rows if "source" in row}
        return {
            "edition": self.edition,
            "table": name,
            "rows": list(page.rows),
            "next": page.next,
            "assumed": [],
            "sources": [_brief(sources[source]) for source in sorted(named)],
        }

    def _prepare(self, shelf: Shelf, format_: Format) -> Prepared:
        if format_ == "csv":
            body = shelf.csv(shelf.cells).encode()
        else:
            body = _as_lines(self.answer(shelf.name, shelf.page({}))).encode()
        digest = hashlib.sha256(body).hexdigest()[:8]
        return Prepared(body, f'"{self.edition}-{format_}-{digest}"')


def _brief(source: Mapping[str, Any]) -> dict[str, Any]:
    return {name: source[name] for name in ("id", "title", "publisher", "year", "kind")}


def _as_lines(answer: Mapping[str, Any]) -> str:
    """JSON with one row a line: quick to write, and fit to read in a terminal."""
    members = []
    for name, value in answer.items():
        if isinstance(value, list) and value:
            items = ",\n  ".join(json.dumps(item, ensure_ascii=False) for item in value)
            members.append(f"{json.dumps(name)}: [\n  {items}\n ]")
        else:
            members.append(f"{json.dumps(name)}: {json.dumps(value, ensure_ascii=False)}")
    return "{" + ",\n ".join(members) + "}\n"
