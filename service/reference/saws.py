"""The tables of what saws can cut, and their limits as values."""

from collections.abc import Iterable

from sqlalchemy.orm import Mapped

from service.domain.catalog import SawLimit
from service.reference.columns import Cells, Row, Sourced, cited_as, column, in_inches
from service.reference.kinds import Amount, Choice, Key, Length, Words, yes_or_no
from service.reference.printed import Size

SETTINGS = ("square", "miter-45", "bevel-45")


class SawRow(Sourced, Row):
    """One limit of one kind of saw: how wide, thick, steep or short it cuts, or what it removes."""

    __tablename__ = "saw_limits"
    heading = "Limits of saws"
    about = ("tool", "item", "condition")

    tool: Mapped[str] = column(Key(), "The saw, by kind and size")
    kind: Mapped[str] = column(Key(), "Kind of saw")
    blade: Mapped[Size | None] = column(Length(), "Diameter of the blade")
    slides: Mapped[str | None] = column(yes_or_no(), "Whether the head slides")
    item: Mapped[str] = column(Key(), "What is limited")
    condition: Mapped[str | None] = column(Words(), "How the saw is set, or what it holds under")
    low: Mapped[Size | None] = column(Amount(), "Least value")
    high: Mapped[Size | None] = column(Amount(), "Greatest value")
    usual: Mapped[Size | None] = column(Amount(), "Usual value")
    unit: Mapped[str] = column(Choice("in", "mm", "deg"), "Unit of the values")


def saw_limits(rows: Iterable[Cells]) -> tuple[SawLimit, ...]:
    """Every limit as a value: sizes in inches, angles in degrees."""
    return tuple(_limit(cells) for cells in rows)


def _limit(cells: Cells) -> SawLimit:
    named = [in_inches(cells[name], cells["unit"]) for name in ("low", "high")]
    ends = [end for end in named if end is not None]
    return SawLimit(
        row=cited_as(SawRow, cells),
        kind=cells["kind"],
        blade=cells["blade"].value if cells["blade"] else None,
        slides=None if cells["slides"] is None else cells["slides"] == "yes",
        item=cells["item"],
        condition=cells["condition"] if cells["condition"] in SETTINGS else "",
        low=ends[0],
        high=ends[-1],
        preferred=cells["preferred"] == "yes",
    )
