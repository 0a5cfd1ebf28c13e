"""One reference table as a caller reads it: described, found, sorted, paged, as JSON and CSV."""

import base64
import csv
import difflib
import io
import json
import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property
from typing import Any

from service.domain.errors import UnknownColumn, UnknownCursor, UnknownKey
from service.reference.columns import Cells, Row, key_in, kind_of, table_of
from service.reference.kinds import Choice, Keys, Kind, Sought
from service.reference.loading import header_of

MOST_ROWS = 500
LONGEST_SHOWN = 60  # letters of an unknown name that are repeated to the caller
LONGEST_ASKED = 1000  # letters; no cell comes near it
AGREEING = "Further sources that print the same"
_NUMERIC = re.compile(r"[+-]?\d+(?:\.\d+)?", re.ASCII)


@dataclass(frozen=True, slots=True)
class Page:
    """Some rows of a table, ready for JSON, and where the next page starts, if there is one."""

    rows: tuple[dict[str, Any], ...]
    next: str | None


@dataclass(frozen=True)
class Shelf:
    """One table with all its rows."""

    model: type[Row]
    cells: tuple[Cells, ...]
    kinds: Mapping[str, Kind[Any]] = field(init=False)

    def __post_init__(self) -> None:
        columns = table_of(self.model).columns
        kinds: dict[str, Kind[Any]] = {name: Keys("sources") for name in header_of(self.model)}
        kinds.update({str(cell.name): kind_of(cell) for cell in columns})
        object.__setattr__(self, "kinds", kinds)

    @property
    def name(self) -> str:
        return table_of(self.model).name

    @cached_property
    def shown(self) -> Mapping[str, dict[str, Any]]:
        """Every row as JSON shows it, by key."""
        return {key_in(self.model, cells): self._shown(cells) for cells in self.cells}

    def description(self) -> dict[str, Any]:
        """What the table is, what one row is, and what each column holds."""
        return {
            "table": self.name,
            "title": self.model.heading,
            "row": " ".join((self.model.__doc__ or "").split()),
            "rows": len(self.cells),
            "columns": [self._column(name, kind) for name, kind in self.kinds.items()],
        }

    def _column(self, name: str, kind: Kind[Any]) -> dict[str, Any]:
        cell = table_of(self.model).columns.get(name)
        links = (
            sorted(link.column.table.name for link in cell.foreign_keys) if cell is not None else []
        )
        return {
            "name": name,
            "kind": kind.word,
            "holds": kind.holds,
            "meaning": AGREEING if cell is None else cell.comment,
            "one_of": list(kind.known) if isinstance(kind, Choice) else [],
            "keys_of": kind.of if isinstance(kind, Keys) else next(iter(links), None),
        }

    def row(self, key: str) -> dict[str, Any]:
        """One row; raises `UnknownKey`."""
        if key not in self.shown:
            raise UnknownKey(
                f"{self.name} has no row {key[:LONGEST_SHOWN]!r}{nearest(key, self.shown)}."
            )
        return self.shown[key]

    def found(
        self,
        filters: Mapping[str, str],
        sort: str | None = None,
        limit: int | None = None,
        cursor: str | None = None,
    ) -> tuple[tuple[Cells, ...], str | None]:
        """The rows that every filter holds for, in order, and the cursor of the next ones.

        `sort` is a column, with a hyphen before it for descending; empty cells come last.
        Without a limit all rows are found. Raises `UnknownColumn`, and `UnknownCursor` for one
        of another list.
        """
        sought = [(name, self._sought(name, asked)) for name, asked in filters.items()]
        ordered = self._after(cursor, sort, self._sorted(sort))
        kept = [cells for cells in ordered if all(holds(cells[name]) for name, holds in sought)]
        if limit is None or len(kept) <= limit:
            return tuple(kept), None
        last = key_in(self.model, kept[limit - 1])
        return tuple(kept[:limit]), _cursor(sort, last)

    def page(
        self,
        filters: Mapping[str, str],
        sort: str | None = None,
        limit: int | None = None,
        cursor: str | None = None,
    ) -> Page:
        """At most `limit` of the rows found (500 at most, and when none is named)."""
        most = MOST_ROWS if limit is None else max(1, min(limit, MOST_ROWS))
        cells, further = self.found(filters, sort, most, cursor)
        return Page(tuple(self.shown[key_in(self.model, row)] for row in cells), further)

    def csv(self, rows: Iterable[Cells]) -> str:
        """Rows as printed, RFC 4180, header first; no cell can be taken for a formula."""
        text = io.StringIO()
        writer = csv.writer(text)
        writer.writerow(self.kinds)
        for cells in rows:
            writer.writerow([_harmless(text) for text in self.printed(cells).values()])
        return text.getvalue()

    def printed(self, cells: Cells) -> dict[str, str]:
        """Each cell of a row as printed, by column; empty ones are empty text."""
        return {name: self._text(name, cells[name]) for name in self.kinds}

    def _sought(self, name: str, asked: str) -> Sought:
        kind = self._kind(name)
        return kind.sought(asked) if len(asked) <= LONGEST_ASKED else lambda cell: False

    def _kind(self, name: str) -> Kind[Any]:
        if name not in self.kinds:
            raise UnknownColumn(
                f"{self.name} has no column {name[:LONGEST_SHOWN]!r}{nearest(name, self.kinds)}."
            )
        return self.kinds[name]

    def _shown(self, cells: Cells) -> dict[str, Any]:
        return {
            name: kind.nothing if cells[name] is None else kind.shown(cells[name])
            for name, kind in self.kinds.items()
        }

    def _text(self, name: str, cell: Any) -> str:
        return "" if cell is None else str(self.kinds[name].printed(cell))

    def _sorted(self, sort: str | None) -> Sequence[Cells]:
        if sort is None:
            return self.cells
        name = sort.removeprefix("-")
        kind = self._kind(name)
        filled = [cells for cells in self.cells if cells[name] is not None]
        filled.sort(key=lambda cells: kind.rank(cells[name]), reverse=sort.startswith("-"))
        return filled + [cells for cells in self.cells if cells[name] is None]

    def _after(
        self, cursor: str | None, sort: str | None, rows: Sequence[Cells]
    ) -> Sequence[Cells]:
        if cursor is None:
            return rows
        for index, cells in enumerate(rows):
            if _cursor(sort, key_in(self.model, cells)) == cursor:
                return rows[index + 1 :]
        raise UnknownCursor(f"The cursor is of another list than this one of {self.name}.")


def nearest(name: str, known: Iterable[str]) -> str:
    """Words that offer the known names most like one that is not known, or nothing."""
    close = difflib.get_close_matches(name[:LONGEST_SHOWN], sorted(known), n=3, cutoff=0.5)
    return f"; the nearest is {' or '.join(close)}" if close else ""


def _cursor(sort: str | None, key: str) -> str:
    """Where a page ends. Callers hand it back as it is, and need not know what it says."""
    return base64.urlsafe_b64encode(json.dumps([sort, key]).encode()).decode().rstrip("=")


def _harmless(text: str) -> str:
    """The text with a quote before it where a spreadsheet would take it for a formula."""
    starts_formula = text.startswith(("=", "+", "-", "@", "\t", "\r"))
    return f"'{text}" if starts_formula and not _NUMERIC.fullmatch(text) else text
