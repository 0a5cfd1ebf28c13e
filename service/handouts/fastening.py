"""What holds each joint: as the build states it, or, where it is silent, as proposed."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from service.domain.fastening.advising import Advice
from service.domain.fastening.fastener_words import KINDS, drill_words, option_name, stated_fastener
from service.domain.fastening.fixing import Fixing
from service.domain.fastening.grain import standing
from service.domain.fastening.joints import SPECIAL
from service.domain.fastening.pilot_holes import Drilling, drilling, screw_named
from service.domain.fastening.proposing import Option
from service.domain.fastening.splitting import Distances, distances
from service.domain.glued import glue_in, is_none
from service.handouts.answers import Answers

JIG = "the jig sets it: one stepped hole from the inside face"
GLUE_ALONE = frozenset({"glue", "loose", *SPECIAL})
PROPOSED = " (proposed)"


@dataclass(frozen=True, slots=True)
class Held:
    """How a joint is held, in words: by what, the hole to drill first, where, and the glue."""

    fastener: str
    pilot: str
    place: str
    glue: str


@dataclass(frozen=True, slots=True)
class Proposal:
    """A fastening that the build leaves open: its name at the store, how many, and its glue."""

    name: str
    count: int
    glue: str
    option: Option


def alike(answers: Answers, joints: Iterable[Advice]) -> dict[Held, list[Advice]]:
    """Joints by how they are held, in their order: those held alike are told together."""
    found: dict[Held, list[Advice]] = {}
    for one in joints:
        found.setdefault(held(answers, one), []).append(one)
    return found


def held(answers: Answers, advice: Advice) -> Held:
    """How one joint is held."""
    return Held(
        _fastener(answers, advice),
        _pilot(answers, advice),
        "; ".join(_place(answers, advice)),
        _glue(answers, advice),
    )


def proposed(answers: Answers, advice: Advice) -> Proposal | None:
    """The first fastening that suits, where the build states no fastener in full; else None.

    A stated method is kept to, where an option has it.
    """
    joint, options = advice.judged.joint, advice.suggestions.options
    whole = joint.fastener is not None and joint.fastener.length is not None and joint.count
    if whole or not options or joint.method in GLUE_ALONE:
        return None
    own = [option for option in options if option.method == joint.method]
    if joint.method is not None and not own:
        return None
    option = own[0] if own else options[0]
    fixing, made = option.choice.fixing, option.choice.made is not None
    each = joint.count or option.row.count
    glue = answers.build.catalog.glues.get(fixing.glue or "") if joint.glue is None else None
    return Proposal(
        option_name(option, answers.build.metric) if made else KINDS.get(fixing.method, "clamps"),
        each * joint.quantity if made else 0,
        glue.name if glue else "",
        option,
    )


def _fastener(answers: Answers, advice: Advice) -> str:
    """The fastener of one joint, and how many of it."""
    joint = advice.judged.joint
    proposal = proposed(answers, advice)
    if proposal is not None:
        count = proposal.count // joint.quantity
        return (f"{count} x {proposal.name}" if count else f"{proposal.name}, clamped") + PROPOSED
    if joint.method is None and joint.fastener is None:
        return "not stated"
    words = stated_fastener(joint, answers.build.metric)
    return f"{joint.count} x {words}" if joint.count and joint.fastener is not None else words


def _glue(answers: Answers, advice: Advice) -> str:
    joint = advice.judged.joint
    if joint.glue is None:
        proposal = proposed(answers, advice)
        return f"{proposal.glue}{PROPOSED}" if proposal and proposal.glue else "not said"
    if is_none(answers.build, joint):
        return "none"
    glue = glue_in(answers.build, joint)
    return glue.name if glue else joint.glue


def _pilot(answers: Answers, advice: Advice) -> str:
    """The hole to drill first, and whether it is needed."""
    metric = answers.build.metric
    fixing = fixing_for(answers, advice)
    if fixing is None:
        return ""
    for one in advice.suggestions.particulars:
        if one.what == "hole" and one.least is not None and one.most is not None:
            return (
                f"{drill_words(one.least, metric)} to {drill_words(one.most, metric)} through both"
            )
    if fixing.method == "pocket-screw":
        return JIG
    drilled = _drilling(answers, advice, fixing)
    if drilled is None or drilled.pilot is None:
        return ""
    words = drill_words(drilled.pilot.usual, metric)
    if fixing.pilot is False and drilled.need == "not-needed":
        return "none"
    need = {"drill": "", "advised": "advised: ", "not-needed": "if near an end: "}[drilled.need]
    if fixing.pilot:
        need = ""
    shank = drill_words(drilled.clearance.usual, metric)
    return f"{need}{words}; {shank} through the first part"


def _place(answers: Answers, advice: Advice) -> Iterator[str]:
    """Where the fasteners stand: distances from end and edge, and between them."""
    joint, judged, sizes = advice.judged.joint, advice.judged, answers.sizes
    fixing = fixing_for(answers, advice)
    apart = _distances(answers, advice, fixing)
    if joint.end_distance is not None:
        yield f"{sizes.one(joint.end_distance)} from the end"
    elif apart is not None:
        least, better = sizes.at_least(apart.end.least), sizes.at_least(apart.end.advised)
        yield f"at least {least} from the end" + (f", better {better}" if better != least else "")
    if joint.edge_distance is not None:
        yield f"{sizes.one(joint.edge_distance)} from the edge"
    elif apart is not None:
        yield f"at least {sizes.at_least(apart.edge.least)} from the edge"
    option = next(
        (o for o in advice.suggestions.options if fixing and o.method == fixing.method), None
    )
    if option is not None and option.row.spacing and joint.count in (None, option.row.count):
        yield f"about {sizes.at_least(option.row.spacing)} apart"
    if fixing is not None and fixing.slope:
        yield f"driven at {fixing.slope:g} degrees off square"
    if judged.wall is not None and advice.suggestions.options:
        yield "into the middle of each stud"
    if judged.joint.sunk:
        yield f"head sunk {sizes.one(judged.joint.sunk)}"


def fixing_for(answers: Answers, advice: Advice) -> Fixing | None:
    """How the joint is fastened: as stated, or as proposed; None where neither says it."""
    proposal = proposed(answers, advice)
    return proposal.option.choice.fixing if proposal else advice.judged.fixing


def _drilling(answers: Answers, advice: Advice, fixing: Fixing) -> Drilling | None:
    meeting, catalog = advice.judged.meeting, answers.build.catalog
    if advice.judged.wall is not None and advice.suggestions.options:
        return advice.suggestions.options[0].drilling
    if fixing.method != "screw" or fixing.gauge is None or meeting is None:
        return None
    if catalog.fasteners.screw("wood-screw", f"no-{fixing.gauge}") is None:
        return None
    screw = screw_named(catalog, str(fixing.gauge), None)
    return drilling(catalog, screw, meeting.into.wood, meeting.into.surface)


def _distances(answers: Answers, advice: Advice, fixing: Fixing | None) -> Distances | None:
    meeting = advice.judged.meeting
    if fixing is None or meeting is None or fixing.diameter is None or fixing.length is None:
        return None
    if fixing.method in SPECIAL:
        return None  # what they keep from ends and edges is told under the table
    return distances(answers.build.catalog, standing(meeting, fixing))
