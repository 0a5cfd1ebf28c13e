"""The handout as a PDF on letter or A4 paper: the same words, tables that go on over pages."""

from collections.abc import Iterator
from io import BytesIO
from textwrap import wrap
from typing import Literal

from reportlab.lib.pagesizes import A4, LETTER
from reportlab.pdfbase.pdfmetrics import stringWidth
from reportlab.pdfgen.canvas import Canvas
from reportlab.platypus import (
    BaseDocTemplate,
    CondPageBreak,
    Flowable,
    Frame,
    ListFlowable,
    ListItem,
    PageTemplate,
    Paragraph,
    Spacer,
)

from service.handouts.page import Block, Handout, Item, Items, Picture, Section, Table, Words
from service.handouts.printed import Printed, ruled
from service.handouts.typeface import BOLD, PLAIN, Type, settable, typeface

Paper = Literal["letter", "a4"]

SIZES = {"letter": LETTER, "a4": A4}
MARGIN = 48.0
FOOT = 30.0
LONGEST = 2000  # characters of a paragraph: a good third of a page
HEADROOM, HEADING = 110.0, 60.0
"""Points to be left under a caption, and besides for a heading; else it goes to the next page."""

UNSET = (
    "Some signs in the names of this build are not among the letters of this paper: a question "
    "mark stands for each. The web page shows them."
)


def as_pdf(handout: Handout, paper: Paper = "letter") -> bytes:
    """The whole page, the same bytes for the same page."""
    written = BytesIO()
    letters = typeface()
    wide, high = SIZES[paper]
    setting = Setting(letters, wide - 2 * MARGIN)
    story = list(setting.story(handout))
    if setting.missed:
        story.insert(1, Paragraph(UNSET, letters.body))
    document = BaseDocTemplate(
        written, pagesize=(wide, high), leftMargin=MARGIN, rightMargin=MARGIN, topMargin=MARGIN,
        bottomMargin=MARGIN, title=settable(handout.title)[0], subject=settable(handout.summary)[0],
        lang=handout.language, invariant=1, displayDocTitle=True, author="", creator="Dryfit",
    )  # fmt: skip
    frame = Frame(MARGIN, MARGIN, wide - 2 * MARGIN, high - 2 * MARGIN, 0, 0, 0, 0)
    foot = _foot(handout, wide)
    document.addPageTemplates(PageTemplate(frames=[frame], onPage=foot))
    document.build(story)
    return written.getvalue()


class Setting:
    """Sets the words of a page; `missed` says whether a sign had no letter."""

    def __init__(self, letters: Type, width: float) -> None:
        """`width` is what the lines of the page may take, points."""
        self.letters = letters
        self.width = width
        self.missed = False

    def story(self, handout: Handout) -> Iterator[Flowable]:
        """Everything, in order."""
        yield Paragraph(self.said(handout.title), self.letters.title)
        for section in handout.sections:
            yield from self._section(section)

    def said(self, text: str) -> str:
        """Words for a paragraph: escaped, and only signs that can be set."""
        plain, missed = settable(text)
        self.missed = self.missed or missed
        return plain.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")

    def _section(self, section: Section) -> Iterator[Flowable]:
        yield CondPageBreak(HEADROOM + HEADING)
        yield Marker(section.key, settable(section.heading)[0])
        yield Paragraph(self.said(section.heading), self.letters.heading)
        for block in section.blocks:
            yield from self._block(block)

    def _block(self, block: Block) -> Iterator[Flowable]:
        if isinstance(block, Words):
            for text in map(self.said, parted(block.text)):
                yield Paragraph(f"<b>{text}</b>" if block.strong else text, self.letters.body)
        elif isinstance(block, Items):
            yield self._list(block)
        elif isinstance(block, Table):
            yield CondPageBreak(HEADROOM)
            yield Paragraph(self.said(block.caption), self.letters.caption)
            yield ruled(block, self.said, self.letters, self.width)
            yield Spacer(1, 6)
        else:
            yield from self._picture(block)

    def _list(self, block: Items) -> Flowable:
        lines = [ListItem(list(self._item(item)), leftIndent=16) for item in block.items]
        start = {"bulletType": "1"} if block.numbered else {"bulletType": "bullet", "start": "-"}
        return ListFlowable(lines, leftIndent=16, bulletFontName=PLAIN, bulletFontSize=9, **start)

    def _item(self, item: Item) -> Iterator[Flowable]:
        name = f"<b>{self.said(item.name)}:</b> " if item.name else ""
        for text in parted(item.text):
            yield Paragraph(name + self.said(text), self.letters.body)
            name = ""
        for line in item.under:
            bullet: str | None = "-"
            for text in parted(line):
                yield Paragraph(self.said(text), self.letters.under, bulletText=bullet)
                bullet = None

    def _picture(self, picture: Picture) -> Iterator[Flowable]:
        drawn = Printed(picture.drawing, self.width)
        yield CondPageBreak(min(drawn.height + 40, HEADROOM * 4))
        yield Paragraph(self.said(picture.caption), self.letters.caption)
        yield drawn
        for mark in picture.drawing.marks:
            yield Paragraph(self.said(mark), self.letters.mark, bulletText="-")
        yield Spacer(1, 6)


def parted(text: str) -> list[str]:
    """A text in pieces that a page holds: in a list, one as long as a page can't be broken."""
    return wrap(text, LONGEST, break_on_hyphens=False) if len(text) > LONGEST else [text]


class Marker(Flowable):  # type: ignore[misc]  # reportlab has no types
    """A bookmark: where a section begins, for the list beside the pages."""

    width = height = 0.0

    def __init__(self, key: str, heading: str) -> None:
        """`key` is unlike that of every other section."""
        super().__init__()
        self.key, self.heading = key, heading

    def draw(self) -> None:
        """Tell the document that the section begins here."""
        self.canv.bookmarkHorizontal(self.key, 0, 12)
        self.canv.addOutlineEntry(self.heading, self.key, 0, closed=False)


def _foot(handout: Handout, wide: float):  # type: ignore[no-untyped-def]  # as reportlab calls it
    edition = f"made {handout.made.isoformat()}, tables {handout.edition}"
    room = wide - 2 * MARGIN - stringWidth(f"{edition}, page 999", PLAIN, 8) - 8
    title = _cut_off(settable(handout.title)[0], room)

    def draw(canvas: Canvas, document: BaseDocTemplate) -> None:
        canvas.saveState()
        canvas.setFont(BOLD, 8)
        canvas.drawString(MARGIN, FOOT, title)
        canvas.setFont(PLAIN, 8)
        canvas.drawRightString(wide - MARGIN, FOOT, f"{edition}, page {document.page}")
        canvas.restoreState()

    return draw


def _cut_off(title: str, room: float) -> str:
    """As much of a title as goes into so many points."""
    if stringWidth(title, BOLD, 8) <= room:
        return title
    return next(
        short
        for long in range(len(title) - 1, -1, -1)
        if stringWidth(short := f"{title[:long]}...", BOLD, 8) <= room
    )
