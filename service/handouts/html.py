"""The handout as one HTML page: its own style, no script, for a phone, a screen and paper."""

import re
from pathlib import Path

from jinja2 import Environment, FileSystemLoader, StrictUndefined
from markupsafe import Markup

from service.handouts.clean import one_line
from service.handouts.page import Handout, Items, Table, Words
from service.handouts.svg import inline

TOGETHER = re.compile(r"(\d) (?=\d+/\d|mm\b|lb\b|kg\b|[A-Z]{3}\b)")  # never parted at a line's end
LONGEST_WORD = 22  # letters; a longer one is broken anywhere rather than widen its column

# Everything is escaped by the template engine; nothing is marked as safe but our own drawings.
_PAGES = Environment(
    loader=FileSystemLoader(Path(__file__).parent / "templates"),
    autoescape=True,
    undefined=StrictUndefined,
    auto_reload=False,
)
_PAGES.filters["line"] = lambda text: TOGETHER.sub("\\1\u00a0", one_line(text))
_PAGES.tests["long"] = lambda cell: any(len(word) > LONGEST_WORD for word in cell.split())
_PAGES.filters["drawn"] = lambda picture: Markup(inline(picture.drawing, f"{picture.key}-drawing"))
_PAGES.tests["words"] = lambda block: isinstance(block, Words)
_PAGES.tests["items"] = lambda block: isinstance(block, Items)
_PAGES.tests["table"] = lambda block: isinstance(block, Table)


def as_html(handout: Handout) -> str:
    """The whole page as one file."""
    return _PAGES.get_template("page.html").render(handout=handout)
