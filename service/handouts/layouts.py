"""Where every piece lies on its board or sheet: marks along the tape, stop blocks, saw cuts."""

from collections.abc import Iterator

from service.handouts.answers import Answers
from service.handouts.page import Block, Column, Item, Items, Section, Table, Words
from service.handouts.sizes import counted, listed
from service.planning.adding_up import shares_of
from service.planning.job import CutBoard
from service.planning.panels.planned import CutSheet
from service.planning.setting_up import KEPT_SIDE, short_to_hold, shortest_held, stop_blocks

BOARDS = (
    Column("board", "Board"),
    Column("stock", "Of"),
    Column("letter", "Piece"),
    Column("from", "From"),
    Column("to", "To"),
    Column("note", "Note"),
)
SHEETS = (
    Column("sheet", "Sheet"),
    Column("letter", "Piece"),
    Column("size", "Length x width"),
    Column("at", "Near corner at"),
    Column("note", "Note"),
)
CUTS = (
    Column("sheet", "Sheet"),
    Column("order", "Cut", figures=True),
    Column("at", "At"),
    Column("across", "Across the"),
    Column("by", "By"),
)
NOTHING = "Nothing is planned to be cut: see what is not to be had, above."
MARKS = (
    "Marks are read from the left end of the board; the kerf lies between neighbors. Mark and "
    "cut one piece after the other rather than all marks at once."
)
SHORT = "{part} is short to hold by hand: cut it from a longer piece, or clamp it."


def layouts(answers: Answers) -> Section:
    """Every board and sheet."""
    blocks: list[Block] = []
    boards = tuple(_boards(answers))
    if boards:
        blocks += [Table("boards", "Boards, piece by piece", BOARDS, boards), Words(MARKS)]
    sheets = tuple(_sheets(answers))
    if sheets:
        cuts = tuple(_cuts(answers))
        blocks += [
            Table("sheets", "Sheets, piece by piece", SHEETS, sheets),
            Table("sheet-cuts", "Cuts of the sheets, in order", CUTS, cuts),
        ]
    stops = tuple(_stops(answers))
    if stops:
        blocks += [Words("Set a stop block for:"), Items(stops), Words(KEPT_SIDE)]
    short = tuple(Item(SHORT.format(part=answers.named(part))) for part in _short(answers))
    if short:
        blocks.append(Items(short))
    return Section("layouts", "Boards and sheets", tuple(blocks) or (Words(NOTHING),))


def numbered_boards(answers: Answers) -> Iterator[tuple[int, str, CutBoard]]:
    """Every board with its number and its stock, in the order of the plan."""
    every = [(one.asked.stock.key, b) for one in answers.plan.boards for b in one.plan.boards]
    return ((number, stock, board) for number, (stock, board) in enumerate(every, 1))


def numbered_sheets(answers: Answers) -> Iterator[tuple[int, str, CutSheet]]:
    """Every sheet with its number and its stock, in the order of the plan."""
    every = [(one.asked.stock.key, s) for one in answers.plan.sheets for s in one.plan.sheets]
    return ((number, stock, sheet) for number, (stock, sheet) in enumerate(every, 1))


def _boards(answers: Answers) -> Iterator[tuple[str, ...]]:
    for number, stock, board in numbered_boards(answers):
        of = f"{stock}, {answers.sizes.one(board.length)}"
        if board.source == "on-hand":
            of += ", on hand"
        if board.strips:
            widths = listed([answers.sizes.one(width) for width in board.strips], 12)
            of += f", ripped into {widths}"
        for piece in board.pieces:
            notes = [
                *(["end for end"] if piece.turned else []),
                *(["front down"] if piece.over else []),
                *([f"strip {piece.strip + 1}"] if board.strips else []),
            ]
            start, end = answers.sizes.one(piece.start), answers.sizes.one(piece.end)
            yield str(number), of, answers.named(piece.part), start, end, ", ".join(notes)


def _sheets(answers: Answers) -> Iterator[tuple[str, ...]]:
    sizes = answers.sizes
    for number, stock, sheet in numbered_sheets(answers):
        of = f"{number}: {stock}, {sizes.by(sheet.sheet.length, sheet.sheet.width)}"
        for placed in sheet.panels:
            area = placed.area
            yield (
                of,
                answers.named(placed.panel),
                sizes.by(area.length, area.width),
                f"{sizes.one(area.x)} along, {sizes.one(area.y)} across",
                "turned a quarter" if placed.turned else "",
            )


def _cuts(answers: Answers) -> Iterator[tuple[str, ...]]:
    for number, _, sheet in numbered_sheets(answers):
        for cut in sheet.cuts:
            across = f"{cut.across} of the piece in hand"
            trim = ", to square the edge" if cut.trim else ""
            at = answers.sizes.one(cut.at)
            yield str(number), str(cut.order), at, f"{across}{trim}", cut.by


def _stops(answers: Answers) -> Iterator[Item]:
    for one in answers.plan.boards:
        for block in stop_blocks(one.plan.boards):
            names = listed([answers.named(part) for part in block.parts], 12)
            pieces = counted(block.count, "piece")
            yield Item(
                f"{pieces} of {one.asked.stock.key}: {names}", answers.sizes.one(block.length)
            )


def _short(answers: Answers) -> list[str]:
    held = shortest_held(answers.build.catalog)
    if held is None:
        return []
    boards = [board for _, _, board in numbered_boards(answers)]
    return list(dict.fromkeys(part for board in boards for part in short_to_hold(board, held)))


def leftovers(answers: Answers) -> Section:
    """What is left over of every board and sheet, and what is worth keeping."""
    items = tuple(_leftovers(answers))
    shares = _shares(answers)
    return Section("left", "What is left over", ((Items(items),) if items else ()) + shares)


def _leftovers(answers: Answers) -> Iterator[Item]:
    sizes = answers.sizes
    for number, stock, board in numbered_boards(answers):
        rests = [
            f"{sizes.one(end - start)}{' (keep)' if keep else ''}"
            for (start, end), keep in zip(board.rests, board.keep, strict=True)
        ]
        yield Item(listed(rests, 12) or "nothing", f"board {number}, {stock}")
    for number, stock, sheet in numbered_sheets(answers):
        rests = [
            f"{sizes.by(rest.area.length, rest.area.width)}{' (keep)' if rest.keep else ''}"
            for rest in sheet.rests
        ]
        yield Item(listed(rests, 12) or "nothing", f"sheet {number}, {stock}")


def _shares(answers: Answers) -> tuple[Words, ...]:
    shares = shares_of(answers.build, answers.plan)
    if not shares.used:
        return (Words("Nothing is planned, so nothing is left over."),)
    return (
        Words(
            f"Of all the wood {shares.used:g} % ends up in the parts, {shares.kept:g} % is kept, "
            f"{shares.waste:g} % is waste and sawdust."
        ),
    )
