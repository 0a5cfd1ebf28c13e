"""What is known of a lot before any plan: its tables of cuts, and how full a sheet can get."""

from service.planning.panels.guillotine import Guillotine, Reals
from service.planning.panels.lots import Lot


class Tables:
    """Tables of cuts by grain, and the most area that panels can cover of each stock's sheet."""

    def __init__(self, lot: Lot) -> None:
        self.lot = lot
        self.by_grain = {
            grained: Guillotine(lot, grained)
            for grained in sorted({stock.grained for stock in lot.stocks})
        }
        areas = [float(kind.area) for kind in lot.kinds]
        self.thin = {kind for table in self.by_grain.values() for kind in table.thin}
        self.fill = tuple(
            stock.area if self.thin else int(min(best, stock.area))
            for best, stock in zip(self.best(areas), lot.stocks, strict=True)
        )

    def best(self, worth: list[float] | Reals) -> list[float]:
        """The most that one sheet of each stock can be worth, panels repeated at will."""
        filled = {grained: table.values(worth) for grained, table in self.by_grain.items()}
        return [
            self.by_grain[s.grained].worth_of(filled[s.grained], s.width, s.height)
            for s in self.lot.stocks
        ]
