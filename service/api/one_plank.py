"""One plank under one load, as a question states it and as a build holds it."""

from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction
from typing import Any

from marshmallow import ValidationError, validates_schema

from service import quantities
from service.api.documents.fields import UNITS, CarriedLoad, Length, Quantity, Text, Word
from service.api.documents.gathered import stock_or_sizes
from service.api.documents.loads import SagLimit, Stiffness, in_pounds
from service.api.documents.place import WHERE
from service.api.documents.schemas import Book, Json, any_of, schema_of
from service.api.one_piece import PIECE, piece_of
from service.api.parameters import NumberText, SeveralTexts, UnitsForm, WholeText
from service.domain.build import Build, Load, Part, Place, PointLoad, Stock
from service.domain.catalog import Catalog, Practice
from service.domain.errors import Complaint, UnknownName
from service.domain.known_names import known_key
from service.quantities import patterns

BOOKS = "books"
TRIAL_SPAN = Fraction(36)  # inches, to start from where the longest span is asked for


class AmountOrBooks(CarriedLoad):
    """A load, or `books`: what a row of books of average size weighs."""

    def read(self, value: Any) -> Any:
        return value if value == BOOKS else super().read(value)


class PointText(Quantity[PointLoad]):
    """A weight at a place: `10in:90lb`."""

    def read(self, value: Any) -> PointLoad:
        at, colon, weight = str(value).partition(":")
        load = quantities.load(weight) if colon else None
        if load is None or load.kind != "total":
            raise ValidationError("Each point is a place and a weight, like 10in:90lb.")
        return PointLoad(quantities.length(at, UNITS.get(), zero=True), load.amount)


@schema_of.register
def _(field: AmountOrBooks, book: Book) -> Json:
    books = {"type": "string", "enum": [BOOKS]}
    return any_of([schema_of.dispatch(CarriedLoad)(field, book), books])


@schema_of.register
def _(field: PointText, book: Book) -> Json:
    return book.named("WeightAt", {"type": "string", "pattern": patterns.WEIGHT_AT_TEXT})


class SagQuery(UnitsForm):
    """A plank, how it lies and is held, and what it carries."""

    stock = Text()
    width = Length()
    thickness = Length()
    region = Text(load_default="us")
    length = Length()
    span = Length()
    laid = Word("flat", "edge", load_default="flat")
    carries = AmountOrBooks(data_key="load")
    spread = Word("even", "middle", "points", load_default="even")
    points = SeveralTexts(PointText(), 1, 20)
    held = Word("resting", "both-ends", "one-end", "several")
    supports = SeveralTexts(Length(zero=True), 2, 20)
    wood = Text()
    grade = Text()
    stiffness = Stiffness()
    boards = WholeText(1, 100, load_default=1)
    lip = Text()
    lip_joined = Word("glued", "nailed", "screwed", load_default="glued")
    limit = SagLimit()
    stays = Word("yes", "no")
    use = Text()
    where = Word(*WHERE)
    moisture = NumberText(0, 200)

    @validates_schema
    def _enough(self, data: dict[str, Any], **_: Any) -> None:
        stock_or_sizes(data)
        if "carries" not in data and "points" not in data:
            raise ValidationError("Say load, points, or both.", field_name="load")
        fixed = "points" in data or data.get("held") == "several"
        if "span" not in data and fixed and "supports" not in data:
            raise ValidationError(
                "This is required with points and with several supports.", field_name="span"
            )


def build_of(asked: Mapping[str, Any], catalog: Catalog) -> Build:
    """The question as a build of one plank, and its lip, under one load."""
    span, use = asked.get("span"), asked.get("use")
    places = asked.get("supports", ())
    if use is not None:
        known_key(catalog, "use", asked["region"], use, "use")
    length = asked.get("length") or span or (max(places) if places else TRIAL_SPAN)
    part = piece_of(asked, catalog, length)
    parts: list[Part] = [part]
    lips: tuple[tuple[str, str], ...] = ()
    if "lip" in asked:
        parts.append(Part("lip", lip_stock(asked, catalog), length, known=part.known))
        lips = (("lip", asked["lip_joined"]),)
    load = Load(
        PIECE,
        points=asked.get("points", ()),
        spread=asked["spread"],
        span=span or (None if places else TRIAL_SPAN),
        held=asked.get("held"),
        supports=places,
        laid=asked["laid"],
        stiffened_by=lips,
        stays=asked.get("stays") == "yes",
        use=use,
        limit=asked.get("limit"),
        boards=asked["boards"],
        grade=asked.get("grade"),
        stiffness=asked.get("stiffness"),
    )
    place = Place(where=asked.get("where"))
    load = replace(load, **amount_of(asked, catalog))
    return Build(
        "one plank", asked["units"], asked["region"], place=place, parts=tuple(parts), loads=(load,)
    )


def amount_of(asked: Mapping[str, Any], catalog: Catalog) -> dict[str, Any]:
    """Pounds in all, an inch, or a square inch; books by the table."""
    load = asked.get("carries")
    if load is None:
        return {}
    if load == BOOKS:
        load = quantities.Load("per-foot", books(catalog).high or Fraction(0))
    return in_pounds(load)


def books(catalog: Catalog) -> Practice:
    """The row that says what a foot of shelf full of books weighs."""
    return catalog.standing["load.books"]


def lip_stock(asked: Mapping[str, Any], catalog: Catalog) -> Stock:
    """A lip by its stock, or by thickness and width: `3/4x1 1/2in`. Raises UnknownName."""
    text, region = asked["lip"], asked["region"]
    if catalog.stock_key(region, text) is not None:
        return Stock(name=text)
    try:
        thickness, width = quantities.size_pair(text, asked["units"])
    except quantities.QuantityError as refusal:
        told = f'Nothing sold in region {region} is called "{text}". As a size: {refusal}'
        raise UnknownName(Complaint("lip", told)) from None
    return Stock(thickness=thickness, width=width)
