"""How long work by hand takes, in minutes, by common practice: from memory, always a range."""

import math
from collections.abc import Iterable, Mapping
from fractions import Fraction

from service.domain.build import Joint, Step
from service.domain.finishing import NOTHING, Span, span, surface
from service.domain.glued import glue_in
from service.domain.resolving import ResolvedBuild


def cutting(build: ResolvedBuild, step: Step) -> Span:
    """Minutes to cut the parts of a step, their rips and cutouts too."""
    counts = {"cut-square": 0, "cut-angled": 0, "rip": 0, "cutout": 0}
    for part in build.parts:
        if step.parts and part.part.id not in step.parts:
            continue
        pieces = part.part.quantity
        for end in part.part.ends:
            counts["cut-square" if end.is_square else "cut-angled"] += pieces
        ripped = part.is_ripped or (part.sized is not None and part.sized.form == "panel")
        counts["rip"] += pieces if ripped else 0
        counts["cutout"] += pieces * sum(max(1, len(c.at)) for c in part.part.cutouts)
    return _counted(build, counts)


def _counted(build: ResolvedBuild, counts: Mapping[str, int]) -> Span:
    """Minutes for so many of each kind of work."""
    known: dict[tuple[tuple[str, int], ...], Span] = build.shared.setdefault("minutes", {})
    work = tuple(counts.items())
    if work not in known:
        figures = build.catalog.work_times
        known[work] = added((span(figures[kind]) or NOTHING).times(n) for kind, n in work if n)
    return known[work]


def sanding(build: ResolvedBuild, step: Step) -> Span:
    """Minutes to sand every side of the parts of a step, with one grit."""
    return (span(build.catalog.work_times["sand"]) or NOTHING).times(surface(build, step.parts))


def trying(build: ResolvedBuild, step: Step) -> Span:
    """Minutes to try the joints of a step without glue."""
    count = sum(joint.quantity for joint in joints_of(build, step) or build.build.joints)
    return (span(build.catalog.work_times["dry-fit"]) or NOTHING).times(count)


def joining(build: ResolvedBuild, step: Step) -> Span:
    """Minutes to spread the glue and drive the fasteners of a step."""
    counts = {"fastener": 0, "glue-joint": 0}
    for joint in joints_of(build, step):
        counts["fastener"] += (joint.count or 0) * joint.quantity
        counts["glue-joint"] += joint.quantity if glue_in(build, joint) else 0
    return _counted(build, counts)


def shared_out(work: Span, people: int | None, joints: int | None = None) -> Span:
    """As long as work takes so many people; joints are shared out whole, all else evenly."""
    if people is None or people == 1:
        return work
    if joints:
        return work.times(Fraction(math.ceil(Fraction(joints, people)), joints))
    return work.times(Fraction(1, people))


def joints_of(build: ResolvedBuild, step: Step) -> list[Joint]:
    """The joints that a step names."""
    if not step.joints:
        return []
    return [joint for joint in build.build.joints if joint.id in step.joints]


def added(spans: Iterable[Span]) -> Span:
    """Spans, one after the other."""
    total = NOTHING
    for one in spans:
        total = total.plus(one)
    return total
