"""The whole build document, and the units that hold in it."""

from collections.abc import Mapping
from typing import Any

from marshmallow import post_load

from service.api.documents.buying import BuyingForm
from service.api.documents.fields import UNITS, Text, Word
from service.api.documents.forms import Form
from service.api.documents.gathered import Object, Several
from service.api.documents.joints import JointForm
from service.api.documents.loads import LoadForm
from service.api.documents.parts import PartForm
from service.api.documents.place import MovingForm, PeopleForm, PlaceForm, StandsForm
from service.api.documents.runs import RunForm
from service.api.documents.shapes import AnyShape
from service.api.documents.shop import ShopForm
from service.api.documents.steps import StepForm
from service.api.documents.stocks import stock_notes
from service.api.documents.telling import told
from service.domain.build import Build

MOST_PARTS = 500


class BuildForm(Form):
    """One build; bare numbers in it are lengths in its `units`."""

    name = Text(
        required=True, metadata=told("What the piece is called, 1 to 80 characters.", "Book ledge")
    )
    units = Word(
        "in",
        "mm",
        metadata=told(
            "What a bare number in this document is in: in for inches, mm for millimeters.",
            "in",
            left_out="in",
        ),
    )
    region = Text(
        metadata=told(
            "Where the wood is bought, which decides what its names mean: a region of the tables.",
            "us",
            left_out="us",
        )
    )
    wood = Text(
        metadata=told(
            "The wood of every part that doesn't name its own, as a shop calls it.",
            "spf",
            left_out="unknown: what needs a wood is not judged, and the answer says so",
        )
    )
    place = Object(
        PlaceForm,
        metadata=told(
            "Where the piece will be.",
            {"where": "indoors"},
            left_out="nothing is taken for granted about its place",
        ),
    )
    uses = Several(
        Text(),
        0,
        20,
        metadata=told(
            "What the piece is for: keys of the table uses.", ["shelf"], left_out="no use is known"
        ),
    )
    people = Object(
        PeopleForm,
        metadata=told(
            "Who is near the piece.",
            {"youngest": 6},
            left_out="nobody is named, so cautions about small children are left out",
        ),
    )
    parts = Several(
        Object(PartForm),
        1,
        MOST_PARTS,
        required=True,
        metadata=told(
            "The parts list, in the order in which answers name the parts.",
            [{"id": "shelf", "stock": "1x6", "length": "24"}],
        ),
    )
    joints = Several(
        Object(JointForm),
        0,
        1000,
        metadata=told(
            "Which part is fastened to which, and with what.",
            [{"id": "shelf-end", "through": "end", "into": "shelf", "enters": "end"}],
            left_out="no joint is judged",
        ),
    )
    runs = Several(
        Object(RunForm),
        0,
        200,
        metadata=told(
            "Lines along which sizes must add up or go into an opening.",
            [{"id": "width", "pieces": [{"part": "shelf"}], "equals": "24"}],
            left_out="no sum is checked",
        ),
    )
    shapes = Several(
        AnyShape(),
        0,
        100,
        metadata=told(
            "What parts form together where anything leans, is mitered or evenly spaced.",
            [
                {
                    "id": "legs",
                    "shape": "leaning",
                    "parts": {"leg": ["leg"]},
                    "height": "16",
                    "lean": 10,
                }
            ],
            left_out="no part is held against a shape",
        ),
    )
    carried = Several(
        Object(LoadForm),
        0,
        200,
        data_key="loads",
        attribute="loads",
        metadata=told(
            "What parts carry and how they are held.",
            [{"part": "shelf", "carries": "30 lb"}],
            left_out="sag and strength are not judged",
        ),
    )
    steps = Several(
        Object(StepForm),
        0,
        200,
        metadata=told(
            "What is done, in order.",
            [{"do": "cut"}, {"do": "assemble"}],
            left_out="nothing is found about the order; times are worked out for the usual order",
        ),
    )
    shop = Object(
        ShopForm,
        metadata=told(
            "What there is to cut and drive with.",
            {"saws": [{"kind": "miter-saw"}], "kerf": "1/8"},
            left_out="every tool counts as at hand, and no saw sets a limit",
        ),
    )
    buying = Object(
        BuyingForm,
        metadata=told(
            "What wood costs, what is on hand, and what the plan says to buy.",
            {"budget": "60.00"},
            left_out="no price is known: the plan buys the least wood",
        ),
    )
    stands = Object(
        StandsForm,
        metadata=told(
            "How the piece stands, for tipping over and racking.",
            {"height": "40", "depth": "11"},
            left_out="tipping over is not judged",
        ),
    )
    moving = Several(
        Object(MovingForm),
        0,
        100,
        metadata=told(
            "Lids, drawers and doors.", [{"kind": "lid", "part": "top"}], left_out="nothing moves"
        ),
    )
    stocks = stock_notes(
        metadata=told(
            "What is known about all parts of a stock, by the stock's name.",
            {"1x6": {"wood": "red oak"}},
            left_out="only what the tables and the parts themselves say",
        )
    )

    def __init__(self, most_parts: int = MOST_PARTS, **options: Any) -> None:
        super().__init__(**options)
        parts = self.fields["parts"]
        assert isinstance(parts, Several)
        parts.most = most_parts

    def load(self, data: Any, **options: Any) -> Any:
        """The build. Its units hold for everything in it, also inside another document."""
        metric = isinstance(data, Mapping) and data.get("units") == "mm"
        before = UNITS.set("mm" if metric else "in")
        try:
            return super().load(data, **options)
        finally:
            UNITS.reset(before)

    @post_load
    def made(self, data: dict[str, Any], **_: Any) -> Any:
        """The build as a frozen value."""
        return Build(**data.pop("people", {}), **data)
