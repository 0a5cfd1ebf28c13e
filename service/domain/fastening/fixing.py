"""One way to fasten a joint: what a plan says, or what is proposed, as the same value."""

from fractions import Fraction

from service.domain.build import Joint
from service.domain.catalog import Catalog
from service.domain.fasteners import gauge_diameter
from service.domain.fastening.driving import (
    Driven,
    Line,
    doweled,
    pocket,
    pocket_seat,
    straight,
    toe,
)
from service.domain.fastening.meeting import Meeting
from service.domain.values import dataclass

NAILS = frozenset({"nail", "finish-nail", "brad"})
DRIVEN = frozenset({"screw", "staple", *NAILS})
TIPPED = frozenset({"pocket-screw", "dowel", *DRIVEN})  # methods whose point can be placed
NONE = Fraction(0)


@dataclass(frozen=True, slots=True)
class Fixing:
    """A method with its fastener and how it is driven; None where nothing is said.

    `diameter` is that of the shank in inches; `glue` a kind, or ``none``.
    """

    method: str
    length: Fraction | None = None
    diameter: Fraction | None = None
    gauge: int | None = None
    thread: str | None = None
    coating: str | None = None
    sunk: Fraction = NONE
    slope: float = 0.0
    pilot: bool | None = None
    end_distance: Fraction | None = None
    edge_distance: Fraction | None = None
    glue: str | None = None
    has_fastener: bool = False


def fixing_of(joint: Joint, catalog: Catalog) -> Fixing | None:
    """What a joint states; None where it states neither a method nor a fastener.

    A fastener without a method is taken for a screw.
    """
    fastener = joint.fastener
    method = joint.method or ("screw" if fastener else None)
    if method is None:
        return None
    diameter = fastener.diameter if fastener else None
    gauge = fastener.gauge if fastener else None
    if diameter is None and gauge is not None:
        diameter = wire_diameter(method, gauge, catalog)
    return Fixing(
        method=method,
        length=fastener.length if fastener else None,
        diameter=diameter,
        gauge=gauge,
        thread=fastener.thread if fastener else None,
        coating=fastener.coating if fastener else None,
        sunk=joint.sunk or NONE,
        slope=joint.slope or 0.0,
        pilot=joint.pilot,
        end_distance=joint.end_distance,
        edge_distance=joint.edge_distance,
        glue=joint.glue,
        has_fastener=fastener is not None,
    )


def wire_diameter(method: str, gauge: int, catalog: Catalog) -> Fraction | None:
    """Inches of a gauge: screw gauges grow with the number, wire gauges of nails shrink."""
    if method not in NAILS:
        return gauge_diameter(gauge) if method in ("screw", "pocket-screw") else None
    named = (f".{gauge}ga", f".{gauge}ga.")
    for nail in catalog.fasteners.nails:
        if nail.key.endswith(named[0]) or named[1] in nail.key:
            return nail.diameter.value
    return None


def placed(meeting: Meeting, fixing: Fixing, thin: bool = False) -> Driven | None:
    """Where the point ends up, in wood as listed, or at the thin end of its tolerance.

    None where the method has no point, or a size that matters is not known.
    """
    through, into, length = meeting.through, meeting.into, fixing.length
    if length is None or into.depth is None or fixing.method not in TIPPED:
        return None
    depth = into.depth.low if thin else into.depth.listed
    if fixing.method == "pocket-screw":
        thick = through.thickness.low if thin else through.thickness.listed
        return pocket(length, thick, depth, pocket_room(meeting, thin))
    if fixing.method == "dowel":
        other = through.depth
        shallow = depth if other is None else min(depth, other.low if thin else other.listed)
        return doweled(length, shallow)
    line = line_of(meeting, fixing, thin)
    if through.surface == "end" and fixing.slope:
        return toe(length, depth, line)
    passed = meeting.passed
    if passed is None:
        return None
    return straight(length, passed.low if thin else passed.listed, depth, line)


def before(meeting: Meeting, fixing: Fixing) -> Fraction | None:
    """Inches along the fastener from its head to the joint, in wood as listed; sunk counts."""
    if fixing.method == "pocket-screw":
        return pocket_seat(meeting.through.thickness.listed)
    here = placed(meeting, fixing)
    return None if here is None or fixing.length is None else fixing.length - here.bite


def pocket_room(meeting: Meeting, thin: bool) -> Fraction | None:
    """Half the thickness of a part whose edge or end a pocket screw enters."""
    into = meeting.into
    if into.surface == "face":
        return None
    return (into.thickness.low if thin else into.thickness.listed) / 2


def line_of(meeting: Meeting, fixing: Fixing, thin: bool) -> Line:
    """How a straight fastener lies in the receiving part. Leaning, it leans toward the near side.

    Without a stated distance it stands in the middle.
    """
    if not fixing.slope and not meeting.lean:
        return Line(fixing.sunk)
    across = meeting.lean_across or meeting.into.narrow
    room = fixing.edge_distance
    if room is None and across is not None:
        room = (across.low if thin else across.listed) / 2
    return Line(fixing.sunk, fixing.slope, meeting.lean, room)
