"""How long a fastener may be in a joint: what bites, what is likeliest, what stays inside."""

from fractions import Fraction

from service.domain.fastening.driving import POCKET_ADVANCE, pocket_seat, toe_reach
from service.domain.fastening.fixing import NONE, Fixing
from service.domain.fastening.meeting import Meeting
from service.domain.fastening.reach import bite_wanted
from service.domain.fastening.surroundings import Surroundings

DEEPEST = Fraction(3, 2)  # in; more bite than that is not looked for; own
DEEPER = Fraction(1, 4)  # in; so much more where the wood behind an edge or an end is deep; own
INTO_END = Fraction(1, 2)  # in; a screw into end grain is so much longer; practice
POCKET_OVER = Fraction(1, 16)  # in; a pocket screw bites at most the thickness and this; own
# How long a fastener may be against what it passes, and the least it may go beyond; own, from the
# rules of thumb screw-length.face-to-face, nail-length.thin-to-thick, brad-length.trim and
# staple-leg.overall.
STRETCH = {
    "screw": (Fraction(5, 2), Fraction(1, 2)),
    "nail": (Fraction(3), Fraction(1, 2)),
    "finish-nail": (Fraction(3), Fraction(1, 2)),
    "brad": (Fraction(5, 2), Fraction(3, 8)),
    "staple": (Fraction(3), Fraction(3, 8)),
}
FARTHEST = Fraction(1000)  # in; as good as no limit

Bounds = tuple[Fraction, Fraction, Fraction]


def bounds(meeting: Meeting, fixing: Fixing, around: Surroundings) -> Bounds:
    """Shortest length that bites, longest that is wished for, longest that stays inside."""
    wanted = bite_wanted(meeting, fixing)
    depth, passed, thickness = meeting.into.depth, meeting.passed, meeting.through.thickness
    most = FARTHEST if depth is None else depth.low
    if fixing.method == "pocket-screw":
        seat = pocket_seat(thickness.listed)
        longest = seat + most / POCKET_ADVANCE
        return seat + wanted, seat + thickness.listed + POCKET_OVER, longest
    if fixing.method == "dowel":
        return NONE, 2 * DEEPEST, 2 * most
    if meeting.through.surface == "end":
        each = toe_reach(fixing.slope)
        likely = min(2 * DEEPEST, STRETCH["screw"][0] * thickness.listed)
        return wanted / each, likely, most / each
    if passed is None:
        return FARTHEST, FARTHEST, NONE
    times, beyond = STRETCH[fixing.method]
    more = INTO_END if meeting.into.surface == "end" and fixing.method == "screw" else NONE
    if meeting.into.surface != "face":
        beyond += DEEPER
    likely = max(times * passed.listed, passed.listed + beyond) + more
    likely = min(likely, passed.listed + DEEPEST + more)
    if fixing.slope:
        return wanted, likely, 2 * (passed.high + most)
    sunk = fixing.sunk
    return passed.listed + wanted - sunk, likely, passed.low + most - around.keep - sunk
