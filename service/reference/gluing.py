"""Glues, how they behave, and the classes and pressures that standards and makers name."""

from sqlalchemy.orm import Mapped

from service.reference.columns import Row, Sourced, Worded, column
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
