"""What a part is cut from: a stock by name or by size, and what is known about it."""

from typing import Any, ClassVar

from marshmallow import ValidationError, validates_schema

from service.api.documents.fields import Length, Number, Text, Whole, YesNo
from service.api.documents.forms import Form
from service.api.documents.gathered import Named, Object
from service.api.documents.schemas import demands_one_of
from service.api.documents.telling import told
from service.domain.build import GluedFrom, Stock, StockNote


def reclaimed_field() -> YesNo:
    """Whether wood was used before."""
    return YesNo(
        metadata=told(
            "Whether the wood was used before, as in a pallet or an old board: metal may be in it.",
            True,
            left_out="nothing is said of it",
        )
    )


def old_paint_field() -> YesNo:
    """Whether wood carries paint of unknown age."""
    return YesNo(
        metadata=told(
            "Whether old paint is on the wood: it may hold lead.",
            True,
            left_out="nothing is said of it",
        )
    )


class StockName(Text):
    """A stock by name, as a shop spells it."""

    def _deserialize(self, value: Any, attr: str | None, data: Any, **_: Any) -> Any:
        return Stock(name=super()._deserialize(value, attr, data))


class StockForm(Form):
    """A stock stated by its size: a board, a panel by thickness, or a round."""

    makes: ClassVar[Any] = Stock
    demands = (
        demands_one_of("diameter", "thickness"),
        {"not": {"required": ["diameter", "width"]}},
    )

    thickness = Length(
        metadata=told(
            "Thickness in the document's units or with its unit; alone it means a panel.",
            "18 mm",
            left_out="the stock is a round, given by its diameter",
        )
    )
    width = Length(
        metadata=told(
            "Width of a board, in the document's units or with its unit.",
            "5 1/2",
            left_out="the stock is a panel, if it has a thickness",
        )
    )
    diameter = Length(
        metadata=told(
            "Diameter of a round, in the document's units or with its unit.",
            "1",
            left_out="the stock is a board or a panel",
        )
    )

    @validates_schema
    def _board_panel_or_round(self, data: dict[str, Any], **_: Any) -> None:
        if ("diameter" in data) == ("thickness" in data) or {"diameter", "width"} <= set(data):
            raise ValidationError("Say thickness and width, thickness alone, or diameter.")


class GluedFromForm(Form):
    """Boards glued edge to edge into one part."""

    makes: ClassVar[Any] = GluedFrom

    boards = Whole(
        2, 50, required=True, metadata=told("How many boards are glued edge to edge, 2 to 50.", 3)
    )
    edge_loss = Length(
        zero=True,
        required=True,
        metadata=told(
            "How much width each seam costs when its edges are planed straight, a length.", "1/16"
        ),
    )


class StockNoteForm(Form):
    """What is known about a stock, or about one part's."""

    makes: ClassVar[Any] = StockNote

    wood = Text(
        metadata=told("Its wood, as a shop calls it.", "red oak", left_out="the wood of the build")
    )
    treated = YesNo(
        metadata=told(
            "Whether the wood is preservative-treated.", True, left_out="not known to be treated"
        )
    )
    moisture = Number(
        0,
        200,
        metadata=told(
            "Its moisture in percent of the dry wood's weight, 0 to 200.",
            12,
            left_out="12, dry",
        ),
    )
    measured_thickness = Length(
        metadata=told(
            "Thickness as measured, a length; it wins over the tables.",
            "23/32",
            left_out="the table's size, with its tolerance",
        )
    )
    measured_width = Length(
        metadata=told(
            "Width as measured, a length; it wins over the tables.",
            "5 7/16",
            left_out="the table's size, with its tolerance",
        )
    )
    reclaimed = reclaimed_field()
    old_paint = old_paint_field()


def stock_notes(**options: Any) -> Named:
    """What is known about all parts of a stock, by the stock's name."""
    return Named(Text(), Object(StockNoteForm), 100, **options)
