"""The measures of each kind of shape.

The same measures, read the same way, are the parameters of the question about that shape.
"""

from collections.abc import Callable, Mapping
from functools import partial
from typing import Any

from marshmallow import fields as marshmallow_fields

from service.api.documents.fields import Angle, Field, Length, Pair, Text, Whole, Word, YesNo
from service.api.documents.gathered import Either, Several
from service.api.documents.schemas import Book, Json, any_of, schema_of
from service.api.documents.telling import told
from service.quantities import patterns

Measure = Callable[..., marshmallow_fields.Field[Any]]  # made anew for each form

_ONE = "say one of opening, outside and contents"
_ONE_SIZE = "say one of across_flats, across_corners and side"


class TwoAngles(Field[tuple[float, float]]):
    """The angles of both ends: `10,10` or a list of two."""

    def _deserialize(self, value: Any, attr: str | None, data: Any, **_: Any) -> Any:
        both = value.split(",") if isinstance(value, str) else value
        return Several(Angle(), 2, 2).deserialize(both)


@schema_of.register
def _(field: TwoAngles, book: Book) -> Json:
    both = {"type": "string", "pattern": patterns.TWO_ANGLES_TEXT}
    return both if book.in_address else any_of([both, book.field(Several(Angle(), 2, 2))])


# How a measure that may be none, one of a few words, or one of two kinds is made.
_SIZE_OR_NONE = partial(Length, zero=True)
_SIZE_OR_PAIR = partial(Either, Length(), Pair())
_LONG_POINTS = ("long-to-long", "short-to-short", "long-to-short", "short-to-long", "center")


def _told(make: Measure, description: str, *examples: Any, left_out: str = "") -> Measure:
    """A measure with what it means."""
    return partial(make, metadata=told(description, *examples, left_out=left_out))


def _one_of(*words: str) -> Measure:
    return partial(Word, *words)


_FRAME: Mapping[str, Measure] = {
    "opening": _told(
        Pair, "The opening that is seen, width by height.", "15 3/8 x 23 3/8in", left_out=_ONE
    ),
    "outside": _told(
        Pair, "The frame over all, width by height.", "20 3/8 x 28 3/8in", left_out=_ONE
    ),
    "contents": _told(
        Pair, "What lies in the frame's rabbet, width by height.", "16x24in", left_out=_ONE
    ),
    "rabbet": _told(
        Length,
        "How far the rabbet goes in under the frame's inner edge, a length.",
        "3/8",
        left_out="0: no rabbet",
    ),
    "clearance": _told(
        _SIZE_OR_NONE,
        "Room around the contents, both sides together, a length.",
        "1/8",
        left_out="0",
    ),
}

EVERY: Mapping[str, Measure] = {
    "stock": _told(
        Text,
        "The stick that the shape is cut from, as a shop calls it.",
        "1x3",
        left_out="the stock of its parts",
    ),
    "seen": _told(
        _one_of("face", "edge"),
        "Which side of the stick shows in the drawing's plane.",
        "face",
        left_out="face; edge for a prop and an upright ring",
    ),
    "saw_miter_to": _told(
        partial(Angle, 0, 90),
        "How far the saw's table turns, degrees off square.",
        48,
        left_out="the saw's stops are not judged",
    ),
    "saw_bevel_to": _told(
        partial(Angle, 0, 90),
        "How far the saw's blade tilts, degrees off square.",
        45,
        left_out="the saw's stops are not judged",
    ),
}

MEASURES: Mapping[str, Mapping[str, Measure]] = {
    "leaning": {
        "height": _told(Length, "Height from the floor to the highest point, plumb.", "16"),
        "lean": _told(Angle, "Degrees from vertical.", 12),
        "top": _told(
            partial(Either, Length(), Word("level", "square")),
            "How the top is cut (level or square), or the thickness of a top that lies on it.",
            "level",
            "23/32",
            left_out="level",
        ),
    },
    "splayed-legs": {
        "height": _told(Length, "Height of the legs, plumb.", "16 1/8"),
        "lean": _told(
            Angle,
            "Degrees from vertical, seen from the front; the legs lean one way.",
            12,
            left_out="say lean_front instead",
        ),
        "lean_front": _told(
            Angle, "Degrees from vertical, seen from the front.", 10, left_out="say lean instead"
        ),
        "lean_side": _told(
            Angle, "Degrees from vertical, seen from the side.", 6, left_out="0: plumb"
        ),
        "turned": _told(
            YesNo,
            "Whether each leg is turned so that a face looks the way it leans.",
            True,
            left_out="false: its faces stay square to the seat",
        ),
        "top_inset": _told(
            partial(Either, _SIZE_OR_NONE(), Pair()),
            "From the seat's edge in to the legs, width by depth or one length for both.",
            "1 1/2",
            left_out="not marked",
        ),
        "top_outside": _told(
            _SIZE_OR_PAIR,
            "Outside of the legs at the seat, width by depth or one length for both.",
            "11x11in",
            left_out="say top_inside, or no rails are figured",
        ),
        "top_inside": _told(
            _SIZE_OR_PAIR,
            "Between the legs at the seat, width by depth or one length for both.",
            "8x8in",
            left_out="say top_outside, or no rails are figured",
        ),
        "rail_top_at": _told(
            Length,
            "Height of the rails' upper edge above the floor.",
            "9",
            left_out="no rails are figured",
        ),
    },
    "mitered-frame": _FRAME,
    "butted-frame": _FRAME,
    "sloped-box": {
        "sides": _told(partial(Whole, 3, 100), "How many sides, 3 to 100.", 4),
        "height": _told(Length, "Height, plumb.", "8", left_out="say slant instead"),
        "slant": _told(
            Length, "Height along the slope of a side.", "8 1/4", left_out="say height instead"
        ),
        "slope": _told(Angle, "Degrees that the sides slope.", 12),
        "slope_from": _told(
            _one_of("vertical", "horizontal"),
            "What the slope is counted from.",
            "vertical",
            left_out="vertical, and the answer says so",
        ),
        "corners": _told(
            _one_of("mitered", "butted"),
            "How the sides meet.",
            "mitered",
            left_out="mitered",
        ),
        "rim": _told(
            _SIZE_OR_PAIR,
            "Outer length of a side along the rim, or both pairs of four sides.",
            "12x18in",
            left_out="say foot instead",
        ),
        "foot": _told(
            _SIZE_OR_PAIR,
            "Outer length of a side along the foot, or both pairs of four sides.",
            "10x16in",
            left_out="say rim instead",
        ),
    },
    "polygon": {
        "sides": _told(partial(Whole, 3, 100), "How many sides, 3 to 100.", 6),
        "across_flats": _told(
            Length, "Outer size from one side to the one opposite.", "18", left_out=_ONE_SIZE
        ),
        "across_corners": _told(
            Length, "Outer size from one corner to the one opposite.", "20", left_out=_ONE_SIZE
        ),
        "side": _told(Length, "Outer length of one side.", "10", left_out=_ONE_SIZE),
        "ring": _told(
            _one_of("flat", "upright"),
            "Whether the sticks lie flat, as in a frame, or stand, as in a tub.",
            "flat",
            left_out="flat",
        ),
    },
    "brace": {
        "run": _told(Length, "How far it reaches along the level face.", "12"),
        "rise": _told(Length, "How far it reaches up.", "12"),
        "given": _told(
            _one_of("long-points", "center", "short-points"),
            "What run and rise reach to.",
            "long-points",
            left_out="long-points",
        ),
        "between": _told(
            _one_of("upright,level", "level,level"),
            "The faces that it stands between.",
            "upright,level",
            left_out="upright,level",
        ),
        "opening": _told(
            Length,
            "The length that two braces share between two level faces.",
            "48",
            left_out="not judged",
        ),
    },
    "crossed-legs": {
        "width": _told(Length, "Width over the outer points of the feet.", "20"),
        "height": _told(Length, "Height, plumb.", "28"),
    },
    "prop": {
        "lean": _told(Angle, "Degrees from vertical that the board leans back.", 20),
        "up": _told(Length, "Along the back of the board to where the prop bears.", "9"),
        "foot": _told(Length, "From the board's heel back to the prop, on the floor.", "7 5/8"),
    },
    "tapered-leg": {
        "length": _told(Length, "Length of the leg.", "28"),
        "top": _told(Length, "Its width at the top.", "1 3/4"),
        "foot": _told(Length, "Its width at the foot.", "1"),
        "straight": _told(
            Length, "How much of it stays straight at the top, a length.", "5", left_out="0"
        ),
    },
    "ends": {
        "length": _told(Length, "Its length, as measured says.", "20"),
        "miter": _told(
            TwoAngles, "Miters of both ends, degrees off square.", [10, 10], left_out="0, 0"
        ),
        "bevel": _told(
            TwoAngles, "Bevels of both ends, degrees off square.", [0, 12], left_out="0, 0"
        ),
        "ends_lean": _told(
            _one_of("opposite", "same"),
            "opposite: the long points of both ends are on one side; same: on different ones.",
            "opposite",
            left_out="opposite",
        ),
        "measured": _told(
            _one_of(*_LONG_POINTS),
            "Between which points the length is measured.",
            "long-to-long",
            left_out="long-to-long",
        ),
    },
    # `opening` is what the pieces share out: `within` of the question, but here that is how near
    # the sizes must come.
    "row": {
        "opening": _told(Length, "The length that the pieces share out.", "36"),
        "pieces": _told(
            partial(Whole, 1, 1000), "How many pieces.", 5, left_out="as many as at lists"
        ),
        "piece": _told(Length, "Size of one piece along the row.", "1 1/2"),
        "ends": _told(
            partial(Either, Length(zero=True), Word("gap", "flush", "half")),
            "What is left at both ends: a gap like the others, nothing, half a gap, or a length.",
            "gap",
            "2",
            left_out="gap",
        ),
        "centers": _told(
            Length,
            "Distance of the pieces from center to center.",
            "8",
            left_out="the gaps come out equal",
        ),
        "at": _told(
            partial(Several, Length(zero=True), 1, 1000),
            "Places to judge: lengths from the first end to the near side of each piece.",
            ["4 3/4", "12 1/4"],
            left_out="the places are worked out",
        ),
    },
}
