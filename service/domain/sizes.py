"""What a stock really measures, and which stocks have a given size."""

from collections.abc import Sequence
from fractions import Fraction

from service.domain.build import Build, Part, Stock
from service.domain.catalog import BoardSize, Catalog, Interval, PanelSize
from service.domain.errors import Complaint, UnknownName
from service.domain.known_names import known_region
from service.domain.values import dataclass


@dataclass(frozen=True, slots=True)
class StockSizes:
    """A stock of a region: what a shop sells under its name by default, and what else has it."""

    stock: str
    region: str
    sold: BoardSize | PanelSize
    others: tuple[BoardSize | PanelSize, ...]

    @property
    def assumed(self) -> tuple[str, ...]:
        """Why that one of several was chosen."""
        if not self.others:
            return ()
        way = f", {self.sold.condition}" if isinstance(self.sold, BoardSize) else ""
        chosen = f"{self.sold.name}{way}"
        return (f"{self.stock} is taken as a shop sells it by default: {chosen}",)


def look_up(catalog: Catalog, region: str, name: str) -> StockSizes:
    """Everything that goes by a shop name in a region. Raises UnknownName, nearest keys in it."""
    known_region(catalog, region)
    stock = catalog.stock_key(region, name)
    if stock is None:
        near = catalog.nearest("stock", region, name)
        hint = f" Nearest: {', '.join(near)}." if near else ""
        told = f'Nothing sold in region {region} is called "{name}".{hint}'
        raise UnknownName(Complaint("stock", told))
    sold, *others = catalog.stocked(region, stock)
    return StockSizes(stock, region, sold, tuple(others))


def of_size(
    catalog: Catalog, region: str, thickness: Fraction | None, width: Fraction | None
) -> Sequence[BoardSize | PanelSize]:
    """Stocks whose real thickness and width, tolerance counted, take in the sizes given."""
    known_region(catalog, region)
    sizes: tuple[BoardSize | PanelSize, ...] = (*catalog.boards, *catalog.panels)
    return tuple(
        size
        for size in sizes
        if size.region == region
        and _takes_in(size.thickness, thickness)
        and _takes_in(size.width if isinstance(size, BoardSize) else None, width)
    )


def piece_of(
    sizes: StockSizes, length: Fraction | None, width: Fraction | None, thickness: Fraction | None
) -> Build:
    """One piece of a stock as a build, so that its stated sizes can be judged by the rules."""
    stock = Stock(name=sizes.stock)
    piece = Part("piece", stock, length, width=width, thickness=thickness)
    return Build("one piece", region=sizes.region, parts=(piece,))


def _takes_in(limits: Interval | None, size: Fraction | None) -> bool:
    if size is None:
        return True
    return limits is not None and limits.low <= size <= limits.high
