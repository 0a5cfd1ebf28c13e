"""Where every piece lies on its board or sheet: marks along the tape, stop blocks, saw cuts."""

from collections.abc import Iterator

from service.handouts.answers import Answers
from service.handouts.drawings.boards import board_drawings
from service.handouts.drawings.sheets import sheet_drawings
from service.handouts.page import Block, Item, Items, Picture, Section, Words
from service.handouts.sizes import counted, listed, many
from service.planning.job import CutBoard
from service.planning.panels.planned import CutSheet
from service.planning.purchasing import shares_of
from service.planning.setting_up import KEPT_SIDE, short_to_hold, shortest_held, stop_blocks

NOTHING = "Nothing is planned to be cut: see what is not to be had, above."
MARKS = (
    "Marks are read from the left end of the board. The kerf, what the saw takes, lies between "
    "neighbors and belongs to none; it is drawn black. Mark and cut one piece after the other "
    "rather than all marks at once. Slanted ends overlap along the tape: their marks are the "
    "outermost points."
)
SHORT = "{part} is short to hold by hand: cut it from a longer piece, or clamp it."


def layouts(answers: Answers) -> Section:
    """Every board and sheet."""
    blocks: list[Block] = []
    stops = tuple(_stops(answers))
    if stops:
        blocks += [Words("Set a stop block for:"), Items(stops), Words(KEPT_SIDE)]
    boards = [Picture(*drawn) for drawn in board_drawings(answers.plan, answers.pen)]
    if boards:
        blocks += [Words(MARKS), *boards]
    blocks += [Picture(*drawn) for drawn in sheet_drawings(answers.plan, answers.pen)]
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


def _stops(answers: Answers) -> Iterator[Item]:
    """Stop blocks by the numbers that they have on the drawings: from 1 in each stock."""
    for one in answers.plan.boards:
        for number, block in enumerate(stop_blocks(one.plan.boards), 1):
            names = answers.names(block.parts, 12)
            pieces = counted(block.count, "piece")
            size = answers.sizes.one(block.length)
            yield Item(
                f"{size}: {pieces}: {names}",
                f"{answers.pen.stock(one.asked.stock.key)}, stop {number}",
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
    """A line for each board and sheet; those of which the same is left share one."""
    sizes = answers.sizes
    alike: dict[tuple[str, str, str], list[str]] = {}
    for number, stock, board in numbered_boards(answers):
        rests = [
            f"{sizes.one(end - start)}{' (keep)' if keep else ''}"
            for (start, end), keep in zip(board.rests, board.keep, strict=True)
        ]
        alike.setdefault(("board", stock, listed(rests, 12)), []).append(f"{number}")
    for number, stock, sheet in numbered_sheets(answers):
        rests = [
            f"{sizes.by(rest.area.length, rest.area.width)}{' (keep)' if rest.keep else ''}"
            for rest in sheet.rests
        ]
        alike.setdefault(("sheet", stock, listed(rests, 12)), []).append(f"{number}")
    for (kind, stock, left), numbers in alike.items():
        which = f"{kind if len(numbers) == 1 else many(kind)} {listed(numbers, len(numbers))}"
        yield Item(left or "nothing", f"{which}, {answers.pen.stock(stock)}")


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
