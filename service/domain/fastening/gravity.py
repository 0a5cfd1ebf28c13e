"""The specific gravity that connection design assigns to a wood.

Never the handbook's gravity at 12 % moisture: that one is on another volume, and screws would
come out stronger than the code has them. A wood sold under several names, or a group, counts as
the lightest that it may be.
"""

from collections.abc import Iterator

from service.domain.catalog import Catalog, Wood
from service.domain.material import EDGE_GLUED
from service.domain.values import dataclass

UNKNOWN, LIGHTEST = "planning-gravity.softwood", "planning-gravity.lightest"
PLYWOOD = "plywood.holds-less"
PLIES = "plywood"


@dataclass(frozen=True, slots=True)
class Gravity:
    """Specific gravity by oven-dry mass and volume, and what was taken for granted."""

    value: float
    rests_on: tuple[str, ...]
    assumed: tuple[str, ...] = ()


def assigned_gravity(catalog: Catalog, wood: Wood | None) -> Gravity | None:
    """The gravity for comparing fastenings; None where no table assigns one.

    Without a wood, the softwood of most furniture lumber is taken. Hardwoods that no combination
    holds and panels without plies have none.
    """
    if wood is None:
        return _planned(catalog, UNKNOWN, "the wood is not stated: a common softwood is taken")
    if wood.key == EDGE_GLUED:
        return _planned(catalog, LIGHTEST, "edge-glued boards are counted as the lightest softwood")
    if wood.kind == "panel":
        return _plywood(catalog, wood)
    found = sorted(_assigned(catalog, wood), key=lambda gravity: gravity.value)
    if found and (wood.kind != "group" or _covers(catalog, wood)):
        return found[0]
    if wood.kind == "hardwood" or any(_hard(catalog, key) for key in wood.members):
        return None
    lightest = _planned(
        catalog,
        LIGHTEST,
        f"no gravity is assigned to {wood.name}: the lightest softwoods' is taken",
    )
    return min((g for g in (*found, lightest) if g), key=lambda g: g.value, default=None)


def _assigned(catalog: Catalog, wood: Wood) -> Iterator[Gravity]:
    """The gravities of every combination that is the wood, or may hold it."""
    own = [assigned for assigned in catalog.gravities.values() if assigned.name == wood.name]
    for assigned in own:
        yield Gravity(assigned.gravity, (assigned.row,))
    if own:
        return
    for member in wood.members:
        yield from _of_species(catalog, member, wood.name)
    if wood.kind != "group":
        yield from _of_species(catalog, wood.key, wood.name)


def _of_species(catalog: Catalog, species: str, name: str) -> Iterator[Gravity]:
    for group in catalog.woods.values():
        if species not in group.members:
            continue
        for assigned in catalog.gravities.values():
            if assigned.name == group.name:
                told = f"{name}: the gravity assigned to {group.name} is taken"
                yield Gravity(assigned.gravity, (assigned.row,), (told,))


def _covers(catalog: Catalog, group: Wood) -> bool:
    """Whether the group, or every member of it, has a gravity of its own."""
    if any(assigned.name == group.name for assigned in catalog.gravities.values()):
        return True
    return bool(group.members) and all(
        any(_of_species(catalog, member, group.name)) for member in group.members
    )


def _hard(catalog: Catalog, species: str) -> bool:
    return species in catalog.woods and catalog.woods[species].kind == "hardwood"


def _plywood(catalog: Catalog, panel: Wood) -> Gravity | None:
    """Plywood counts as light softwood: tests show that the equations promise too much for it."""
    rule = catalog.practice.get(PLYWOOD)
    if rule is None or rule.low is None or not panel.key.startswith(PLIES):
        return None
    told = f"{panel.name} is counted as G {float(rule.low):.2f}: it holds less than solid wood"
    return Gravity(float(rule.low), (rule.row,), (told,))


def _planned(catalog: Catalog, key: str, told: str) -> Gravity | None:
    planned = catalog.constants.get(key)
    return Gravity(float(planned.value), (planned.row,), (told,)) if planned else None
