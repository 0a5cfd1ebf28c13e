"""Woods: species, the groups that they are sold in, and the specific gravity of both."""

from collections.abc import Iterable, Mapping

from sqlalchemy.orm import Mapped

from service import quantities
from service.domain import fasteners
from service.domain.catalog import Spread, Wood
from service.reference.columns import Cells, Row, Sourced, Valued, cited_as, column
from service.reference.kinds import Choice, Key, Keys, Number, Words
from service.reference.lumber import REMEMBERED_OR_READ
from service.reference.printed import KeyList, Size

GREEN, DRY = "green", "12%"


class Species(Sourced, Row):
    """A species of tree whose wood is sold."""

    __tablename__ = "species"
    heading = "Species"
    about = ("name", "handbook_label")

    name: Mapped[str] = column(Words(), "Common name")
    handbook_label: Mapped[str] = column(Words(), "Name in the handbook's tables")
    scientific_name: Mapped[str] = column(Words(), "Scientific name")
    scientific_name_confidence: Mapped[str] = column(
        Choice(*REMEMBERED_OR_READ), "Confidence in the scientific name"
    )
    kind: Mapped[str] = column(Choice("hardwood", "softwood"), "Hardwood or softwood")


class SpeciesValue(Valued, Sourced, Row):
    """One value of one property of a species' clear wood."""

    __tablename__ = "species_values"
    heading = "Properties of species"
    about = ("species", "property", "condition")

    species: Mapped[str] = column(Key(), "The species", of="species.key")


class WoodGroup(Sourced, Row):
    """Several species, or one, sold and graded under one name."""

    __tablename__ = "wood_groups"
    heading = "Wood groups"
    about = ("name", "region")

    name: Mapped[str] = column(Words(), "Name of the group")
    region: Mapped[str] = column(Key(), "Where it is sold under that name")
    members: Mapped[KeyList | None] = column(Keys("species"), "Species that belong to it")
    members_confidence: Mapped[str | None] = column(
        Choice(*REMEMBERED_OR_READ), "Confidence in the list of members"
    )
    retail_names: Mapped[str | None] = column(Words(), "What shops call it")


class GroupValue(Valued, Sourced, Row):
    """One value of one property of a group, for lumber of a grade."""

    __tablename__ = "group_values"
    heading = "Properties of wood groups"
    about = ("group", "grade", "property", "condition")

    group: Mapped[str] = column(Key(), "The group", of="wood_groups.key")
    grade: Mapped[str | None] = column(Words(), "Grade that the value holds for")


class AssignedGravity(Sourced, Row):
    """A specific gravity assigned to a combination of species for the design of connections."""

    __tablename__ = "assigned_gravities"
    heading = "Assigned specific gravities"
    about = ("combination",)

    combination: Mapped[str] = column(Words(), "Combination of species")
    gravity: Mapped[Size] = column(Number(), "Specific gravity, ovendry mass and volume")
    wood_kind: Mapped[str] = column(Choice("hardwood", "softwood"), "Hardwood or softwood")


def assigned_gravities(rows: Iterable[Cells]) -> dict[str, fasteners.AssignedGravity]:
    """The gravities that connection design assigns, by key."""
    return {
        cells["key"]: fasteners.AssignedGravity(
            row=cited_as(AssignedGravity, cells),
            key=cells["key"],
            name=cells["combination"],
            gravity=float(cells["gravity"].value),
            kind=cells["wood_kind"],
        )
        for cells in rows
    }


def species_woods(species: Iterable[Cells], values: Iterable[Cells]) -> dict[str, Wood]:
    """Every species as a wood, with its specific gravities."""
    gravities = {
        (cells["species"], cells["condition"]): _spread(SpeciesValue, cells)
        for cells in values
        if cells["property"] == "specific-gravity"
    }
    return {
        cells["key"]: Wood(
            key=cells["key"],
            name=cells["name"],
            kind=cells["kind"],
            gravity_green=gravities.get((cells["key"], GREEN)),
            gravity_12=gravities.get((cells["key"], DRY)),
        )
        for cells in species
    }


def group_woods(
    groups: Iterable[Cells], values: Iterable[Cells], species: Mapping[str, Wood]
) -> dict[str, Wood]:
    """Every group as a wood: its members' lowest and highest specific gravity.

    A group whose members the tables don't list has its own density or assigned gravity.
    """
    own: dict[tuple[str, str], list[Cells]] = {}
    for cells in values:
        own.setdefault((cells["group"], cells["property"]), []).append(cells)
    return {
        cells["key"]: _members(cells, species)
        if cells["members"]
        else Wood(
            key=cells["key"],
            name=cells["name"],
            kind="group",
            gravity_green=_basic(own.get((cells["key"], "assigned-specific-gravity"))),
            density=_mean_density(own.get((cells["key"], "density-mean"))),
        )
        for cells in groups
    }


def _members(cells: Cells, species: Mapping[str, Wood]) -> Wood:
    members = [species[key] for key in cells["members"].value]
    row = cited_as(WoodGroup, cells)
    return Wood(
        key=cells["key"],
        name=cells["name"],
        kind="group",
        members=cells["members"].value,
        gravity_green=_across([wood.gravity_green for wood in members], row),
        gravity_12=_across([wood.gravity_12 for wood in members], row),
    )


def _across(spreads: Iterable[Spread | None], *rows: str) -> Spread | None:
    """From the lowest to the highest of several; it rests on all of them, and on `rows` first."""
    known = [spread for spread in spreads if spread]
    if not known:
        return None
    rests_on = dict.fromkeys([*rows, *(below for spread in known for below in spread.rests_on)])
    low, high = min(spread.low for spread in known), max(spread.high for spread in known)
    return Spread(low, high, tuple(rests_on))


def _spread(model: type[Row], cells: Cells) -> Spread:
    return Spread(float(cells["low"].value), float(cells["high"].value), (cited_as(model, cells),))


def _basic(rows: list[Cells] | None) -> Spread | None:
    """Specific gravity on green volume, from the assigned one, which is on ovendry volume.

    Source: wood-handbook-2021-ch4, equation 4-13 at no moisture, solved for the basic gravity.
    """
    assigned = _across([_spread(GroupValue, cells) for cells in rows or ()])
    if assigned is None:
        return None
    low, high = (dry / (1 + 0.265 * dry) for dry in (assigned.low, assigned.high))
    return Spread(low, high, assigned.rests_on)


def _mean_density(rows: list[Cells] | None) -> Spread | None:
    """Pounds per cubic foot from the lowest grade's mean to the highest's."""
    return _across([_density(cells) for cells in rows or ()])


def _density(cells: Cells) -> Spread:
    low, high = (
        float(quantities.amount_in(cells[end].text, cells["unit"], "lb/ft3"))
        for end in ("low", "high")
    )
    return Spread(low, high, (cited_as(GroupValue, cells),))
