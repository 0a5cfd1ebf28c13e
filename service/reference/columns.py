"""What every table has in common: rows, their sources, and what a database itself refuses."""

from collections.abc import Mapping
from fractions import Fraction
from functools import cache
from typing import Any, ClassVar

from sqlalchemy import (
    CheckConstraint,
    Column,
    ColumnElement,
    ForeignKey,
    MetaData,
    Table,
    Text,
    and_,
    func,
    or_,
)
from sqlalchemy.orm import DeclarativeBase, Mapped, MappedColumn, mapped_column

from service import quantities
from service.domain.tape import MM
from service.reference.kinds import KEY_LETTERS, Amount, Choice, Key, Kind, Whole, Words, yes_or_no
from service.reference.printed import Size

Cells = Mapping[str, Any]  # a row as values by column


def column(
    kind: Kind[Any],
    meaning: str,
    *,
    of: str | None = None,
    named: str | None = None,
    primary: bool = False,
    order: int = 0,
) -> MappedColumn[Any]:
    """A column: its kind, what it means, and where needed its name in the file.

    `of` is the table and column that it points to, such as `woods.key`; `primary` columns are
    together what the rows are told apart and sorted by.
    """
    links = [ForeignKey(of)] if of else []
    told: dict[str, Any] = {"comment": meaning, "sort_order": order, "primary_key": primary}
    if named:
        return mapped_column(named, kind, *links, **told)
    return mapped_column(kind, *links, **told)


class Row(DeclarativeBase):
    """A row of a table. Its docstring says what one row is."""

    heading: ClassVar[str]


class Sourced:
    """A row with where its values come from. `about`: the columns that say what it is about."""

    about: ClassVar[tuple[str, ...]]

    key: Mapped[str] = column(Key(), "Name of the row, unique in its table", primary=True, order=-1)
    source: Mapped[str] = column(
        Words(), "Where the printed values were read", of="sources.id", order=101
    )
    locator: Mapped[str] = column(Words(), "Page, table, equation or section", order=102)
    confidence: Mapped[str] = column(
        Choice("memory", "one-source", "cross-checked"),
        "Remembered, read in one place, or read in several that agree",
        order=103,
    )
    basis: Mapped[str] = column(
        Choice("standard", "handbook", "law", "study", "maker", "practice"),
        "What kind of authority stands behind the values",
        order=104,
    )
    preferred: Mapped[str] = column(
        yes_or_no(),
        "Whether answers use this row where several are about the same thing",
        order=105,
    )
    note: Mapped[str | None] = column(Words(), "What else a reader should know", order=106)


class Valued:
    """One value of one property, as a range: low and high are the same where there is one value."""

    property: Mapped[str] = column(Key(), "What was measured", order=1)
    condition: Mapped[str | None] = column(Words(), "What the value holds under", order=2)
    low: Mapped[Size | None] = column(Amount(), "Least value", order=3)
    high: Mapped[Size | None] = column(Amount(), "Greatest value", order=4)
    usual: Mapped[Size | None] = column(Amount(), "Usual value", order=5)
    unit: Mapped[str] = column(Words(), "Unit of the values; 1 for a pure number", order=6)


class Worded:
    """One value of one property, as a range or in words."""

    property: Mapped[str] = column(Key(), "What is told", order=1)
    condition: Mapped[str | None] = column(Words(), "What the value holds under", order=2)
    low: Mapped[Size | None] = column(Amount(), "Least value", order=3)
    high: Mapped[Size | None] = column(Amount(), "Greatest value", order=4)
    usual: Mapped[Size | None] = column(Amount(), "Usual value", order=5)
    unit: Mapped[str | None] = column(Words(), "Unit of the values", order=6)
    words: Mapped[str | None] = column(Words(), "The value, where it is words", order=7)


def table_of(model: type[Row]) -> Table:
    """The database table of a model."""
    table = model.__table__
    if not isinstance(table, Table):
        raise TypeError(f"{model.__name__} is not one table")
    return table


@cache
def key_columns(model: type[Row]) -> tuple[str, ...]:
    """The columns that rows of a model are told apart and sorted by."""
    return tuple(cell.name for cell in table_of(model).primary_key)


def key_in(model: type[Row], cells: Cells) -> str:
    """The key of a row in one word."""
    return ".".join(cells[name] for name in key_columns(model))


def cited_as(model: type[Row], cells: Cells) -> str:
    """How an answer names a row: ``table/key``."""
    return f"{model.__tablename__}/{cells['key']}"


def in_inches(number: Size | None, unit: str | None) -> Fraction | None:
    """A printed amount as a value, millimeters as inches; other units stay as they are."""
    if number is None:
        return None
    in_millimeters = unit == "mm" and number.text[-1:].isdigit()
    return number.value * MM if in_millimeters else number.value


def converted(number: Size | None, unit: str | None, to: Mapping[str, str]) -> Fraction | None:
    """A printed amount in the unit that `to` names for its own; as printed where it names none."""
    if number is None or unit is None or unit not in to:
        return None if number is None else number.value
    return quantities.amount_in(number.text, unit, to[unit])


def kind_of(cell: Column[Any]) -> Kind[Any]:
    """The kind of a column of a table."""
    if not isinstance(cell.type, Kind):
        raise TypeError(f"{cell} is not declared with a kind of cell")
    return cell.type


@cache
def whole_layout() -> MetaData:
    """Every table that is declared, with what the database itself refuses.

    Only building needs it: whoever reads is spared the making of some hundred rules.
    """
    for table in Row.metadata.sorted_tables:
        _add_checks(table)
    return Row.metadata


def _add_checks(table: Table) -> None:
    """Let the database itself refuse unknown words, empty text and badly formed keys."""
    for cell in table.columns:
        rule: ColumnElement[bool] = cell != ""
        if isinstance(cell.type, Choice):
            rule = cell.in_(cell.type.known)
        elif isinstance(cell.type, Key):
            rule = (cell != "") & (func.ltrim(cell, KEY_LETTERS, type_=Text) == "")
        elif isinstance(cell.type, Whole) or not isinstance(cell.type, Kind):
            continue
        table.append_constraint(CheckConstraint(rule, name=f"{table.name}_{cell.name}_is_right"))
    if "confidence" in table.columns:
        remembered = table.columns["confidence"] == "memory"
        unsourced = table.columns["source"] == "memory"
        table.append_constraint(
            CheckConstraint(
                or_(and_(remembered, unsourced), and_(~remembered, ~unsourced)),
                name=f"{table.name}_memory_is_said",
            )
        )
