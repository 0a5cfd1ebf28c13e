"""What pieces must stand: practice about sag, creep, tipping, hanging and moisture; decay; values
of woods in bending and in moving; cautions."""

from collections import defaultdict
from collections.abc import Iterable, Mapping

from sqlalchemy.orm import Mapped

from service import quantities
from service.domain.moisture import coefficient
from service.domain.wood_values import (
    BendingValues,
    CautionText,
    Condition,
    Known,
    MovingValues,
    Resistance,
    Resists,
)
from service.reference.columns import Cells, Row, Sourced, cited_as, column
from service.reference.kinds import Amount, Choice, Key, Words, yes_or_no
from service.reference.panels import PanelValue
from service.reference.printed import Size
from service.reference.shop import Caution
from service.reference.woods import GroupValue, SpeciesValue, WoodGroup

STIFFNESS, RUPTURE = "modulus-of-elasticity", "modulus-of-rupture"
CONDITIONS: tuple[Condition, ...] = ("12%", "green")
WORST_FIRST: tuple[Resistance, ...] = ("slight", "moderate", "resistant")
SAWN = {"flat": "tangential", "quarter": "radial"}


class StandingPractice(Sourced, Row):
    """A figure about how far things sag, creep, lean and dry, and what tests and codes ask."""

    __tablename__ = "standing_practice"
    heading = "Sag, creep, tipping, hanging and moisture"
    about = ("topic", "applies_to")

    topic: Mapped[str] = column(Words(), "Topic")
    applies_to: Mapped[str] = column(Words(), "What it applies to")
    statement: Mapped[str] = column(Words(), "The figure in words")
    low: Mapped[Size | None] = column(Amount(), "Least value")
    high: Mapped[Size | None] = column(Amount(), "Greatest value")
    unit: Mapped[str] = column(Words(), "Unit of the values")
    contested: Mapped[str] = column(yes_or_no(), "Whether sources disagree")


class DecayResistance(Sourced, Row):
    """How well the heartwood of a species resists decay."""

    __tablename__ = "decay_resistance"
    heading = "Resistance to decay"
    about = ("species",)

    species: Mapped[str] = column(Key(), "The species", of="species.key")
    resistance: Mapped[str] = column(
        Choice(*reversed(WORST_FIRST)), "Resistant or very resistant, moderately, or slightly"
    )


def caution_texts(rows: Iterable[Cells]) -> Mapping[str, CautionText]:
    """Every caution by key."""
    return {
        cells["key"]: CautionText(
            cited_as(Caution, cells),
            cells["caution"],
            _number(cells["low"]),
            _number(cells["high"]),
        )
        for cells in rows
    }


def bending_values(
    species: Iterable[Cells],
    groups: Iterable[Cells],
    grades: Iterable[Cells],
    panels: Iterable[Cells],
) -> Mapping[str, BendingValues]:
    """Stiffness and strength of every species, group and panel that the tables have them for."""
    clear: defaultdict[str, dict[tuple[str, str], Known]] = defaultdict(dict)
    for cells in species:
        if cells["property"] in (STIFFNESS, RUPTURE):
            found = _psi(SpeciesValue, cells, cells["species"])
            clear[cells["species"]][cells["property"], cells["condition"]] = found
    values = {key: _bending(known) for key, known in clear.items()}
    graded: defaultdict[str, dict[str, Known]] = defaultdict(dict)
    for cells in grades:
        if cells["property"] == STIFFNESS and cells["grade"]:
            grade = cells["grade"].casefold()
            graded[cells["group"]][grade] = _psi(GroupValue, cells, f"{cells['grade']} lumber")
    for cells in groups:
        values[cells["key"]] = _weakest(cells, values, graded[cells["key"]])
    sheets: defaultdict[str, dict[tuple[str, str], Known]] = defaultdict(dict)
    for cells in panels:
        if cells["property"] in (STIFFNESS, RUPTURE):
            found = _psi(PanelValue, cells, cells["material"].replace("-", " "))
            sheets[cells["material"]][cells["property"], "12%"] = found
    return {**values, **{key: _bending(known) for key, known in sheets.items()}}


def moving_values(species: Iterable[Cells], groups: Iterable[Cells]) -> Mapping[str, MovingValues]:
    """Change per point of moisture of every species and group that the tables have it for.

    A printed coefficient counts; without one it is worked out from the shrinkage.
    """
    printed = {(cells["species"], cells["property"]): cells for cells in species}
    found: dict[str, MovingValues] = {}
    for key in dict.fromkeys(key for key, _ in printed):
        sawn = {word: _coefficient(printed, key, ring) for word, ring in SAWN.items()}
        if (flat := sawn["flat"]) and (quarter := sawn["quarter"]):
            found[key] = MovingValues(flat, quarter)
    for cells in groups:
        members = [found[key] for key in _members(cells) if key in found]
        if members:
            row = cited_as(WoodGroup, cells)
            found[cells["key"]] = MovingValues(
                _with_row(max((one.flat for one in members), key=_value), row),
                _with_row(max((one.quarter for one in members), key=_value), row),
            )
    return found


def decay_resistances(species: Iterable[Cells], groups: Iterable[Cells]) -> Mapping[str, Resists]:
    """How well each species resists decay, and each group: as its worst member."""
    found = {
        cells["species"]: Resists(
            cells["resistance"], cells["species"], (cited_as(DecayResistance, cells),)
        )
        for cells in species
    }
    for cells in groups:
        members = [found[key] for key in _members(cells) if key in found]
        if members:
            worst = min(members, key=lambda one: WORST_FIRST.index(one.resistance))
            rests_on = (cited_as(WoodGroup, cells), *worst.rests_on)
            found[cells["key"]] = Resists(worst.resistance, worst.of, rests_on)
    return found


def _bending(known: Mapping[tuple[str, str], Known]) -> BendingValues:
    stiffness, rupture = (
        {c: known[name, c] for c in CONDITIONS if (name, c) in known}
        for name in (STIFFNESS, RUPTURE)
    )
    return BendingValues(stiffness, rupture)


def _weakest(
    cells: Cells, species: Mapping[str, BendingValues], graded: Mapping[str, Known]
) -> BendingValues:
    """A group: the member that is least stiff, and the one that breaks first."""
    members = [species[key] for key in _members(cells) if key in species]
    row = cited_as(WoodGroup, cells)
    stiffness: dict[Condition, Known] = {}
    rupture: dict[Condition, Known] = {}
    for condition in CONDITIONS:
        stiff = [m.stiffness[condition] for m in members if condition in m.stiffness]
        breaks = [m.rupture[condition] for m in members if condition in m.rupture]
        if stiff:
            stiffness[condition] = _with_row(min(stiff, key=_value), row)
        if breaks:
            rupture[condition] = _with_row(min(breaks, key=_value), row)
    return BendingValues(stiffness, rupture, graded)


def _coefficient(printed: Mapping[tuple[str, str], Cells], species: str, ring: str) -> Known | None:
    own = printed.get((species, f"coefficient-{ring}"))
    if own:
        return Known(float(own["high"].value), species, (cited_as(SpeciesValue, own),))
    shrinkage = printed.get((species, f"shrinkage-{ring}"))
    if shrinkage:
        worked = coefficient(float(shrinkage["high"].value))
        return Known(worked, species, (cited_as(SpeciesValue, shrinkage),))
    return None


def _members(cells: Cells) -> tuple[str, ...]:
    members: tuple[str, ...] = cells["members"].value if cells["members"] else ()
    return members


def _psi(model: type[Row], cells: Cells, of: str) -> Known:
    """The lower end of a printed stress, in psi."""
    psi = quantities.amount_in(cells["low"].text, cells["unit"], "psi")
    return Known(float(psi), of, (cited_as(model, cells),))


def _with_row(known: Known, row: str) -> Known:
    return Known(known.value, known.of, (row, *known.rests_on))


def _value(known: Known) -> float:
    return known.value


def _number(cell: Size | None) -> float | None:
    return None if cell is None else float(cell.value)
