"""How to cut a plan at the saw: stop blocks for repeated lengths, and what is too short to hold."""

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction

from service.domain.catalog import Catalog
from service.planning.job import CutBoard, Piece

KEPT_SIDE = (
    "Clamp the stop on the side of the piece that is kept, never on the offcut's: an offcut held "
    "between stop and blade is thrown."
)


@dataclass(frozen=True, slots=True)
class StopBlock:
    """Pieces alike that one setting of a stop cuts: their length, tip to tip, and how many."""

    length: Fraction
    parts: tuple[str, ...]
    count: int


def stop_blocks(boards: Iterable[CutBoard]) -> tuple[StopBlock, ...]:
    """Lengths that come more than once, the commonest first. Both ends must be alike to repeat."""
    counts: Counter[tuple[Fraction, bool]] = Counter()
    named: dict[tuple[Fraction, bool], dict[str, None]] = {}
    for board in boards:
        for piece in board.pieces:
            key = (piece.end - piece.start, is_square(piece))
            counts[key] += 1
            named.setdefault(key, {})[piece.part] = None
    repeated = [(key, n) for key, n in counts.items() if n > 1 and key[1]]
    repeated.sort(key=lambda entry: (-entry[1], -entry[0][0]))
    return tuple(StopBlock(key[0], tuple(named[key]), n) for key, n in repeated)


def is_square(piece: Piece) -> bool:
    """Whether both ends of a piece as it lies are square."""
    return not (any(piece.left) or any(piece.right))


def shortest_held(catalog: Catalog) -> Fraction | None:
    """The longest of the lengths that shops call too short to hold by hand."""
    held = [limit.high for limit in catalog.saws if limit.item == "shortest-held"]
    return max(held, default=None)


def short_to_hold(board: CutBoard, shortest: Fraction) -> tuple[str, ...]:
    """Pieces whose cut leaves nothing long enough to hold on either side of the blade."""
    found = []
    for piece in board.pieces:
        behind = board.length - piece.end
        if max(piece.end - piece.start, behind) < shortest:
            found.append(piece.part)
    return tuple(dict.fromkeys(found))
