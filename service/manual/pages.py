"""Pages made of templates: everything that comes from elsewhere is escaped by the engine."""

import re
from collections.abc import Callable, Iterable, Mapping
from pathlib import Path
from typing import Any

from jinja2 import Environment, FileSystemLoader, StrictUndefined
from markupsafe import Markup, escape

from service.manual.telling import AT, Line

TEMPLATES = Path(__file__).with_name("templates")
BREAKS = ("/", "?", ".", "-", "_", ",")  # a long name or address may go on below after these

_TYPED = re.compile("`([^`]+)`")

_PAGES = Environment(
    loader=FileSystemLoader(TEMPLATES),
    autoescape=True,
    undefined=StrictUndefined,
    auto_reload=False,
    trim_blocks=True,
    lstrip_blocks=True,
)
_STYLE = Markup((TEMPLATES / "manual.css").read_text(encoding="utf-8"))  # ours, nothing to escape

ROOMS = (
    ("/docs", "Manual"),
    ("/docs/questions", "Questions"),
    ("/docs/build", "The build"),
    ("/docs/findings", "Findings"),
    ("/docs/tables", "Tables"),
    ("/docs/sources", "Sources"),
    ("/", "Ask"),
)


def made(template: str, room: str, address: str, **values: Any) -> str:
    """A page from its template, in a room of the manual; its lines ask the service at `address`."""
    page = _PAGES.get_template(template)
    return page.render(style=_STYLE, rooms=ROOMS, room=room, address=address, **values)


def grouped(items: Iterable[Any], of: Callable[[Any], str]) -> Mapping[str, list[Any]]:
    """Items by what they belong to, in the order in which that first comes."""
    groups: dict[str, list[Any]] = {}
    for item in items:
        groups.setdefault(of(item), []).append(item)
    return groups


def _pasted(line: Line, address: str) -> str:
    return line.curl.replace(AT, address)


def _breakable(text: str) -> Markup:
    """Text with places where a narrow screen may break it."""
    told = str(escape(text))
    for sign in BREAKS:
        told = told.replace(sign, f"{sign}<wbr>")
    return Markup(told)


def _worded(text: str) -> Markup:
    """Text in which backticks mark what is typed."""
    return Markup(_TYPED.sub(r"<code>\1</code>", str(escape(text))))


def _paragraphs(text: str) -> list[str]:
    return [" ".join(one.split()) for one in text.split("\n\n")]


_PAGES.filters["pasted"] = _pasted
_PAGES.filters["breakable"] = _breakable
_PAGES.filters["worded"] = _worded
_PAGES.filters["paragraphs"] = _paragraphs
