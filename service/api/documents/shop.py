"""What the caller cuts and drives with."""

from typing import Any, ClassVar

from service.api.documents.fields import Angle, Length, Text, YesNo
from service.api.documents.forms import Form
from service.api.documents.gathered import Object, Several
from service.domain.build import Saw, Shop


class SawForm(Form):
    """A saw; the caller's own figures win over the tables."""

    makes: ClassVar[Any] = Saw

    kind = Text(required=True)
    blade = Length()
    crosscut = Length()
    crosscut_at_45 = Length()
    depth = Length()
    miter_to = Angle(0, 90)
    bevel_to = Angle(0, 90)
    slides = YesNo()
    rips = YesNo()


class ShopForm(Form):
    """Saws, other tools, the kerf, and the longest board that can be brought home."""

    makes: ClassVar[Any] = Shop

    saws = Several(Object(SawForm), 0, 20)
    tools = Several(Text(), 0, 100)
    kerf = Length(zero=True)
    end_trim = Length(zero=True)
    longest_board = Length()
