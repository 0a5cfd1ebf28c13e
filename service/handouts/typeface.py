"""The letters of a PDF: one plain and one bold face that carry themselves in the file."""

from dataclasses import dataclass
from functools import cache
from typing import Any

from reportlab.lib.styles import ParagraphStyle
from reportlab.pdfbase.pdfmetrics import registerFont, registerFontFamily
from reportlab.pdfbase.ttfonts import TTFont

from service.handouts.clean import one_line

PLAIN, BOLD = "Vera", "VeraBd"


@dataclass(frozen=True, slots=True)
class Type:
    """Styles of every kind of line; `face` knows which signs it has letters for."""

    face: Any
    title: ParagraphStyle
    heading: ParagraphStyle
    caption: ParagraphStyle
    body: ParagraphStyle
    under: ParagraphStyle
    mark: ParagraphStyle
    cell: ParagraphStyle
    figures: ParagraphStyle


@cache
def typeface() -> Type:
    """The faces, registered once, and the styles that use them."""
    plain = TTFont(PLAIN, "Vera.ttf")
    registerFont(plain)
    registerFont(TTFont(BOLD, "VeraBd.ttf"))
    registerFontFamily(PLAIN, normal=PLAIN, bold=BOLD, italic=PLAIN, boldItalic=BOLD)
    body = ParagraphStyle("body", fontName=PLAIN, fontSize=9, leading=12, spaceAfter=3)

    def like(name: str, **more: Any) -> ParagraphStyle:
        return ParagraphStyle(name, parent=body, **more)

    hanging = {"leftIndent": 12, "bulletIndent": 2, "spaceAfter": 1, "fontSize": 8.5, "leading": 11}
    bold = {"fontName": BOLD}
    return Type(
        face=plain.face,
        title=like("title", fontSize=18, leading=22, spaceAfter=8, **bold),
        heading=like("heading", fontSize=12.5, leading=16, spaceBefore=10, spaceAfter=4, **bold),
        caption=like("caption", spaceBefore=5, spaceAfter=3, **bold),
        body=body,
        under=like("under", **hanging),
        mark=like("mark", **hanging),
        cell=like("cell", fontSize=8, leading=10, spaceAfter=0),
        figures=like("figures", fontSize=8, leading=10, spaceAfter=0, alignment=2),
    )


def settable(text: str) -> tuple[str, bool]:
    """The text on one line with a question mark for each sign without a letter, and whether."""
    line = one_line(text)
    if line.isascii():
        return line, False
    known = _known()
    plain = "".join(sign if ord(sign) in known else "?" for sign in line)
    return plain, plain != line


@cache
def _known() -> frozenset[int]:
    return frozenset(typeface().face.charToGlyph)
