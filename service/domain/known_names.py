"""Names that shops have for woods, glues, finishes: the key of each, or the nearest known ones."""

from service.domain.catalog import Catalog
from service.domain.errors import Complaint, UnknownName


def regions(catalog: Catalog) -> tuple[str, ...]:
    """Every region that the tables have a stock for."""
    boards = {size.region for size in catalog.boards}
    return tuple(sorted(boards | {size.region for size in catalog.panels}))


def known_region(catalog: Catalog, region: str) -> str:
    """The region, if the tables have it. Raises UnknownName."""
    known = regions(catalog)
    if region not in known:
        raise UnknownName(Complaint("region", f"The regions are {', '.join(known)}."))
    return region


def known_key(catalog: Catalog, kind: str, region: str, name: str, place: str) -> str:
    """The key of that kind that a shop name stands for. Raises UnknownName, at `place`."""
    key = catalog.key(kind, known_region(catalog, region), name)
    if key is None:
        raise UnknownName(not_known(catalog, kind, region, name, place))
    return key


def not_known(catalog: Catalog, kind: str, region: str, name: str, place: str) -> Complaint:
    """What is said of a name that no table has: the nearest ones, if any are near."""
    near = catalog.nearest(kind, region, name)
    hint = f"; nearest: {', '.join(near)}" if near else ""
    return Complaint(place, f"No {kind} called {name!r} is in the tables{hint}.")
