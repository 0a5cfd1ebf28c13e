"""Joints that no proposed fastener holds: what a builder must know to make each of them."""

from service.domain.fastening.bolting import bolting
from service.domain.fastening.clipping import clipping
from service.domain.fastening.hinging import hinging
from service.domain.fastening.joints import JudgedJoint
from service.domain.fastening.lapping import lapping
from service.domain.fastening.particular import Particular


def particulars(judged: JudgedJoint) -> tuple[Particular, ...]:
    """What to know of a bolt, a hinge, a clip or a lap; empty for any other joint."""
    meeting, fixing, around = judged.meeting, judged.fixing, judged.around
    if meeting is None or fixing is None:
        return ()
    if fixing.method == "bolt":
        return tuple(bolting(meeting, fixing, around))
    if fixing.method == "hinge":
        return tuple(hinging(meeting, fixing, around))
    if fixing.method == "clip":
        return tuple(clipping(meeting, fixing, around))
    if fixing.method == "lap":
        return tuple(lapping(meeting, judged.want, around))
    return ()
