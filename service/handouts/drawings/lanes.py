"""One row of a board: the wood, what is cut from it, labels and the marks of the tape."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from service.domain.drawing import HAIR, SMALL, Path, Shape, Spot, Text, box, breadth
from service.handouts.drawings.pens import FIELD, MARGIN, Page, Pen, fits, torn
from service.handouts.drawings.pieces import Lying, along, lying, outline
from service.handouts.drawings.rows import Row, Stretch
from service.handouts.drawings.tapes import APART, Mark, moved, tape_marks
from service.planning.job import SQUARE, CutBoard, Job, Piece
from service.planning.setting_up import is_square

LEFT = MARGIN + 4
ABOVE = 15.0
TWO_LINES = 25.0


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


@dataclass(frozen=True, slots=True)
class Lane:
    """A row on paper: `top` is where the far edge of the wood lies."""

    strip: Cutting
    row: Row
    scale: float
    top: float

    @property
    def high(self) -> float:
        """Points from edge to edge."""
        return float(self.strip.width) * self.scale

    @property
    def foot(self) -> float:
        """Where the near edge lies."""
        return self.top + self.high

    @property
    def origin(self) -> Spot:
        """Where the row begins, at the near edge."""
        return LEFT, self.foot

    def x(self, at: Fraction) -> float:
        """A mark of the board's tape."""
        return LEFT + float(at - self.row.start) * self.scale

    def middle(self, one: Stretch) -> float:
        """Half way along a stretch."""
        return (self.x(one.start) + self.x(one.end)) / 2

    def room(self, one: Stretch) -> float:
        """Points along a stretch."""
        return self.x(one.end) - self.x(one.start)


def draw_row(page: Page, strip: Cutting, row: Row, scale: float) -> None:
    """Labels that find no room in the wood, far marks, the wood, near marks: from the top down."""
    lane = Lane(strip, row, scale, 0.0)
    over, off = tape_marks(_far(lane), 0.0, below=False)
    outside = [one for one in row.stretches if not _inside(lane, one)]
    lane = Lane(strip, row, scale, page.y + 6 + off + (ABOVE if outside else 0))
    page.add(*(moved(shape, lane.top) for shape in over))
    _draw_wood(page, lane)
    for one in row.stretches:
        page.add(*_within(lane, one))
    page.add(*_beside(lane, outside, lane.top - off - 3))
    under, deep = tape_marks(_near(lane), lane.foot, below=True)
    page.add(*under)
    page.y = lane.foot + deep


def _lies(lane: Lane) -> list[Lying]:
    strip = lane.strip
    pieces = [one.piece for one in lane.row.stretches if one.piece]
    return [lying(piece, strip.job, strip.width) for piece in pieces]


def _near(lane: Lane) -> list[Mark]:
    """Where the tape is read on the near edge: right ends, and left ones that are slanted."""
    marks = [lane.row.start, *(s.end for s in lane.row.stretches if s.waste)]
    for lie in _lies(lane):
        marks += [lie.left[0]] if lie.piece.left != SQUARE else []
        marks.append(lie.right[0])
    return [Mark(lane.x(at), lane.strip.pen.short(at)) for at in marks]


def _far(lane: Lane) -> list[Mark]:
    """Where the tape is read on the far edge: only where an end is not square across."""
    marks = [
        at
        for lie in _lies(lane)
        for slant, at in ((lie.piece.left, lie.left[1]), (lie.piece.right, lie.right[1]))
        if slant.across
    ]
    return [Mark(lane.x(at), lane.strip.pen.short(at)) for at in marks]


def _draw_wood(page: Page, lane: Lane) -> None:
    """What lies on the board, then its edges, torn where it goes on in another row."""
    row = lane.row
    for one in row.stretches:
        if one.piece:
            _draw_piece(page, lane, one.piece)
            continue
        edges = box(lane.x(one.start), lane.top, lane.x(one.end), lane.foot)
        page.add(Path(edges, "waste" if one.waste else "rest", closed=True, weight=HAIR))
        if one.waste:
            page.add(Path((edges[0], edges[2]), "crossed", weight=HAIR))
            page.add(Path((edges[1], edges[3]), "crossed", weight=HAIR))
    right = lane.x(row.end)
    for y in (lane.foot, lane.top):
        page.add(Path(((LEFT, y), (right, y)), "edge", weight=HAIR))
    if row.start > 0:
        page.add(torn(LEFT - 2, lane.top, lane.foot))
    if row.end < lane.strip.board.length:
        page.add(torn(right + 2, lane.top, lane.foot))


def _draw_piece(page: Page, lane: Lane, piece: Piece) -> None:
    strip = lane.strip
    lie = lying(piece, strip.job, strip.width)
    letter = strip.pen.letter(piece.part)

    def placed(corners: tuple[tuple[Fraction, Fraction], ...]) -> tuple[Spot, ...]:
        return along(corners, lane.origin, lane.scale, lane.row.start)

    corners = outline(lie.left, lie.right, lie.width)
    page.add(Path(placed(corners), "piece", letter, closed=True))
    if lie.under != (lie.left, lie.right):
        below = placed(outline(*lie.under, lie.width))
        page.add(Path(below, "under", letter, closed=True, dashed=True, weight=HAIR))
    length = strip.board.length
    for slant, ends, way in ((piece.left, lie.left, -1), (piece.right, lie.right, 1)):
        kerf = lie.wood.kerf_along(slant) * way
        if (way < 0 and slant == SQUARE) or kerf == 0 or max(ends) >= length:
            continue
        over = tuple(min(max(end + kerf, Fraction(0)), length) for end in ends)
        cut = placed(outline(ends, (over[0], over[1]), strip.width))
        page.once(Path(cut, "kerf", letter, closed=True, filled=True))


def _words(lane: Lane, one: Stretch) -> tuple[str, str]:
    """The letter of a piece, or what else lies there, and its label in full."""
    pen = lane.strip.pen
    long = pen.short(one.end - one.start)
    if one.piece is None:
        return (one.waste, one.waste) if one.waste else ("", f"left {long}")
    letter = pen.letter(one.piece.part)
    return letter, f"{letter} {long}"


def _inside(lane: Lane, one: Stretch) -> bool:
    """Whether a stretch's label stands in the wood; a piece's letter alone will do."""
    least, whole = _words(lane, one)
    return fits(least if one.piece else whole, lane.room(one), lane.high)


def _within(lane: Lane, one: Stretch) -> list[Text]:
    if not _inside(lane, one):
        return []
    wide, high, x = lane.room(one), lane.high, lane.middle(one)
    least, whole = _words(lane, one)
    words = whole if fits(whole, wide, high) else least
    stop = lane.strip.stop(one.piece) if one.piece else None
    under = f"stop {stop}"
    y = lane.top + high / 2
    if stop is None or high < TWO_LINES or not fits(under, wide, high):
        return [Text((x, y + 4), words, "middle", strong=one.piece is not None)]
    name = Text((x, y - 2), words, "middle", strong=True)
    return [name, Text((x, y + 9), under, "middle", SMALL)]


def _beside(lane: Lane, outside: Sequence[Stretch], y: float) -> list[Shape]:
    """Labels above the wood, side by side, each with a line to what it names."""
    drawn: list[Shape] = []
    free = MARGIN
    for one in outside:
        least, whole = _words(lane, one)
        x = lane.middle(one)
        words = whole if breadth(whole) <= lane.room(one) else least or whole
        long = breadth(words)
        left = min(max(x - long / 2, free), FIELD - MARGIN - long)
        if left < free:
            continue  # the marks in words still name it
        free = left + long + APART
        drawn.append(Text((left, y), words, strong=one.piece is not None))
        foot = lane.top if lane.high < 13 or one.piece is None else lane.top + 4
        drawn.append(Path(((min(max(x, left + 3), left + long - 3), y + 2), (x, foot)), "leader",
                          weight=HAIR))  # fmt: skip
    return drawn
