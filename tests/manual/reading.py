"""A page of the manual as a reader finds it: links, anchors, headings, lines to paste."""

from dataclasses import dataclass, field
from html.parser import HTMLParser

from flask.testing import FlaskClient

VOID = {"meta", "link", "br", "wbr", "img", "hr", "input"}
BROWSER = "text/html,application/xhtml+xml,application/xml;q=0.9,*/*;q=0.8"


@dataclass
class Page(HTMLParser):
    """What a page holds; `unclosed` are tags that are not closed where they should be."""

    links: list[str] = field(default_factory=list)
    outside: list[str] = field(default_factory=list)
    anchors: set[str] = field(default_factory=set)
    headings: list[int] = field(default_factory=list)
    pasted: list[str] = field(default_factory=list)
    tags: set[str] = field(default_factory=set)
    unclosed: list[str] = field(default_factory=list)
    words: str = ""

    def __post_init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self._open: list[str] = []
        self._pastes = False

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        given = dict(attrs)
        self.tags.add(tag)
        if tag not in VOID:
            self._open.append(tag)
        if given.get("id"):
            self.anchors.add(str(given["id"]))
        for name in ("href", "src", "action"):
            if given.get(name):
                self.links.append(str(given[name]))
        if tag[0] == "h" and tag[1:].isdigit():
            self.headings.append(int(tag[1:]))
        if tag == "pre" and given.get("class") == "paste":
            self._pastes = True
            self.pasted.append("")

    def handle_endtag(self, tag: str) -> None:
        if not self._open or self._open[-1] != tag:
            self.unclosed.append(tag)
        else:
            self._open.pop()
        self._pastes = self._pastes and tag != "pre"

    def handle_data(self, data: str) -> None:
        self.words += data
        if self._pastes:
            self.pasted[-1] += data


def read(client: FlaskClient, path: str) -> Page:
    """A page of the manual; it must be there."""
    response = client.get(path, headers={"Accept": BROWSER})
    assert (response.status_code, response.mimetype) == (200, "text/html"), path
    page = Page()
    page.feed(response.text)
    page.close()
    page.unclosed += page._open
    page.words = " ".join(page.words.split())
    return page
