"""Sawn lumber: sizes by name, and how far a piece may be off."""

from collections.abc import Iterable, Sequence
from fractions import Fraction

from sqlalchemy.orm import Mapped

from service.domain.catalog import BoardSize, Interval
from service.reference.columns import Cells, Row, Sourced, cited_as, column
from service.reference.kinds import Choice, Key, Length, Lengths, Words, yes_or_no
from service.reference.printed import Size, Sizes

REGIONS = ("us", "uk", "eu", "uk-eu", "au", "nz")
REMEMBERED_OR_READ = ("memory", "one-source", "cross-checked")

PLANED = ("planed-square-edge", "regularized", "cls")


class LumberSize(Sourced, Row):
    """A dressed size of sawn lumber in one region, by name and by how dry it was when planed.

    Rows without a stock key are schedules: a thickness or a width alone, as the standard lists it.
    """

    __tablename__ = "lumber_sizes"
    heading = "Lumber sizes"
    about = ("region", "name", "class", "row_kind", "condition")

    region: Mapped[str] = column(Choice(*REGIONS), "Where it is sold")
    stock: Mapped[str | None] = column(Key(), "Key by which a build names it")
    name: Mapped[str] = column(Words(), "Name in the shop")
    class_: Mapped[str] = column(
        Choice(
            "board", "dimension", "timber", "furring", "hardwood", "planed-square-edge",
            "regularized", "cls", "dressed-pine", "dressed-radiata", "machined-hardwood",
        ),
        "Class of lumber",
        named="class",
    )  # fmt: skip
    row_kind: Mapped[str] = column(
        Choice(
            "named-size", "schedule-width", "schedule-thickness", "schedule-thickness-or-width",
            "hardwood-thickness", "practice",
        ),
        "Whether the row is a size with a name or a line of a schedule",
    )  # fmt: skip
    condition: Mapped[str] = column(
        Choice("dry", "green", "seasoned"), "How dry the wood is when it has this size"
    )
    nominal_thickness: Mapped[Size | None] = column(Length(), "Thickness in the name")
    nominal_width: Mapped[Size | None] = column(Length(), "Width in the name")
    thickness: Mapped[Size | None] = column(Length(), "Thickness that the piece has")
    width: Mapped[Size | None] = column(Length(), "Width that the piece has")
    metric_thickness: Mapped[Size | None] = column(
        Length(), "Thickness in the metric column of the same table"
    )
    metric_width: Mapped[Size | None] = column(
        Length(), "Width in the metric column of the same table"
    )
    metric_confidence: Mapped[str | None] = column(
        Choice(*REMEMBERED_OR_READ), "Confidence in the metric column"
    )
    lengths: Mapped[Sizes | None] = column(Lengths(), "Lengths usually sold")
    lengths_confidence: Mapped[str | None] = column(
        Choice(*REMEMBERED_OR_READ), "Confidence in the lengths"
    )
    sold_by_default: Mapped[str] = column(
        yes_or_no(), "Whether a shop sells this one to somebody who asks for the name alone"
    )


class SizeTolerance(Sourced, Row):
    """How far the size of a piece may be under and over the size listed."""

    __tablename__ = "size_tolerances"
    heading = "Tolerances of size"
    about = ("region", "tolerance_class", "applies_to", "from_size", "to_size")

    region: Mapped[str] = column(Choice(*REGIONS), "Where it holds")
    tolerance_class: Mapped[str] = column(Key(), "Class of tolerance")
    applies_to: Mapped[str] = column(Key(), "Faces or class of lumber that it applies to")
    from_size: Mapped[Size | None] = column(Length(zero=True), "For sizes over this")
    to_size: Mapped[Size | None] = column(Length(), "For sizes up to this, itself included")
    minus: Mapped[Size | None] = column(Length(zero=True), "How far under the listed size")
    plus: Mapped[Size | None] = column(Length(zero=True), "How far over the listed size")


def regions_of(region: str) -> tuple[str, ...]:
    """The regions that a row holds in: `uk-eu` is both."""
    return ("uk", "eu") if region == "uk-eu" else (region,)


def board_sizes(sizes: Iterable[Cells], tolerances: Sequence[Cells]) -> tuple[BoardSize, ...]:
    """Every size that has a name and a thickness, as a value, once a region."""
    return tuple(
        _board(cells, region, tolerances)
        for cells in sizes
        if cells["stock"] and cells["thickness"]
        for region in regions_of(cells["region"])
    )


def _board(cells: Cells, region: str, tolerances: Sequence[Cells]) -> BoardSize:
    allowed = _tolerances_for(cells, region, tolerances)
    thickness, by_thickness = _interval(cells["thickness"].value, allowed)
    width, by_width = _interval(cells["width"].value, allowed) if cells["width"] else (None, ())
    names_itself = (cells["nominal_thickness"], cells["nominal_width"]) == (
        cells["thickness"],
        cells["width"],
    )
    return BoardSize(
        row=cited_as(LumberSize, cells),
        region=region,
        stock=cells["stock"],
        name=cells["name"],
        kind=cells["class"],
        condition=cells["condition"],
        thickness=thickness,
        width=width,
        nominal_thickness=None if names_itself else _value(cells["nominal_thickness"]),
        nominal_width=None if names_itself else _value(cells["nominal_width"]),
        lengths=cells["lengths"].value if cells["lengths"] else (),
        lengths_from_memory=cells["lengths_confidence"] == "memory",
        sold_by_default=cells["sold_by_default"] == "yes",
        rests_on=tuple(dict.fromkeys((cited_as(LumberSize, cells), *by_thickness, *by_width))),
    )


def _tolerances_for(cells: Cells, region: str, tolerances: Sequence[Cells]) -> list[Cells]:
    """Tolerance rows of a standard for planed lumber. What only practice says is not counted."""
    if cells["class"] not in PLANED:
        return []
    return [
        row
        for row in tolerances
        if row["applies_to"] == "planed" and region in regions_of(row["region"])
    ]


def _interval(listed: Fraction, tolerances: Sequence[Cells]) -> tuple[Interval, tuple[str, ...]]:
    """The limits of a size, and the row of the tolerance that holds for it, if there is one."""
    for row in tolerances:
        if row["from_size"].value < listed and not (
            row["to_size"] and listed > row["to_size"].value
        ):
            limits = Interval(listed - row["minus"].value, listed, listed + row["plus"].value)
            return limits, (cited_as(SizeTolerance, row),)
    return Interval.exactly(listed), ()


def _value(size: Size | None) -> Fraction | None:
    return size.value if size else None
