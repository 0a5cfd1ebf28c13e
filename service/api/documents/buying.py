"""What wood costs, what is on hand, and what the plan says to buy."""

import re
from typing import Any, ClassVar

from marshmallow import ValidationError, post_load, validates_schema

from service.api.documents.fields import Field, Id, Length, Money, Quantity, Text, Whole, Word
from service.api.documents.forms import Form
from service.api.documents.gathered import Object, Several
from service.api.documents.schemas import Book, Json, schema_of
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

    stock = Text(required=True)
    length = Length()
    width = Length()
    price = Money(required=True)
    per = Word("piece", "foot", "board-foot", "sheet")
    at_most = Whole(0, 100_000)
    wood = Text()


class PriceListForm(Form):
    """Prices in one currency."""

    currency = Currency(required=True)
    prices = Several(Object(PriceForm), 0, 1000, required=True)


class DefectForm(Form):
    """A stretch of an offcut that no part may span."""

    start = Length(zero=True, required=True, data_key="from")
    end = Length(required=True, data_key="to")

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

    stock = Text(required=True)
    length = Length(required=True)
    width = Length()
    quantity = Whole(1, 1000)
    defects = Several(Object(DefectForm), 0, 50)
    reserved = Several(Id(), 1, 100, data_key="for")


class PlannedForm(Form):
    """A board or sheet that the plan says to buy."""

    makes: ClassVar[Any] = Planned

    stock = Text(required=True)
    length = Length(required=True)
    width = Length()
    quantity = Whole(1, 1000)
    reserved = Several(Id(), 1, 100, data_key="for")


class StoreCutsForm(Form):
    """Cuts that the store makes."""

    makes: ClassVar[Any] = StoreCuts

    free = Whole(0, 1000)
    each = Money()
    at_most = Whole(0, 1000)


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

    price_list = Object(PriceListForm)
    offcuts = Several(Object(OffcutForm), 0, 500)
    planned = Several(Object(PlannedForm), 0, 500)
    budget = Money()
    keep_at_least = Length(zero=True)
    spare = Whole(0, 100)
    store_cuts = Object(StoreCutsForm)
    tax_percent = Percent()

    @post_load
    def made(self, data: dict[str, Any], **_: Any) -> Any:
        """The buying, with the price list's currency and prices in it."""
        return Buying(**data.pop("price_list", {}), **data)
