"""The longest screw that is made and stays inside a part, by the judgment that plans get too."""

from fractions import Fraction

from service.domain.catalog import Interval
from service.domain.fasteners import ScrewSize
from service.domain.fastening.candidates import Made, candidates, stouts_for
from service.domain.fastening.driving import Driven
from service.domain.fastening.fixing import Fixing, placed
from service.domain.fastening.likely import DEEPEST
from service.domain.fastening.meeting import Meeting, Side
from service.domain.fastening.pilot_holes import Drilling, drilling
from service.domain.fastening.reach import beyond, too_thick
from service.domain.fastening.surroundings import Surroundings
from service.domain.values import dataclass, replace

FLAT_HEADED = frozenset({"wood-screw", "chipboard-screw"})  # their heads fit hinges and clips
NO_PLATE = Interval.exactly(Fraction(0))  # a leaf or a clip: thin, and counted as nothing


@dataclass(frozen=True, slots=True)
class Inside:
    """A screw, where its point ends up, and what to drill for it."""

    made: Made
    fixing: Fixing
    here: Driven
    drilling: Drilling | None


def under_a_plate(side: Side) -> Meeting:
    """A part as a screw enters it that holds a plate of metal: it passes no wood at all."""
    plate = replace(side, depth=NO_PLATE, thickness=NO_PLATE, narrow=None, wide=None)
    return Meeting(plate, side, Fraction(0), 0.0, None, (), enters_stated=True)


def longest_inside(meeting: Meeting, around: Surroundings) -> Inside | None:
    """The longest screw that leaves enough wood past its point; None where none that is made does.

    More than an inch and a half in the second part is not looked for. Of the gauges that suit the
    thickness the usual one counts, where it has such a length.
    """
    passed = meeting.passed
    if passed is None or meeting.into.depth is None:
        return None
    limit = passed.listed + DEEPEST
    for made in candidates(around.catalog, "screw", stouts_for(meeting, around.metric)):
        size = made.size
        if not isinstance(size, ScrewSize) or size.family not in FLAT_HEADED:
            continue
        for length in reversed(made.lengths):
            if length > limit:
                continue
            fixing = Fixing(
                "screw", length, made.diameter, made.gauge, pilot=True, has_fastener=True
            )
            here = stays(meeting, fixing, around)
            if here is not None:
                into = meeting.into
                drilled = drilling(around.catalog, size, into.wood, into.surface)
                return Inside(made, fixing, here, drilled)
    return None


def stays(meeting: Meeting, fixing: Fixing, around: Surroundings) -> Driven | None:
    """Where a screw ends up that bites and neither comes out nor nearly does, nor splits the wood;
    None for any other."""
    here, thin = placed(meeting, fixing), placed(meeting, fixing, thin=True)
    if here is None or thin is None or here.bite <= 0:
        return None
    if any(beyond(meeting, fixing, here, thin, around)) or any(too_thick(meeting, fixing, around)):
        return None
    return here
