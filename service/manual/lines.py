"""Lines to paste that the manual makes up itself, and how it speaks of a source."""

from collections.abc import Iterator, Mapping
from typing import Any
from urllib.parse import quote

from service.manual.telling import AT, HEADER, Line
from service.manual.twins import RISER, SPOILED

REST = {
    "fasteners": "What holds it?",
    "cut-plan": "What do I buy, and how do I cut it?",
    "estimate": "What does it weigh and cost, and how long does it take?",
    "handout": "The page to buy, cut and build from",
}


def example_lines() -> Mapping[str, Any]:
    """Lines that send the riser and its spoiled twin through the whole job."""
    return {
        "sound": sent(RISER, "check", "Send it"),
        "spoiled": sent(SPOILED, "check", "Send the spoiled one"),
        "mended": sent(SPOILED, "check?mended=true", "Have it mended", "json"),
        "rest": [
            sent(RISER, question, asks, "md" if question == "handout" else "text")
            for question, asks in REST.items()
        ],
    }


def sent(name: str, question: str, asks: str, form: str = "text") -> Line:
    """A line that fetches a build of the manual and sends it on to a question."""
    mark = "&" if "?" in question else "?"
    asked = f"'{AT}v1/{question}{mark}format={form}'"
    return Line(asks, f"curl -s {AT}docs/builds/{name}.json | curl -s {asked} {HEADER} -d @-", None)


def table_lines(name: str, key: str) -> Iterator[Line]:
    """Lines that read a table: its first rows, and the row of a key."""
    paths = {
        f"v1/tables/{name}?limit=3&format=text": "Its first rows",
        f"v1/tables/{name}/{quote(key)}?format=text": "One row",
    }
    for path, asks in paths.items():
        yield Line(asks, f"curl -s '{AT}{path}'", f"/{path}")


def source_in_words(row: Mapping[str, Any]) -> str:
    """Who wrote and published a source, when, of what kind it is, and how it was read."""
    told = (row["author"], row["publisher"], row["edition"], row["year"], row["kind"], row["note"])
    return ", ".join(dict.fromkeys(str(one) for one in told if one))
