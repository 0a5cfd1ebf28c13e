"""Every part that is not cut square: its points numbered, their distances, how to trace it."""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from service.domain.angles.settings import Stops, cuts_of
from service.domain.drawing import HAIR, SMALL, Circle, Drawing, Path, Spot, Text, box
from service.domain.parts import ResolvedPart
from service.domain.solid import Point, Rod, Solid
from service.handouts.drawings.folded import Fold, fold
from service.handouts.drawings.pens import Page, Pen

FRONT = {1: "first-bottom-front", 2: "second-bottom-front",
         3: "second-top-front", 4: "first-top-front"}  # fmt: skip
BACK = {5: "first-bottom-back", 6: "second-bottom-back",
        7: "second-top-back", 8: "first-top-back"}  # fmt: skip
ALIKE = "All {count} are alike{mirrored}."


@dataclass(frozen=True, slots=True)
class View:
    """A face or an edge of the part on paper: its top and how inches across it are drawn."""

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


def part_drawings(pen: Pen) -> Iterator[tuple[str, str, Drawing]]:
    """Key, caption and drawing of every part with a slanted end, a beveled edge or a cutout."""
    for part in pen.build.parts:
        solid = part.solid
        if isinstance(solid, Solid) and (not solid.is_square or _drawn_cutouts(part)):
            caption = f"Part {pen.named(part.part.id)}"
            yield f"part-{part.index + 1}", caption, draw_part(part, solid, caption, pen)
        elif isinstance(solid, Rod) and not solid.is_square:
            caption = f"Part {pen.named(part.part.id)}"
            yield f"part-{part.index + 1}", caption, draw_rod(part, solid, caption, pen)


def draw_part(part: ResolvedPart, solid: Solid, title: str, pen: Pen) -> Drawing:
    """The front face, and below it the lower edge where the part is not as thick all over."""
    page = Page()
    paper = _fold_of(solid)
    page.line("Front face" if part.part.measured_on == "front" else "Front face, far side")
    page.y += 20
    face = View(paper, page.y, float(solid.blank_width))
    _draw_face(page, solid, face)
    for cutout in _cutouts(part, solid, face):
        page.add(cutout)
    page.add(*paper.torn(face.top, face.foot))
    page.y = face.foot + 20
    if _is_beveled(solid):
        page.line("Lower edge, the front face down")
        page.y += 20
        edge = View(paper, page.y, float(solid.thickness))
        _draw_edge(page, solid, edge)
        page.add(*paper.torn(edge.top, edge.foot))
        page.y = edge.foot + 20
    _draw_length(page, paper, solid.blank_length, pen)
    about = f"{title}. Both ends drawn 1 to {72 / paper.scale:.3g}{_left_out(paper)}."
    return page.done(title, about, list(_marks(part, solid, pen)), paper.scale)


def draw_rod(part: ResolvedPart, rod: Rod, title: str, pen: Pen) -> Drawing:
    """A round from the side on which its ends slant the most."""
    page = Page()
    first, second = rod.tips()
    paper = fold(float(rod.blank_length), float(rod.diameter), float(2 * first), float(2 * second))
    page.y += 20
    view = View(paper, page.y, float(rod.diameter))
    long, wide, zero = rod.blank_length, rod.diameter, Fraction(0)
    opposed = "short-to-long" in rod.lengths() and rod.lengths()["long-to-short"] > 0
    low, up = (2 * second, zero) if opposed else (zero, 2 * second)
    spots = (view.spot(zero, zero), view.spot(long - low, zero),
             view.spot(long - up, wide), view.spot(2 * first, wide))  # fmt: skip
    page.add(Path(spots, "face", closed=True))
    page.add(*paper.torn(view.top, view.foot))
    page.y = view.foot + 10
    _draw_length(page, paper, long, pen)
    marks = [*_lengths(part, rod, pen), *_settings(part), *_alike(part)]
    about = f"{title}. A round, seen from the side{_left_out(paper)}."
    return page.done(title, about, marks, paper.scale)


def _left_out(paper: Fold) -> str:
    return "; the plain middle is left out" if paper.breaks else ""


def _drawn_cutouts(part: ResolvedPart) -> bool:
    return any(cutout.on in ("face", "back") for cutout in part.part.cutouts)


def _fold_of(solid: Solid) -> Fold:
    """Room for whatever slants at either end, and an inch more."""
    xs = [float(point[0]) for point in solid.points]
    first, second = max(xs[:4]) + 1, float(solid.blank_length) - min(xs[4:]) + 1
    return fold(float(solid.blank_length), float(solid.blank_width), first, second)


def _is_beveled(solid: Solid) -> bool:
    corners = solid.corners
    pairs = zip(FRONT.values(), BACK.values(), strict=True)
    return any(corners[front][:2] != corners[back][:2] for front, back in pairs)


def _draw_face(page: Page, solid: Solid, view: View) -> None:
    """The front face, what shows of the back face in dashes, and the numbers of the points."""
    corners = solid.corners

    def drawn(names: dict[int, str]) -> tuple[Spot, ...]:
        return tuple(view.spot(corners[name][0], corners[name][1]) for name in names.values())

    front, back = drawn(FRONT), drawn(BACK)
    if back != front:
        page.add(Path(back, "back", closed=True, dashed=True, weight=HAIR))
    page.add(Path(front, "face", closed=True, weight=1.4))
    for number, (x, y) in zip(FRONT, front, strict=True):
        page.add(_number(number, x, y, low=number < 3, first=number in (1, 4)))


def _draw_edge(page: Page, solid: Solid, view: View) -> None:
    """The lower edge with the front face toward the reader: how far the bevels reach."""
    corners = solid.corners
    names = {1: FRONT[1], 2: FRONT[2], 6: BACK[6], 5: BACK[5]}

    def spot(point: Point) -> Spot:
        return view.spot(point[0], solid.thickness - point[2])

    spots = tuple(spot(corners[name]) for name in names.values())
    page.add(Path(spots, "edge", closed=True, weight=1.4))
    for number, (x, y) in zip(names, spots, strict=True):
        page.add(_number(number, x, y, low=number < 3, first=number in (1, 5)))


def _number(number: int, x: float, y: float, *, low: bool, first: bool) -> Text:
    off = -4 if first else 4
    return Text((x + off, y + 12 if low else y - 5), str(number), "end" if first else "start",
                strong=True)  # fmt: skip


def _draw_length(page: Page, paper: Fold, length: Fraction, pen: Pen) -> None:
    """The blank's length with a line from tip to tip."""
    y = page.y + 6
    left, right = paper.x(0.0), paper.x(float(length))
    page.add(Path(((left, y), (right, y)), "dimension", weight=HAIR))
    for x in (left, right):
        page.add(Path(((x, y - 4), (x, y + 4)), "dimension", weight=HAIR))
    words = f"{pen.short(length)} tip to tip"
    page.add(Text(((left + right) / 2, y + 13), words, "middle", SMALL))
    page.y = y + 16


def _cutouts(part: ResolvedPart, solid: Solid, view: View) -> Iterator[Path | Circle]:
    """What is taken out of the face, and in dashes of the back."""
    for cutout in part.part.cutouts:
        size = cutout.size
        if cutout.on not in ("face", "back") or size is None:
            continue
        hidden = cutout.on == "back"
        for at in cutout.at:
            if cutout.kind == "hole":
                center = view.spot(at, solid.blank_width / 2)
                radius = float(size) / 2 * view.fold.scale
                yield Circle(center, radius, "hole", dashed=hidden)
            elif cutout.runs == "across":
                low, high = view.spot(at, Fraction(0)), view.spot(at + size, solid.blank_width)
                yield Path(box(low[0], high[1], high[0], low[1]), "cutout", closed=True,
                           dashed=hidden)  # fmt: skip


def _marks(part: ResolvedPart, solid: Solid, pen: Pen) -> Iterator[str]:
    yield from _lengths(part, solid, pen)
    if not solid.is_square:
        yield from _tracing(solid, pen)
    yield from _settings(part)
    yield from _alike(part)


def _lengths(part: ResolvedPart, solid: Solid | Rod, pen: Pen) -> Iterator[str]:
    """Distances from point to point along the part."""
    if isinstance(solid, Rod):
        for word, size in solid.lengths().items():
            yield f"{word.replace('-', ' ')}: {pen.say(size)}"
        return
    corners = solid.corners
    faces = [("front face", FRONT)]
    faces += [("back face", BACK)] if _is_beveled(solid) else []
    for face, names in faces:
        (a, b, c, d) = names
        low = corners[names[b]][0] - corners[names[a]][0]
        up = corners[names[c]][0] - corners[names[d]][0]
        yield f"{face}: point {a} to point {b} {pen.say(low)}; point {d} to point {c} {pen.say(up)}"


def _tracing(solid: Solid, pen: Pen) -> Iterator[str]:
    """How to mark each end without reading an angle."""
    corners = solid.corners
    for side, low, up, inward in (("first", 1, 4, 1), ("second", 2, 3, -1)):
        off = (corners[FRONT[up]][0] - corners[FRONT[low]][0]) * inward
        long, short = (low, up) if off > 0 else (up, low)
        if off:
            yield (
                f"To trace the {side} end: square a line across the front face at point {long}, "
                f"measure {pen.say(abs(off))} inward along the other edge to point {short}, and "
                "join the two points"
            )
        yield from _over_the_edge(solid, pen, side, low, inward)


def _over_the_edge(solid: Solid, pen: Pen, side: str, low: int, inward: int) -> Iterator[str]:
    corners = solid.corners
    back = corners[BACK[low + 4]][0] - corners[FRONT[low]][0]
    if back:
        way = "inward" if back * inward > 0 else "outward"
        yield (
            f"Then carry the {side} end over the lower edge: point {low + 4} on the back face lies "
            f"{pen.say(abs(back))} further {way} than point {low}; join them, and the back is cut "
            "parallel to the front line"
        )


def _settings(part: ResolvedPart) -> Iterator[str]:
    """The saw's scales, off square and where 90 is square."""
    for cut in cuts_of(part.part, Stops()):
        for way in cut.ways[:1]:
            yield (
                f"Saw, {cut.cut}, {way.how}: table {way.turned:.1f}, blade {way.tilted:.1f} off "
                f"square ({way.turned_scale:.1f} and {way.tilted_scale:.1f} where 90 is square)"
            )


def _alike(part: ResolvedPart) -> Iterator[str]:
    count, mirrored = part.part.quantity, part.part.mirrored
    if count > 1:
        words = f", but {mirrored} of them mirrored" if mirrored else ""
        yield ALIKE.format(count=count, mirrored=words)
