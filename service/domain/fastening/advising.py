"""What holds a joint: the whole answer for each joint of a build."""

from collections.abc import Iterable, Iterator, Sequence
from fractions import Fraction
from itertools import count

from service.domain.build import Joint
from service.domain.checking import Verdict
from service.domain.deadline import kept_time
from service.domain.fastening.cautioning import cautions, wetted
from service.domain.fastening.choosing import RuledOut
from service.domain.fastening.joints import SPECIAL, JudgedJoint, can_propose
from service.domain.fastening.judging_lengths import LengthJudged, judge_lengths
from service.domain.fastening.particular import Particular
from service.domain.fastening.proposing import Option, alone, best, complete, propose
from service.domain.fastening.searching import Search
from service.domain.fastening.special_joints import particulars
from service.domain.fastening.tooling import (
    BY_METHOD,
    CLAMPS,
    DRILLS,
    EVERY_SHOP,
    EVERY_TOOL,
    POWERED,
)
from service.domain.fastening.tooling import said as tools_said
from service.domain.fastening.wall_joints import AtWall, on_studs
from service.domain.findings import Finding
from service.domain.keeping import kept
from service.domain.resolving import ResolvedBuild
from service.domain.rules import RULES
from service.domain.values import dataclass, replace

JUDGING = tuple(rule for rule in RULES if rule.code.startswith(("fastener.", "glue.", "hang.")))
NUMBERS = count()
BY_HAND = "by hand"
KINDS = {"clamps": CLAMPS, "drill": DRILLS}  # tools that stand in for one another
FIRST, SECOND = "\ue000", "\ue001"  # stand-ins, of the characters that no text may hold


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
    particulars: tuple[Particular, ...] = ()


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
        meeting, wall = self.judged.meeting, self.judged.wall
        met = meeting.rests_on if meeting else wall.through.rests_on if wall else ()
        return (*own, *met, *self.suggestions.rests_on)


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
    meeting, wall = judged.meeting, judged.wall
    if wall is not None:
        return replace(judged, wall=replace(wall, through=replace(wall.through, name=FIRST)))
    if meeting is None:
        return judged
    through, into = replace(meeting.through, name=FIRST), replace(meeting.into, name=SECOND)
    return replace(judged, meeting=replace(meeting, through=through, into=into, assumed=()))


def suggest(judged: JudgedJoint, asked: tuple[Fraction, ...]) -> Suggestions:
    """Options, what is out, lengths, substitutes and cautions."""
    meeting = judged.meeting
    if judged.wall is not None:
        return on_wall(judged.wall, judged)
    if meeting is None or not can_propose(judged):
        told = particulars(judged)
        return Suggestions(
            next(NUMBERS),
            ruled_out=(RuledOut("fasteners", why_not(judged.joint)),),
            rests_on=rows_of((), told),
            particulars=told,
        )
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
        rests_on=(*rows_of(options, ()), *(one.row for one in wetted(judged, options))),
    )


def on_wall(wall: AtWall, judged: JudgedJoint) -> Suggestions:
    """Screws into the studs of a wall, and what to know of them."""
    stated = judged.fixing.length if judged.fixing else None
    held = on_studs(wall, stated, judged.want, judged.around)
    return Suggestions(
        next(NUMBERS),
        options=held.options,
        ruled_out=held.ruled_out,
        cautions=held.cautions,
        rests_on=(*rows_of(held.options, held.particulars), *held.rests_on),
        particulars=held.particulars,
    )


def rows_of(options: Iterable[Option], told: Iterable[Particular]) -> tuple[str, ...]:
    """The rows behind some options and particulars, each once."""
    rows = [row for one in options for row in (*one.rests_on, *one.hold.rests_on, *one.usual[1])]
    rows += [row for one in told for row in one.rests_on]
    return tuple(dict.fromkeys(rows))


def why_not(joint: Joint) -> str:
    """Why nothing is proposed for a joint."""
    if joint.method in SPECIAL:
        return f"a {joint.method} is told of, not replaced by other fasteners"
    if joint.method == "loose":
        return "the plan says that nothing holds it"
    return "the stock of one of its parts is not known, or its size is missing"


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


def assumed(judged: JudgedJoint) -> Iterator[str]:
    """Everything taken for granted about the joint."""
    if judged.meeting is not None:
        yield from judged.meeting.assumed
    if judged.wall is not None:
        yield from judged.wall.assumed
    yield from tools_said(judged.want.tools)
