"""Finishes, how they behave, the grits to sand with, and how long work takes."""

from collections.abc import Iterable, Mapping
from fractions import Fraction

from sqlalchemy.orm import Mapped

from service.domain.finish_values import Figure, Finishing
from service.reference.columns import Cells, Row, Sourced, Worded, cited_as, column, converted
from service.reference.kinds import Amount, Key, Whole, WholeNumbers, Words
from service.reference.printed import Size, WholeSeries


class Finish(Sourced, Row):
    """A kind of finish."""

    __tablename__ = "finishes"
    heading = "Finishes"
    about = ("name",)

    name: Mapped[str] = column(Words(), "What it is called")
    kind: Mapped[str] = column(Key(), "Family of finishes")
    binder: Mapped[str] = column(Words(), "What it is made of")


class FinishValue(Worded, Sourced, Row):
    """One value of one property of a finish, such as its coverage."""

    __tablename__ = "finish_values"
    heading = "Properties of finishes"
    about = ("finish", "property", "condition")

    finish: Mapped[str] = column(Key(), "The finish", of="finishes.key")


class Abrasive(Sourced, Row):
    """The grits for one stage of sanding."""

    __tablename__ = "abrasives"
    heading = "Grits"
    about = ("stage", "material", "purpose")

    stage: Mapped[str] = column(Words(), "Stage of the work")
    material: Mapped[str] = column(Words(), "What is sanded")
    grit_from: Mapped[int | None] = column(Whole(), "First grit")
    grit_to: Mapped[int | None] = column(Whole(), "Last grit")
    sequence: Mapped[WholeSeries | None] = column(WholeNumbers(), "Grits in order")
    purpose: Mapped[str | None] = column(Words(), "What for")


class WorkTime(Sourced, Row):
    """How long work by hand takes, or how much is used up: common practice, as a range."""

    __tablename__ = "work_times"
    heading = "Time and use of common work"
    about = ("work",)

    work: Mapped[str] = column(Words(), "What is done")
    low: Mapped[Size] = column(Amount(), "Least value")
    high: Mapped[Size] = column(Amount(), "Greatest value")
    unit: Mapped[str] = column(Words(), "Unit of the values")


FIGURED_IN = dict.fromkeys(("s", "min", "h", "d"), "h") | {"ft2/qt": "ft2/gal"}


def finishing_values(kinds: Iterable[Cells], rows: Iterable[Cells]) -> Mapping[str, Finishing]:
    """Every finish: times in hours, coverage in square feet per US gallon."""
    figures: dict[str, dict[str, Figure]] = {}
    for cells in rows:
        named = cells["property"] + (f" {cells['condition']}" if cells["condition"] else "")
        figures.setdefault(cells["finish"], {})[named] = figure(cells, FinishValue)
    return {
        cells["key"]: Finishing(
            cells["key"], cells["name"], cells["kind"], figures.get(cells["key"], {})
        )
        for cells in kinds
    }


def grits(rows: Iterable[Cells]) -> Mapping[str, Figure]:
    """The grits of each stage of sanding, from the coarsest to the finest, by key."""
    return {
        cells["key"]: Figure(
            cited_as(Abrasive, cells),
            Fraction(cells["grit_from"]),
            Fraction(cells["grit_to"]),
            cells["purpose"],
        )
        for cells in rows
        if cells["grit_from"] is not None and cells["grit_to"] is not None
    }


def work_times(rows: Iterable[Cells]) -> Mapping[str, Figure]:
    """Every work time by key, in the unit of its row."""
    return {
        cells["key"]: Figure(
            cited_as(WorkTime, cells), cells["low"].value, cells["high"].value, None
        )
        for cells in rows
    }


def figure(cells: Cells, model: type[Row]) -> Figure:
    """A printed range: times as hours, coverage per gallon, all else as printed."""
    low, high = (converted(cells[name], cells["unit"], FIGURED_IN) for name in ("low", "high"))
    return Figure(cited_as(model, cells), low, high, cells["words"])
