"""A line drawing as a value: lines, texts and the marks in words, before any form is chosen.

Places are points (1/72 in of paper), x to the right and y down from the top left corner, so that
texts can be set where they are read. `scale` says how many points stand for one inch of the real
thing; a size on the drawing divided by it is the size at the bench. What a drawing shows it also
says in `marks`, for those who can't see it. Lines are black on white, no color means anything.
"""

from collections.abc import Iterable
from functools import lru_cache
from typing import Literal

from service.domain.values import dataclass

Spot = tuple[float, float]
Anchor = Literal["start", "middle", "end"]

TEXT = 11.0
"""Points: the height of letters that still read well when 360 points fill a telephone."""

SMALL = 10.0
"""Points: figures beside a line."""

HAIR, THIN, BOLD = 0.5, 0.8, 1.4
"""Widths of lines, points."""

WIDE = {"m": 0.83, "w": 0.73, "M": 0.83, "W": 0.94, "%": 0.89, "@": 1.0, "—": 1.0}
NARROW = frozenset("ijl.,:;'|!()[]t/f I")


@dataclass(frozen=True, slots=True)
class Path:
    """Straight lines from spot to spot; `closed` ones come back to the first.

    `shows` is a word for what it draws (piece, kerf, rest ...), `of` the letter or number of that
    one, both for programs. `filled` areas are black, `dashed` lines hidden or imagined ones.
    """

    spots: tuple[Spot, ...]
    shows: str
    of: str = ""
    closed: bool = False
    filled: bool = False
    dashed: bool = False
    weight: float = THIN


@dataclass(frozen=True, slots=True)
class Circle:
    """A circle, such as a hole."""

    center: Spot
    radius: float
    shows: str
    of: str = ""
    dashed: bool = False
    weight: float = THIN


@dataclass(frozen=True, slots=True)
class Text:
    """Words set at the foot of their first letter, their middle, or the foot of their last.

    `upright` words run from the bottom up; their `at` is then the side that they start from.
    """

    at: Spot
    words: str
    anchor: Anchor = "start"
    size: float = TEXT
    upright: bool = False
    strong: bool = False


Shape = Path | Circle | Text


@dataclass(frozen=True, slots=True)
class Drawing:
    """What is drawn on a field of so many points; `marks` say in words what is to be read there.

    `scale` is 0 where the drawing is not to scale, and then `description` says so.
    """

    title: str
    description: str
    width: float
    height: float
    shapes: tuple[Shape, ...]
    marks: tuple[str, ...]
    scale: float = 0.0

    def texts(self) -> Iterable[Text]:
        """The words on the drawing."""
        return (shape for shape in self.shapes if isinstance(shape, Text))


def breadth(words: str, size: float = TEXT) -> float:
    """About how many points words are wide in a plain sans-serif face, rather too many."""
    return size * sum(map(_wide, words))


@lru_cache(maxsize=512)
def _wide(letter: str) -> float:
    """The width of a letter of one point."""
    return WIDE.get(letter, 0.32 if letter in NARROW else 0.7 if letter.isupper() else 0.58)


def box(left: float, top: float, right: float, bottom: float) -> tuple[Spot, ...]:
    """The corners of a rectangle, in turn."""
    return ((left, top), (right, top), (right, bottom), (left, bottom))


def frame_of(text: Text) -> tuple[float, float, float, float]:
    """Left, top, right and bottom of the room that words take."""
    long, (x, y), high = breadth(text.words, text.size), text.at, text.size
    back = {"start": 0.0, "middle": long / 2, "end": long}[text.anchor]
    if text.upright:
        return x - 0.8 * high, y - long + back, x + 0.25 * high, y + back
    return x - back, y - 0.8 * high, x - back + long, y + 0.25 * high


def wrapped(words: str, room: float, size: float = TEXT) -> list[str]:
    """Words as lines that fit a room; a word longer than a line is broken."""
    lines: list[str] = []
    line, long = "", 0.0  # a line is added up as it grows
    for word in words.split():
        for chunk in [word] if breadth(word, size) <= room else _chunks(word, room, size):
            longer = sum(map(_wide, f" {chunk}" if line else chunk), long)
            if line and size * longer > room:
                lines.append(line)
                line, long = chunk, sum(map(_wide, chunk))
            else:
                line, long = f"{line} {chunk}" if line else chunk, longer
    return [*lines, line] if line or not lines else lines


def _chunks(word: str, room: float, size: float) -> list[str]:
    """A word too long for a line, in pieces that fit."""
    chunks, long = [""], 0.0
    for letter in word:
        if chunks[-1] and size * (long + _wide(letter)) > room:
            chunks.append("")
            long = 0.0
        chunks[-1] += letter
        long += _wide(letter)
    return chunks
