"""Joints: two pieces and what fastens them."""

from typing import Any, ClassVar

from service.api.documents.fields import Angle, Id, Length, Text, Whole, Word, YesNo
from service.api.documents.forms import Form
from service.api.documents.gathered import Object, Several
from service.domain.build import Fastener, Joint

METHODS = (
    "glue",
    "brad",
    "finish-nail",
    "nail",
    "staple",
    "screw",
    "pocket-screw",
    "dowel",
    "lap",
    "bolt",
    "clip",
    "hinge",
    "loose",
)


class FastenerForm(Form):
    """A nail, screw, dowel or bolt by its sizes."""

    makes: ClassVar[Any] = Fastener

    gauge = Whole(0, 30)
    diameter = Length()
    length = Length()
    thread = Word("coarse", "fine")
    coating = Word("plain", "zinc", "exterior", "galvanized", "stainless")


class JointForm(Form):
    """`through` is fastened into `into`, which may be the wall."""

    makes: ClassVar[Any] = Joint

    id = Id(required=True)
    through = Id(required=True)
    into = Id(required=True)
    touches = Word("face", "edge", "end")
    enters = Word("face", "edge", "end")
    layers = Several(Length(), 0, 10)
    quantity = Whole(1, 1000)
    count = Whole(1, 1000)
    method = Word(*METHODS)
    fastener = Object(FastenerForm)
    sunk = Length(zero=True)
    slope = Angle()
    pilot = YesNo()
    end_distance = Length(zero=True)
    edge_distance = Length(zero=True)
    glue = Text()
    crosses = Length(zero=True)
    lets_move = YesNo()
