"""The main question: will it go together?"""

from collections.abc import Callable, Iterator
from typing import Literal

from service.domain.build import Build
from service.domain.catalog import Catalog
from service.domain.deadline import kept_time
from service.domain.errors import UnknownCode
from service.domain.fastening.joints import JudgedJoint
from service.domain.fastening.meeting import WALL
from service.domain.findings import RANK, Finding, Rule
from service.domain.resolving import ResolvedBuild, resolve
from service.domain.rules import BY_CODE, RULES
from service.domain.values import dataclass, replace
from service.domain.yields import Purchasing

Verdict = Literal["mend-first", "look", "nothing-found"]
PlanBuying = Callable[[ResolvedBuild], Purchasing]

NEVER_JUDGED = (
    "how joints hold in use, and how they age",
    "rocking and racking under a person, or a child who climbs it",
    "the wall and what is in it",
    "this board's own knots, splits, cup and twist",
)


@dataclass(frozen=True, slots=True)
class Checked:
    """The answer to a check: findings worst first, and what was not looked at."""

    verdict: Verdict
    findings: tuple[Finding, ...]
    not_judged: tuple[str, ...]
    resolved: ResolvedBuild


def check(build: Build, catalog: Catalog, plan_buying: PlanBuying | None = None) -> Checked:
    """Judge a build by every rule. Raises UnknownName for names outside the tables.

    `plan_buying` is asked what the boards and sheets planned yield; without it the rules about
    buying find nothing.
    """
    resolved = resolve(build, catalog)
    if plan_buying is not None:
        resolved = replace(resolved, purchasing=plan_buying(resolved))
    found = [finding for rule in kept_time(RULES) for finding in rule.judge(resolved)]
    findings = tuple(sorted(found, key=lambda f: (RANK[f.severity], natural(f.at), f.code)))
    return Checked(verdict(findings, resolved), findings, tuple(not_judged(resolved)), resolved)


def natural(at: str) -> tuple[tuple[int, str], ...]:
    """Document order of pointers: index 2 before index 10."""
    return tuple((int(s), "") if s.isascii() and s.isdigit() else (-1, s) for s in at.split("/"))


def verdict(findings: tuple[Finding, ...], resolved: ResolvedBuild) -> Verdict:
    """What the worst finding says. Where strength is refused it is never that nothing was found."""
    severities = {finding.severity for finding in findings}
    if "fault" in severities:
        return "mend-first"
    if "warn" in severities or unjudged_uses(resolved) or not anything_sized(resolved):
        return "look"
    return "nothing-found"


def anything_sized(resolved: ResolvedBuild) -> bool:
    """Whether any part, or any sum, has all the sizes that a judgment needs."""
    sums = any(judged.judgment.verdict != "not-judged" for judged in resolved.runs)
    return sums or any(part.solid is not None for part in resolved.parts)


def unjudged_uses(resolved: ResolvedBuild) -> list[str]:
    """Uses for which separate standards apply, and this service says nothing of strength."""
    unjudged = resolved.catalog.unjudged_uses
    keys = [resolved.catalog.key("use", resolved.build.region, u) for u in resolved.build.uses]
    return [key for key in keys if key in unjudged]


def not_judged(resolved: ResolvedBuild) -> Iterator[str]:
    """Everything that this answer says nothing about."""
    for use in unjudged_uses(resolved):
        yield f"strength, stability and gaps for {use}: separate standards apply"
    if resolved.build.steps:
        yield "the order of the steps, but for gluing and finishing"
    yield from unloaded(resolved)
    yield from too_little_said(resolved)
    yield from NEVER_JUDGED


def unloaded(resolved: ResolvedBuild) -> Iterator[str]:
    """What is not looked at of loads and of how the piece stands."""
    if resolved.build.loads:
        yield "strength of joints, notches and holes under load: only bending is figured"
    else:
        yield "sag and strength: no loads given"
    if resolved.build.stands is None:
        yield "tipping over: stands is not given"


def too_little_said(resolved: ResolvedBuild) -> Iterator[str]:
    """Shapes, joints, runs and parts of which the build says too little to judge them."""
    for shape in resolved.shapes:
        if shape.why_not is not None:
            yield f"the shape {shape.shape.id}: {shape.why_not}"
    for one in resolved.judged_joints:
        if one.joint.into != WALL and (one.meeting is None or one.fixing is None):
            yield f"the fastening of {one.joint.id}: {unsaid(one)}"
    yield from without_sizes(resolved)


def without_sizes(resolved: ResolvedBuild) -> Iterator[str]:
    """What could not be judged because a size is missing, or a proof."""
    for found in resolved.purchasing.yields:
        if found.enough == "unknown":
            yield f"whether the {found.stock} planned yields the parts: not proved in time"
    for judged in resolved.runs:
        if judged.judgment.verdict == "not-judged":
            yield f"the run {judged.run.run.id}: a piece of it has no size"
    for part in resolved.parts:
        if part.sized and part.solid is None:
            yield f"{part.part.id}: a length or a width is missing"


def unsaid(judged: JudgedJoint) -> str:
    """Why nothing is said of what fastens a joint."""
    if judged.meeting is None:
        return "one of its parts, or its stock, is not known"
    return "neither a method nor a fastener is stated"


def rule_for(code: str) -> Rule:
    """The rule behind a finding's code. Raises UnknownCode."""
    if code not in BY_CODE:
        raise UnknownCode(f"no finding has the code {code!r}")
    return BY_CODE[code]
