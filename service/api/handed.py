"""The handout in the form asked for: bytes of one kind, or the model as JSON."""

from collections.abc import Callable, Iterable, Mapping
from typing import Any

from flask import Response

from service.api.answers import MEDIA_TYPES, as_json, as_page, carried
from service.api.refusals import Fault, InvalidParameter
from service.handouts.answers import Answers
from service.handouts.closing import rows_behind, taken_for_granted
from service.handouts.html import as_html
from service.handouts.markdown import as_markdown
from service.handouts.page import Block, Handout, Items, Table, Words
from service.handouts.setting import set_on_paper
from service.handouts.spreadsheet import as_csv
from service.handouts.svg import standalone

Json = dict[str, Any]


def as_model(handout: Handout, answers: Answers) -> Json:
    """The page as values, and what every answer carries."""
    return {
        "title": handout.title,
        "summary": handout.summary,
        "made": handout.made.isoformat(),
        "verdict": answers.checked.verdict,
        "not_judged": list(answers.checked.not_judged),
        "sections": [
            {
                "key": section.key,
                "heading": section.heading,
                "blocks": [_block(block) for block in section.blocks],
            }
            for section in handout.sections
        ],
        **carried(
            answers.build.catalog, rows_behind(answers), taken_for_granted(answers), ()
        ),
    }  # fmt: skip


def _block(block: Block) -> Json:
    if isinstance(block, Words):
        return {"kind": "words", "text": block.text, "strong": block.strong}
    if isinstance(block, Items):
        items = [
            {"name": item.name or None, "text": item.text, "under": list(item.under)}
            for item in block.items
        ]
        return {"kind": "items", "numbered": block.numbered, "items": items}
    if isinstance(block, Table):
        return _table(block)
    return {
        "kind": "picture",
        "key": block.key,
        "caption": block.caption,
        "marks": list(block.drawing.marks),
        "svg": standalone(block.drawing),
    }


def _table(table: Table) -> Json:
    keys = [column.key for column in table.columns]
    return {
        "kind": "table",
        "key": table.key,
        "caption": table.caption,
        "columns": [
            {"key": column.key, "heading": column.heading, "figures": column.figures}
            for column in table.columns
        ],
        "rows": [dict(zip(keys, row, strict=True)) for row in table.rows],
    }


FORMS = ("md", "html", "json", "pdf", "csv", "svg")
ONLY = {"table": "csv", "drawing": "svg", "paper": "pdf"}


def refuse_stray(form: str, asked: Mapping[str, Any]) -> None:
    """Refuse a parameter that belongs to another form: it would change nothing."""
    stray = [name for name, only in ONLY.items() if name in asked and form != only]
    if stray:
        faults = (Fault(f"This belongs to format={ONLY[name]}.", parameter=name) for name in stray)
        raise InvalidParameter("A parameter belongs to another form of the handout.", *faults)


def handed(form: str, page: Handout, answers: Answers, asked: Mapping[str, Any]) -> Response:
    """The page as a response."""
    made: Mapping[str, Callable[[], Response]] = {
        "html": lambda: as_page(as_html(page)),
        "json": lambda: as_json(as_model(page, answers)),
        "pdf": lambda: Response(
            set_on_paper(page, asked.get("paper", "letter")), mimetype=MEDIA_TYPES["pdf"]
        ),
        "md": lambda: Response(as_markdown(page), mimetype=MEDIA_TYPES["md"]),
        "csv": lambda: _spreadsheet(page, asked.get("table", "parts")),
        "svg": lambda: _drawing(page, asked.get("drawing")),
    }
    response = made[form]()
    response.headers.add("Vary", "Accept")
    return response


def _spreadsheet(page: Handout, table: str) -> Response:
    response = Response(as_csv(page.tables[table]), mimetype=MEDIA_TYPES["csv"])
    response.headers["Content-Disposition"] = f'inline; filename="{table}.csv"'
    return response


def _drawing(page: Handout, key: str | None) -> Response:
    picture = page.pictures.get(key or "")
    if picture is None:
        raise InvalidParameter("No such drawing.", _which(page.pictures, key))
    return Response(standalone(picture.drawing), mimetype=MEDIA_TYPES["svg"])


def _which(keys: Iterable[str], key: str | None) -> Fault:
    named = ", ".join(keys)
    there = f"the drawings of this build are {named}" if named else "this build has no drawings"
    said = "Say which drawing" if key is None else "There is no such drawing"
    return Fault(f"{said}: {there}.", parameter="drawing")
