"""The forms of the handout read back by general readers: HTML, Markdown and CSV."""

import csv
import io
import re
from dataclasses import dataclass, field
from html.parser import HTMLParser
from pathlib import Path

BUILDS = Path(__file__).parents[1] / "builds"
SCENES = ("letter-tray", "potting-bench")
VOID = frozenset({"meta", "br", "link", "img"})


def every_build() -> list[Path]:
    """Every whole build of the tests, sound and spoiled."""
    paths = [*(BUILDS / "whole").glob("*.json"), *(BUILDS / "handouts").glob("*.json")]
    return sorted(path for path in paths if path.name != "expected.json")


def squeezed(text: str) -> str:
    """Text with every run of blanks as one plain space."""
    return " ".join(text.split())


@dataclass
class Element:
    """One element of a page with the text inside of it."""

    tag: str
    attributes: dict[str, str]
    text: str = ""


@dataclass
class _Reader(HTMLParser):
    found: list[Element] = field(default_factory=list)
    open: list[Element] = field(default_factory=list)

    def __post_init__(self) -> None:
        super().__init__(convert_charrefs=True)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        element = Element(tag, {name: value or "" for name, value in attrs})
        self.found.append(element)
        if tag not in VOID:
            self.open.append(element)

    def handle_endtag(self, tag: str) -> None:
        assert self.open and self.open[-1].tag == tag, f"</{tag}> closes nothing"
        self.open.pop()

    def handle_data(self, data: str) -> None:
        for element in self.open:
            element.text += data


def read_html(page: str) -> list[Element]:
    """Every element of a page, which must be well nested."""
    reader = _Reader()
    reader.feed(page)
    reader.close()
    assert not reader.open, "an element is left open"
    return reader.found


def read_csv(content: str) -> list[list[str]]:
    """Rows of a CSV file; every line must end with CR LF."""
    assert content.count("\n") == content.count("\r\n")
    return list(csv.reader(io.StringIO(content, newline="")))


ENTITIES = {"&lt;": "<", "&gt;": ">", "&amp;": "&"}


def unescaped(markdown: str) -> str:
    """What a reader of Markdown shows of escaped text: backslashes gone, entities as signs."""
    text = re.sub(r"\\([!-/:-@\[-`{-~])", r"\1", markdown)
    return re.sub("|".join(ENTITIES), lambda m: ENTITIES[m[0]], text)


def cells(row: str) -> list[str]:
    """The cells of a row of a table, split where a bar is not escaped."""
    return [cell.strip() for cell in re.split(r"(?<!\\)\|", row.strip())[1:-1]]
