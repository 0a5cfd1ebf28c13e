"""What every drawing of one build needs: letters of parts, sizes in words, room for texts."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from fractions import Fraction

from service.domain.drawing import (
    HAIR,
    Drawing,
    Path,
    Shape,
    Spot,
    Text,
    breadth,
    frame_of,
    wrapped,
)
from service.domain.naming import letter
from service.domain.resolving import ResolvedBuild
from service.handouts.sizes import read

FIELD = 360.0
"""Points across a drawing: the width of a small telephone, and five inches of paper."""

MARGIN = 6.0
LONGEST_NAME = 40


@dataclass(frozen=True, slots=True)
class Pen:
    """How one build is written on its drawings. `say` writes a size in a sentence."""

    build: ResolvedBuild
    say: Callable[[Fraction], str]

    def letter(self, part: str) -> str:
        """The letter that stands for a part."""
        return letter(self.build.by_id[part].index)

    def named(self, part: str) -> str:
        """Letter and name: `A slat`; the name cut off where it is very long."""
        name = " ".join(part.split())
        short = name if len(name) <= LONGEST_NAME else f"{name[: LONGEST_NAME - 3]}..."
        known = part in self.build.by_id  # a cutout may be for a part that the list lacks
        return f"{self.letter(part)} {short}" if known else short

    def stock(self, key: str) -> str:
        """What the store calls a stock: `plywood sanded 1/4 in`; its key where it has no name."""
        found = self.build.catalog.stocked(self.build.build.region, key)
        return next((one.name for one in found), key)

    def short(self, size: Fraction) -> str:
        """A size on a line: as a tape shows it, in the build's own unit."""
        return read(size, self.build.metric)[0]


@dataclass
class Page:
    """A drawing in the making, from the top down."""

    shapes: list[Shape] = field(default_factory=list)
    y: float = 0.0
    drawn: set[tuple[str, tuple[Spot, ...]]] = field(default_factory=set)

    def add(self, *shapes: Shape) -> None:
        """Draw on."""
        self.shapes.extend(shapes)

    def once(self, path: Path) -> None:
        """Draw a path that may have been drawn already: two pieces share a cut."""
        place = tuple(sorted((round(x, 2), round(y, 2)) for x, y in path.spots))
        if (path.shows, place) not in self.drawn:
            self.drawn.add((path.shows, place))
            self.add(path)

    def line(self, words: str, *, strong: bool = False, indent: float = MARGIN) -> None:
        """A line of text across the page, wrapped where it is too long."""
        for row in wrapped(words, FIELD - indent - MARGIN):
            self.y += 14
            self.add(Text((indent, self.y - 3), row, strong=strong))

    def done(self, title: str, about: str, marks: Iterable[str], scale: float = 0.0) -> Drawing:
        """The finished drawing."""
        high = self.y + MARGIN
        return Drawing(title, about, FIELD, high, tuple(self.shapes), tuple(marks), scale)


def fits(words: str, wide: float, high: float, size: float = 11.0) -> bool:
    """Whether words go into a rectangle with air around them."""
    return breadth(words, size) + 4 <= wide and size + 2 <= high


def torn(x: float, top: float, foot: float) -> Path:
    """A torn edge, where a piece goes on elsewhere; its teeth reach 2 points to either side."""
    step = (foot - top + 6) / 6
    spots = tuple((x + (2 if n % 2 else -2), top - 3 + n * step) for n in range(7))
    return Path(spots, "torn", weight=HAIR)


def clear(text: Text, taken: Iterable[tuple[float, float, float, float]]) -> bool:
    """Whether words stand on no others."""
    a = frame_of(text)
    return not any(a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3] for b in taken)
