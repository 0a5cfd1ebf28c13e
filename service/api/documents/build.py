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
from service.api.documents.parts import PartForm, stock_notes
from service.api.documents.place import MovingForm, PeopleForm, PlaceForm, StandsForm
from service.api.documents.runs import RunForm
from service.api.documents.shapes import AnyShape
from service.api.documents.shop import ShopForm
from service.api.documents.steps import StepForm
from service.domain.build import Build

MOST_PARTS = 500


class BuildForm(Form):
    """One build; bare numbers in it are lengths in its `units`."""

    name = Text(required=True)
    units = Word("in", "mm")
    region = Text()
    wood = Text()
    place = Object(PlaceForm)
    uses = Several(Text(), 0, 20)
    people = Object(PeopleForm)
    parts = Several(Object(PartForm), 1, MOST_PARTS, required=True)
    joints = Several(Object(JointForm), 0, 1000)
    runs = Several(Object(RunForm), 0, 200)
    shapes = Several(AnyShape(), 0, 100)
    carried = Several(Object(LoadForm), 0, 200, data_key="loads", attribute="loads")
    steps = Several(Object(StepForm), 0, 200)
    shop = Object(ShopForm)
    buying = Object(BuyingForm)
    stands = Object(StandsForm)
    moving = Several(Object(MovingForm), 0, 100)
    stocks = stock_notes()

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
