"""The handout as frozen values: sections of plain text, lists, tables and drawings, in order.

Every text here is finished: sizes, money and times are written out, nothing is left to figure.
Nothing is escaped: each writer escapes for its own form, everything, wherever it came from.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from service.domain.drawing import Drawing


@dataclass(frozen=True, slots=True)
class Words:
    """A paragraph. `strong`: the one sentence that must not be missed."""

    text: str
    strong: bool = False


@dataclass(frozen=True, slots=True)
class Items:
    """A list; `numbered` where the order matters. An item may hold lines that belong to it."""

    items: tuple["Item", ...]
    numbered: bool = False


@dataclass(frozen=True, slots=True)
class Item:
    """A line of a list. `name` stands before the text and says what it is about."""

    text: str
    name: str = ""
    under: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Column:
    """A column: a key for programs, a heading for people; `figures` are set to the right."""

    key: str
    heading: str
    figures: bool = False


@dataclass(frozen=True, slots=True)
class Table:
    """Rows under headings. `key` is its name for programs; the first column names its row."""

    key: str
    caption: str
    columns: tuple[Column, ...]
    rows: tuple[tuple[str, ...], ...]


@dataclass(frozen=True, slots=True)
class Picture:
    """A drawing with its caption. `key` is unlike that of every other picture of the page."""

    key: str
    caption: str
    drawing: Drawing


Block = Words | Items | Table | Picture


@dataclass(frozen=True, slots=True)
class Section:
    """A heading and what stands under it. `key` is a word for programs and links."""

    key: str
    heading: str
    blocks: tuple[Block, ...]


@dataclass(frozen=True, slots=True)
class Handout:
    """The whole page. `edition` is that of the tables; `made` the date that it carries."""

    title: str
    summary: str
    sections: tuple[Section, ...]
    edition: str
    made: date
    language: str = "en-US"

    @property
    def blocks(self) -> Iterator[Block]:
        """Everything on the page, in order."""
        return (block for section in self.sections for block in section.blocks)

    @property
    def tables(self) -> dict[str, Table]:
        """Tables by key."""
        return {block.key: block for block in self.blocks if isinstance(block, Table)}

    @property
    def pictures(self) -> dict[str, Picture]:
        """Drawings by key."""
        return {block.key: block for block in self.blocks if isinstance(block, Picture)}
