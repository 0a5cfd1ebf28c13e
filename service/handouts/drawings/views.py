"""Sides of a cut part on paper: the front face, the lower edge, the end; sizes beside them."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from service.domain.dimensions import STEP, Level, beside, level, stacked
from service.domain.drawing import BOLD, Anchor, Path, Shape, Spot, Text
from service.domain.solid import Solid
from service.handouts.drawings.folded import Fold
from service.handouts.drawings.pens import FIELD, MARGIN, Page, Pen
from service.handouts.drawings.tapes import moved

FRONT = {1: "first-bottom-front", 2: "second-bottom-front",
         3: "second-top-front", 4: "first-top-front"}  # fmt: skip
BACK = {5: "first-bottom-back", 6: "second-bottom-back",
        7: "second-top-back", 8: "first-top-back"}  # fmt: skip
NUMBERS = 14.0
"""Points above and below a view that the numbers of its points take."""

TALLEST = 30.0


@dataclass(frozen=True, slots=True)
class View:
    """A side of the part on paper: its top, and how many inches it is high."""

    fold: Fold
    top: float
    high: float

    def spot(self, along: Fraction, up: Fraction) -> Spot:
        """A point `along` the part and `up` from the lower side of the view."""
        return self.fold.x(float(along)), self.top + (self.high - float(up)) * self.fold.scale

    @property
    def foot(self) -> float:
        """Where the lower side of the view lies."""
        return self.top + self.high * self.fold.scale


@dataclass(frozen=True, slots=True)
class Edges:
    """Where the upper and the lower line of a view begin and end, inches along the part.

    `blank` is the length from tip to tip.
    """

    upper: tuple[Fraction, Fraction]
    lower: tuple[Fraction, Fraction]
    blank: Fraction

    @property
    def square(self) -> bool:
        """Whether both are alike."""
        return self.upper == self.lower


def side_of(solid: Solid, points: Mapping[int, str], across: int) -> tuple[tuple[Spot, ...], Edges]:
    """Corners of a side in turn, the two lower ones first, in inches; and its two long lines.

    `across` is what goes up the page: 1 the width, 2 the thickness with the front face down.
    """
    corners = [solid.corners[name] for name in points.values()]
    spots = tuple(
        (float(c[0]), float(c[1] if across == 1 else solid.thickness - c[2])) for c in corners
    )
    xs = [corner[0] for corner in corners]
    return spots, Edges((xs[3], xs[2]), (xs[0], xs[1]), solid.blank_length)


def measured(
    page: Page, view_high: float, fold: Fold, edges: Edges, pen: Pen, *, kept: float = 0.0
) -> View:
    """Room for a view, with every length along it above and below; where the view begins.

    `kept` is what marks of a tape take below the view.
    """
    upper, lower = _levels(edges, fold, pen, view_high * fold.scale)
    if not edges.square and edges.blank not in (_long(edges.upper), _long(edges.lower)):
        ends = (fold.x(0.0), view_high * fold.scale), (fold.x(float(edges.blank)), 0.0)
        lower.append(level(ends, f"{pen.short(edges.blank)} tip to tip"))
    over, under = stacked([] if edges.square else upper), stacked(lower)
    page.y += MARGIN + NUMBERS + STEP * len(over)
    view = View(fold, page.y, view_high)
    free = max(NUMBERS, kept)
    for away, rows, edge, off in ((-1, over, view.top, NUMBERS), (1, under, view.foot, free)):
        for number, row in enumerate(rows):
            at = edge + away * (off + STEP * (number + 0.4))
            for one in row:
                page.add(*_beside(one, at, away, view.top))
    page.y = view.foot + free + STEP * (len(under) + 0.4)
    return view


def _long(line: tuple[Fraction, Fraction]) -> Fraction:
    return line[1] - line[0]


def _levels(edges: Edges, fold: Fold, pen: Pen, foot: float) -> tuple[list[Level], list[Level]]:
    """Lengths of the two lines, and how far the shorter one stands back at each end."""
    upper = [_between(edges.upper, fold, pen, (0.0, 0.0))]
    lower = [_between(edges.lower, fold, pen, (foot, foot))]
    for up, low, inward in ((edges.upper[0], edges.lower[0], 1),
                            (edges.upper[1], edges.lower[1], -1)):  # fmt: skip
        if (up - low) * inward > 0:
            upper.append(_between((low, up), fold, pen, (foot, 0.0)))
        elif up != low:
            lower.append(_between((up, low), fold, pen, (0.0, foot)))
    return upper, lower


def _between(
    line: tuple[Fraction, Fraction], fold: Fold, pen: Pen, heights: tuple[float, float]
) -> Level:
    first, second = ((fold.x(float(at)), y) for at, y in zip(line, heights, strict=True))
    return level((first, second), pen.short(abs(_long(line))))


def _beside(one: Level, at: float, away: int, top: float) -> Sequence[Shape]:
    """The size's shapes, its ends told from the top of the view."""
    lowered = one._replace(ends=tuple((x, y + top) for x, y in one.ends))  # type: ignore[arg-type]
    return tuple(beside(lowered, at, away, FIELD - 2))


def draw_side(
    page: Page, view: View, numbers: Sequence[int], spots: Sequence[Spot], shows: str
) -> None:
    """The outline of a side, torn where its middle is left out; its points are numbered.

    A point with the number 0 is not: of a square part nothing hangs on them.
    """
    on = tuple(view.spot(Fraction(x), Fraction(y)) for x, y in spots)
    page.add(Path(on, shows, closed=True, weight=BOLD))
    for place, (number, (x, y)) in enumerate(zip(numbers, on, strict=True)):
        if number:
            off = x - on[3 - place][0]
            leftward = off <= 0 if place in {0, 3} else off < 0
            page.add(_number(number, x, y, low=place < 2, leftward=leftward))
    page.add(*view.fold.torn(view.top, view.foot))


def _number(number: int, x: float, y: float, *, low: bool, leftward: bool) -> Text:
    """A point's number outside of a long point, inside of a short one: clear of thin lines."""
    off = -5 if leftward else 5
    anchor: Anchor = "end" if leftward else "start"
    return Text((x + off, y + 11 if low else y - 4), str(number), anchor, strong=True)


def draw_section(page: Page, solid: Solid, pen: Pen) -> None:
    """The part seen on its end, the front face down: the widths of both faces."""
    names = ("first-bottom-front", "first-top-front", "first-top-back", "first-bottom-back")
    corners = [solid.corners[name] for name in names]
    scale = min(TALLEST / float(solid.thickness), 220 / float(solid.blank_width))
    left = (FIELD - float(solid.blank_width) * scale) / 2
    spots = tuple(
        (left + float(y) * scale, float(z) * scale)
        for y, z in ((corner[1], solid.thickness - corner[2]) for corner in corners)
    )
    high = float(solid.thickness) * scale
    flipped = tuple((x, high - y) for x, y in spots)
    back, front = solid.face_widths
    page.y += STEP + MARGIN
    shapes: list[Shape] = [Path(flipped, "section", closed=True, weight=BOLD)]
    shapes += beside(level((flipped[3], flipped[2]), f"{pen.short(back)} back"),
                     -STEP * 0.5, -1, FIELD)  # fmt: skip
    shapes += beside(level((flipped[0], flipped[1]), f"{pen.short(front)} front"),
                     high + STEP * 0.5, 1, FIELD)  # fmt: skip
    page.add(*(moved(shape, page.y) for shape in shapes))
    page.y += high + STEP * 1.4
