"""What a part is made of: its stock looked up, and its real thickness and width."""

import re
from collections.abc import Hashable
from fractions import Fraction
from functools import cached_property
from typing import Any, Literal

from service.domain.build import NOTHING_NOTED, Build, Part, StockNote
from service.domain.catalog import BoardSize, Catalog, Interval, PanelSize, Wood
from service.domain.tape import plain
from service.domain.values import dataclass, replace

MOST_SUGGESTIONS = 25  # unknown stocks of one build that nearest names are looked up for


@dataclass(frozen=True, slots=True)
class UnknownStock:
    """No board or panel of the region goes by that name; the nearest keys, best first."""

    name: str
    nearest: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Sized:
    """A part's real sizes, inches.

    `stock_thickness` and `stock_width` are what is bought (for a glued-up part, what the glue-up
    yields); `thickness` and `width` what the part ends up with. A panel has no stock width. A
    round has its diameter in both. `printed` is the fraction in the name that a sheet is called by.
    """

    form: Literal["board", "panel", "round"]
    key: str | None
    board: BoardSize | None
    panel: PanelSize | None
    stock_thickness: Interval
    stock_width: Interval | None
    thickness: Interval
    width: Interval | None
    rests_on: tuple[str, ...]
    assumed: tuple[str, ...]
    printed: Fraction | None = None

    @property
    def named_thickness(self) -> Fraction | None:
        """Thickness by which the stock is called: for a sheet the fraction that the caller names.

        A slot is not held to it: a straight cut as wide as the name of a sheet is in daily use.
        """
        return self.printed if self.printed is not None else self.nominal_thickness

    @property
    def nominal_thickness(self) -> Fraction | None:
        """Thickness in the stock's name where it differs from the real one."""
        if self.board:
            return self.board.nominal_thickness
        return self.panel.nominal_thickness if self.panel else None

    @property
    def nominal_width(self) -> Fraction | None:
        """Width in the stock's name where it differs from the real one."""
        return self.board.nominal_width if self.board else None


@dataclass(frozen=True)
class Sizing:
    """A build and the tables, for looking up what its parts are made of."""

    build: Build
    catalog: Catalog

    @cached_property
    def notes(self) -> dict[str, StockNote]:
        """What the caller knows about each stock, by key (or by name where there is no key)."""
        return {self.key(name) or name: note for name, note in self.build.stocks.items()}

    def key(self, name: str) -> str | None:
        """The stock that a name stands for in the build's region."""
        return self.catalog.stock_key(self.build.region, name)

    def note_for(self, part: Part) -> StockNote:
        """What is known about the part's wood: its own note over that of its stock."""
        general, own = self.note_on_stock(part), part.known
        if general is NOTHING_NOTED:
            return own
        return StockNote(
            wood=own.wood or general.wood,
            treated=general.treated if own.treated is None else own.treated,
            moisture=general.moisture if own.moisture is None else own.moisture,
            measured_thickness=own.measured_thickness or general.measured_thickness,
            measured_width=own.measured_width or general.measured_width,
            reclaimed=general.reclaimed if own.reclaimed is None else own.reclaimed,
            old_paint=general.old_paint if own.old_paint is None else own.old_paint,
        )

    def note_on_stock(self, part: Part) -> StockNote:
        """What is known about every board of the part's stock."""
        name = part.stock.name
        if not self.notes or not name:
            return NOTHING_NOTED
        return self.notes.get(self.key(name) or name, NOTHING_NOTED)

    @cached_property
    def worked_out(self) -> dict[Hashable, Any]:
        """What is the same for every part of a stock, worked out once a build."""
        return {}

    def nearest(self, name: str) -> tuple[str, ...]:
        """Stocks with a name like this one. Looked for a few times a build: it takes a while."""
        if name not in self._looked_for and len(self._looked_for) < MOST_SUGGESTIONS:
            self._looked_for[name] = self.catalog.nearest("stock", self.build.region, name)
        return self._looked_for.get(name, ())

    @cached_property
    def _looked_for(self) -> dict[str, tuple[str, ...]]:
        return {}

    def bought(self, name: str) -> "Sized | UnknownStock":
        """A stock by name, as bought; many parts share one."""
        if name not in self._bought:
            self._bought[name] = from_tables(name, self)
        return self._bought[name]

    @cached_property
    def _bought(self) -> dict[str, "Sized | UnknownStock"]:
        return {}

    def wood_of(self, part: Part, sized: Sized | None) -> Wood | None:
        """The wood a part is of: stated on it, on its stock, its panel's material, the build's."""
        panel = sized.panel if sized else None
        stated = self.note_for(part).wood
        name = stated or (panel.material if panel else self.build.wood)
        if name is None:
            return None
        key = self.catalog.key("wood", self.build.region, name)
        return self.catalog.woods.get(key) if key else None


def size_part(part: Part, sizing: Sizing) -> Sized | UnknownStock:
    """The real sizes of a part, or the name that no table has.

    Of a glue-up what is measured on the stock is one board, what is measured on the part the whole.
    """
    found = as_bought(part, sizing)
    if isinstance(found, UnknownStock):
        return found
    if part.glued_from is None:
        return worked(measured_sizes(found, sizing.note_for(part)), part)
    boards = measured_sizes(found, sizing.note_on_stock(part))
    return worked(measured_sizes(glued(boards, part), part.known), part)


def as_bought(part: Part, sizing: Sizing) -> Sized | UnknownStock:
    """The stock at its table size, or at the size stated inline."""
    stock = part.stock
    if stock.diameter is not None:
        across = Interval.exactly(stock.diameter)
        return Sized("round", None, None, None, across, across, across, across, (), ())
    if stock.name is None:
        thick = Interval.exactly(stock.thickness or Fraction(0))
        wide = Interval.exactly(stock.width) if stock.width is not None else None
        form: Literal["board", "panel"] = "board" if wide else "panel"
        return Sized(form, None, None, None, thick, wide, thick, wide, (), ())
    return sizing.bought(stock.name)


def from_tables(name: str, sizing: Sizing) -> Sized | UnknownStock:
    """A stock by name: the size that a shop sells under it by default."""
    region, catalog = sizing.build.region, sizing.catalog
    key = sizing.key(name)
    if key is None:
        return UnknownStock(name, sizing.nearest(name))
    metric = sizing.build.units == "mm"
    found = catalog.stocked(region, key)[0]
    if isinstance(found, BoardSize):
        board, width = found, found.width
        by = f" x {plain(width.listed, metric)}" if width else ""
        said = f"{name}: {board.condition}, {plain(board.thickness.listed, metric)}{by}"
        return Sized(
            "board", key, board, None, board.thickness, width, board.thickness, width,
            board.rests_on, (said,),
        )  # fmt: skip
    panel, thick = found, found.thickness
    said = f"{name}: {panel.name}, {plain(thick.listed, metric)} thick"
    if not thick.is_exact:
        said += f" ({plain(thick.low, metric)} to {plain(thick.high, metric)})"
    return Sized(
        "panel", key, None, panel, thick, None, thick, None, panel.rests_on, (said,), printed(name)
    )  # fmt: skip


_FRACTION = re.compile(r"(?:(\d+)[ -])?(\d+)/(\d+)")


def printed(name: str) -> Fraction | None:
    """The thickness that the name of a sheet tells in fractions of an inch: 3/4 of plywood 3/4."""
    found = _FRACTION.search(name)
    if found is None or not int(found[3]):
        return None
    return int(found[1] or 0) + Fraction(int(found[2]), int(found[3]))


def glued(sized: Sized, part: Part) -> Sized:
    """What a glue-up of several boards yields: their widths less what is jointed off a seam."""
    if part.glued_from is None or sized.stock_width is None:
        return sized
    boards, loss = part.glued_from.boards, part.glued_from.edge_loss * (part.glued_from.boards - 1)
    one = sized.stock_width
    total = Interval(*(boards * w - loss for w in (one.low, one.listed, one.high)))
    return replace(sized, stock_width=total, width=total)


def measured_sizes(sized: Sized, note: StockNote) -> Sized:
    """The caller's own measurement wins over the table, and the table is no longer relied on."""
    thick, wide = note.measured_thickness, note.measured_width
    if thick is None and wide is None:
        return sized
    thickness = sized.stock_thickness if thick is None else Interval.exactly(thick)
    width = sized.stock_width if wide is None else Interval.exactly(wide)
    settled = thick is not None and (wide is not None or sized.stock_width is None)
    return replace(
        sized,
        stock_thickness=thickness,
        stock_width=width,
        thickness=thickness,
        width=width,
        rests_on=() if settled else sized.rests_on,
    )


def worked(sized: Sized, part: Part) -> Sized:
    """The part ripped, planed or cut to what it states; otherwise as bought."""
    if part.thickness is None and part.width is None:
        return sized  # many parts share one value, and what is worked out for it
    thickness = stated(part.thickness, sized.thickness, sized.named_thickness)
    if sized.width is None:
        width = None if part.width is None else Interval.exactly(part.width)
    else:
        width = stated(part.width, sized.width, sized.nominal_width)
    return replace(sized, thickness=thickness, width=width)


def stated(size: Fraction | None, bought: Interval, nominal: Fraction | None) -> Interval:
    """A stated size is exact, unless it only names the size that the stock is listed at.

    The number in the stock's name is no size: the board measures what it measures.
    """
    if size is None or size == bought.listed or (size == nominal and size > bought.high):
        return bought
    return Interval.exactly(size)
