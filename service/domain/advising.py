"""What holds a joint: the whole answer for each joint of a build."""

from collections.abc import Iterable, Iterator, Sequence
from fractions import Fraction
from itertools import count

from service.domain.build import Joint
from service.domain.checking import Verdict
from service.domain.choosing import RuledOut
from service.domain.deadline import kept_time
from service.domain.findings import Finding
from service.domain.fixing import DRIVEN, Fixing, placed
from service.domain.flaws import flaws_at
from service.domain.holding import CAUTION
from service.domain.joints import JudgedJoint, can_propose
from service.domain.keeping import kept
from service.domain.meeting import WALL, Meeting
from service.domain.proposing import Option, alone, best, complete, propose
from service.domain.resolving import ResolvedBuild
from service.domain.rules import RULES
from service.domain.searching import Search
from service.domain.splitting import BRAD_TURNS
from service.domain.surroundings import Surroundings
from service.domain.tooling import BY_METHOD, CLAMPS, DRILLS, EVERY_SHOP, EVERY_TOOL, POWERED
from service.domain.tooling import said as tools_said
from service.domain.values import dataclass, replace

JUDGING = tuple(rule for rule in RULES if rule.code.startswith(("fastener.", "glue.")))
OF_LENGTH = frozenset({"pokes-out", "too-short", "breaks-out", "pocket-length", "mismatch"})
NUMBERS = count()
BY_HAND = "by hand"
KINDS = {"clamps": CLAMPS, "drill": DRILLS}  # tools that stand in for one another
FIRST, SECOND = "\ue000", "\ue001"  # stand-ins, of the characters that no text may hold
WIDE_ACROSS = Fraction(6)  # in; solid wood wider than that moves enough to matter; practice
SEAT_ONLY = "stop when the head seats: driving on strips the thread in the wood"
NEVER_SUMMED = "glue and fasteners are never added up: the stiffer one carries until it fails"
MOVES = (
    "{part} is {wide} of solid wood across the grain: leave all but one line of fasteners free to "
    "slide, and glue only there"
)


@dataclass(frozen=True, slots=True)
class LengthJudged:
    """One length for the fastener of the joint. `verdict` is right, doubtful or wrong."""

    length: Fraction
    bite: Fraction | None
    clear: Fraction | None
    verdict: str
    why: str


@dataclass(frozen=True, slots=True)
class Substitute:
    """A full option for readers without a tool, or without anything that needs power."""

    without: str
    option: Option | None


@dataclass(frozen=True, slots=True)
class Suggestions:
    """What can be said of a joint whatever its parts are called; see `Advice.named`.

    No two have the same `number`.
    """

    number: int
    options: tuple[Option, ...] = ()
    ruled_out: tuple[RuledOut, ...] = ()
    lengths: tuple[LengthJudged, ...] = ()
    substitutes: tuple[Substitute, ...] = ()
    cautions: tuple[str, ...] = ()
    rests_on: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Advice:
    """The answer for one joint. Joints that are alike share their `suggestions`.

    In the texts of suggestions stand-ins take the place of the parts' names.
    """

    judged: JudgedJoint
    verdict: Verdict
    findings: tuple[Finding, ...]
    suggestions: Suggestions
    assumed: tuple[str, ...]

    def named(self, text: str) -> str:
        """A text of the suggestions with the names of the parts in it."""
        joint = self.judged.joint
        return text.replace(FIRST, joint.through).replace(SECOND, joint.into)

    @property
    def rests_on(self) -> tuple[str, ...]:
        """Rows behind every number of the answer."""
        own = (row for finding in self.findings for row in finding.rests_on)
        meeting = self.judged.meeting
        return (*own, *(meeting.rests_on if meeting else ()), *self.suggestions.rests_on)


def advise(resolved: ResolvedBuild, asked: tuple[Fraction, ...] = ()) -> tuple[Advice, ...]:
    """Every joint of a build, in its order; `asked` are lengths to choose among."""
    findings: dict[int, list[Finding]] = {}
    for rule in JUDGING:
        for finding in rule.judge(resolved):
            place = finding.at.split("/")
            if place[1] == "joints":
                findings.setdefault(int(place[2]), []).append(finding)
    return tuple(
        advise_joint(judged, findings.get(judged.index, ()), asked)
        for judged in kept_time(resolved.judged_joints)
    )


def advise_joint(
    judged: JudgedJoint, findings: Sequence[Finding], asked: tuple[Fraction, ...] = ()
) -> Advice:
    """One joint; the lengths judged are those asked about, else the one stated."""
    severities = {finding.severity for finding in findings}
    verdict: Verdict = "nothing-found"
    if severities & {"fault", "warn"}:
        verdict = "mend-first" if "fault" in severities else "look"
    key = ("joint", judged.key, asked)
    return Advice(
        judged=judged,
        verdict=verdict,
        findings=tuple(findings),
        suggestions=kept(judged.around.catalog, key, lambda: suggest(nameless(judged), asked)),
        assumed=tuple(assumed(judged)),
    )


def nameless(judged: JudgedJoint) -> JudgedJoint:
    """The joint with stand-ins for the names of its parts."""
    meeting = judged.meeting
    if meeting is None:
        return judged
    through, into = replace(meeting.through, name=FIRST), replace(meeting.into, name=SECOND)
    return replace(judged, meeting=replace(meeting, through=through, into=into, assumed=()))


def suggest(judged: JudgedJoint, asked: tuple[Fraction, ...]) -> Suggestions:
    """Options, what is out, lengths, substitutes and cautions."""
    meeting = judged.meeting
    if meeting is None or not can_propose(judged):
        return Suggestions(next(NUMBERS), ruled_out=(RuledOut("fasteners", why_not(judged.joint)),))
    search = Search(meeting, judged.want, judged.around)
    proposed = propose(search)
    options = proposed.options
    return Suggestions(
        next(NUMBERS),
        options=options,
        ruled_out=proposed.ruled_out,
        lengths=tuple(judge_lengths(judged, options, asked)),
        substitutes=tuple(substituted(judged.joint.method, search, options)),
        cautions=tuple(cautions(judged, options)),
        rests_on=tuple(
            dict.fromkeys(
                row
                for option in options
                for row in (*option.rests_on, *option.hold.rests_on, *option.usual[1])
            )
        ),
    )


def why_not(joint: Joint) -> str:
    """Why nothing is proposed for a joint."""
    if joint.into == WALL:
        return "what holds in a wall depends on what is in it"
    if joint.method in ("hinge", "loose", "lap", "clip", "bolt"):
        return f"a {joint.method} joint is not held by other fasteners"
    return "the stock of one of its parts is not known, or its size is missing"


def judge_lengths(
    judged: JudgedJoint, options: tuple[Option, ...], asked: Iterable[Fraction]
) -> Iterator[LengthJudged]:
    """Every length asked about, or else the stated one: for the stated fastener, or without one
    for the first option's."""
    meeting, around = judged.meeting, judged.around
    if meeting is None:
        return
    fixing = judged.fixing
    if fixing is None or fixing.method not in (*DRIVEN, "pocket-screw", "dowel"):
        first = next((one.choice for one in options if one.choice.made), None)
        if first is None:
            return
        fixing = first.fixing
    stated = judged.fixing.length if judged.fixing else None
    for length in tuple(asked) or ((stated,) if stated else ()):
        yield judge_length(meeting, replace(fixing, length=length), around)


def judge_length(meeting: Meeting, fixing: Fixing, around: Surroundings) -> LengthJudged:
    """One length, by the same judgment as a plan's."""
    here, thin = placed(meeting, fixing), placed(meeting, fixing, thin=True)
    found = [flaw for flaw in flaws_at(meeting, fixing, here, around) if flaw.code in OF_LENGTH]
    worst = min(found, key=lambda flaw: flaw.severity != "fault", default=None)
    length = fixing.length or Fraction(0)
    if worst is not None:
        verdict = "wrong" if worst.severity == "fault" else "doubtful"
        why = worst.detail
    elif here is not None:
        verdict = "right"
        why = f"It bites {around.say(here.bite)} and leaves {around.say(here.clear)}."
    else:
        verdict, why = "doubtful", "A size that matters is not known."
    bite, clear = (here.bite if here else None), (thin.clear if thin else None)
    return LengthJudged(length, bite, clear, verdict, why)


def substituted(
    method: str | None, search: Search, options: tuple[Option, ...]
) -> Iterator[Substitute]:
    """A full option without each tool that the plan or the best option needs; and one by hand."""
    needed = {tool for any_of in BY_METHOD.get(method or "", ()) for tool in any_of}
    if options:
        needed.update(options[0].choice.tools)
    single = sorted(needed - CLAMPS - DRILLS - EVERY_SHOP)
    groups = [(tool, frozenset({tool})) for tool in single]
    groups += [(name, kind) for name, kind in KINDS.items() if needed & kind]
    told: list[Option] = []  # shops without this or that tool often come to the same
    for name, tools in (*groups, (BY_HAND, POWERED)):
        option = option_without(search, tools, options, told)
        if option is not None:
            told.append(option)
        yield Substitute(name, option)


def option_without(
    search: Search, tools: frozenset[str], known: tuple[Option, ...], told: list[Option]
) -> Option | None:
    """The best option of the shop without some tools; where it has none, of any other shop.

    Where it is one of those known already, only its tools may differ; one of those `told` stands
    by itself already.
    """
    for shop in (search.want.tools, EVERY_TOOL):
        choice = best(search, shop.less(tools))
        if choice is None:
            continue
        same = next((one for one in told if one.choice == choice), None)
        if same is not None:
            return same
        same = next((one for one in known if one.choice.fixing == choice.fixing), None)
        if same is not None and same.choice.made == choice.made:
            return alone(same, choice)
        return next(complete(search, [choice]))
    return None


def cautions(judged: JudgedJoint, options: tuple[Option, ...]) -> Iterator[str]:
    """What else to mind, tied to what is proposed."""
    methods = {option.method for option in options}
    if methods & {"screw", "pocket-screw"}:
        yield SEAT_ONLY
    if "brad" in methods:
        yield BRAD_TURNS
    if any(option.hold.pulled or option.hold.sheared for option in options):
        yield CAUTION
    if len(options) > 1:
        yield NEVER_SUMMED
    meeting = judged.meeting
    if meeting is not None and crossed(judged, meeting):
        wide = meeting.through.narrow
        if wide is not None:
            yield MOVES.format(part=meeting.through.name, wide=judged.around.say(wide.listed))


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


def assumed(judged: JudgedJoint) -> Iterator[str]:
    """Everything taken for granted about the joint."""
    if judged.meeting is not None:
        yield from judged.meeting.assumed
    yield from tools_said(judged.want.tools)
