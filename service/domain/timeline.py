"""How long a build takes: work by hand and waiting apart, and what the longest way through is.

Times are hours, always a range. One pair of hands does the steps in order; glue and finish dry
meanwhile, and hold up only what touches the same parts.
"""

from fractions import Fraction

from service.domain.build import Step
from service.domain.finishing import (
    NOTHING,
    Span,
    coats_of,
    cured,
    finish_of,
    handled,
    recoat,
    span,
    surface,
)
from service.domain.glued import glue_in
from service.domain.glues import GlueFigure
from service.domain.gluing import Label, Limit, as_limit, clamp_time, slowed, too_cold
from service.domain.handwork import (
    added,
    cutting,
    joining,
    joints_of,
    sanding,
    shared_out,
    trying,
)
from service.domain.resolving import ResolvedBuild
from service.domain.usual_order import HELD, goes, usual_order
from service.domain.values import dataclass

MINUTES = Fraction(1, 60)


@dataclass(frozen=True, slots=True)
class Task:
    """One thing to do: hours of work, hours until its parts can be touched, and until they cure."""

    what: str
    parts: frozenset[str]
    work: Span
    dries: Span = NOTHING
    cures: Span = NOTHING
    holds_all: bool = False


@dataclass(frozen=True, slots=True)
class Timed:
    """A task with the hours, from the first start, at which it starts and its parts are free."""

    task: Task
    start: Span
    free: Span
    critical: bool


@dataclass(frozen=True, slots=True)
class Timeline:
    """The whole: hours of work, of waiting, until done, and until it is ready to use."""

    tasks: tuple[Timed, ...]
    hands_on: Span
    waiting: Span
    done: Span
    ready_to_use: Span
    own_order: bool
    notes: tuple[str, ...]


def timeline(build: ResolvedBuild, extra: tuple[Step, ...] = ()) -> Timeline:
    """The stated steps in order; without any, the usual order, with the coats in `extra`."""
    own = not build.build.steps
    steps = usual_order(build, extra) if own else build.build.steps
    notes: list[str] = []
    tasks = [task for step in steps for task in tasks_of(build, step, notes, own)]
    lows, highs = _starts(tasks, "low"), _starts(tasks, "high")
    path = _critical(tasks, highs)
    timed = tuple(
        Timed(task, Span(lows[i][0], highs[i][0]), Span(lows[i][1], highs[i][1]), i in path)
        for i, task in enumerate(tasks)
    )
    hands = added(task.work for task in tasks)
    done = Span(_last(lows), _last(highs))
    ready = Span(_ready(tasks, lows, "low"), _ready(tasks, highs, "high"))
    waiting = Span(done.low - hands.low, done.high - hands.high)
    return Timeline(timed, hands, waiting, done, ready, own, tuple(dict.fromkeys(notes)))


def tasks_of(build: ResolvedBuild, step: Step, notes: list[str], own: bool = False) -> list[Task]:
    """What one step comes to; coats are a task each.

    A step's own minutes win over the tables, and are those of all its people together. `own`: the
    step is of the usual order, where more joints than the glue stays open for go in turns.
    """
    if step.do in ("finish", "stain"):
        return _coats(build, step, notes)
    parts = _touched(build, step)
    if step.do == "wait":
        hours = step.hours or (step.minutes or Fraction(0)) * MINUTES
        return [Task("wait", parts, NOTHING, Span(hours, hours), holds_all=True)]
    if step.do == "use":
        return []
    minutes = {"cut": cutting, "sand": sanding, "dry-fit": trying}.get(step.do, joining)
    count = sum(joint.quantity for joint in joints_of(build, step))
    work = shared_out(minutes(build, step), step.people, count)
    if step.minutes is not None:
        stated = step.minutes * (step.count or 1)
        work = Span(stated, stated)
    dries, cures = NOTHING, NOTHING
    if step.do in ("glue", "assemble"):
        dries, cures = _setting(build, step, notes)
    if own and dries is not NOTHING and (turns := goes(build, joints_of(build, step))) > 1:
        notes.append(
            f"{', '.join(step.joints)}: {count} joints take {turns} goes, because the glue does "
            "not stay open for more"
        )
        dries = Span(dries.low, dries.high * turns, dries.rests_on, dries.at_least)
    what = f"{step.do} {', '.join(step.joints or step.parts)}".strip()
    return [Task(what, parts, work.times(MINUTES), dries, cures)]


def _coats(build: ResolvedBuild, step: Step, notes: list[str]) -> list[Task]:
    finish = finish_of(build, step)
    if finish is None:
        notes.append(f"{step.do}: no finish is named that the tables have, so its time is unknown")
        return []
    coats, area = coats_of(step, finish), surface(build, step.parts)
    place, parts = build.build.place, _touched(build, step)
    between = recoat(finish, place.temperature) or NOTHING
    after = handled(finish, place.where == "damp") or NOTHING
    figures = build.catalog.work_times
    each = shared_out((span(figures["coat"]) or NOTHING).times(area), step.people)
    each = each.plus(span(figures["coat-clean-up"]) or NOTHING).times(MINUTES)
    if step.minutes is not None:
        each = Span(step.minutes * MINUTES, step.minutes * MINUTES)
    cure = finish.figure("full-cure")
    if cure is not None and cured(finish) is None:
        notes.append(f"{finish.name} does not cure: {cure.words}")
    made = [_masking(build, parts)] if step.bare_at_joints else []
    for n in range(1, int(coats.high) + 1):
        spare = n > coats.low  # a coat that not everybody gives: nothing at the low end
        last = n == int(coats.high)
        dries = after if last else between
        work = Span(Fraction(0) if spare else each.low, each.high, each.rests_on)
        if spare or (not last and n == coats.low):
            dries = Span(after.low if n == coats.low else Fraction(0), dries.high, dries.rests_on)
        cures = (cured(finish) or NOTHING) if last else NOTHING
        made.append(Task(f"{finish.name}, coat {n}", parts, work, dries, cures))
    return made


def _masking(build: ResolvedBuild, parts: frozenset[str]) -> Task:
    count = sum(j.quantity for j in build.build.joints if {j.through, j.into} & parts)
    each = span(build.catalog.work_times["mask"]) or NOTHING
    return Task("mask the glue faces", parts, each.times(count * MINUTES))


def _setting(build: ResolvedBuild, step: Step, notes: list[str]) -> tuple[Span, Span]:
    """Hours in clamps, and until the glue has cured, of the slowest joint of a step."""
    clamps, cures, warmth = NOTHING, NOTHING, build.build.place.temperature
    for joint in joints_of(build, step):
        glue = glue_in(build, joint)
        if glue is None:
            continue
        clamp = _as_hours(clamp_time(glue, warmth), glue.figure("clamp-time"))
        full = glue.figure("full-cure")
        if clamp is None:
            notes.append(f"no clamp time of {glue.key} is in the tables")
        if warmth is not None and too_cold(glue, Label(), warmth):
            notes.append(f"{glue.key} is too cold at {float(warmth):g} F to set as it should")
        if clamp is not None and joint.method not in HELD:
            clamps = _longer(clamps, clamp)
        cures = _longer(cures, _as_hours(slowed(as_limit(full), glue, warmth), full) or NOTHING)
    return clamps, cures


def _as_hours(limit: Limit | None, figure: GlueFigure | None) -> Span | None:
    if limit is None or figure is None:
        return None
    return Span(limit.low * MINUTES, limit.high * MINUTES, limit.rests_on, figure.high is None)


def _touched(build: ResolvedBuild, step: Step) -> frozenset[str]:
    """Parts that a step touches; every part where it names none."""
    ends = [end for joint in joints_of(build, step) for end in (joint.through, joint.into)]
    return frozenset([*step.parts, *ends]) or frozenset(p.part.id for p in build.parts)


def _starts(tasks: list[Task], end: str) -> list[tuple[Fraction, Fraction]]:
    """When each task starts and when its parts are free again, at one end of every range."""
    found: list[tuple[Fraction, Fraction]] = []
    hands = everything = Fraction(0)  # when the hands are free, and what waits hold up
    free_at: dict[str, Fraction] = {}
    held, held_to = frozenset[str](), Fraction(0)  # the last parts, not yet among `free_at`
    for task in tasks:
        start = max(hands, everything)
        if not task.holds_all:
            if task.parts != held:
                free_at.update((part, max(held_to, free_at.get(part, held_to))) for part in held)
                held = task.parts
                held_to = max((free_at[part] for part in held if part in free_at), default=start)
            start = max(start, held_to)
        hands = start + getattr(task.work, end)
        free = hands + getattr(task.dries, end)
        found.append((start, free))
        if task.holds_all:
            everything = max(everything, free)
        else:
            held_to = max(held_to, free)
    return found


def _critical(tasks: list[Task], times: list[tuple[Fraction, Fraction]]) -> set[int]:
    """The tasks that the end hangs on, followed back from the last to be free."""
    path: set[int] = set()
    if not tasks:
        return path
    at: int | None = max(range(len(tasks)), key=lambda i: times[i][1])
    while at is not None:
        path.add(at)
        at = _before(tasks, times, at)
    return path


def _before(tasks: list[Task], times: list[tuple[Fraction, Fraction]], at: int) -> int | None:
    """The nearest earlier task that a task waited for: its parts, or the hands."""
    start = times[at][0]
    for j in range(at - 1, -1, -1):
        if start == times[j][1] or start == times[j][0] + tasks[j].work.high:
            return j
    return None


def _ready(tasks: list[Task], times: list[tuple[Fraction, Fraction]], end: str) -> Fraction:
    cured_at = [
        start + getattr(task.work, end) + getattr(task.cures, end)
        for task, (start, _) in zip(tasks, times, strict=True)
    ]
    return max([*cured_at, _last(times)], default=Fraction(0))


def _last(times: list[tuple[Fraction, Fraction]]) -> Fraction:
    return max((free for _, free in times), default=Fraction(0))


def _longer(one: Span, other: Span) -> Span:
    rows = tuple(dict.fromkeys((*one.rests_on, *other.rests_on)))
    at_least = one.at_least or other.at_least
    return Span(max(one.low, other.low), max(one.high, other.high), rows, at_least)
