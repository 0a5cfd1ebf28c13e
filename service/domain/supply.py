"""What there is to cut from: boards and sheets for sale, on hand, or planned."""

from collections.abc import Iterator
from fractions import Fraction

from service.domain.build import Offcut, Planned, Price
from service.domain.catalog import BoardSize
from service.domain.findings import Basis
from service.domain.stocks import Sized, Sizing
from service.domain.values import dataclass


@dataclass(frozen=True, slots=True)
class Longest:
    """The longest piece that a stock yields, inches, and where that is known from."""

    length: Fraction
    where: str
    basis: Basis
    rests_on: tuple[str, ...]
    from_memory: bool = False


@dataclass(frozen=True, slots=True)
class Sheets:
    """Sheets (width, length) that a panel comes in, and where that is known from."""

    sizes: tuple[tuple[Fraction, Fraction], ...]
    where: str
    basis: Basis
    rests_on: tuple[str, ...]
    from_memory: bool = False


def listed(sizing: Sizing, stock: str) -> Iterator[Price | Offcut | Planned]:
    """Everything of a stock that the caller says can be had: sold, on hand or planned."""
    buying = sizing.build.buying
    entries: list[Price | Offcut | Planned] = [*buying.prices, *buying.offcuts, *buying.planned]
    for entry in entries:
        if sizing.key(entry.stock) == stock:
            yield entry


def longest_piece(sizing: Sizing, sized: Sized) -> Longest | None:
    """The longest piece of a stock, bad ends trimmed off; None where nothing is known.

    The caller's own list decides. Without one it is the longest that shops usually carry, by
    the tables. The longest board that the caller can carry caps both.
    """
    if sized.key is None or sized.board is None:
        return None
    asked = ("longest piece", sized.key)
    if asked not in sizing.worked_out:
        sizing.worked_out[asked] = _longest(sizing, sized.key, sized.board)
    found: Longest | None = sizing.worked_out[asked]
    return found


def _longest(sizing: Sizing, stock: str, board: BoardSize) -> Longest | None:
    shop = sizing.build.shop
    trims = 2 * shop.end_trim if shop.end_trim else shop.end_trim
    carries = shop.longest_board
    own = [entry.length for entry in listed(sizing, stock) if entry.length is not None]
    if own:
        longest = max(own)
        found = Longest(longest - trims, "the boards sold or on hand", "geometry", ())
    elif board.lengths:
        longest = max(board.lengths)
        found = Longest(
            longest - trims if trims else longest,
            "the lengths that shops usually carry",
            "practice",
            (board.row,),
            board.lengths_from_memory,
        )
    else:
        return None
    if carries is not None and carries < longest:
        return Longest(carries - trims, "the longest board you can carry", "geometry", ())
    return found


def sheets_of(sizing: Sizing, sized: Sized) -> Sheets | None:
    """The sheets of a panel that can be had: by the caller's own list, else by the tables."""
    if sized.panel is None or sized.key is None:
        return None
    own = [
        (entry.width, entry.length)
        for entry in listed(sizing, sized.key)
        if entry.width is not None and entry.length is not None
    ]
    if own:
        return Sheets(tuple(dict.fromkeys(own)), "the sheets sold or on hand", "geometry", ())
    if not sized.panel.sheets:
        return None
    return Sheets(
        sized.panel.sheets,
        "the sheets that shops usually carry",
        "practice",
        (sized.panel.row,),
        sized.panel.sheets_from_memory,
    )
