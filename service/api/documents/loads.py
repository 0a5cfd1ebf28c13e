"""What parts carry, and how they are held."""

import re
from fractions import Fraction
from typing import Any, ClassVar

from marshmallow import ValidationError, post_load

from service import quantities
from service.api.documents.fields import (
    UNITS,
    CarriedLoad,
    Id,
    Length,
    Quantity,
    Text,
    Weight,
    Whole,
    Word,
    YesNo,
)
from service.api.documents.forms import Form
from service.api.documents.gathered import Object, Several
from service.api.documents.schemas import Book, Json, any_of, schema_of, text_of
from service.domain.build import Limit, Load, PointLoad
from service.quantities import Load as CarriedAmount
from service.quantities import patterns

# The domain counts pounds an inch, people say pounds a foot.
_PER = {"total": ("total", 1), "per-foot": ("inch", 12), "per-square-foot": ("square-inch", 144)}


_SHARE = re.compile(r"(?:L|l|span) ?/ ?([1-9][0-9]{0,3})")
NAMED_LIMITS = ("eye", "shelf", "floor")


class SagLimit(Quantity[Limit]):
    """`eye`, `shelf`, `floor`, a share of the span like `L/240`, or a length."""

    def read(self, value: Any) -> Limit:
        if isinstance(value, str):
            if value in NAMED_LIMITS:
                return Limit(name=value)  # type: ignore[arg-type]  # one of the words above
            if share := _SHARE.fullmatch(value):
                return Limit(share=Fraction(1, int(share[1])))
        try:
            return Limit(size=quantities.length(value, UNITS.get()))
        except quantities.QuantityError as refusal:
            raise ValidationError(
                "This must be eye, shelf, floor, a share of the span like L/240, or a length. "
                f"As a length: {refusal}"
            ) from None


class Stiffness(Quantity[Fraction]):
    """Modulus of elasticity in psi, from text that says its unit: `1200000psi`, `9.7 GPa`."""

    def read(self, value: Any) -> Fraction:
        return quantities.pressure(value)


@schema_of.register
def _(field: SagLimit, book: Book) -> Json:
    share = {"type": "string", "pattern": f"^{_SHARE.pattern}$"}
    named = {"type": "string", "enum": list(NAMED_LIMITS)}
    return any_of([named, share, schema_of(Length(), book)])


@schema_of.register
def _(field: Stiffness, book: Book) -> Json:
    return book.named("Stiffness", text_of(patterns.PRESSURE_TEXT))


class PointForm(Form):
    """A weight at a distance from the first support."""

    makes: ClassVar[Any] = PointLoad

    at = Length(zero=True, required=True)
    carries = Weight(required=True)


class StiffenerForm(Form):
    """A part that stiffens another, and how it is joined to it."""

    part = Id(required=True)
    joined = Text(required=True)

    @post_load
    def made(self, data: dict[str, Any], **_: Any) -> Any:
        """The pair of both."""
        return data["part"], data["joined"]


class LoadForm(Form):
    """One part under load."""

    part = Id(required=True)
    carries = CarriedLoad()
    points = Several(Object(PointForm), 1, 50)
    spread = Word("even", "middle", "points")
    span = Length()
    held = Word("resting", "both-ends", "one-end", "several")
    supports = Several(Length(zero=True), 1, 50)
    laid = Word("flat", "edge")
    stiffened_by = Several(Object(StiffenerForm), 0, 20)
    stays = YesNo()
    use = Text()
    limit = SagLimit()
    boards = Whole(1, 100)
    grade = Text()
    stiffness = Stiffness()

    @post_load
    def made(self, data: dict[str, Any], **_: Any) -> Any:
        """The load, in pounds in all, or an inch, or a square inch."""
        carried: CarriedAmount | None = data.pop("carries", None)
        if carried is None:
            return Load(**data)
        per, inches = _PER[carried.kind]
        return Load(carries=carried.amount / inches, per=per, **data)  # type: ignore[arg-type]  # a word of _PER
