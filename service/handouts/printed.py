"""Tables and drawings on paper: ruled tables whose headings repeat, drawings as lines."""

from collections.abc import Callable, Sequence

from reportlab.pdfbase.pdfmetrics import stringWidth
from reportlab.platypus import Flowable, LongTable, Paragraph, TableStyle

from service.domain.drawing import Circle, Drawing, Path, Text
from service.handouts.page import Table
from service.handouts.typeface import BOLD, PLAIN, Type, settable

PADDING = 3.0
NARROWEST = 26.0
UNBROKEN = 64.0  # points; a size or a price is not broken where that can be helped
RULES = TableStyle([
    ("GRID", (0, 0), (-1, -1), 0.5, "black"),
    ("LINEBELOW", (0, 0), (-1, 0), 1.2, "black"),
    ("VALIGN", (0, 0), (-1, -1), "TOP"),
    ("LEFTPADDING", (0, 0), (-1, -1), PADDING),
    ("RIGHTPADDING", (0, 0), (-1, -1), PADDING),
    ("TOPPADDING", (0, 0), (-1, -1), 1.5),
    ("BOTTOMPADDING", (0, 0), (-1, -1), 2.5),
])  # fmt: skip


def ruled(table: Table, said: Callable[[str], str], letters: Type, width: float) -> Flowable:
    """A table as wide as the page; a column that is empty in every row is left out."""
    places = [n for n in range(len(table.columns)) if n == 0 or any(row[n] for row in table.rows)]
    columns = [table.columns[n] for n in places]
    heads = [Paragraph(f"<b>{said(column.heading)}</b>", letters.cell) for column in columns]
    rows = [
        [
            Paragraph(
                f"<b>{said(row[n])}</b>" if n == 0 else said(row[n]),
                letters.figures if table.columns[n].figures else letters.cell,
            )
            for n in places
        ]
        for row in table.rows
    ]
    texts = [[column.heading, *(row[n] for row in table.rows)]
             for n, column in zip(places, columns, strict=True)]  # fmt: skip
    return LongTable([heads, *rows], widths(texts, width), repeatRows=1, style=RULES, splitInRow=1)


def widths(texts: Sequence[Sequence[str]], width: float) -> list[float]:
    """Points for each column: its longest word or short text at least, the rest by its words."""
    size = 8
    words = [max(stringWidth(word, BOLD, size) for text in column for word in text.split() or [""])
             for column in texts]  # fmt: skip
    whole = [max(stringWidth(text, BOLD, size) for text in column) for column in texts]
    most = width / len(texts) * 1.6
    kept = [all_ if all_ <= UNBROKEN else word for word, all_ in zip(words, whole, strict=True)]
    least = [min(max(one + 2 * PADDING + 1, NARROWEST), most) for one in kept]
    wanted = [max(low, all_ + 2 * PADDING + 1) for low, all_ in zip(least, whole, strict=True)]
    if sum(least) >= width:
        return [low * width / sum(least) for low in least]
    more = [high - low for low, high in zip(least, wanted, strict=True)]
    spare = width - sum(least)
    share = min(1.0, spare / sum(more)) if sum(more) else 0.0
    filled = [low + share * extra for low, extra in zip(least, more, strict=True)]
    return [one * width / sum(filled) for one in filled] if share == 1.0 else filled


class Printed(Flowable):  # type: ignore[misc]  # reportlab has no types
    """A drawing as lines on paper, at its own size, or smaller where the page is narrow."""

    def __init__(self, drawing: Drawing, width: float, height: float = 640.0) -> None:
        """`width` and `height` are the most that it may take, points."""
        super().__init__()
        self.drawing = drawing
        self.shrunk = min(1.0, width / drawing.width, height / drawing.height)
        self.width, self.height = drawing.width * self.shrunk, drawing.height * self.shrunk

    def draw(self) -> None:
        """Lines first, words over them."""
        self.canv.scale(self.shrunk, self.shrunk)
        for shape in self.drawing.shapes:
            if isinstance(shape, Text):
                self._text(shape)
            elif isinstance(shape, Circle):
                self._pen(shape.weight, dashed=shape.dashed)
                x, y = shape.center
                self.canv.circle(x, self.drawing.height - y, shape.radius)
            else:
                self._path(shape)

    def _pen(self, weight: float, *, dashed: bool) -> None:
        self.canv.setLineWidth(weight)
        self.canv.setDash(*((3, 2) if dashed else ()))

    def _path(self, path: Path) -> None:
        self._pen(path.weight, dashed=path.dashed)
        line = self.canv.beginPath()
        for n, (x, y) in enumerate(path.spots):
            (line.lineTo if n else line.moveTo)(x, self.drawing.height - y)
        if path.closed:
            line.close()
        self.canv.drawPath(line, stroke=0 if path.filled else 1, fill=1 if path.filled else 0)

    def _text(self, text: Text) -> None:
        canvas, (x, y) = self.canv, text.at
        canvas.saveState()
        canvas.setFont(BOLD if text.strong else PLAIN, text.size * 0.9)
        canvas.translate(x, self.drawing.height - y)
        if text.upright:
            canvas.rotate(90)
        draw = {"start": canvas.drawString, "middle": canvas.drawCentredString,
                "end": canvas.drawRightString}[text.anchor]  # fmt: skip
        draw(0, 0, settable(text.words)[0])
        canvas.restoreState()
