"""From counted patterns back to boards: which piece lies where, and what is left of each board."""

from collections import defaultdict, deque
from collections.abc import Iterator, Sequence
from decimal import Decimal
from fractions import Fraction

from service.planning.job import CutBoard, Part, Piece
from service.planning.nesting import Lie, Order, best_order, lies, tip_to_tip
from service.planning.problem import Cuts, Pattern
from service.planning.ripping import split
from service.planning.scaling import Scaled, Source, wood_of


class _Board:
    """One board while pieces are laid on it, clear length by clear length."""

    def __init__(self) -> None:
        self.pieces: list[Piece] = []
        self.used: set[int] = set()
        self.rests: list[tuple[tuple[Fraction, Fraction], int]] = []
        self.strips: tuple[Fraction, ...] = ()


def lay_out(scaled: Scaled, cuts: Cuts) -> tuple[CutBoard, ...]:
    """All boards of a plan: longest from the store first, then what is on hand."""
    layer = _Layer(scaled)
    laid: dict[int, int] = defaultdict(int)  # clear lengths of one board on hand share it
    boards: dict[tuple[bool, int], list[_Board]] = defaultdict(list)
    for cut in sorted(cuts, key=lambda cut: (cut.supply, _order(cut.pattern))):
        source = scaled.sources[cut.supply]
        row = boards[source.on_hand, source.entry]
        for _ in range(cut.times):
            if laid[cut.supply] == len(row):
                row.append(_Board())
            board = row[laid[cut.supply]]
            laid[cut.supply] += 1
            board.used.add(cut.supply)
            layer.lay(board, cut.supply, cut.pattern)
    keys = sorted(boards, key=lambda key: (key[0], -_length(scaled, key), key[1]))
    return tuple(_finished(scaled, key, board) for key in keys for board in boards[key])


def _order(pattern: Pattern) -> list[tuple[int, int]]:
    return [(item, -count) for item, count in pattern]


def _length(scaled: Scaled, key: tuple[bool, int]) -> Fraction:
    on_hand, entry = key
    return scaled.job.on_hand[entry].length if on_hand else scaled.job.for_sale[entry].length


def _finished(scaled: Scaled, key: tuple[bool, int], board: _Board) -> CutBoard:
    job, (on_hand, entry) = scaled.job, key
    for place, source in enumerate(scaled.sources):
        if (source.on_hand, source.entry) == key and place not in board.used:
            board.rests.append((source.usable, 0))
    board.rests.sort()
    rests = tuple(rest for rest, _ in board.rests)
    least = job.keep_at_least
    return CutBoard(
        source="on-hand" if on_hand else "store",
        length=_length(scaled, key),
        price=Decimal(0) if on_hand else job.for_sale[entry].price,
        pieces=tuple(sorted(board.pieces, key=lambda p: (p.strip, p.start))),
        rests=rests,
        keep=tuple(least is not None and b - a >= least for a, b in rests),
        strips=board.strips,
        rest_strips=tuple(strip for _, strip in board.rests),
        entry=entry,
    )


class _Layer:
    def __init__(self, scaled: Scaled) -> None:
        self.scaled, self.wood = scaled, wood_of(scaled.job)
        self.blanks: dict[str, Fraction] = {}
        self.waiting = [
            deque(scaled.job.parts[p] for p in places for _ in range(scaled.job.parts[p].quantity))
            for places in scaled.parts
        ]

    def lay(self, board: _Board, supply: int, pattern: Pattern) -> None:
        """Lay the pieces of a pattern on the clear wood of one supply."""
        source = self.scaled.sources[supply]
        problem = self.scaled.problem
        if problem.supplies[supply].ways:
            strips = split(problem, supply, pattern)
            board.strips = tuple(self.scaled.widths[width] for width, _ in strips)
            for strip, (_, own) in enumerate(strips):
                self._lay_run(board, source, own, strip)
        elif problem.nest is not None:
            self._lay_nested(board, source, pattern)
        else:
            self._lay_run(board, source, pattern, 0)

    def _take(self, pattern: Pattern) -> list[tuple[int, Part]]:
        return [
            (item, self.waiting[item].popleft()) for item, count in pattern for _ in range(count)
        ]

    def _lay_run(self, board: _Board, source: Source, pattern: Pattern, strip: int) -> None:
        """Pieces with square blanks, longest first, a kerf between them."""
        at = source.usable[0]
        for _, part in self._take(pattern):
            if part.id not in self.blanks:
                self.blanks[part.id] = tip_to_tip(part, self.wood)
            end = at + self.blanks[part.id]
            board.pieces.append(Piece(part.id, at, end, part.first, part.second, strip=strip))
            at = end + self.scaled.job.kerf
        self._leave(board, source, at, strip)

    def _leave(self, board: _Board, source: Source, at: Fraction, strip: int = 0) -> None:
        if at < source.usable[1]:
            board.rests.append(((at, source.usable[1]), strip))

    def _lay_nested(self, board: _Board, source: Source, pattern: Pattern) -> None:
        groups = self.scaled.groups
        nest = self.scaled.problem.nest
        assert nest is not None
        rows: list[list[Part]] = [[] for _ in groups]
        for item, part in self._take(pattern):
            rows[nest.groups[item]].append(part)
        order = best_order(groups, tuple(2 - len(row) % 2 if row else 0 for row in rows), self.wood)
        at, before = source.usable[0], None
        for part, lie, blank in _in_order(order, rows):
            left, right = self.wood.overhang(lie.left), self.wood.overhang(lie.right)
            length = tip_to_tip(part, self.wood) if blank else part.length
            at += left if before is None else self.wood.gap(before.right, lie.left)
            start, end = at - left, at + length + right
            board.pieces.append(_piece(part, lies(part)[0] if blank else lie, start, end))
            at, before = at + length, lie
        if before is not None:
            reach = self.wood.overhang(before.right)
            self._leave(board, source, at + reach + self.wood.kerf_along(before.right))


def _in_order(order: Order, rows: Sequence[Sequence[Part]]) -> Iterator[tuple[Part, Lie, bool]]:
    """Pieces from left to right, how each lies, and whether it is cut as a square blank first."""
    for group, run in order.runs:
        for place, part in enumerate(rows[group]):
            lie = run.in_turn[place % 2]
            yield part, lie, not part.square and not (any(lie.left) or any(lie.right))


def _piece(part: Part, lie: Lie, start: Fraction, end: Fraction) -> Piece:
    """A piece as it lies: the way of lying that has the slopes wanted, the plainest one."""
    own = next(way for way in lies(part) if (way.left, way.right) == (lie.left, lie.right))
    left = own.left._replace(across=-own.left.across, through=-own.left.through)
    return Piece(part.id, start, end, left, own.right, own.turned, own.over)


def boards_bought(cuts: Cuts, scaled: Scaled) -> dict[int, int]:
    """How many boards of each entry for sale the cuts use."""
    counts: dict[int, int] = defaultdict(int)
    for cut in cuts:
        source = scaled.sources[cut.supply]
        if not source.on_hand:
            counts[source.entry] += cut.times
    return dict(counts)
