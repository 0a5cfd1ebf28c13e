"""Glues, how they behave, and the classes and pressures that standards and makers name."""

from collections.abc import Iterable, Mapping

from sqlalchemy.orm import Mapped

from service.domain import glues
from service.reference.columns import (
    Cells,
    Row,
    Sourced,
    Worded,
    cited_as,
    column,
    converted,
    in_inches,
)
from service.reference.kinds import Amount, Key, Words
from service.reference.printed import Size


class Glue(Sourced, Row):
    """A kind of glue."""

    __tablename__ = "glues"
    heading = "Glues"
    about = ("name",)

    name: Mapped[str] = column(Words(), "What it is called")
    kind: Mapped[str] = column(Key(), "Family of glues")
    also_called: Mapped[str | None] = column(Words(), "Other names, with semicolons between them")


class GlueValue(Worded, Sourced, Row):
    """One value of one property of a glue, such as its open time."""

    __tablename__ = "glue_values"
    heading = "Properties of glues"
    about = ("glue", "property", "condition")

    glue: Mapped[str] = column(Key(), "The glue", of="glues.key")


class GlueClass(Sourced, Row):
    """A class of glue in a standard, or a figure for clamping and spreading."""

    __tablename__ = "glue_classes"
    heading = "Glue classes, clamp pressure and coverage"
    about = ("system", "class", "item")

    system: Mapped[str] = column(Words(), "Standard or subject")
    class_: Mapped[str | None] = column(Words(), "Class or case", named="class")
    item: Mapped[str] = column(Key(), "What is told of it")
    statement: Mapped[str] = column(Words(), "In words")
    low: Mapped[Size | None] = column(Amount(), "Least value")
    high: Mapped[Size | None] = column(Amount(), "Greatest value")
    unit: Mapped[str | None] = column(Words(), "Unit of the values")


FIGURED_IN = dict.fromkeys(("s", "min", "h", "d"), "min")


def glue_kinds(rows: Iterable[Cells], values: Iterable[Cells]) -> Mapping[str, glues.Glue]:
    """Every glue with what is told of it, by key; times in minutes."""
    told = list(values)
    return {cells["key"]: _glue(cells, told) for cells in rows}


def _glue(cells: Cells, values: Iterable[Cells]) -> glues.Glue:
    figures: dict[str, tuple[glues.GlueFigure, ...]] = {}
    words: dict[str, tuple[glues.GlueWords, ...]] = {}
    for told in values:
        if told["glue"] != cells["key"]:
            continue
        of, row, under = told["property"], cited_as(GlueValue, told), told["condition"] or ""
        if told["words"] is not None:
            words[of] = (*words.get(of, ()), glues.GlueWords(row, told["words"], under))
        else:
            figures[of] = (*figures.get(of, ()), _figure(told, row, under))
    return glues.Glue(
        cited_as(Glue, cells), cells["key"], cells["name"], cells["kind"], figures, words
    )


def _figure(cells: Cells, row: str, condition: str) -> glues.GlueFigure:
    unit = cells["unit"] or ""
    low, high, usual = (converted(cells[e], unit, FIGURED_IN) for e in ("low", "high", "usual"))
    return glues.GlueFigure(row, low, high, usual, FIGURED_IN.get(unit, unit), condition)


def glue_classes(rows: Iterable[Cells]) -> Mapping[str, glues.GlueClass]:
    """Classes of glue, clamp pressures and spacing, and coverage, by key."""
    return {
        cells["key"]: glues.GlueClass(
            row=cited_as(GlueClass, cells),
            key=cells["key"],
            statement=cells["statement"],
            low=in_inches(cells["low"], cells["unit"]),
            high=in_inches(cells["high"], cells["unit"]),
            unit=cells["unit"] or "",
        )
        for cells in rows
    }
