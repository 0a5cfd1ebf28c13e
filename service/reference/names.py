"""What shops call things: spellings, by region, of keys of the other tables."""

from collections.abc import Mapping

from sqlalchemy.orm import Mapped

from service.reference.columns import Row, column
from service.reference.kinds import Choice, Key, Spelling, Words
from service.reference.lumber import LumberSize
from service.reference.panels import Panel
from service.reference.woods import Species, WoodGroup

# Kinds of things that have names, and the columns in which their keys stand.
NAMED: Mapping[str, tuple[tuple[type[Row], str], ...]] = {
    "stock": ((LumberSize, "stock"), (Panel, "stock")),
    "wood": ((Species, "key"), (WoodGroup, "key"), (Panel, "material")),
}


class Name(Row):
    """A spelling of a thing, as people write it in a region; own words, so without a source."""

    __tablename__ = "names"
    heading = "Names"

    spelling: Mapped[str] = column(
        Spelling(), "What people write: lower case, plain fractions, no quote marks", primary=True
    )
    region: Mapped[str] = column(
        Choice("any", "us", "uk", "eu", "uk-eu", "au", "nz"), "Where it means that", primary=True
    )
    kind: Mapped[str] = column(Choice(*NAMED), "What kind of thing it is", primary=True)
    means: Mapped[str] = column(Key(), "Key of the thing")
    note: Mapped[str | None] = column(Words(), "What else a reader should know")
