"""Reading one CSV file: every cell as its column says, or refused with file, line and why."""

import csv
import hashlib
from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from sqlalchemy import Column, Table

from service.reference.columns import Row, key_columns, key_in, kind_of, table_of
from service.reference.printed import Unreadable

AGREES = "agrees"


@dataclass(frozen=True, slots=True, order=True)
class Refusal:
    """One thing wrong with the tables."""

    file: str
    line: int
    why: str

    def __str__(self) -> str:
        return f"{self.file}:{self.line}: {self.why}"


@dataclass(frozen=True, slots=True)
class Line:
    """One row of a file: its cells as values by column, and the sources that agree with it."""

    number: int
    cells: Mapping[str, Any]
    agrees: tuple[str, ...] = ()


@dataclass(slots=True)
class Sheet:
    """One file that was read for a model, and what was wrong with it."""

    model: type[Row]
    lines: list[Line] = field(default_factory=list)
    refusals: list[Refusal] = field(default_factory=list)

    @property
    def table(self) -> Table:
        return table_of(self.model)

    @property
    def file(self) -> str:
        return f"{self.table.name}.csv"

    def keys(self) -> frozenset[str]:
        return frozenset(key for line in self.lines if (key := self.key(line)) is not None)

    def key(self, line: Line) -> str | None:
        """The key of a line, unless its cells could not be read."""
        has_key = line.cells.keys() >= set(key_columns(self.model))
        return key_in(self.model, line.cells) if has_key else None

    def refuse(self, line: int, why: str) -> None:
        self.refusals.append(Refusal(self.file, line, why))


def edition_of(folder: Path) -> str:
    """The first 12 hexadecimal digits of SHA-256 over the bytes of every CSV, in order of name."""
    digest = hashlib.sha256()
    for path in sorted(folder.glob("*.csv")):
        digest.update(path.name.encode() + b"\0" + path.read_bytes() + b"\0")
    return digest.hexdigest()[:12]


def header_of(model: type[Row]) -> list[str]:
    """The columns that the file of a model must have, in order."""
    names = [str(cell.name) for cell in table_of(model).columns]
    if "locator" in names:
        names.insert(names.index("locator"), AGREES)
    return names


def read_sheet(folder: Path, model: type[Row]) -> Sheet:
    """The file of one model, with every cell that can't be read refused."""
    return _read(folder, Sheet(model))


def _read(folder: Path, sheet: Sheet) -> Sheet:
    header = header_of(sheet.model)
    try:
        text = (folder / sheet.file).read_bytes().decode("utf-8")
    except FileNotFoundError:
        sheet.refuse(1, "the file is missing")
        return sheet
    except UnicodeDecodeError:
        sheet.refuse(1, "the file is not UTF-8")
        return sheet
    if "\r" in text or not text.endswith("\n"):
        sheet.refuse(1, "lines must end with a line feed alone, the last one too")
    reader = csv.reader(text.splitlines(keepends=True), strict=True)
    if not _header_is_right(sheet, next(reader, []), header):
        return sheet
    columns = {cell.name: cell for cell in sheet.table.columns}
    try:
        for cells in reader:
            sheet.lines.append(_read_line(sheet, reader.line_num, columns, header, cells))
    except csv.Error as refusal:
        sheet.refuse(reader.line_num, f"not CSV: {refusal}")
    return sheet


def _header_is_right(sheet: Sheet, found: list[str], header: list[str]) -> bool:
    for name in found:
        if name not in header:
            sheet.refuse(1, f"unknown column {name!r}")
    for name in header:
        if name not in found:
            sheet.refuse(1, f"column {name!r} is missing")
    if sorted(found) == sorted(header) and found != header:
        sheet.refuse(1, f"columns must stand in this order: {','.join(header)}")
    return found == header


def _read_line(
    sheet: Sheet,
    number: int,
    columns: Mapping[str, Column[Any]],
    header: list[str],
    cells: list[str],
) -> Line:
    if len(cells) != len(header):
        sheet.refuse(number, f"{len(cells)} cells where the table has {len(header)} columns")
        return Line(number, {})
    printed = dict(zip(header, cells, strict=True))
    agrees = tuple(part for part in printed.pop(AGREES, "").split(";") if part)
    values = {}
    for name, text in printed.items():
        try:
            values[name] = _read_cell(columns[name], text)
        except Unreadable as refusal:
            sheet.refuse(number, f"{name}: {refusal}")
    return Line(number, values, agrees)


def _read_cell(column: Column[Any], text: str) -> Any:
    if text == "":
        if not column.nullable:
            raise Unreadable("may not be empty")
        return None
    if text != text.strip() or "\n" in text:
        raise Unreadable(f"{text!r} begins or ends with a blank, or has a line break")
    return kind_of(column).read(text)
