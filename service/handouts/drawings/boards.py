"""Each board of a plan to scale: its pieces with letter, length and tape marks, kerfs, leftovers."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from service.domain.drawing import HAIR, Drawing, Path, Spot, Text, box, breadth
from service.handouts.drawings.pens import FIELD, MARGIN, Page, Pen, fits
from service.handouts.drawings.pieces import Lying, along, lying, outline, piece_words
from service.handouts.drawings.rows import TRIM, Row, Stretch, rows_of, scale_for
from service.handouts.drawings.tapes import Mark, tape_marks
from service.planning.job import SQUARE, CutBoard, Job, Piece
from service.planning.setting_up import is_square, stop_blocks
from service.planning.whole import CutPlan, PlannedBoards

LEFT = MARGIN + 4
ABOVE = 15.0
TORN = 4.0


@dataclass(frozen=True, slots=True)
class Cutting:
    """A board, or one strip of it, to be drawn: `width` inches wide."""

    pen: Pen
    job: Job
    board: CutBoard
    width: Fraction
    strip: int
    stops: Mapping[Fraction, int]

    @property
    def pieces(self) -> list[Piece]:
        """What is cut from it, from left to right."""
        return [piece for piece in self.board.pieces if piece.strip == self.strip]

    @property
    def rests(self) -> list[tuple[Fraction, Fraction, bool]]:
        """What is left of it: from, to, and whether it is kept."""
        board = self.board
        strips = board.rest_strips or (0,) * len(board.rests)
        return [
            (*rest, keep)
            for rest, keep, strip in zip(board.rests, board.keep, strips, strict=True)
            if strip == self.strip
        ]

    @property
    def spoiled(self) -> Sequence[tuple[Fraction, Fraction]]:
        """Stretches of the board that no part may span."""
        if self.board.source == "store":
            return ()
        return self.job.on_hand[self.board.entry].defects

    def stop(self, piece: Piece) -> int | None:
        """The number of the stop block that the piece is cut to."""
        return self.stops.get(piece.end - piece.start) if is_square(piece) else None


def board_drawings(plan: CutPlan, pen: Pen) -> Iterator[tuple[str, str, Drawing]]:
    """Key, caption and drawing of every board, numbered through all stocks in the plan's order."""
    number = 0
    for one in plan.boards:
        stops = stop_numbers(one)
        for board in one.plan.boards:
            number += 1
            caption = _caption(number, one, board, pen)
            yield f"board-{number}", caption, draw_board(one, board, caption, pen, stops)


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
            _draw_row(page, strip, row, scale)
    about = f"{title}. Seen from above, drawn 1 to {72 / scale:.3g}; the tape starts at the left."
    return page.done(title, about, [*marks, _kerf_words(job, pen)], scale)


def _caption(number: int, one: PlannedBoards, board: CutBoard, pen: Pen) -> str:
    had = " (on hand)" if board.source == "on-hand" else ""
    return f"Board {number}: {one.asked.stock.key}, {pen.say(board.length)} long{had}"


def _kerf_words(job: Job, pen: Pen) -> str:
    return f"The saw takes {pen.say(job.kerf)} at each cut, drawn black: it belongs to no piece."


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


def _draw_row(page: Page, strip: Cutting, row: Row, scale: float) -> None:
    """Labels, far marks, the wood, near marks: from the top down."""
    high = float(strip.width) * scale
    lies = [(s, lying(s.piece, strip.job, strip.width)) for s in row.stretches if s.piece]
    far = [Mark(_x(row, at, scale), strip.pen.short(at)) for _, lie in lies for at in _far(lie)]
    over, off = tape_marks(far, 0.0, below=False)
    outside = high < 13 or any(_room(one, scale) < 15 for one in row.stretches if one.piece)
    page.y += 6 + off + (ABOVE if outside else 0)
    origin = (LEFT, page.y + high)
    page.add(*(_moved(shape, page.y) for shape in over))
    _draw_wood(page, strip, row, origin, scale)
    for one in row.stretches:
        _label(page, strip, row, one, origin, scale, off)
    near = [Mark(_x(row, at, scale), strip.pen.short(at)) for _, lie in lies for at in _near(lie)]
    near += [Mark(_x(row, s.end, scale), strip.pen.short(s.end)) for s in row.stretches if s.waste]
    near.append(Mark(_x(row, row.start, scale), strip.pen.short(row.start)))
    under, deep = tape_marks(near, origin[1], below=True)
    page.add(*under)
    page.y = origin[1] + deep


def _x(row: Row, at: Fraction, scale: float) -> float:
    return LEFT + float(at - row.start) * scale


def _room(one: Stretch, scale: float) -> float:
    return float(one.end - one.start) * scale


def _near(lie: Lying) -> list[Fraction]:
    """Where the tape is read on the near edge: right ends, and left ones that are slanted."""
    left = [lie.left[0]] if lie.piece.left != SQUARE else []
    return [*left, lie.right[0]]


def _far(lie: Lying) -> list[Fraction]:
    """Where the tape is read on the far edge: only where an end is not square across."""
    return [
        at
        for slant, at in ((lie.piece.left, lie.left[1]), (lie.piece.right, lie.right[1]))
        if slant.across
    ]


def _moved(shape: Path | Text | object, down: float) -> Path | Text:
    assert isinstance(shape, Path | Text)
    if isinstance(shape, Text):
        return Text((shape.at[0], shape.at[1] + down), shape.words, shape.anchor, shape.size,
                    shape.upright)  # fmt: skip
    return Path(tuple((x, y + down) for x, y in shape.spots), shape.shows, weight=shape.weight)


def _draw_wood(page: Page, strip: Cutting, row: Row, origin: Spot, scale: float) -> None:
    """The board's outline, then what lies on it."""
    x, y = origin
    right, top = _x(row, row.end, scale), y - float(strip.width) * scale
    for one in row.stretches:
        if one.piece:
            _draw_piece(page, strip, row, one.piece, origin, scale)
            continue
        edges = box(_x(row, one.start, scale), top, _x(row, one.end, scale), y)
        page.add(Path(edges, "waste" if one.waste else "rest", closed=True, weight=HAIR))
        if one.waste:
            page.add(Path((edges[0], edges[2]), "crossed", weight=HAIR))
            page.add(Path((edges[1], edges[3]), "crossed", weight=HAIR))
    page.add(Path(((x, y), (right, y)), "edge", weight=HAIR))
    page.add(Path(((x, top), (right, top)), "edge", weight=HAIR))
    if row.start > 0:
        page.add(_torn(x - 2, top, y))
    if row.end < strip.board.length:
        page.add(_torn(right + 2, top, y))


def _torn(x: float, top: float, foot: float) -> Path:
    """The board goes on in another row."""
    step = (foot - top + 4) / 4
    spots = tuple((x + (1.5 if n % 2 else -1.5), top - 2 + n * step) for n in range(5))
    return Path(spots, "torn", weight=HAIR)


def _draw_piece(
    page: Page, strip: Cutting, row: Row, piece: Piece, origin: Spot, scale: float
) -> None:
    lie = lying(piece, strip.job, strip.width)
    corners = outline(lie.left, lie.right, lie.width)
    letter = strip.pen.letter(piece.part)
    page.add(Path(along(corners, origin, scale, row.start), "piece", letter, closed=True))
    if lie.under != (lie.left, lie.right):
        below = along(outline(*lie.under, lie.width), origin, scale, row.start)
        page.add(Path(below, "under", letter, closed=True, dashed=True, weight=HAIR))
    length = strip.board.length
    for slant, ends, way in ((piece.left, lie.left, -1), (piece.right, lie.right, 1)):
        kerf = lie.wood.kerf_along(slant) * way
        if (way < 0 and slant == SQUARE) or kerf == 0 or max(ends) >= length:
            continue
        moved = (_within(ends[0] + kerf, length), _within(ends[1] + kerf, length))
        cut = along(outline(ends, moved, strip.width), origin, scale, row.start)
        page.once(Path(cut, "kerf", letter, closed=True, filled=True))


def _within(at: Fraction, length: Fraction) -> Fraction:
    return min(max(at, Fraction(0)), length)


def _label(
    page: Page, strip: Cutting, row: Row, one: Stretch, origin: Spot, scale: float, off: float
) -> None:
    """Letter and length inside where they fit, else above; leftovers blank but for their size."""
    wide, high = _room(one, scale), float(strip.width) * scale
    middle, (_, y) = _x(row, one.start, scale) + wide / 2, origin
    long = strip.pen.short(one.end - one.start)
    if one.piece is None:
        words = one.waste or f"left {long}"
        if fits(words, wide, high):
            page.add(Text((middle, y - high / 2 + 4), words, "middle"))
        elif high < 13 and breadth(words) + 4 <= wide:
            page.add(Text((middle, y - high - off - 3), words, "middle"))
        return
    letter = strip.pen.letter(one.piece.part)
    if fits(letter, wide, high):
        words = f"{letter} {long}" if fits(f"{letter} {long}", wide, high) else letter
        stop = strip.stop(one.piece)
        under = f"stop {stop}"
        two = stop is not None and fits(under, wide, high / 2)
        page.add(Text((middle, y - high / 2 + (-1 if two else 4)), words, "middle", strong=True))
        if two:
            page.add(Text((middle, y - high / 2 + 11), under, "middle"))
        return
    words = f"{letter} {long}"
    words = words if breadth(words) + 4 <= wide else letter
    page.add(Text((middle, y - high - off - 3), words, "middle", strong=True))
    if off:
        page.add(Path(((middle, y - high - off), (middle, y - high)), "leader", weight=HAIR))


