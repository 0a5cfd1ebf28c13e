"""What the caller cuts and drives with."""

from typing import Any, ClassVar

from service.api.documents.fields import Angle, Length, Text, YesNo
from service.api.documents.forms import Form
from service.api.documents.gathered import Object, Several
from service.api.documents.telling import told
from service.domain.build import Saw, Shop


class SawForm(Form):
    """A saw; the caller's own figures win over the tables."""

    makes: ClassVar[Any] = Saw

    kind = Text(required=True, metadata=told("The saw, as a shop calls it.", "miter-saw"))
    blade = Length(
        metadata=told(
            "Diameter of its blade, a length.",
            "10",
            left_out="the most that any saw of its kind reaches",
        )
    )
    crosscut = Length(
        metadata=told(
            "Widest board that it cuts square, a length.",
            "5 1/2",
            left_out="what the tables say of its kind",
        )
    )
    crosscut_at_45 = Length(
        metadata=told(
            "Widest board that it cuts with the table turned 45 degrees, a length.",
            "3 7/8",
            left_out="what the tables say of its kind",
        )
    )
    depth = Length(
        metadata=told(
            "Thickest board that it cuts square, a length.",
            "3 1/2",
            left_out="what the tables say of its kind",
        )
    )
    miter_to = Angle(
        0,
        90,
        metadata=told(
            "How far its table turns, degrees off square, 0 to 90.",
            48,
            left_out="what the tables say of its kind",
        ),
    )
    bevel_to = Angle(
        0,
        90,
        metadata=told(
            "How far its blade tilts, degrees off square, 0 to 90.",
            45,
            left_out="what the tables say of its kind",
        ),
    )
    slides = YesNo(
        metadata=told("Whether its blade slides along the cut.", False, left_out="not known")
    )
    rips = YesNo(
        metadata=told("Whether it cuts along the grain.", True, left_out="what its kind does")
    )


class ShopForm(Form):
    """Saws, other tools, the kerf, and the longest board that can be brought home."""

    makes: ClassVar[Any] = Shop

    saws = Several(
        Object(SawForm),
        0,
        20,
        metadata=told(
            "The saws that are there.",
            [{"kind": "miter-saw", "blade": "10"}],
            left_out="no saw sets a limit",
        ),
    )
    tools = Several(
        Text(),
        0,
        100,
        metadata=told(
            "The other tools that are there, as a shop calls them.",
            ["drill", "clamps"],
            left_out="every tool counts as at hand",
        ),
    )
    kerf = Length(
        zero=True,
        metadata=told(
            "How much wood each saw cut takes, a length.",
            "1/8",
            "0",
            left_out="1/8 in in a cut plan",
        ),
    )
    end_trim = Length(
        zero=True,
        metadata=told(
            "What comes off each end of a bought board, its saw cut included, a length.",
            "1/2",
            left_out="0",
        ),
    )
    longest_board = Length(
        metadata=told(
            "The longest board that can be brought home, a length.", "97", left_out="any length"
        )
    )
