"""Each sheet of a plan to scale: panels, numbered cuts, which way the grain runs, what is left."""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from service.domain.drawing import HAIR, SMALL, Drawing, Path, Text, box, breadth, frame_of
from service.handouts.drawings.pens import FIELD, MARGIN, Page, Pen, clear, fits
from service.planning.panels.planned import Area, Cut, CutSheet, Placed, Rest
from service.planning.whole import CutPlan, PlannedSheets

LEFT = 26.0
"""Points kept free beside the sheet for the numbers of cuts."""

FINEST = 7.2
ARROW = 5.0
LINE = 13.0


@dataclass(frozen=True, slots=True)
class OnPaper:
    """A sheet on paper, its near left corner at the lower left."""

    sheet: CutSheet
    scale: float
    top: float

    @property
    def size(self) -> tuple[float, float]:
        """Points along and across."""
        whole = self.sheet.sheet
        return float(whole.length) * self.scale, float(whole.width) * self.scale

    @property
    def foot(self) -> float:
        """Where the near edge lies."""
        return self.top + self.size[1]

    def x(self, at: Fraction) -> float:
        """A place along the sheet."""
        return LEFT + float(at) * self.scale

    def y(self, at: Fraction) -> float:
        """A place across the sheet, from the near edge."""
        return self.foot - float(at) * self.scale

    def corners(self, area: Area) -> tuple[tuple[float, float], ...]:
        """A rectangle of the sheet."""
        left, right = self.x(area.x), self.x(area.x + area.length)
        return box(left, self.y(area.y + area.width), right, self.y(area.y))

    def room(self, area: Area) -> tuple[float, float]:
        """Points along and across a rectangle."""
        return float(area.length) * self.scale, float(area.width) * self.scale

    def middle(self, area: Area) -> tuple[float, float]:
        """Where its middle lies."""
        return self.x(area.x + area.length / 2), self.y(area.y + area.width / 2)


def sheet_drawings(plan: CutPlan, pen: Pen) -> Iterator[tuple[str, str, Drawing]]:
    """Key, caption and drawing of every sheet, numbered through all stocks in the plan's order."""
    number = 0
    for one in plan.sheets:
        for sheet in one.plan.sheets:
            number += 1
            caption = _caption(number, one, sheet, pen)
            yield f"sheet-{number}", caption, draw_sheet(one, sheet, caption, pen)


def draw_sheet(one: PlannedSheets, sheet: CutSheet, title: str, pen: Pen) -> Drawing:
    """One sheet with its panels; black lines between them are kerfs."""
    page = Page()
    scale = min(FINEST, (FIELD - LEFT - MARGIN) / float(sheet.sheet.length))
    page.y += 20
    paper = OnPaper(sheet, scale, page.y)
    _draw_grain(page, paper)
    page.add(Path(paper.corners(_whole(sheet)), "sheet", closed=True))
    for placed in sheet.panels:
        page.add(Path(paper.corners(placed.area), "panel", pen.letter(placed.panel), closed=True))
    for rest in sheet.rests:
        page.add(Path(paper.corners(rest.area), "rest", closed=True, weight=HAIR))
    for cut in sheet.cuts:
        _draw_kerf(page, paper, cut, one.asked.cutting.kerf)
    for placed in sheet.panels:
        page.add(*_label(paper, placed.area, _panel_words(placed, pen), strong=True))
    for rest in sheet.rests:
        page.add(*_label(paper, rest.area, _rest_label(rest, pen), strong=False))
    _number_cuts(page, paper)
    page.y = paper.foot + 18
    about = (
        f"{title}. Seen from above, drawn 1 to {72 / scale:.3g}; cuts are numbered in their order. "
        f"Black lines are what the saw takes, {pen.say(one.asked.cutting.kerf)} a cut."
    )
    return page.done(title, about, _marks(sheet, pen), scale)


def _whole(sheet: CutSheet) -> Area:
    zero = Fraction(0)
    return Area(zero, zero, sheet.sheet.length, sheet.sheet.width)


def _caption(number: int, one: PlannedSheets, sheet: CutSheet, pen: Pen) -> str:
    had = " (on hand)" if sheet.sheet.on_hand else ""
    size = _by(_whole(sheet), pen)
    return f"Sheet {number}: {pen.stock(one.asked.stock.key)}, {size}{had}"


def _by(area: Area, pen: Pen) -> str:
    return f"{pen.short(area.length)} x {pen.short(area.width)}"


def _panel_words(placed: Placed, pen: Pen) -> list[str]:
    letter = pen.letter(placed.panel)
    return [f"{letter} {_by(placed.area, pen)}", letter]


def _rest_label(rest: Rest, pen: Pen) -> list[str]:
    by = _by(rest.area, pen)
    stacked = by.replace(" x ", " x\n")
    return [f"left {by}", f"left\n{by}", f"left\n{stacked}"]


def _draw_grain(page: Page, paper: OnPaper) -> None:
    """An arrow along the grain of the face, above the sheet."""
    if not paper.sheet.sheet.grain:
        page.add(Text((LEFT, paper.top - 5), "no grain: panels may paper either way", size=SMALL))
        return
    words = "grain of the face"
    start, y = LEFT + breadth(words, SMALL) + 6, paper.top - 8
    end = start + 40
    page.add(Text((LEFT, y + 3), words, size=SMALL))
    page.add(Path(((start, y), (end, y)), "grain", weight=HAIR))
    for x, way in ((start, 1), (end, -1)):
        tip = ((x + way * ARROW, y - 2.5), (x, y), (x + way * ARROW, y + 2.5))
        page.add(Path(tip, "grain", weight=HAIR))


def _label(paper: OnPaper, area: Area, said: list[str], *, strong: bool) -> Iterator[Text]:
    """The first of the labels that fits, level or else upright, line under line."""
    wide, high = paper.room(area)
    x, y = paper.middle(area)
    for words in said:
        lines = words.split("\n")
        more = LINE * (len(lines) - 1)
        off = [LINE * place - more / 2 + 4 for place in range(len(lines))]
        if all(fits(line, wide, high - more) for line in lines):
            for line, down in zip(lines, off, strict=True):
                yield Text((x, y + down), line, "middle", strong=strong)
            return
        if all(fits(line, high, wide - more) for line in lines):
            for line, along in zip(lines, off, strict=True):
                yield Text((x + along, y), line, "middle", upright=True, strong=strong)
            return


def _strip(cut: Cut, kerf: Fraction) -> Area:
    """The wood that a cut turns to dust; never more than the piece in hand."""
    piece = cut.piece
    whole = piece.length if cut.across == "length" else piece.width
    start = max(cut.at - kerf, Fraction(0)) if cut.keeps == "far" else cut.at
    wide = min(kerf, whole - start)
    if cut.across == "length":
        return Area(piece.x + start, piece.y, wide, piece.width)
    return Area(piece.x, piece.y + start, piece.length, wide)


def _draw_kerf(page: Page, paper: OnPaper, cut: Cut, kerf: Fraction) -> None:
    area = _strip(cut, kerf)
    if area.size:
        page.add(Path(paper.corners(area), "kerf", str(cut.order), closed=True, filled=True))
    else:
        spots = paper.corners(area)
        page.add(Path((spots[0], spots[2]), "kerf", str(cut.order)))


def _number_cuts(page: Page, paper: OnPaper) -> None:
    """Each cut's number at the end of its line, where it stands on no other words."""
    taken = [frame_of(shape) for shape in page.shapes if isinstance(shape, Text)]
    for cut in paper.sheet.cuts:
        text = next((text for text in _numbers(paper, cut) if clear(text, taken)), None)
        if text is not None:
            taken.append(frame_of(text))
            page.add(text)


def _numbers(paper: OnPaper, cut: Cut) -> Iterator[Text]:
    """Places for a cut's number, the best one first."""
    words, piece = str(cut.order), cut.piece
    if cut.across == "length":
        x = paper.x(piece.x + cut.at)
        if piece.y == 0:
            yield Text((x, paper.foot + 12), words, "middle", SMALL)
        low, high = paper.y(piece.y), paper.y(piece.y + piece.width)
        for share in (0.1, 0.9, 0.3, 0.7, 0.5):
            for off in (6.0, -6.0):
                yield Text((x + off, low + share * (high - low) + 3), words, "middle", SMALL)
        return
    y = paper.y(piece.y + cut.at)
    if piece.x == 0:
        yield Text((LEFT - 5, y + 3), words, "end", SMALL)
    left, right = paper.x(piece.x), paper.x(piece.x + piece.length)
    for share in (0.05, 0.95, 0.3, 0.7, 0.5):
        for off in (-3.0, 11.0):
            yield Text((left + share * (right - left), y + off), words, "middle", SMALL)


def _marks(sheet: CutSheet, pen: Pen) -> Iterator[str]:
    """Everything on a sheet in words: panels, cuts in order, what is left."""
    for placed in sheet.panels:
        area = placed.area
        turned = ", turned a quarter: its length lies across the sheet" if placed.turned else ""
        place = f"from the left {pen.short(area.x)}, from the near edge {pen.short(area.y)}"
        yield f"{pen.named(placed.panel)}: {_by(area, pen)}, {place}{turned}"
    for cut in sheet.cuts:
        yield _cut_words(cut, pen)
    for rest in sheet.rests:
        yield _rest_words(rest, pen)


def _cut_words(cut: Cut, pen: Pen) -> str:
    way = "crosswise" if cut.across == "length" else "lengthwise"
    edge = "its left end" if cut.across == "length" else "its near edge"
    trim = ", to square the edge" if cut.trim else ""
    store = ", the store can make this one" if cut.by == "store" else ""
    return (
        f"Cut {cut.order}: the piece of {_by(cut.piece, pen)}, {way}, at {pen.short(cut.at)} from "
        f"{edge}{trim}{store}"
    )


def _rest_words(rest: Rest, pen: Pen) -> str:
    kept = ", worth keeping" if rest.keep else ""
    return f"left over: {_by(rest.area, pen)}{kept}"
