"""Each board of a plan to scale, row by row, and everything on it in words."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from fractions import Fraction

from service.domain.drawing import HAIR, Drawing, Path, Text, box
from service.handouts.drawings.lanes import LEFT, Cutting, draw_row
from service.handouts.drawings.pens import FIELD, MARGIN, Page, Pen
from service.handouts.drawings.pieces import lying, piece_words
from service.handouts.drawings.rows import TRIM, Stretch, rows_of, scale_for
from service.handouts.sizes import listed
from service.planning.job import CutBoard
from service.planning.setting_up import stop_blocks
from service.planning.whole import CutPlan, PlannedBoards


def board_drawings(plan: CutPlan, pen: Pen) -> Iterator[tuple[str, str, Drawing]]:
    """Key, caption and drawing of every board, numbered through all stocks in the plan's order.

    Boards that are cut alike share one drawing, with the key of the first.
    """
    number = 0
    for one in plan.boards:
        stops = stop_numbers(one)
        alike: dict[CutBoard, list[int]] = {}
        for board in one.plan.boards:
            number += 1
            entry = 0 if board.source == "store" else board.entry
            alike.setdefault(replace(board, entry=entry), []).append(number)
        for board, numbers in alike.items():
            caption = _caption(numbers, one, board, pen)
            yield f"board-{numbers[0]}", caption, draw_board(one, board, caption, pen, stops)


def stop_numbers(one: PlannedBoards) -> dict[Fraction, int]:
    """The length that each stop block of a stock repeats, numbered from 1."""
    blocks = stop_blocks(one.plan.boards)
    return {block.length: place for place, block in enumerate(blocks, 1)}


def draw_board(
    one: PlannedBoards, board: CutBoard, title: str, pen: Pen, stops: Mapping[Fraction, int]
) -> Drawing:
    """One board, row by row; strips that it is ripped into one after the other."""
    job = one.asked.job
    widths = board.strips or (job.width,)
    strips = [Cutting(pen, job, board, width, n, stops) for n, width in enumerate(widths)]
    stretches = [list(_stretches(strip)) for strip in strips]
    scale = scale_for([s for strip in stretches for s in strip], board.length)
    page, marks = Page(), []
    ripped = any(width < job.width for width in widths)
    if ripped:
        marks.append(_draw_ripping(page, strips, scale))
    for strip, own in zip(strips, stretches, strict=True):
        if ripped:
            page.y += 6
            page.line(f"Strip {strip.strip + 1}: {pen.short(strip.width)} wide", strong=True)
        marks += _marks(strip)
        for row in rows_of(own, scale):
            draw_row(page, strip, row, scale)
    about = (
        f"{title}. Seen from above, drawn 1 to {72 / scale:.3g}; the tape starts at the left. "
        f"Black between pieces is what the saw takes, {pen.say(job.kerf)} a cut."
    )
    return page.done(title, about, marks, scale)


def _caption(numbers: Sequence[int], one: PlannedBoards, board: CutBoard, pen: Pen) -> str:
    had = " (on hand)" if board.source == "on-hand" else ""
    which = f"Board {numbers[0]}"
    if len(numbers) > 1:
        which = f"Boards {listed([f'{n}' for n in numbers], len(numbers))}, cut alike"
    return f"{which}: {pen.stock(one.asked.stock.key)}, {pen.say(board.length)} long{had}"


def _stretches(strip: Cutting) -> Iterator[Stretch]:
    """Pieces, leftovers and spoiled wood from left to right."""
    found = [Stretch(p.start, p.end, p) for p in strip.pieces]
    found += [Stretch(a, b, keep=keep) for a, b, keep in strip.rests]
    found += [Stretch(a, b, waste="keep clear") for a, b in strip.spoiled]
    trim = strip.job.end_trim
    if trim:
        ends = (Fraction(0), trim), (strip.board.length - trim, strip.board.length)
        found += [Stretch(a, b, waste=TRIM) for a, b in ends]
    return iter(sorted(found, key=lambda one: (one.start, one.end)))


def _marks(strip: Cutting) -> list[str]:
    """Everything on a board in words, from left to right."""
    pen, said = strip.pen, []
    on = f"strip {strip.strip + 1}, " if strip.width < strip.job.width else ""
    for one in _stretches(strip):
        if one.piece:
            lie = lying(one.piece, strip.job, strip.width)
            said.append(on + piece_words(lie, pen, strip.stop(one.piece)))
            continue
        place = f"{pen.short(one.start)} to {pen.short(one.end)}"
        if one.waste == TRIM:
            said.append(f"{on}{place}: trimmed off the end, its saw cut included")
        elif one.waste:
            said.append(f"{on}{place}: a defect, no part may span it")
        else:
            kept = ", worth keeping" if one.keep else ""
            said.append(f"{on}{place}: left over, {pen.say(one.end - one.start)}{kept}")
    return said


def _draw_ripping(page: Page, strips: Sequence[Cutting], scale: float) -> str:
    """The board's width before it is cut to length: the strips, a kerf between, what is left."""
    first = strips[0]
    pen, job = first.pen, first.job
    page.line("Rip first, the length of the board is not shown:", strong=True)
    page.y += 4
    top, right, at = page.y, FIELD - MARGIN, Fraction(0)
    high = float(job.width) * scale
    for strip in strips:
        low, far = top + high - float(at) * scale, top + high - float(at + strip.width) * scale
        page.add(Path(box(LEFT, far, right, low), "strip", str(strip.strip + 1), closed=True))
        words = f"strip {strip.strip + 1}: {pen.short(strip.width)} wide"
        if low - far > 12:
            page.add(Text(((LEFT + right) / 2, (low + far) / 2 + 4), words, "middle"))
        at += strip.width
        kerf = min(job.kerf, job.width - at)
        if kerf > 0:
            up = far - float(kerf) * scale
            page.add(Path(box(LEFT, up, right, far), "rip", closed=True, filled=True))
            at += kerf
    page.add(Path(box(LEFT, top, right, top + high), "board", closed=True, weight=HAIR))
    page.y = top + high + 4
    widths = ", ".join(pen.say(strip.width) for strip in strips)
    over = f"; {pen.say(job.width - at)} is left over" if at < job.width else ""
    return f"Rip the board first, from the near edge: {widths} wide{over}"
