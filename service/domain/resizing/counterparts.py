"""The board or panel of another region that a part can be cut from instead, or what stands in."""

from fractions import Fraction
from math import ceil

from service.domain.build import GluedFrom, Part
from service.domain.catalog import BoardSize, PanelSize
from service.domain.stocks import Sizing, UnknownStock, size_part
from service.domain.tape import plain
from service.domain.values import dataclass

# What counts as the same size elsewhere; inches, our own choice: what runs can make good.
SAME = Fraction(1, 32)
NAMED = (Fraction(1, 16), Fraction(1, 4))  # sizes in the name of a board, rounded to millimeters
THICKNESS, WIDTH = Fraction(1, 8), Fraction(1, 4)
PANEL = Fraction(1, 16)
SEAM = Fraction(1, 16)  # jointed off where boards are glued edge to edge
PLIES = "a panel in place of solid wood: its edges show what it is made of and hold screws less"


@dataclass(frozen=True, slots=True)
class Substitute:
    """What a part is cut from in the other region. No `stock`: the size itself is stated."""

    stock: str | None
    why: str
    width: Fraction | None = None
    glued_from: GluedFrom | None = None
    thickness: Fraction | None = None


def substitute(old: BoardSize | PanelSize, part: Part, sizing: Sizing, region: str) -> Substitute:
    """The equal of a stock; without one a glue-up, then a panel, then the size as it was."""
    metric = sizing.build.units == "mm"
    sized = size_part(part, sizing)
    if isinstance(sized, UnknownStock):
        return Substitute(part.stock.name, "unknown", part.width, part.glued_from)
    wide = sized.width.listed if sized.width else part.width
    name = part.stock.name or ""
    if isinstance(old, PanelSize):
        return _for_panel(old, name, wide, sizing, region)
    boards = [size for size in sizing.catalog.boards if _sold(size, region)]
    equal = _equal(old, boards)
    if equal is not None and equal.width is not None:
        found = _from_equal(equal, old, part, wide, metric)
        if found is not None:
            return found
    return _without_equal(part, wide, sized.thickness.listed, sizing, region)


def _sold(size: BoardSize | PanelSize, region: str) -> bool:
    return size.region == region and size.sold_by_default


def _equal(old: BoardSize, boards: list[BoardSize]) -> BoardSize | None:
    """The same real size, else the same name in the other unit, else the nearest real size."""
    return (
        _nearest(old, boards, SAME, SAME)
        or _by_name(old, boards)
        or _nearest(old, boards, THICKNESS, WIDTH)
    )


def _nearest(
    old: BoardSize, boards: list[BoardSize], thick: Fraction, wide: Fraction
) -> BoardSize | None:
    def off(board: BoardSize) -> tuple[Fraction, Fraction]:
        width = (
            abs(board.width.listed - old.width.listed) if board.width and old.width else wide + 1
        )
        return abs(board.thickness.listed - old.thickness.listed), width

    near = [board for board in boards if off(board)[0] <= thick and off(board)[1] <= wide]
    return min(near, key=lambda board: (sum(off(board)), board.row), default=None)


def _by_name(old: BoardSize, boards: list[BoardSize]) -> BoardSize | None:
    thick, wide = old.nominal_thickness, old.nominal_width
    if thick is None or wide is None:
        return None
    alike = [
        board
        for board in boards
        if board.nominal_thickness is not None
        and board.nominal_width is not None
        and abs(board.nominal_thickness - thick) <= NAMED[0]
        and abs(board.nominal_width - wide) <= NAMED[1]
    ]
    return min(
        alike,
        key=lambda board: (abs((board.nominal_width or wide) - wide), board.row),
        default=None,
    )


def _from_equal(
    equal: BoardSize, old: BoardSize, part: Part, wide: Fraction | None, metric: bool
) -> Substitute | None:
    """The equal board; a ripped or glued-up part keeps its width where the board has it."""
    assert equal.width is not None
    new = equal.width.listed
    size = f"{plain(equal.thickness.listed, metric)} x {plain(new, metric)}"
    why = f"{equal.stock} ({size}) is this region's {part.stock.name}"
    names_stock = part.width is None or (old.width is not None and part.width == old.width.listed)
    if part.glued_from is not None and wide is not None:
        boards = boards_for(wide, new, part.glued_from.edge_loss)
        glued = GluedFrom(boards, part.glued_from.edge_loss) if boards > 1 else None
        return Substitute(equal.stock, why, wide, glued)
    if names_stock:
        return Substitute(equal.stock, why, None if part.width is None else new)
    return Substitute(equal.stock, why, part.width) if wide is not None and wide <= new else None


def boards_for(width: Fraction, board: Fraction, loss: Fraction) -> int:
    """How many boards of one width, glued edge to edge, yield a width."""
    return max(1, ceil((width - loss) / (board - loss)))


def _without_equal(
    part: Part, wide: Fraction | None, thick: Fraction, sizing: Sizing, region: str
) -> Substitute:
    """Boards glued up, then a panel ripped, then the size stated as it is."""
    metric, name = sizing.build.units == "mm", part.stock.name
    sold = [b for b in sizing.catalog.boards if _sold(b, region) and b.width]
    near = [b for b in sold if abs(b.thickness.listed - thick) <= THICKNESS]
    panel = _panel(sizing, region, thick, PANEL * 2)
    instead = f"; or {panel.stock} cut to width" if panel else ""
    if wide is not None and near:
        board = min(near, key=lambda b: _bought(b, wide))
        count = boards_for(wide, board.width.listed, SEAM) if board.width else 1
        how = f"{count} boards of {board.stock} glued up" if count > 1 else f"{board.stock} ripped"
        why = f"{name} has no equal here: {how} to {plain(wide, metric)}{instead}"
        return Substitute(board.stock, why, wide, GluedFrom(count, SEAM) if count > 1 else None)
    if wide is not None and panel is not None:
        why = f"{name} has no equal here: {panel.stock} cut to {plain(wide, metric)} wide; {PLIES}"
        return Substitute(panel.stock, why, wide)
    why = f"{name} has no equal here, nor has a panel: have it planed, or glue layers to its size"
    return Substitute(None, why, wide, None, thick)


def _bought(board: BoardSize, wide: Fraction) -> tuple[int, Fraction, str]:
    """Fewest boards, then least waste."""
    width = board.width.listed if board.width else wide
    count = boards_for(wide, width, SEAM)
    return count, count * width, board.row


def _for_panel(
    old: PanelSize, name: str, wide: Fraction | None, sizing: Sizing, region: str
) -> Substitute:
    metric, thick = sizing.build.units == "mm", old.thickness.listed
    same = _panel(sizing, region, thick, PANEL, old.material)
    other = same or _panel(sizing, region, thick, PANEL * 2)
    if other is None:
        why = f"{name} has no equal here, nor has another panel: its thickness is stated instead"
        return Substitute(None, why, wide, None, thick)
    said = f"{other.stock} ({plain(other.thickness.listed, metric)})"
    why = f"{said} is this region's {name}" if same else f"{name} has no equal here: {said} instead"
    return Substitute(other.stock, why, wide)


def _panel(
    sizing: Sizing, region: str, thick: Fraction, within: Fraction, material: str | None = None
) -> PanelSize | None:
    """The panel nearest in thickness, plywood before others where any will do."""

    def off(panel: PanelSize) -> Fraction:
        return abs(panel.thickness.listed - thick)

    near = [
        panel
        for panel in sizing.catalog.panels
        if _sold(panel, region) and off(panel) <= within and material in (None, panel.material)
    ]
    return min(
        near, key=lambda p: (off(p), not p.material.startswith("plywood"), p.row), default=None
    )
