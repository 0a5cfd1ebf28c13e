"""A wood by the name that a shop or a caller has for it."""

from service.domain.catalog import Catalog, PanelSize, Wood
from service.domain.errors import UnknownName
from service.domain.known_names import known_region, not_known


def wood_named(catalog: Catalog, region: str, name: str, place: str = "wood") -> Wood:
    """The species, group or panel material of that name in a region.

    `place` is where the name was given. Raises UnknownName, the nearest names in it.
    """
    known_region(catalog, region)
    key = catalog.key("wood", region, name) or panel_key(catalog, region, name)
    if key is not None and key in catalog.woods:
        return catalog.woods[key]
    raise UnknownName(not_known(catalog, "wood", region, name, place))


def panel_key(catalog: Catalog, region: str, name: str) -> str | None:
    """The material of the panel that a name stands for, such as MDF by its thickness."""
    stock = catalog.stock_key(region, name)
    sizes = catalog.stocked(region, stock) if stock else ()
    return next((size.material for size in sizes if isinstance(size, PanelSize)), None)
