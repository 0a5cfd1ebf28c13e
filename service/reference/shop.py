"""Tools, uses, cautions and rules of thumb."""

from collections.abc import Iterable, Mapping

from sqlalchemy.orm import Mapped

from service.domain.catalog import Practice
from service.reference.columns import Cells, Row, Sourced, cited_as, column, in_inches
from service.reference.kinds import Amount, Key, Keys, Whole, Words, yes_or_no
from service.reference.printed import KeyList, Size


class Tool(Sourced, Row):
    """A tool that a shop may own."""

    __tablename__ = "tools"
    heading = "Tools"
    about = ("name",)

    name: Mapped[str] = column(Words(), "What it is called")
    kind: Mapped[str] = column(Key(), "Kind of tool")
    for_: Mapped[KeyList] = column(Keys(), "What it is used for", named="for")


class Use(Sourced, Row):
    """What a piece is for."""

    __tablename__ = "uses"
    heading = "Uses"
    about = ("name",)

    name: Mapped[str] = column(Words(), "In words")
    judged: Mapped[str] = column(
        yes_or_no(), "Whether strength is judged; where it is not, separate standards apply"
    )


class Caution(Sourced, Row):
    """A caution, tied to an operation."""

    __tablename__ = "cautions"
    heading = "Cautions"
    about = ("operation", "caution")

    operation: Mapped[str] = column(Words(), "What is being done")
    caution: Mapped[str] = column(Words(), "The caution")
    low: Mapped[Size | None] = column(Amount(), "Least value, where there is a figure")
    high: Mapped[Size | None] = column(Amount(), "Greatest value, where there is a figure")
    unit: Mapped[str | None] = column(Words(), "Unit of the figure")
    kind: Mapped[str] = column(Words(), "What kind of text it comes from")


class PracticeRule(Sourced, Row):
    """A rule of thumb, as a range."""

    __tablename__ = "practice_rules"
    heading = "Rules of thumb"
    about = ("topic", "applies_to", "statement")

    topic: Mapped[str] = column(Words(), "Topic")
    applies_to: Mapped[str] = column(Words(), "What it applies to")
    statement: Mapped[str] = column(Words(), "The rule in words")
    low: Mapped[Size | None] = column(Amount(), "Least value")
    high: Mapped[Size | None] = column(Amount(), "Greatest value")
    unit: Mapped[str | None] = column(Words(), "Unit of the values")
    contested: Mapped[str] = column(yes_or_no(), "Whether sources disagree")
    sources_agreeing: Mapped[int] = column(Whole(), "How many sources agree")


def practices(model: type[Row], rows: Iterable[Cells]) -> Mapping[str, Practice]:
    """Every figure of a table of practice, by key; millimeters are turned into inches."""
    return {
        cells["key"]: Practice(
            row=cited_as(model, cells),
            key=cells["key"],
            topic=cells["topic"],
            low=in_inches(cells["low"], cells["unit"]),
            high=in_inches(cells["high"], cells["unit"]),
            unit="in" if cells["unit"] == "mm" else cells["unit"] or "",
            contested=cells["contested"] == "yes",
        )
        for cells in rows
    }
