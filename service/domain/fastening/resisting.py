"""What the fastener of a choice resists by connection design, for comparing the options."""

from fractions import Fraction

from service.domain.fasteners import NailSize, ScrewSize
from service.domain.fastening.candidates import Made
from service.domain.fastening.choosing import Choice
from service.domain.fastening.fixing import NONE, Fixing
from service.domain.fastening.gravity import Gravity, assigned_gravity
from service.domain.fastening.holding import Hold, Seat, nail_hold, screw_hold
from service.domain.fastening.meeting import Meeting, Side
from service.domain.fastening.surroundings import Surroundings
from service.domain.fastening.toe_nailing import NOT_COMPARED, toe_nail_hold
from service.domain.keeping import kept
from service.domain.tape import pair


def gravity_of(side: Side, around: Surroundings) -> Gravity | None:
    """The gravity that connection design assigns to a part's wood."""
    wood = side.wood
    return kept(
        around.catalog,
        ("gravity", wood.key if wood else None),
        lambda: assigned_gravity(around.catalog, wood),
    )


NO_VALUE = {
    "pocket-screw": "pocket screws: connection design has no value for them",
    "brad": "brads only hold while glue sets: no value",
    "staple": "staples of this kind: no value",
    "dowel": "glued dowels: connection design has no value for them",
    "glue": "glue is never summed with fasteners, nor compared with them here",
}


def hold_of(meeting: Meeting, choice: Choice, around: Surroundings) -> Hold:
    """What one fastener resists by connection design, where that has a value."""
    fixing, made, here = choice.fixing, choice.made, choice.here
    if fixing.method in NO_VALUE or made is None or here is None or fixing.length is None:
        return Hold(why_not=(NO_VALUE.get(fixing.method, "no value"),))
    if fixing.slope and not (isinstance(made.size, NailSize) and meeting.through.surface == "end"):
        return NOT_COMPARED
    return kept(
        around.catalog,
        (
            "hold", fixing.method, made.type, *pair(made.diameter), *pair(fixing.length),
            *pair(here.bite), fixing.slope,
            meeting.into.surface, _wood(meeting.through), _wood(meeting.into),
            meeting.into.into_panel_edge,
        ),
        lambda: _hold(meeting, made, fixing, here.bite, around),
    )  # fmt: skip


def _wood(side: Side) -> str | None:
    return side.wood.key if side.wood else None


def _hold(
    meeting: Meeting, made: Made, fixing: Fixing, bite: Fraction, around: Surroundings
) -> Hold:
    size, length = made.size, fixing.length or NONE
    thread = size.thread_length(length) if isinstance(size, ScrewSize) else bite
    seat = Seat(
        passed=length - bite,
        bite=bite,
        thread=min(thread, bite),
        enters=meeting.into.surface,
        side=gravity_of(meeting.through, around),
        main=gravity_of(meeting.into, around),
        into_panel=meeting.into.panel is not None,
    )
    if isinstance(size, ScrewSize):
        return screw_hold(around.catalog, size, seat)
    if isinstance(size, NailSize) and fixing.slope:
        return toe_nail_hold(around.catalog, size, length, fixing.slope, seat)
    if isinstance(size, NailSize):
        return nail_hold(around.catalog, size, seat)
    return Hold(why_not=("no value",))
