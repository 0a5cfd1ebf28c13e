"""Finishes, how they behave, and the grits to sand with."""

from sqlalchemy.orm import Mapped

from service.reference.columns import Row, Sourced, Worded, column
from service.reference.kinds import Key, Whole, WholeNumbers, Words
from service.reference.printed import WholeSeries


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
