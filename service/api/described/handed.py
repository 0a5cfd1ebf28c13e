"""The shape of a handout as values, for pages and programs that lay it out themselves."""

from service.api.described.carried import NOT_JUDGED, VERDICT, answer
from service.api.described.words import (
    TEXT,
    YES_NO,
    Json,
    by_name,
    one_of,
    or_null,
    record,
    several,
    shape,
    told,
)


def _block(name: str, about: str, /, **fields: Json) -> Json:
    """The shape of one kind of block; `kind` tells them apart."""
    return shape(f"{name.title()}Block", record(about, kind=one_of(name), **fields))


_KINDS = {
    "words": _block("words", "A paragraph.", text=TEXT, strong=YES_NO),
    "items": _block(
        "items",
        "A list.",
        numbered=YES_NO,
        items=several(record("An item.", name=or_null(TEXT), text=TEXT, under=several(TEXT))),
    ),
    "table": _block(
        "table",
        "A table.",
        key=TEXT,
        caption=TEXT,
        columns=several(record("A column.", key=TEXT, heading=TEXT, figures=YES_NO)),
        rows=several(by_name(TEXT, "A row by the keys of the columns.")),
    ),
    "picture": _block(
        "picture",
        "A drawing, as SVG and in words; format=svg&drawing={key} gives it alone.",
        key=TEXT,
        caption=TEXT,
        marks=several(TEXT),
        svg=TEXT,
    ),
}
_SECTION = shape("HandoutSection", record(
    "A section of the page.",
    key=TEXT,
    heading=TEXT,
    blocks=several({
        "oneOf": list(_KINDS.values()),
        "discriminator": {
            "propertyName": "kind",
            "mapping": {kind: block["$ref"] for kind, block in _KINDS.items()},
        },
    }),
))  # fmt: skip
HANDOUT = answer(
    "HandoutAnswer",
    "One page: what it is, what to buy, how to cut it and put it together, what is still open.",
    title=TEXT,
    summary=TEXT,
    made=told({"type": "string", "format": "date"}, "The date on the page."),
    verdict=VERDICT,
    not_judged=NOT_JUDGED,
    sections=several(_SECTION),
)
