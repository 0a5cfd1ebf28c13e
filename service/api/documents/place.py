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
from service.api.documents.telling import told
from service.domain.build import Moving, Place, Stands, Wall

WHERE = ("indoors", "damp", "covered", "outdoors")


class WallForm(Form):
    """What a piece hangs on: the spacing of its studs, the thickness of its board."""

    makes: ClassVar[Any] = Wall

    kind = Word(
        "studs",
        "masonry",
        "unknown",
        metadata=told("What the wall is: studs, masonry or unknown.", "studs", left_out="unknown"),
    )
    studs = Length(
        metadata=told(
            "Spacing of the studs from center to center, a length.", "16", left_out="not known"
        )
    )
    board = Length(
        metadata=told("Thickness of the wallboard, a length.", "1/2", left_out="not known")
    )


class PlaceForm(Form):
    """Where the piece will be."""

    makes: ClassVar[Any] = Place

    where = Word(
        *WHERE,
        metadata=told(
            "Indoors, damp, covered (outdoors under a roof) or outdoors.",
            "indoors",
            left_out="nothing is found that hangs on weather or damp",
        ),
    )
    temperature = Temperature(
        metadata=told(
            "Temperature there and in the shop; text that says F or C.",
            "68F",
            left_out="68 F where wood's moisture hangs on it; otherwise nothing is judged by it",
        )
    )
    humidity = Number(
        0,
        100,
        metadata=told(
            "Relative humidity of the air there in percent, 0 to 100.",
            45,
            left_out="the usual range of such a place",
        ),
    )
    wall = Object(
        WallForm,
        metadata=told(
            "The wall that the piece hangs on.",
            {"kind": "studs", "studs": "16"},
            left_out="a wall of an unknown kind",
        ),
    )


class PeopleForm(Form):
    """Who is near the piece: the age of the youngest in years."""

    youngest = Whole(
        0,
        120,
        metadata=told(
            "Age in years of the youngest who lives with it, 0 to 120.",
            6,
            left_out="nobody is named",
        ),
    )


class StandsForm(Form):
    """The piece on its feet, or fixed to a wall."""

    makes: ClassVar[Any] = Stands

    height = Length(
        metadata=told("Overall height, a length.", "40", left_out="tipping over is not judged")
    )
    width = Length(
        metadata=told("Overall width, a length.", "30", left_out="not known; nothing hangs on it")
    )
    depth = Length(
        metadata=told(
            "Overall depth, from front to back, a length.",
            "11",
            left_out="tipping over is not judged",
        )
    )
    fixed = YesNo(metadata=told("Whether it is fixed to a wall.", False, left_out="not known"))
    kept_square_by = Several(
        Text(),
        0,
        20,
        metadata=told(
            "What keeps it from racking: a back, braces, rails, in words.",
            ["back"],
            left_out="not known",
        ),
    )
    encloses = Volume(
        metadata=told(
            "Volume of its drawers and compartments, with its unit.",
            "6 ft3",
            "170 L",
            left_out="not known",
        )
    )


class MovingForm(Form):
    """A lid, drawer or door."""

    makes: ClassVar[Any] = Moving

    kind = Word(
        "lid", "drawer", "door", required=True, metadata=told("A lid, a drawer or a door.", "lid")
    )
    part = Id(
        metadata=told(
            "The id of the part that moves.",
            "top",
            left_out="it has no part of its own in the list",
        )
    )
    held_open = YesNo(
        metadata=told("Whether a stay or support holds it open.", True, left_out="nothing holds it")
    )
