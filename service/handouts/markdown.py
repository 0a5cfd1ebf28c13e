"""The handout as Markdown, to paste under a video or a post, and to read in a terminal.

Every character that Markdown or HTML could take for its own is escaped, wherever it came from.
"""

import re
from collections.abc import Iterator

from service.handouts.clean import one_line
from service.handouts.page import Block, Handout, Item, Items, Picture, Table, Words

SPECIAL = re.compile(r"([\\`*_\[\]|~$]|^#|#$)")
ENTITIES = (("&", "&amp;"), ("<", "&lt;"), (">", "&gt;"))
STARTS_A_BLOCK = re.compile(r"^([-+=]|\d+[.)])")  # a list or a heading, where a line begins so
LINKED = re.compile(r"(?i)\b(https?|ftp|mailto|www)([:.])")  # made links by some readers


def as_markdown(handout: Handout) -> str:
    """The whole page."""
    return "\n".join([f"# {escaped(handout.title)}", *_sections(handout)]) + "\n"


def _sections(handout: Handout) -> Iterator[str]:
    for section in handout.sections:
        yield from ("", f"## {escaped(section.heading)}")
        for block in section.blocks:
            yield ""
            yield from _block(block)


def _block(block: Block) -> Iterator[str]:
    if isinstance(block, Words):
        text = _at_line_start(block.text)
        yield f"**{text}**" if block.strong else text
    elif isinstance(block, Items):
        for number, item in enumerate(block.items, 1):
            yield from _item(item, f"{number}. " if block.numbered else "- ")
    elif isinstance(block, Table):
        yield from _table(block)
    else:
        yield from _picture(block)


def _item(item: Item, mark: str) -> Iterator[str]:
    name = f"**{escaped(item.name)}:** " if item.name else ""
    text = escaped(item.text) if item.name else _at_line_start(item.text)
    yield f"{mark}{name}{text}"
    for line in item.under:
        yield f"{' ' * len(mark)}- {_at_line_start(line)}"


def _table(table: Table) -> Iterator[str]:
    yield f"**{escaped(table.caption)}**"
    yield ""
    yield _row([escaped(column.heading) for column in table.columns])
    yield _row(["---:" if column.figures else "---" for column in table.columns])
    for row in table.rows:
        yield _row([escaped(cell) for cell in row])


def _row(cells: list[str]) -> str:
    return f"| {' | '.join(cells)} |"


def _picture(picture: Picture) -> Iterator[str]:
    """A drawing in words: what it shows, and every mark on it."""
    yield f"**{escaped(picture.caption)}**"
    yield ""
    for mark in picture.drawing.marks:
        yield f"- {_at_line_start(mark)}"


def _at_line_start(text: str) -> str:
    """Escaped, and not taken for a list where it begins a line."""
    return STARTS_A_BLOCK.sub(lambda m: f"{m[1][:-1]}\\{m[1][-1]}", escaped(text))


def escaped(text: str) -> str:
    """Plain text that Markdown shows as it stands, on one line."""
    plain = one_line(text)
    for sign, entity in ENTITIES:
        plain = plain.replace(sign, entity)
    plain = SPECIAL.sub(r"\\\1", plain)
    return LINKED.sub(r"\1\\\2", plain)
