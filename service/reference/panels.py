"""Sheet goods: thicknesses and sheets by name, and what is known of each material."""

from collections import defaultdict
from collections.abc import Iterable, Mapping
from fractions import Fraction

from sqlalchemy.orm import Mapped

from service import quantities
from service.domain.catalog import Interval, PanelSize, Spread, Wood
from service.domain.material import WATER_LB_FT3
from service.reference.columns import Cells, Row, Sourced, Valued, cited_as, column
from service.reference.kinds import Choice, Key, Length, SheetSizes, Words, yes_or_no
from service.reference.lumber import REGIONS, REMEMBERED_OR_READ, regions_of
from service.reference.printed import Sheets, Size


class Panel(Sourced, Row):
    """A sheet product in one thickness, in one region."""

    __tablename__ = "panels"
    heading = "Panels"
    about = ("region", "stock", "grade")

    region: Mapped[str] = column(Choice(*REGIONS), "Where it is sold")
    stock: Mapped[str] = column(Key(), "Key by which a build names it")
    material: Mapped[str] = column(Key(), "What it is made of")
    grade: Mapped[str | None] = column(Words(), "Grades or types that the row holds for")
    standard: Mapped[str | None] = column(Words(), "Standard that the product follows")
    nominal_thickness: Mapped[Size] = column(Length(), "Thickness in the name")
    thickness_min: Mapped[Size | None] = column(Length(), "Least thickness that may be met")
    thickness_max: Mapped[Size | None] = column(Length(), "Greatest thickness that may be met")
    metric_thickness: Mapped[Size | None] = column(
        Length(), "Thickness that is met where the inch size is only a name"
    )
    sheets: Mapped[Sheets | None] = column(SheetSizes(), "Sheets usually sold, width by length")
    sheets_confidence: Mapped[str | None] = column(
        Choice(*REMEMBERED_OR_READ), "Confidence in the sheets"
    )
    sold_by_default: Mapped[str] = column(
        yes_or_no(), "Whether a shop sells this one to somebody who asks for the name alone"
    )


class PanelValue(Valued, Sourced, Row):
    """One value of one property of a sheet material, such as its density."""

    __tablename__ = "panel_values"
    heading = "Properties of panels"
    about = ("material", "grade", "property", "condition")

    material: Mapped[str] = column(Key(), "What the panel is made of")
    grade: Mapped[str | None] = column(Words(), "Grade or type that the value holds for")


def panel_sizes(panels: Iterable[Cells]) -> tuple[PanelSize, ...]:
    """Every panel as a value, once a region."""
    return tuple(
        PanelSize(
            row=cited_as(Panel, cells),
            region=region,
            stock=cells["stock"],
            name=_name(cells),
            material=cells["material"],
            nominal_thickness=cells["nominal_thickness"].value,
            thickness=_thickness(cells),
            sheets=cells["sheets"].value if cells["sheets"] else (),
            sheets_from_memory=cells["sheets_confidence"] == "memory",
            sold_by_default=cells["sold_by_default"] == "yes",
            rests_on=(cited_as(Panel, cells),),
        )
        for cells in panels
        for region in regions_of(cells["region"])
    )


def panel_densities(values: Iterable[Cells]) -> Mapping[str, Spread]:
    """Density as sold by material, pounds per cubic foot, from the lowest to the highest listed.

    A value that was read comes before one from memory, a density before a specific gravity.
    """
    found: defaultdict[str, defaultdict[tuple[bool, bool], list[Cells]]]
    found = defaultdict(lambda: defaultdict(list))
    for cells in values:
        if cells["property"] in ("density", "specific-gravity"):
            order = (cells["confidence"] == "memory", cells["property"] != "density")
            found[cells["material"]][order].append(cells)
    return {material: _span(ways[min(ways)]) for material, ways in found.items()}


def panel_woods(panels: Iterable[PanelSize], densities: Mapping[str, Spread]) -> dict[str, Wood]:
    """Every material of panels as a wood, with its density where the tables give one."""
    materials = dict.fromkeys([*(panel.material for panel in panels), *densities])
    return {
        material: Wood(
            key=material,
            name=material.replace("-", " "),
            kind="panel",
            density=densities.get(material),
        )
        for material in materials
    }


def _name(cells: Cells) -> str:
    kind = cells["stock"].rpartition("-")[0].replace("-", " ")
    return f"{kind} {cells['nominal_thickness'].text}"


def _thickness(cells: Cells) -> Interval:
    listed = (cells["metric_thickness"] or cells["nominal_thickness"]).value
    least, most = cells["thickness_min"], cells["thickness_max"]
    return Interval(least.value if least else listed, listed, most.value if most else listed)


def _span(rows: list[Cells]) -> Spread:
    values = [
        _density(cells[end].text, cells["unit"])
        for cells in rows
        for end in ("low", "high")
        if cells[end]
    ]
    rests_on = tuple(cited_as(PanelValue, cells) for cells in rows)
    usual = [_density(cells["usual"].text, cells["unit"]) for cells in rows if cells["usual"]]
    return Spread(min(values), max(values), rests_on, usual[0] if len(usual) == 1 else None)


def _density(printed: str, unit: str) -> float:
    if unit == "1":
        return float(Fraction(printed)) * WATER_LB_FT3
    return float(quantities.amount_in(printed, unit, "lb/ft3"))
