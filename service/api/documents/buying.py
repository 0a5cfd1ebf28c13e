"""What wood costs, what is on hand, and what the plan says to buy."""

import re
from typing import Any, ClassVar

from marshmallow import ValidationError, post_load, validates_schema

from service.api.documents.fields import Field, Id, Length, Money, Quantity, Text, Whole, Word
from service.api.documents.forms import Form
from service.api.documents.gathered import Object, Several
from service.api.documents.schemas import Book, Json, schema_of
from service.api.documents.stocks import old_paint_field, reclaimed_field
from service.api.documents.telling import told
from service.domain.build import Buying, Offcut, Planned, Price, StoreCuts

_CURRENCY = re.compile("[A-Z]{3}")


class Currency(Field[str]):
    """Three capital letters (ISO 4217)."""

    def _deserialize(self, value: Any, attr: str | None, data: Any, **_: Any) -> str:
        if not isinstance(value, str) or not _CURRENCY.fullmatch(value):
            raise ValidationError("A currency is three capital letters, like USD.")
        return value


@schema_of.register
def _(field: Currency, book: Book) -> Json:
    return {"type": "string", "pattern": f"^{_CURRENCY.pattern}$"}


class PriceForm(Form):
    """A board or sheet for sale."""

    makes: ClassVar[Any] = Price

    stock = Text(required=True, metadata=told("The stock that is for sale.", "1x6"))
    length = Length(
        metadata=told(
            "Its length; for a sheet the longer side.",
            "96",
            left_out="the price holds for every length of it",
        )
    )
    width = Length(
        metadata=told(
            "Width of a sheet, a length.",
            "48",
            left_out="the stock is a board, or the sheet's usual width",
        )
    )
    price = Money(
        required=True,
        metadata=told("What it costs, a decimal string in the list's currency.", "7.80"),
    )
    per = Word(
        "piece",
        "foot",
        "board-foot",
        "sheet",
        metadata=told("What the price is for.", "piece", left_out="piece"),
    )
    at_most = Whole(
        0, 100_000, metadata=told("How many of it can be had.", 4, left_out="as many as are wanted")
    )
    wood = Text(
        metadata=told(
            "The wood that has this price, as a shop calls it.",
            "red oak",
            left_out="every wood of the stock",
        )
    )


class PriceListForm(Form):
    """Prices in one currency."""

    currency = Currency(required=True, metadata=told("Three capital letters (ISO 4217).", "USD"))
    prices = Several(
        Object(PriceForm),
        0,
        1000,
        required=True,
        metadata=told(
            "Boards and sheets for sale.", [{"stock": "1x6", "length": "96", "price": "7.80"}]
        ),
    )


class DefectForm(Form):
    """A stretch of an offcut that no part may span."""

    start = Length(
        zero=True,
        required=True,
        data_key="from",
        metadata=told(
            "Where the bad stretch begins, from one end of the piece, a length.",
            "12",
        ),
    )
    end = Length(
        required=True,
        data_key="to",
        metadata=told("Where it ends, from the same end, a length.", "15"),
    )

    @validates_schema
    def _ends_after_its_start(self, data: dict[str, Any], **_: Any) -> None:
        if data["end"] <= data["start"]:
            raise ValidationError("A defect ends after it starts.", field_name="to")

    @post_load
    def made(self, data: dict[str, Any], **_: Any) -> Any:
        """The pair of both."""
        return data["start"], data["end"]


class OffcutForm(Form):
    """A piece on hand."""

    makes: ClassVar[Any] = Offcut

    stock = Text(required=True, metadata=told("The stock of the piece on hand.", "1x6"))
    length = Length(required=True, metadata=told("Its length.", "31"))
    width = Length(
        metadata=told(
            "Its width, a length; for a piece of a sheet.", "20", left_out="the stock's full width"
        )
    )
    quantity = Whole(1, 1000, metadata=told("How many alike, 1 to 1000.", 2, left_out="1"))
    defects = Several(
        Object(DefectForm),
        0,
        50,
        metadata=told(
            "Stretches that no part may span.", [{"from": "12", "to": "15"}], left_out="none"
        ),
    )
    reserved = Several(
        Id(),
        1,
        100,
        data_key="for",
        metadata=told(
            "Ids of the parts that it is kept for.",
            ["shelf"],
            left_out="any part may have it",
        ),
    )
    reclaimed = reclaimed_field()
    old_paint = old_paint_field()


class PlannedForm(Form):
    """A board or sheet that the plan says to buy."""

    makes: ClassVar[Any] = Planned

    stock = Text(required=True, metadata=told("The stock that is to be bought.", "1x6"))
    length = Length(required=True, metadata=told("Its length; for a sheet the longer side.", "96"))
    width = Length(
        metadata=told("Width of a sheet, a length.", "48", left_out="the stock's full width")
    )
    quantity = Whole(1, 1000, metadata=told("How many of it, 1 to 1000.", 2, left_out="1"))
    reserved = Several(
        Id(),
        1,
        100,
        data_key="for",
        metadata=told(
            "Ids of the parts that it is kept for.",
            ["shelf"],
            left_out="any part may have it",
        ),
    )


class StoreCutsForm(Form):
    """Cuts that the store makes."""

    makes: ClassVar[Any] = StoreCuts

    free = Whole(
        0, 1000, metadata=told("How many cuts the store makes for nothing.", 2, left_out="0")
    )
    each = Money(
        metadata=told(
            "What each further cut costs, a decimal string.",
            "0.50",
            left_out="further cuts cost nothing",
        )
    )
    at_most = Whole(
        0,
        1000,
        metadata=told(
            "How many cuts the store makes at most.", 6, left_out="as many as are wanted"
        ),
    )


class Percent(Quantity[Any]):
    """A tax rate as a decimal string or whole number, 0 to 100."""

    def read(self, value: Any) -> Any:
        percent = Money().read(value)
        if percent > 100:
            raise ValidationError("This goes from 0 to 100 percent.")
        return percent


@schema_of.register
def _(field: Percent, book: Book) -> Json:
    text = r"^(?:0{0,8}[0-9]{1,2}(?:\.[0-9]{1,4})?|0{0,7}100(?:\.0{1,4})?)$"
    return {"type": ["string", "integer"], "pattern": text, "minimum": 0, "maximum": 100}


class BuyingForm(Form):
    """Prices, offcuts, the plan, and what limits them."""

    price_list = Object(
        PriceListForm,
        metadata=told(
            "What wood costs.",
            {"currency": "USD", "prices": [{"stock": "1x6", "price": "7.80"}]},
            left_out="no price is known: the plan buys the least wood",
        ),
    )
    offcuts = Several(
        Object(OffcutForm),
        0,
        500,
        metadata=told(
            "Pieces on hand, which cost nothing.",
            [{"stock": "1x6", "length": "31"}],
            left_out="none",
        ),
    )
    planned = Several(
        Object(PlannedForm),
        0,
        500,
        metadata=told(
            "What the plan says to buy; only the stocks that it lists are judged.",
            [{"stock": "1x6", "length": "96", "quantity": 2}],
            left_out="whether the planned wood is enough is not judged",
        ),
    )
    budget = Money(
        metadata=told(
            "What all of it may cost, a decimal string in the list's currency.",
            "60.00",
            left_out="no limit",
        )
    )
    keep_at_least = Length(
        zero=True,
        metadata=told(
            "The shortest rest that is worth keeping, a length.",
            "12",
            left_out="6 in for sheets; no rest of a board counts as kept",
        ),
    )
    spare = Whole(
        0,
        100,
        metadata=told(
            "How many boards of each stock are bought on top, 0 to 100.", 1, left_out="0"
        ),
    )
    store_cuts = Object(
        StoreCutsForm,
        metadata=told(
            "Cuts that the store makes.",
            {"free": 2, "each": "0.50"},
            left_out="the store cuts nothing for a fee; sheets are cut as they come",
        ),
    )
    tax_percent = Percent(
        metadata=told(
            "Sales tax in percent, a decimal string, 0 to 100.", "8.25", left_out="none is added"
        )
    )

    @post_load
    def made(self, data: dict[str, Any], **_: Any) -> Any:
        """The buying, with the price list's currency and prices in it."""
        return Buying(**data.pop("price_list", {}), **data)
