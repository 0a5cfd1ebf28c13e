"""What shops call things: spellings, by region, of keys of the other tables."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from sqlalchemy.orm import Mapped

from service.reference.columns import Cells, Row, column
from service.reference.fasteners import Method, Nail, Screw
from service.reference.finishing import Finish
from service.reference.gluing import Glue
from service.reference.kinds import Choice, Key, Spelling, Words
from service.reference.lumber import LumberSize
from service.reference.panels import Panel
from service.reference.shop import Tool, Use
from service.reference.woods import Species, WoodGroup


@dataclass(frozen=True, slots=True)
class Home:
    """A column where keys of a kind of thing stand, in rows where `only` holds."""

    model: type[Row]
    column: str = "key"
    only: tuple[str, str] | None = None


HOMES: Mapping[str, tuple[Home, ...]] = {
    "stock": (Home(LumberSize, "stock"), Home(Panel, "stock")),
    "wood": (Home(Species), Home(WoodGroup), Home(Panel, "material")),
    "gauge": (Home(Screw, "gauge"),),
    "nail": (Home(Nail),),
    "tool": (Home(Tool),),
    "saw": (Home(Tool, only=("kind", "saw")),),
    "glue": (Home(Glue),),
    "finish": (Home(Finish),),
    "use": (Home(Use),),
    "method": (Home(Method),),
}

NO_GLUE = "none"  # a word of the build document that stands beside the keys of glues


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
    kind: Mapped[str] = column(Choice(*HOMES), "What kind of thing it is", primary=True)
    means: Mapped[str] = column(Key(), "Key of the thing")
    note: Mapped[str | None] = column(Words(), "What else a reader should know")


def keys_of(rows: Mapping[type[Row], Iterable[Cells]]) -> Mapping[str, frozenset[str]]:
    """The keys of each kind of thing that has names."""
    keys = {
        kind: frozenset().union(*(_keys(home, rows[home.model]) for home in homes))
        for kind, homes in HOMES.items()
    }
    return {**keys, "glue": keys["glue"] | {NO_GLUE}}


def _keys(home: Home, rows: Iterable[Cells]) -> set[str]:
    return {
        key
        for cells in rows
        if (key := cells.get(home.column))
        and (home.only is None or cells.get(home.only[0]) == home.only[1])
    }
