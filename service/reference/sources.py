"""Publications that values were read in, what else agrees with a row, and the data's edition."""

from sqlalchemy import ForeignKey, Text
from sqlalchemy.orm import Mapped, mapped_column

from service.reference.columns import Row, column
from service.reference.kinds import Choice, Key, Words


class Source(Row):
    """A publication, or a page of some kind, that values were read in."""

    __tablename__ = "sources"
    heading = "Sources"

    id: Mapped[str] = column(Key(), "Name of the source", primary=True)
    title: Mapped[str] = column(Words(), "Title; for a page of some kind, what it is about")
    author: Mapped[str | None] = column(Words(), "Body that wrote it")
    publisher: Mapped[str | None] = column(Words(), "Body that published it")
    year: Mapped[str | None] = column(Words(), "Year of publication")
    edition: Mapped[str | None] = column(Words(), "Edition, volume or number")
    kind: Mapped[str] = column(
        Choice(
            "standard", "handbook", "agency", "law", "journal", "trade-association",
            "trade-page", "maker-sheet", "memory", "own",
        ),
        "What kind of source it is",
    )  # fmt: skip
    read_on: Mapped[str | None] = column(Words(), "Day on which it was read")
    note: Mapped[str | None] = column(Words(), "How it was read")


class Citation(Row):
    """A further source that agrees with a row of some table."""

    __tablename__ = "citations"
    heading = "Further sources"

    table_name: Mapped[str] = mapped_column(Text, primary_key=True)
    row_key: Mapped[str] = mapped_column(Text, primary_key=True)
    source: Mapped[str] = mapped_column(ForeignKey("sources.id"), primary_key=True)
    position: Mapped[int]


class Edition(Row):
    """The one row that says which data, in which layout of tables, the database holds."""

    __tablename__ = "edition"
    heading = "Edition"

    data: Mapped[str] = mapped_column(primary_key=True)
    layout: Mapped[str]
