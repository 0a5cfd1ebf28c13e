"""Joints: two pieces and what fastens them."""

from typing import Any, ClassVar

from service.api.documents.fields import Angle, Id, Length, Text, Whole, Word, YesNo
from service.api.documents.forms import Form
from service.api.documents.gathered import Object, Several
from service.api.documents.telling import told
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


SURFACES = ("face", "edge", "end")
THREADS = ("coarse", "fine")
COATINGS = ("plain", "zinc", "exterior", "galvanized", "stainless")


class FastenerForm(Form):
    """A nail, screw, dowel or bolt by its sizes."""

    makes: ClassVar[Any] = Fastener

    gauge = Whole(
        0,
        30,
        metadata=told(
            "Gauge number of a screw, brad or nail, 0 to 30.",
            8,
            left_out="open: the service proposes one",
        ),
    )
    diameter = Length(
        metadata=told(
            "Diameter of a dowel, bolt or metric screw, a length.",
            "3/8",
            left_out="what the gauge says",
        )
    )
    length = Length(
        metadata=told("Length of the fastener.", "1 1/4", left_out="open: the service proposes one")
    )
    thread = Word(
        *THREADS,
        metadata=told("Thread of a screw: coarse or fine.", "coarse", left_out="not judged"),
    )
    coating = Word(
        *COATINGS,
        metadata=told("What covers it or what it is made of.", "exterior", left_out="not judged"),
    )


class JointForm(Form):
    """`through` is fastened into `into`, which may be the wall."""

    makes: ClassVar[Any] = Joint

    id = Id(required=True, metadata=told("What the other entries call this joint.", "shelf-end"))
    through = Id(
        required=True,
        metadata=told(
            "The id of the part that the fastener passes, or that holds the pocket.", "end"
        ),
    )
    into = Id(
        required=True,
        metadata=told("The id of the part that the fastener ends in, or wall.", "shelf"),
    )
    touches = Word(
        *SURFACES,
        metadata=told(
            "The surface of through at the joint: face, edge or end.",
            "face",
            left_out="face, or end for pocket screws",
        ),
    )
    enters = Word(
        *SURFACES,
        metadata=told(
            "The surface of into at the joint: face, edge or end.",
            "end",
            left_out="face, and nothing grave is found that hangs on it",
        ),
    )
    layers = Several(
        Length(),
        0,
        10,
        metadata=told(
            "Other thicknesses that the fastener passes besides the part, lengths.",
            ["1/4"],
            left_out="none",
        ),
    )
    quantity = Whole(
        1, 1000, metadata=told("How many such joints the piece has, 1 to 1000.", 2, left_out="1")
    )
    count = Whole(
        1,
        1000,
        metadata=told(
            "How many fasteners each of them has, 1 to 1000.",
            2,
            left_out="open: the service proposes how many",
        ),
    )
    method = Word(
        *METHODS,
        metadata=told("What holds it.", "screw", left_out="open: the service proposes one"),
    )
    fastener = Object(
        FastenerForm,
        metadata=told(
            "The fastener by its sizes.",
            {"gauge": 8, "length": "1 1/4"},
            left_out="open: the service proposes one",
        ),
    )
    sunk = Length(
        zero=True,
        metadata=told(
            "How far the head sits below the surface, a length.", "1/16", left_out="0, flush"
        ),
    )
    slope = Angle(
        metadata=told(
            "How far the fastener leans, in degrees off square to the surface entered, 0 to 89.",
            15,
            left_out="0, square",
        )
    )
    pilot = YesNo(metadata=told("Whether a pilot hole is drilled.", True, left_out="not known"))
    end_distance = Length(
        zero=True,
        metadata=told(
            "From the fastener to the end of the part, along the grain, a length.",
            "3",
            left_out="not judged",
        ),
    )
    edge_distance = Length(
        zero=True,
        metadata=told(
            "From the fastener to the edge of the part, across the grain, a length.",
            "3/4",
            left_out="not judged, or worked out from the thickness entered",
        ),
    )
    glue = Text(
        metadata=told(
            "The glue, as a shop calls it, or none.",
            "pva-interior",
            left_out="unknown, which is not none",
        )
    )
    crosses = Length(
        zero=True,
        metadata=told(
            "How far it holds the wider solid part fast across its grain, a length; 0 for none.",
            "5 1/2",
            left_out="worked out from the surfaces that meet",
        ),
    )
    lets_move = YesNo(
        metadata=told("Whether slots or clips let the wood move there.", True, left_out="false")
    )
