"""What else to mind of a joint, tied to what is proposed for it."""

from collections.abc import Iterator
from fractions import Fraction

from service.domain.fasteners import Constant
from service.domain.fastening.fixing import NAILS
from service.domain.fastening.holding import CAUTION
from service.domain.fastening.joints import JudgedJoint
from service.domain.fastening.meeting import Meeting
from service.domain.fastening.proposing import Option
from service.domain.fastening.splitting import BRAD_TURNS

WIDE_ACROSS = Fraction(6)  # in; solid wood wider than that moves enough to matter; practice
SEAT_ONLY = "stop when the head seats: driving on strips the thread in the wood"
NEVER_SUMMED = "glue and fasteners are never added up: the stiffer one carries until it fails"
COME_LOOSE = (
    "where wood gets wet and dries, nails come loose: connection design leaves {nail:g} of their "
    "value straight out, and {screw:g} of a screw's; the ratios here are for dry wood"
)
MOVES = (
    "{part} is {wide} of solid wood across the grain: leave all but one line of fasteners free to "
    "slide, and glue only there"
)


def cautions(judged: JudgedJoint, options: tuple[Option, ...]) -> Iterator[str]:
    """What else to mind, tied to what is proposed."""
    methods = {option.method for option in options}
    if methods & {"screw", "pocket-screw"}:
        yield SEAT_ONLY
    if "brad" in methods:
        yield BRAD_TURNS
    loose = wetted(judged, options)
    if loose:
        nail, screw = (float(one.value) for one in loose)
        yield COME_LOOSE.format(nail=nail, screw=screw)
    if any(option.hold.pulled or option.hold.sheared for option in options):
        yield CAUTION
    if len(options) > 1:
        yield NEVER_SUMMED
    meeting = judged.meeting
    if meeting is not None and crossed(judged, meeting):
        wide = meeting.through.narrow
        if wide is not None:
            yield MOVES.format(part=meeting.through.name, wide=judged.around.say(wide.listed))


def wetted(judged: JudgedJoint, options: tuple[Option, ...]) -> tuple[Constant, ...]:
    """What wet service leaves of a nail and of a screw that are pulled; empty without nails, or
    where it stays dry."""
    constants = judged.around.catalog.constants
    if judged.around.where != "outdoors" or not any(one.method in NAILS for one in options):
        return ()
    told = [constants.get(f"wet-service.withdrawal.{one}") for one in ("nail", "screw")]
    found = tuple(one for one in told if one is not None)
    return found if len(found) == len(told) else ()


def crossed(judged: JudgedJoint, meeting: Meeting) -> bool:
    """Whether a wide solid part may lie with its grain across the other's."""
    through, into = meeting.through, meeting.into
    wide = through.narrow
    return (
        through.surface == "face"
        and through.panel is None
        and into.panel is None
        and not judged.joint.lets_move
        and judged.joint.crosses != 0
        and wide is not None
        and wide.listed > WIDE_ACROSS
    )
