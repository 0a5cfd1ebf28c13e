"""Parts, and how their ends, edges and cutouts are cut."""

from typing import Any, ClassVar

from marshmallow import ValidationError, post_load, validates_schema

from service.api.documents.fields import Angle, Id, Length, Number, Text, Whole, Word, YesNo
from service.api.documents.forms import Form
from service.api.documents.gathered import EitherForm, Named, Object, Several, WordSet
from service.api.documents.schemas import Book, Json, demands_one_of, schema_of
from service.domain.build import Cutout, End, GluedFrom, Part, Stock, StockNote

FACES = ("front", "back", "top", "bottom", "ends")


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

    thickness = Length()
    width = Length()
    diameter = Length()

    @validates_schema
    def _board_panel_or_round(self, data: dict[str, Any], **_: Any) -> None:
        if ("diameter" in data) == ("thickness" in data) or {"diameter", "width"} <= set(data):
            raise ValidationError("Say thickness and width, thickness alone, or diameter.")


class Sides(WordSet):
    """On which sides a long point is: one of each two that lie across from each other."""

    opposites = (("top", "bottom"), ("front", "back"))

    def __init__(self, **options: Any) -> None:
        super().__init__(*(side for both in self.opposites for side in both), **options)

    def _deserialize(self, value: Any, attr: str | None, data: Any, **options: Any) -> Any:
        sides = super()._deserialize(value, attr, data, **options)
        if any(sides.issuperset(both) for both in self.opposites):
            raise ValidationError("The long point is on one of two sides.")
        return sides


@schema_of.register
def _(field: Sides, book: Book) -> Json:
    both = ([{"contains": {"const": side}} for side in pair] for pair in field.opposites)
    listed = schema_of.dispatch(WordSet)(field, book)
    return listed | {"not": {"anyOf": [{"allOf": pair} for pair in both]}}


class EdgeForm(Form):
    """One long edge: degrees off square through the thickness."""

    makes: ClassVar[Any] = End

    bevel = Angle()
    long = Sides()


class EndForm(EdgeForm):
    """One cut end, which may also turn across the face."""

    miter = Angle()


class CutoutForm(Form):
    """Wood taken out of a part."""

    demands = (
        {
            "if": {"properties": {"kind": {"const": "hole"}}, "required": ["kind"]},
            "then": {"not": {"required": ["width"]}},
            "else": {"not": {"required": ["diameter"]}},
        },
    )

    kind = Word("slot", "dado", "rabbet", "lap", "notch", "hole", required=True)
    on = Word("face", "back", "edge", "end", required=True)
    at = Several(Length(zero=True), 0, 200)
    width = Length()
    diameter = Length()
    depth = Length()
    fits = Id(data_key="for")
    runs = Word("across", "along", load_default="across")

    @validates_schema
    def _only_holes_are_round(self, data: dict[str, Any], **_: Any) -> None:
        hole = data.get("kind") == "hole"
        wrong = "width" if hole else "diameter"
        if wrong in data and "kind" in data:
            told = "A hole has a diameter." if hole else "Only a hole has a diameter."
            raise ValidationError(told, field_name=wrong)

    @post_load
    def made(self, data: dict[str, Any], **_: Any) -> Any:
        """The cutout; its size is the width or the diameter."""
        width, diameter = data.pop("width", None), data.pop("diameter", None)
        optional = {"at": (), "depth": None, "fits": None}
        return Cutout(size=width or diameter, **(optional | data))


class GluedFromForm(Form):
    """Boards glued edge to edge into one part."""

    makes: ClassVar[Any] = GluedFrom

    boards = Whole(2, 50, required=True)
    edge_loss = Length(zero=True, required=True)


class StockNoteForm(Form):
    """What is known about a stock, or about one part's."""

    makes: ClassVar[Any] = StockNote

    wood = Text()
    treated = YesNo()
    moisture = Number(0, 200)
    measured_thickness = Length()
    measured_width = Length()


_KNOWN = ("wood", "treated", "moisture", "measured_thickness", "measured_width")


class PartForm(StockNoteForm):
    """One line of the parts list."""

    id = Id(required=True)
    stock = EitherForm(StockName(), StockForm, required=True)
    length = Length()
    quantity = Whole(1, 1000)
    width = Length()
    thickness = Length()
    grain = Word("length", "width", "any")
    glued_from = Object(GluedFromForm)
    shows = WordSet(*FACES)
    fit = Word("to-list", "to-fit")
    ends = Several(Object(EndForm), 2, 2)
    ends_lean = Word("opposite", "same")
    edges = Several(Object(EdgeForm), 2, 2)
    edges_lean = Word("opposite", "same")
    measured = Word("long-to-long", "short-to-short", "long-to-short", "short-to-long", "center")
    measured_on = Word("front", "back")
    mirrored = Whole(0, 1000)
    cutouts = Several(Object(CutoutForm), 0, 100)

    @validates_schema
    def _no_more_mirrored_than_there_are(self, data: dict[str, Any], **_: Any) -> None:
        if data.get("mirrored", 0) > data.get("quantity", 1):
            raise ValidationError("More are mirrored than there are.", field_name="mirrored")

    @post_load
    def made(self, data: dict[str, Any], **_: Any) -> Any:
        """The part, with what is known about its own piece of stock."""
        known = StockNote(**{name: data.pop(name) for name in _KNOWN if name in data})
        return Part(known=known, length=data.pop("length", None), **data)


def stock_notes() -> Named:
    """What is known about all parts of a stock, by the stock's name."""
    return Named(Text(), Object(StockNoteForm), 100)
