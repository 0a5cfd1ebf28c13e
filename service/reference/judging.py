"""What must hold between rows: order, keys, links, memory said, one preferred among rivals."""

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path
from typing import Any

from service.reference.columns import Row, key_columns, kind_of
from service.reference.kinds import Keys
from service.reference.loading import AGREES, Line, Refusal, Sheet, read_sheet
from service.reference.names import Name, keys_of


def load(folder: Path, models: Sequence[type[Row]]) -> tuple[list[Sheet], list[Refusal]]:
    """Every table read from its file, and everything that is wrong with them."""
    sheets = [read_sheet(folder, model) for model in models]
    known = {sheet.file for sheet in sheets}
    strays = [
        Refusal(path.name, 1, "no table goes by this name")
        for path in sorted(folder.glob("*.csv"))
        if path.name not in known
    ]
    keys = {sheet.table.name: sheet.keys() for sheet in sheets}
    for sheet in sheets:
        _check_order(sheet)
        _check_links(sheet, keys)
        _check_memory(sheet)
        _check_what_rows_are_about(sheet)
    _check_names({sheet.model: sheet for sheet in sheets})
    return sheets, sorted([*strays, *(refusal for sheet in sheets for refusal in sheet.refusals)])


def _check_order(sheet: Sheet) -> None:
    columns = key_columns(sheet.model)
    before: tuple[str, ...] = ()
    seen: dict[str, int] = {}
    for line in sheet.lines:
        key = sheet.key(line)
        if key is None:
            continue
        place = tuple(line.cells[name] for name in columns)
        if key in seen:
            sheet.refuse(line.number, f"{key!r} stands on line {seen[key]} too")
        elif place < before:
            sheet.refuse(line.number, f"{key!r} is out of order: sort rows by {', '.join(columns)}")
        seen[key], before = line.number, place


def _check_links(sheet: Sheet, keys: Mapping[str, frozenset[str]]) -> None:
    """Every key of another table must be there."""
    for column in sheet.table.columns:
        wanted = [link.column.table.name for link in column.foreign_keys]
        kind = kind_of(column)
        wanted += [kind.of] if isinstance(kind, Keys) and kind.of else []
        for line in sheet.lines if wanted else ():
            for name in _named(line.cells.get(column.name)):
                if name not in keys.get(wanted[0], ()):
                    sheet.refuse(line.number, f"{column.name}: {name!r} is not in {wanted[0]}")
    for line in sheet.lines:
        for name in line.agrees:
            if name not in keys["sources"] or name in ("memory", line.cells.get("source")):
                sheet.refuse(line.number, f"{AGREES}: {name!r} is not a further source")


def _named(cell: Any) -> Iterator[str]:
    if cell is not None:
        yield from [cell] if isinstance(cell, str) else cell.value


def _check_memory(sheet: Sheet) -> None:
    """What was not read says so, and nothing else does."""
    for line in sheet.lines:
        source, confidence = line.cells.get("source"), line.cells.get("confidence")
        if source and confidence and (source == "memory") != (confidence == "memory"):
            sheet.refuse(
                line.number, f"confidence {confidence!r} does not go with source {source!r}"
            )


def _check_what_rows_are_about(sheet: Sheet) -> None:
    """Of rows about the same thing one is preferred, and the others say why they are not."""
    about = getattr(sheet.model, "about", ())
    same: defaultdict[tuple[Any, ...], list[Line]] = defaultdict(list)
    for line in sheet.lines:
        if about and line.cells.keys() >= {*about, "preferred"}:
            same[tuple(_plain(line.cells[name]) for name in about)].append(line)
    for lines in same.values():
        preferred = [line for line in lines if line.cells["preferred"] == "yes"]
        if len(preferred) != 1 and len(lines) > 1:
            where = ", ".join(str(line.number) for line in lines)
            sheet.refuse(
                lines[-1].number,
                f"{len(preferred)} rows preferred, not one, among those about the same thing"
                f" (same {', '.join(about)}; lines {where})",
            )
        for line in lines:
            if line.cells["preferred"] == "no" and not line.cells.get("note"):
                sheet.refuse(line.number, "a row that is not preferred must say why in its note")


def _check_names(sheets: Mapping[type[Row], Sheet]) -> None:
    """Every name must stand for something."""
    known = keys_of({model: [line.cells for line in s.lines] for model, s in sheets.items()})
    for line in sheets[Name].lines:
        kind, means = line.cells.get("kind"), line.cells.get("means")
        if kind and means and means not in known[kind]:
            sheets[Name].refuse(line.number, f"means: no {kind} has the key {means!r}")


def _plain(cell: Any) -> Any:
    return getattr(cell, "value", cell)
