"""Parts: the lines of a parts list."""

from dataclasses import fields
from typing import Any

from marshmallow import ValidationError, post_load, validates_schema

from service.api.documents.cuts import CutoutForm, EdgeForm, EndForm
from service.api.documents.fields import Id, Length, Whole, Word
from service.api.documents.gathered import EitherForm, Object, Several, WordSet
from service.api.documents.stocks import GluedFromForm, StockForm, StockName, StockNoteForm
from service.api.documents.telling import told
from service.domain.build import NOTHING_NOTED, Part, StockNote

FACES = ("front", "back", "top", "bottom", "ends")

_KNOWN = tuple(field.name for field in fields(StockNote))


class PartForm(StockNoteForm):
    """One line of the parts list."""

    id = Id(
        required=True,
        metadata=told(
            "What the other entries call this part: letters, digits, spaces and a few signs.",
            "shelf",
        ),
    )
    stock = EitherForm(
        StockName(),
        StockForm,
        required=True,
        metadata=told(
            "What it is cut from: a name as a shop says it, or its size.",
            "1x6",
            {"thickness": "18 mm", "width": "140 mm"},
        ),
    )
    length = Length(
        metadata=told(
            "Finished length with the grain, in the document's units or with its unit.",
            "20 3/4",
            "527 mm",
            left_out="open: what needs it is not judged",
        )
    )
    quantity = Whole(1, 1000, metadata=told("How many alike, 1 to 1000.", 2, left_out="1"))
    width = Length(
        metadata=told(
            "Finished width across the grain, a length; less than the stock's: it is ripped.",
            "4",
            left_out="the stock's width",
        )
    )
    thickness = Length(
        metadata=told(
            "Finished thickness, the smallest size, a length; less than the stock's: it is planed.",
            "5/8",
            left_out="the stock's thickness",
        )
    )
    grain = Word(
        "length",
        "width",
        "any",
        metadata=told(
            "Which way the grain runs on a panel part: along its length, along its width, or any.",
            "length",
            left_out="length",
        ),
    )
    glued_from = Object(
        GluedFromForm,
        metadata=told(
            "The boards that it is glued up from, edge to edge.",
            {"boards": 3, "edge_loss": "1/16"},
            left_out="one board",
        ),
    )
    shows = WordSet(
        *FACES,
        metadata=told(
            "Sides that must stay clean: front, back, top, bottom (the two edges) or ends.",
            ["front"],
            left_out="no side must",
        ),
    )
    fit = Word(
        "to-list",
        "to-fit",
        metadata=told(
            "Whether it is cut to the list, or last, to fit, measured from the piece.",
            "to-fit",
            left_out="to-list",
        ),
    )
    ends = Several(
        Object(EndForm),
        2,
        2,
        metadata=told(
            "How its two ends are cut, the first at the left as it lies on its back.",
            [{"miter": 45}, {"miter": 45}],
            left_out="both square",
        ),
    )
    ends_lean = Word(
        "opposite",
        "same",
        metadata=told(
            "opposite: the long points of both ends are on one side; same: on different ones.",
            "opposite",
            left_out="opposite, and the answer says that it was taken so",
        ),
    )
    edges = Several(
        Object(EdgeForm),
        2,
        2,
        metadata=told(
            "How its two long edges are cut, the bottom one first; an edge has a bevel only.",
            [{"bevel": 10}, {}],
            left_out="both square",
        ),
    )
    edges_lean = Word(
        "opposite",
        "same",
        metadata=told(
            "How the two edges lie to each other: opposite or same.",
            "opposite",
            left_out="opposite, and the answer says that it was taken so",
        ),
    )
    measured = Word(
        "long-to-long",
        "short-to-short",
        "long-to-short",
        "short-to-long",
        "center",
        metadata=told(
            "Between which points of slanted ends the length is measured.",
            "long-to-long",
            left_out="long-to-long, and the answer says that it was taken so",
        ),
    )
    measured_on = Word(
        "front",
        "back",
        metadata=told(
            "On which face the length and width are measured: front or back.",
            "front",
            left_out="front",
        ),
    )
    mirrored = Whole(
        0, 1000, metadata=told("How many of quantity are mirror images.", 1, left_out="0")
    )
    cutouts = Several(
        Object(CutoutForm),
        0,
        100,
        metadata=told(
            "Wood taken out of it: slots, dadoes, rabbets, laps, notches and holes.",
            [{"kind": "hole", "on": "face", "at": ["2"], "diameter": "1"}],
            left_out="none",
        ),
    )

    @validates_schema
    def _no_more_mirrored_than_there_are(self, data: dict[str, Any], **_: Any) -> None:
        if data.get("mirrored", 0) > data.get("quantity", 1):
            raise ValidationError("More are mirrored than there are.", field_name="mirrored")

    @post_load
    def made(self, data: dict[str, Any], **_: Any) -> Any:
        """The part, with what is known about its own piece of stock."""
        noted = {name: data.pop(name) for name in _KNOWN if name in data}
        known = StockNote(**noted) if noted else NOTHING_NOTED
        return Part(known=known, length=data.pop("length", None), **data)
