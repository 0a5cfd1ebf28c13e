"""A shape as a line drawing: outlines to scale, a line for every size, its letter beside it."""

from collections.abc import Iterator
from math import atan2, cos, hypot, sin

from service.domain.angles.answer import Letter, Side, Sketch, Spot
from service.domain.dimensions import STEP, Level, arrows, beside, level, outside_of, stacked
from service.domain.drawing import BOLD, HAIR, SMALL, Drawing, Path, Shape, Text, breadth
from service.domain.tape import plain
from service.domain.values import dataclass

FIELD, TALLEST, BORDER = 360.0, 280.0, 10.0
CLEAR = 9.0
ARC = 46.0


def meaning(letter: Letter, metric: bool) -> str:
    """What a letter stands for: `A = length: 16 1/4"`."""
    return f"{letter.letter} = {letter.name}: {_size(letter, metric)}"


def drawn(title: str, sketch: Sketch, metric: bool = False) -> Drawing:
    """The sketch on paper, as large as the field takes, with the meaning of every letter."""
    paper = _paper(sketch, metric)
    shapes: list[Shape] = [
        Path(tuple(map(paper.place, line)), "ground", weight=BOLD) for line in sketch.grounds
    ]
    shapes += [
        Path(tuple(map(paper.place, outline)), "outline", closed=True)
        for outline in sketch.outlines
    ]
    levels = {side: stacked(_levels(sketch, side, paper, metric)) for side in OUTER}
    for side, rows in levels.items():
        for number, row in enumerate(rows):
            for one in row:
                away, upright = -1 if side in ("left", "above") else 1, side in ("left", "right")
                shapes += beside(
                    one, paper.edges[side] + away * STEP * (number + 0.75), away,
                    (paper.height if upright else FIELD) - 2, upright=upright,
                    of=one.words.partition(" ")[0],
                )  # fmt: skip
    for letter in sketch.letters:
        if letter.side not in OUTER:
            shapes += _inner(letter, sketch, paper, metric)
    words = tuple(meaning(letter, metric) for letter in sketch.letters)
    about = f"{title}, drawn 1 to {72 / paper.scale:.3g}. {'; '.join(words)}."
    return Drawing(title, about, FIELD, paper.height, tuple(shapes), words, paper.scale)


OUTER: tuple[Side, ...] = ("left", "right", "above", "below")


@dataclass(frozen=True, slots=True)
class Paper:
    """Where inches of the sketch come on paper. `low` and `left` are its least y and x."""

    scale: float
    left: float
    low: float
    right: float
    top: float
    start: float
    head: float
    height: float

    def place(self, spot: Spot) -> Spot:
        """A spot of the sketch on paper."""
        x, y = spot
        return self.start + (x - self.left) * self.scale, self.head + (self.top - y) * self.scale

    @property
    def edges(self) -> dict[str, float]:
        """Where the outermost lines stand on paper, by side."""
        (left, foot), (right, head) = (
            self.place(spot) for spot in ((self.left, self.low), (self.right, self.top))
        )
        return {"left": left, "right": right, "above": head, "below": foot}


def _size(letter: Letter, metric: bool) -> str:
    size = letter.size
    return f"{size:.2f} degrees" if isinstance(size, float) else plain(size, metric)


def _label(letter: Letter, metric: bool) -> str:
    size = letter.size
    shown = f"{size:g}\N{DEGREE SIGN}" if isinstance(size, float) else plain(size, metric)
    return f"{letter.letter} {shown}"


def _paper(sketch: Sketch, metric: bool) -> Paper:
    """The largest scale at which the outlines and the lines around them go on the field."""
    spots = [spot for line in (*sketch.outlines, *sketch.grounds) for spot in line]
    left, right = min(x for x, _ in spots), max(x for x, _ in spots)
    low, top = min(y for _, y in spots), max(y for _, y in spots)
    beside = max((breadth(_label(one, metric), SMALL) for one in sketch.letters), default=0.0)
    pads = {side: BORDER + (STEP + 2) * _count(sketch, side) for side in OUTER}
    for letter in sketch.letters:
        if letter.side == "along":
            (_, (x, y)), _ = outside_of(letter.span, sketch.outlines)
            side: Side = "left" if x < 0 else "right"
            if abs(x) > abs(y) / 4:
                pads[side] = max(pads[side], BORDER + CLEAR + beside)
            pads["above"] = max(pads["above"], BORDER + STEP)
    wide, high = right - left or 1.0, top - low
    room = FIELD - pads["left"] - pads["right"]
    scale = min(room / wide, TALLEST / high if high else room)
    start = pads["left"] + (room - wide * scale) / 2
    tall = pads["above"] + high * scale + pads["below"]
    return Paper(scale, left, low, right, top, start, pads["above"], tall)


def _count(sketch: Sketch, side: Side) -> int:
    return sum(letter.side == side for letter in sketch.letters)


def _levels(sketch: Sketch, side: Side, paper: Paper, metric: bool) -> Iterator[Level]:
    """The sizes of a side: how far each reaches along it on paper, its words counted."""
    for letter in sketch.letters:
        if letter.side == side:
            first, second = map(paper.place, letter.span)
            words = _label(letter, metric)
            yield level((first, second), words, upright=side in ("left", "right"))


def _inner(letter: Letter, sketch: Sketch, paper: Paper, metric: bool) -> Iterator[Shape]:
    words = _label(letter, metric)
    if letter.side == "turn":
        yield from _turn(letter, words, paper)
        return
    first, second = map(paper.place, letter.span)
    if letter.side == "through":
        yield from arrows(first, second, letter.letter)
        long, upright = hypot(second[0] - first[0], second[1] - first[1]), first[0] == second[0]
        x, y = (first[0] + second[0]) / 2, (first[1] + second[1]) / 2
        words = words if long > breadth(words, SMALL) + 8 else letter.letter
        place = (x - 3.5, y) if upright else (x, y - 3.5)
        yield Text(place, words, "middle", SMALL, upright=upright, strong=True)
        return
    (far, (x, y)), _ = outside_of(letter.span, sketch.outlines)
    off = far * paper.scale + CLEAR
    moved = [(a + x * off, b - y * off) for a, b in (first, second)]
    for near, end in zip((first, second), moved, strict=True):
        yield Path((near, end), "extension", weight=HAIR)
    yield from arrows(moved[0], moved[1], letter.letter)
    middle = (moved[0][0] + moved[1][0]) / 2 + 5 * x, (moved[0][1] + moved[1][1]) / 2 - 5 * y
    if abs(x) > abs(y) / 4:
        place = (middle[0], middle[1] + 4)
        yield Text(place, words, "end" if x < 0 else "start", SMALL, strong=True)
    else:
        place = middle[0], middle[1] + (0 if y > 0 else 9)
        yield Text(place, words, "middle", SMALL, strong=True)


def _turn(letter: Letter, words: str, paper: Paper) -> Iterator[Shape]:
    """An angle from plumb: a dashed plumb line, an arc and the words above it."""
    (x, y), (a, b) = map(paper.place, letter.span)
    reach = min(ARC, hypot(a - x, b - y) * 0.6)
    lean = atan2(a - x, y - b)
    yield Path(((x, y), (x, y - reach - 12)), "plumb", dashed=True, weight=HAIR)
    turns = [lean * step / 12 for step in range(13)]
    yield Path(tuple((x + reach * sin(t), y - reach * cos(t)) for t in turns), "angle", weight=HAIR)
    yield Text((x + 6, y - reach - 16), words, "end", SMALL, strong=True)
