"""Where the piece will be, how it stands, what moves, and who is near it."""

from typing import Any, ClassVar

from service.api.documents.fields import (
    Id,
    Length,
    Number,
    Temperature,
    Text,
    Volume,
    Whole,
    Word,
    YesNo,
)
from service.api.documents.forms import Form
from service.api.documents.gathered import Object, Several
from service.domain.build import Moving, Place, Stands, Wall


class WallForm(Form):
    """What a piece hangs on: the spacing of its studs, the thickness of its board."""

    makes: ClassVar[Any] = Wall

    kind = Word("studs", "masonry", "unknown")
    studs = Length()
    board = Length()


class PlaceForm(Form):
    """Where the piece will be."""

    makes: ClassVar[Any] = Place

    where = Word("indoors", "damp", "covered", "outdoors")
    temperature = Temperature()
    humidity = Number(0, 100)
    wall = Object(WallForm)


class PeopleForm(Form):
    """Who is near the piece: the age of the youngest in years."""

    youngest = Whole(0, 120)


class StandsForm(Form):
    """The piece on its feet, or fixed to a wall."""

    makes: ClassVar[Any] = Stands

    height = Length()
    width = Length()
    depth = Length()
    fixed = YesNo()
    kept_square_by = Several(Text(), 0, 20)
    encloses = Volume()


class MovingForm(Form):
    """A lid, drawer or door."""

    makes: ClassVar[Any] = Moving

    kind = Word("lid", "drawer", "door", required=True)
    part = Id()
    held_open = YesNo()
