"""What many answers hold: lengths, sources, findings, and what every answer carries."""

from collections.abc import Mapping
from typing import Any, get_args

from service.api.described.words import (
    ANYTHING,
    NUMBER,
    TEXT,
    Json,
    by_name,
    one_of,
    or_null,
    record,
    several,
    shape,
    told,
)
from service.domain.findings import Basis, NumberKind, Severity
from service.domain.rules import RULES

LENGTH = shape("MeasuredLength", record(
    "A length, and what a tape reads there.",
    in_=told(NUMBER, "Inches."),
    mm=told(NUMBER, "Millimeters."),
    tape=told(TEXT, "The nearest mark of a tape: 1/16 in, or whole mm in a metric document."),
    off_by=told(TEXT, "The tape's reading less the true size; 0 where it is exact."),
))  # fmt: skip
LENGTH_OR_NULL = or_null(LENGTH)
LENGTHS = record("From and to.", low=LENGTH, high=LENGTH)
LIMITS = shape("SizeWithLimits", record(
    "A size as listed, with its least and greatest where the table has a tolerance.",
    {"low": LENGTH, "high": LENGTH},
    listed=LENGTH,
))  # fmt: skip
WEIGHT = shape("WeightOf", record("A weight in both units.", lb=NUMBER, kg=NUMBER))
WEIGHT_OR_NULL = or_null(WEIGHT)

ROW = shape("RowUsed", record(
    "A row of the reference tables that the answer rests on.",
    row=told(TEXT, "Table and key, as in /v1/tables/{table}/{key}."),
    source=told(TEXT, "Id of its source; `memory` where nobody has read it in print."),
    locator=told(or_null(TEXT), "Page, table or equation."),
    confidence=told(TEXT, "How far the value was checked: cross-checked, one-source, memory."),
    basis=told(TEXT, "What the value is: standard, handbook, practice and the like."),
))  # fmt: skip
SOURCE = shape("Source", record(
    "A source that the answer names.",
    id=TEXT, title=TEXT, publisher=or_null(TEXT), year=or_null(TEXT), kind=TEXT,
))  # fmt: skip

CARRIED: dict[str, Json] = {
    "edition": told(TEXT, "Edition of the reference tables that answered."),
    "assumed": told(several(TEXT), "What was taken for granted because it was not given."),
    "rests_on": told(several(ROW), "Rows of the reference tables that were used."),
    "sources": told(several(SOURCE), "Where those rows, and the rules, come from."),
}


def answer(
    name: str, about: str, optional: Mapping[str, Json] | None = None, /, **fields: Json
) -> Json:
    """The shape of a whole answer: its own fields, and what every answer carries."""
    return shape(name, record(about, optional, **fields, **CARRIED))


CHANGE = shape("PatchStep", record(
    "One step of a JSON Patch (RFC 6902).", op=one_of("add", "replace"), path=TEXT, value=ANYTHING
))  # fmt: skip
MEND = shape("Mend", record(
    "What would put it right.",
    words=TEXT,
    patch=told(or_null(several(CHANGE)), "A JSON Patch where one exact change mends it."),
))  # fmt: skip
NUMBERS = by_name(
    {"anyOf": [LENGTH, NUMBER, TEXT, several(TEXT)]},
    "The numbers behind it, by name; `x-findings` says for each code which there are.",
)
VERDICT = one_of("mend-first", "look", "nothing-found")
_SAID: dict[str, Json] = {
    "code": told(TEXT, "Stable code; `x-findings` lists them. More may come."),
    "severity": one_of(*get_args(Severity)),
    "title": TEXT,
    "detail": told(TEXT, "The finding in a sentence, with its numbers."),
    "numbers": NUMBERS,
    "mend": or_null(MEND),
    "basis": told(TEXT, f"What the verdict rests on: {', '.join(get_args(Basis))}."),
    "rests_on": told(several(TEXT), "Rows of the reference tables behind it."),
    "sources": told(several(TEXT), "Ids of the sources behind it."),
    "why": told(TEXT, "Where the reason is explained."),
}
FINDING = shape("Finding", record(
    "Something that deserves attention, at its place in the document.",
    at=told(TEXT, "JSON pointer in URI-fragment form."),
    also_at=told(or_null(TEXT), "A second place, where two do not go together."),
    **_SAID,
))  # fmt: skip
FINDING_ABOUT = shape("FindingAboutParameter", record(
    "Something that deserves attention in what a one-line question states.",
    parameter=told(TEXT, "The parameter that it is about."),
    **_SAID,
))  # fmt: skip
FINDINGS = told(several(FINDING), "Worst first.")
FINDINGS_ABOUT = told(several(FINDING_ABOUT), "Findings about what was stated, worst first.")
NOT_JUDGED = told(several(TEXT), "What was not looked at. No verdict is without it.")

_OF_KIND: dict[NumberKind, Json] = {
    "length": {"anyOf": [LENGTH, TEXT]},
    "angle": NUMBER,
    "count": NUMBER,
    "word": TEXT,
    "words": several(TEXT),
}


def known_findings() -> dict[str, Any]:
    """Every code: its title, usual severity and basis, where the reason is, and its numbers."""
    return {
        rule.code: {
            "title": rule.title,
            "severity": rule.severity,
            "basis": rule.basis,
            "why": f"/v1/why/{rule.code}",
            "numbers": record(**{name: _OF_KIND[kind] for name, kind in rule.numbers.items()}),
        }
        for rule in RULES
    }
