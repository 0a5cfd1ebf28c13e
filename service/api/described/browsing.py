"""The shapes of what is answered about the tables, the rules and the service itself."""

from service.api.described.carried import CARRIED, SOURCE, answer
from service.api.described.words import (
    TEXT,
    WHOLE,
    Json,
    by_name,
    one_of,
    or_null,
    record,
    several,
    shape,
    told,
)

_EDITION = CARRIED["edition"]
_BRIEF: dict[str, Json] = {
    "edition": _EDITION,
    "assumed": CARRIED["assumed"],
    "sources": told(several(SOURCE), "Where the rows come from."),
}
_ROW = by_name({}, "A row by column; /v1/tables says what each column holds.")
_COLUMN = shape("TableColumn", record(
    "A column of a table.",
    name=TEXT, kind=TEXT, holds=TEXT, meaning=or_null(TEXT), one_of=several(TEXT),
    keys_of=told(or_null(TEXT), "The table whose keys it holds."),
))  # fmt: skip
TABLES = shape("TablesAnswer", record(
    "Every reference table.",
    tables=several(shape("Table", record(
        "A table: what it is, what a row is, how many rows, and its columns.",
        table=TEXT, title=TEXT, row=TEXT, rows=WHOLE, columns=several(_COLUMN),
    ))),
    **_BRIEF,
))  # fmt: skip
TABLE = shape("TableAnswer", record(
    "Rows of a table.",
    table=TEXT,
    rows=several(_ROW),
    next=told(or_null(TEXT), "Cursor of the next page; null on the last."),
    **_BRIEF,
))  # fmt: skip
TABLE_ROW = shape("TableRowAnswer", record("One row of a table.", table=TEXT, row=_ROW, **_BRIEF))
WHY = answer(
    "WhyAnswer",
    "What a finding says, on what basis, and why it matters.",
    code=TEXT,
    title=TEXT,
    severity=one_of("fault", "warn", "note"),
    basis=TEXT,
    why=TEXT,
    numbers=by_name(one_of("length", "angle", "count", "word", "words")),
)
FRONT = shape("FrontAnswer", record(
    "What can be asked, with lines to paste.",
    about=TEXT,
    manual=told(TEXT, "Where the manual is."),
    questions=several(
        record("A question, and what group it is of.", about=TEXT, asks=TEXT, line=TEXT)
    ),
    edition=_EDITION,
))  # fmt: skip
ALIVE = shape("AliveAnswer", record("The process runs.", status=one_of("alive")))
READY = shape("ReadyAnswer", record(
    "The tables are read and the database can be opened.", status=one_of("ready"), edition=_EDITION
))  # fmt: skip
PROBLEM_TYPE = shape("ProblemType", record(
    "What a type of problem means.", type=TEXT, title=TEXT, status=WHOLE
))  # fmt: skip
FAULT = shape("ProblemError", record(
    "One thing wrong with the request: at a pointer into its body, or in a parameter.",
    {"pointer": told(TEXT, "JSON pointer in URI-fragment form."), "parameter": TEXT},
    detail=TEXT,
))  # fmt: skip
PROBLEM = shape("Problem", record(
    "A refusal (RFC 9457).",
    {
        "detail": TEXT,
        "errors": told(several(FAULT), "At most 50."),
        "errors_left_out": told(WHOLE, "How many more there were."),
        "violated-policies": told(several(TEXT), "Quotas that are used up."),
    },
    type=told(TEXT, "Stays the same; a GET there explains it."),
    title=TEXT,
    status=WHOLE,
    instance=TEXT,
))  # fmt: skip
DESCRIPTION = shape("Description", by_name({}, "An OpenAPI document."))
SCHEMA = shape("JsonSchema", by_name({}, "A JSON Schema."))
