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
from service.api.documents.telling import told
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

    at = Length(
        zero=True, required=True, metadata=told("Distance from the first support, a length.", "10")
    )
    carries = Weight(
        required=True, metadata=told("Weight that rests there, with its unit.", "90 lb")
    )


class StiffenerForm(Form):
    """A part that stiffens another, and how it is joined to it."""

    part = Id(required=True, metadata=told("The id of the part that stiffens it.", "lip"))
    joined = Text(
        required=True,
        metadata=told(
            "How the two are joined, in words; only glue makes them bend as one.", "glued"
        ),
    )

    @post_load
    def made(self, data: dict[str, Any], **_: Any) -> Any:
        """The pair of both."""
        return data["part"], data["joined"]


class LoadForm(Form):
    """One part under load."""

    part = Id(required=True, metadata=told("The id of the part that carries.", "shelf"))
    carries = CarriedLoad(
        metadata=told(
            "What it carries: in all, by the foot or by the square foot, with its unit.",
            "40 lb",
            "18 lb/ft",
            "35 lb/ft2",
            left_out="only the loads at points count",
        )
    )
    points = Several(
        Object(PointForm),
        1,
        50,
        metadata=told(
            "Weights at places along it.", [{"at": "10", "carries": "20 lb"}], left_out="none"
        ),
    )
    spread = Word(
        "even",
        "middle",
        "points",
        metadata=told(
            "How carries is spread: even, all at the middle, or only at points.",
            "even",
            left_out="even",
        ),
    )
    span = Length(
        metadata=told(
            "Clear length between the supports, or of the part that sticks out.",
            "30",
            left_out="the whole length of the part",
        )
    )
    held = Word(
        "resting",
        "both-ends",
        "one-end",
        "several",
        metadata=told(
            "How it is held: resting on both ends, fixed at both, at one, or on several supports.",
            "resting",
            left_out="resting",
        ),
    )
    supports = Several(
        Length(zero=True),
        1,
        50,
        metadata=told(
            "Places of several supports from the part's first end, lengths.",
            ["0", "20", "40"],
            left_out="it is held at its ends",
        ),
    )
    laid = Word(
        "flat",
        "edge",
        metadata=told("Whether the part lies flat or stands on edge.", "flat", left_out="flat"),
    )
    stiffened_by = Several(
        Object(StiffenerForm),
        0,
        20,
        metadata=told(
            "Parts that stiffen it.", [{"part": "lip", "joined": "glued"}], left_out="none"
        ),
    )
    stays = YesNo(
        metadata=told(
            "Whether the load stays on for months, under which wood goes on sagging.",
            True,
            left_out="not known: lasting sag is not judged",
        )
    )
    use = Text(
        metadata=told(
            "What this part is for: a key of the table uses.",
            "shelf",
            left_out="the uses of the build",
        )
    )
    limit = SagLimit(
        metadata=told(
            "How far it may sag: eye, shelf, floor, a share of the span, or a length.",
            "eye",
            "L/240",
            "1/8",
            left_out="eye: what the eye notices",
        )
    )
    boards = Whole(
        1, 100, metadata=told("How many boards side by side share it, 1 to 100.", 3, left_out="1")
    )
    grade = Text(
        metadata=told(
            "Grade stamped on the lumber.",
            "no-2",
            left_out="what the tables say of its wood",
        )
    )
    stiffness = Stiffness(
        metadata=told(
            "Modulus of elasticity, with its unit; it wins over the tables.",
            "1200000 psi",
            "9.7 GPa",
            left_out="what the tables say of the wood",
        )
    )

    @post_load
    def made(self, data: dict[str, Any], **_: Any) -> Any:
        """The load, in pounds in all, or an inch, or a square inch."""
        carried: CarriedAmount | None = data.pop("carries", None)
        if carried is None:
            return Load(**data)
        return Load(**data, **in_pounds(carried))


def in_pounds(load: CarriedAmount) -> dict[str, Any]:
    """What a load carries, as the domain has it: pounds in all, an inch, or a square inch."""
    per, inches = _PER[load.kind]
    return {"carries": load.amount / inches, "per": per}
