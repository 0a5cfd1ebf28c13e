"""An independent check of plans for boards, and an exhaustive search for tiny jobs.

Nothing of the planner is used here but its values: what is wanted, what is sold, where pieces lie.
"""

import itertools
from collections import Counter
from decimal import Decimal
from fractions import Fraction
from math import sqrt

from service.planning.job import CutBoard, Job, Part, Piece, Plan

Best = tuple[int, Decimal, int, Fraction]
TINY = 1e-9


def corners(job: Job, slant: tuple[Fraction, Fraction]) -> list[Fraction]:
    """How far an end reaches past its middle at the four corners of the board's section."""
    half_width, half_depth = job.width / 2, job.thickness / 2
    return [slant[0] * y + slant[1] * z for y in (-half_width, half_width)
            for z in (-half_depth, half_depth)]  # fmt: skip


def check_plan(job: Job, plan: Plan) -> None:
    """Every part once, nothing overlaps, kerfs kept, defects avoided, totals add up."""
    cut = Counter(piece.part for board in plan.boards for piece in board.pieces)
    missing = Counter({u.part: 0 for u in plan.unplaced})
    for unplaced in plan.unplaced:
        missing[unplaced.part] += unplaced.quantity
    for part in job.parts:
        assert cut[part.id] + missing[part.id] == part.quantity, part
    assert set(cut) <= {part.id for part in job.parts}
    for board in plan.boards:
        check_board(job, board)
    check_totals(job, plan)


def check_totals(job: Job, plan: Plan) -> None:
    """What is bought is what is cut, no more than there is, at its price."""
    bought = Counter(board.entry for board in plan.boards if board.source == "store")
    for entry, count in bought.items():
        limit = job.for_sale[entry].at_most
        assert limit is None or count <= limit
        assert job.longest is None or job.for_sale[entry].length <= job.longest
    own = Counter(board.entry for board in plan.boards if board.source == "on-hand")
    assert all(count <= job.on_hand[entry].quantity for entry, count in own.items())
    cost = sum((job.for_sale[entry].price * n for entry, n in bought.items()), Decimal(0))
    assert plan.cost == cost
    assert sum(row.count for row in plan.buy) == sum(bought.values())
    assert sum(((row.price * row.count) for row in plan.buy), Decimal(0)) == cost
    assert plan.bound <= plan.cost
    assert (plan.status == "optimal") <= (plan.bound == plan.cost)


def check_board(job: Job, board: CutBoard) -> None:
    """One board: its own length and price, its pieces apart and off its defects, its rests."""
    defects: tuple[tuple[Fraction, Fraction], ...] = ()
    if board.source == "store":
        assert board.length == job.for_sale[board.entry].length
        assert board.price == job.for_sale[board.entry].price
    else:
        assert board.length == job.on_hand[board.entry].length
        assert board.price == 0
        defects = job.on_hand[board.entry].defects
    for strip in sorted({piece.strip for piece in board.pieces}):
        check_strip(job, board, [p for p in board.pieces if p.strip == strip], defects)
    if board.strips:
        assert sum(board.strips) + job.kerf * (len(board.strips) - 1) <= job.width
    for first, last in board.rests if not board.strips else ():
        assert job.end_trim <= first < last <= board.length - job.end_trim
        assert all(last <= a or b <= first for a, b in defects)
        assert all(p.end <= first or last <= p.start for p in board.pieces)


def check_strip(
    job: Job, board: CutBoard, pieces: list[Piece], defects: tuple[tuple[Fraction, Fraction], ...]
) -> None:
    """Pieces in one row: of the right size, within the board, a kerf apart at every corner."""
    parts = {part.id: part for part in job.parts}
    spans = []
    for piece in pieces:
        part = parts[piece.part]
        if board.strips:
            assert (part.width or job.width) <= board.strips[piece.strip]
        left, right = check_lie(job, part, piece)
        assert piece.start >= job.end_trim and piece.end <= board.length - job.end_trim
        assert all(piece.end <= a or piece.start >= b for a, b in defects)
        spans.append((left, right, piece))
    for (_, right, one), (left, _, other) in itertools.pairwise(spans):
        kerfs = [kerf_along(job, end) for end in (one.right, other.left)]
        for a, b in zip(right, left, strict=True):
            assert b - a >= max(kerfs) - TINY, (one, other)
        if not any((*one.right, *other.left)):
            assert other.start - one.end >= job.kerf  # exact: no rounding here


def kerf_along(job: Job, slant: tuple[Fraction, Fraction]) -> float:
    """What a saw cut takes along the board."""
    return float(job.kerf) * sqrt(1 + float(slant[0]) ** 2 + float(slant[1]) ** 2)


def check_lie(job: Job, part: Part, piece: Piece) -> tuple[list[float], list[float]]:
    """The piece is the part, turned only as it may be; where its corners lie."""
    ends = [tuple(part.first), tuple(part.second)]
    if piece.turned:  # end for end: the top edge is below now, so reaching out changes its sign
        ends = [(-e[0], e[1]) for e in [tuple(part.second), tuple(part.first)]]
    if piece.over:
        assert part.turns_over
        ends = [(-e[0], -e[1]) for e in ends]
    assert [tuple(piece.left), tuple(piece.right)] == ends, (part, piece)
    reach = [max(corners(job, end)) for end in ends]
    assert piece.end - piece.start == part.length + reach[0] + reach[1]
    left_middle, right_middle = piece.start + reach[0], piece.end - reach[1]
    left = [float(left_middle - c) for c in corners(job, ends[0])]
    right = [float(right_middle + c) for c in corners(job, ends[1])]
    return left, right


def clear_lengths(job: Job) -> tuple[list[tuple[Fraction, Decimal]], list[list[Fraction]]]:
    """(endless boards: usable length and price, single ones: clear lengths of each board).

    A defect narrower than the kerf takes a kerf. Limited boards for sale are single ones, too.
    """
    own = []
    for board in job.on_hand:
        start, end, clear = job.end_trim, board.length - job.end_trim, []
        for a, b in sorted(board.defects):
            if a > start:
                clear.append(min(a, end) - start)
                start = max(b, a + job.kerf)
            start = max(start, b)
        clear.append(end - start)
        own.extend([[c for c in clear if c > 0]] * board.quantity)
    endless = [
        (b.length - 2 * job.end_trim, b.price)
        for b in job.for_sale
        if b.at_most is None and (job.longest is None or b.length <= job.longest)
    ]
    return endless, own


def best_by_trying_all(job: Job) -> Best | None:
    """(pieces left out, money, boards bought, longest rest) by trying all: square parts only."""
    pieces = [part.length for part in job.parts for _ in range(part.quantity)]
    full = (1 << len(pieces)) - 1
    taken = [
        sum((pieces[i] + job.kerf for i in range(len(pieces)) if mask >> i & 1), Fraction(0))
        for mask in range(full + 1)
    ]

    def rest(room: Fraction, mask: int) -> Fraction | None:
        """What is left of a clear length; None if the pieces do not fit."""
        if not mask:
            return room
        left = room - taken[mask]
        return None if left < -job.kerf else max(left, Fraction(0))

    endless, own = clear_lengths(job)
    singles = [(room, Decimal(0), 0) for board in own for room in board]
    singles += [
        (b.length - 2 * job.end_trim, b.price, 1)
        for b in job.for_sale
        if b.at_most is not None and (job.longest is None or b.length <= job.longest)
        for _ in range(b.at_most)
    ]
    start: Best = (0, Decimal(0), 0, Fraction(0))
    now = {full: start}
    for room, price, bought in singles:
        new: dict[int, Best] = {}
        for left, value in now.items():
            part = left
            while True:
                over = rest(room, part)
                if over is not None:
                    spent = (price, bought) if part or not bought else (Decimal(0), 0)
                    kept = over if part or not bought else Fraction(0)
                    offer(new, left ^ part, joined(value, (0, *spent, kept)))
                if not part:
                    break
                part = (part - 1) & left
        now = new
    return min((joined(v, endlessly(left, endless, rest)) for left, v in now.items()), key=order)


def endlessly(wanted, endless, rest) -> Best:  # type: ignore[no-untyped-def]  # local to the search
    """The best for a set of pieces from endless boards, pieces left out where nothing helps."""
    best: dict[int, Best] = {0: (0, Decimal(0), 0, Fraction(0))}

    def go(mask: int) -> Best:
        if mask in best:
            return best[mask]
        low = mask & -mask
        found = [joined(go(mask ^ low), (1, Decimal(0), 0, Fraction(0)))]
        part = mask
        while part:
            if part & low:
                for room, price in endless:
                    over = rest(room, part)
                    if over is not None:
                        found.append(joined(go(mask ^ part), (0, price, 1, over)))
            part = (part - 1) & mask
        best[mask] = min(found, key=order)
        return best[mask]

    return go(wanted)


def joined(a: Best, b: Best) -> Best:
    """Two parts of a plan together."""
    return a[0] + b[0], a[1] + b[1], a[2] + b[2], max(a[3], b[3])


def order(value: Best) -> tuple[int, Decimal, int, Fraction]:
    """Fewest left out, least money, fewest bought, longest rest."""
    return value[0], value[1], value[2], -value[3]


def offer(found: dict[int, Best], key: int, value: Best) -> None:
    """Keep the better one."""
    if key not in found or order(value) < order(found[key]):
        found[key] = value


def longest_rest(job: Job, plan: Plan) -> Fraction:
    """The longest rest of a plan: of boards cut, and of boards on hand that were left alone."""
    rests = [b - a for board in plan.boards for a, b in board.rests]
    used = Counter(board.entry for board in plan.boards if board.source == "on-hand")
    for entry, own in enumerate(job.on_hand):
        if used[entry] < own.quantity:
            alone = Job(parts=(), on_hand=(own,), kerf=job.kerf, end_trim=job.end_trim)
            rests.extend(room for board in clear_lengths(alone)[1] for room in board)
    return max(rests, default=Fraction(0))
