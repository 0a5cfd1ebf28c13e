"""What parts carry, and how they are held."""

from typing import Any, ClassVar

from marshmallow import post_load

from service.api.documents.fields import CarriedLoad, Id, Length, Text, Weight, Word, YesNo
from service.api.documents.forms import Form
from service.api.documents.gathered import Object, Several
from service.domain.build import Load, PointLoad
from service.quantities import Load as CarriedAmount

# The domain counts pounds an inch, people say pounds a foot.
_PER = {"total": ("total", 1), "per-foot": ("inch", 12), "per-square-foot": ("square-inch", 144)}


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
    limit = Text()

    @post_load
    def made(self, data: dict[str, Any], **_: Any) -> Any:
        """The load, in pounds in all, or an inch, or a square inch."""
        carried: CarriedAmount | None = data.pop("carries", None)
        if carried is None:
            return Load(**data)
        per, inches = _PER[carried.kind]
        return Load(carries=carried.amount / inches, per=per, **data)  # type: ignore[arg-type]
