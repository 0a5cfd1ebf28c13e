"""The handout as one HTML page: its own style, no script, for a phone, a screen and paper."""

from pathlib import Path

from jinja2 import Environment, FileSystemLoader, StrictUndefined
from markupsafe import Markup

from service.handouts.clean import one_line
from service.handouts.page import Handout, Items, Table, Words
from service.handouts.svg import inline

# Everything is escaped by the template engine; nothing is marked as safe but our own drawings.
_PAGES = Environment(
    loader=FileSystemLoader(Path(__file__).parent / "templates"),
    autoescape=True,
    undefined=StrictUndefined,
    auto_reload=False,
)
_PAGES.filters["line"] = one_line
_PAGES.filters["drawn"] = lambda picture: Markup(inline(picture.drawing, f"{picture.key}-drawing"))
_PAGES.tests["words"] = lambda block: isinstance(block, Words)
_PAGES.tests["items"] = lambda block: isinstance(block, Items)
_PAGES.tests["table"] = lambda block: isinstance(block, Table)
_PAGE = _PAGES.get_template("page.html")


def as_html(handout: Handout) -> str:
    """The whole page as one file."""
    return _PAGE.render(handout=handout)
