"""Putting it together in order: dry fit, glue clock, diagonals, waits."""

from collections.abc import Iterator

from service.domain.build import Joint, Step
from service.domain.finishing import NOTHING, coats_of, finish_of
from service.domain.glued import glue_in
from service.domain.glues import Glue
from service.domain.gluing import Label, Limit, clamp_time, working_time
from service.domain.handwork import added, joints_of
from service.domain.squaring import Rectangle, rectangles
from service.domain.timeline import tasks_of
from service.domain.usual_order import HELD, goes
from service.handouts.about import hours
from service.handouts.answers import Answers
from service.handouts.drawings.shapes import shape_drawings
from service.handouts.drawings.sums import sum_drawings
from service.handouts.fastening import PROPOSED, Held, alike
from service.handouts.page import Item, Items, Picture, Section, Words
from service.handouts.sizes import counted, listed

OWN_ORDER = "The build names no steps; this is the usual order."
DRY_FIRST = "Before any glue: put it together dry once, all of it."
DRY_FIT = "Without glue, every joint closes by hand, and the overall sizes above come out."
LABEL = "the label on the bottle wins"
SQUARE_WHY = "measure corner to corner both ways: when both are alike, it is square"


def assembling(answers: Answers) -> Section:
    """The steps in order, each with what belongs to it."""
    items = tuple(_step(answers, step) for step in answers.steps)
    words = [Words(OWN_ORDER)] if answers.time.own_order else []
    if answers.document.joints and not any(step.do == "dry-fit" for step in answers.steps):
        words.append(Words(DRY_FIRST, strong=True))
    square = tuple(_diagonal(answers, one) for one in rectangles(answers.build))
    squares = (Words(f"Check that it is square ({SQUARE_WHY}):"), Items(square)) if square else ()
    pen = answers.pen
    pictures = [Picture(*one) for drawn in (sum_drawings, shape_drawings) for one in drawn(pen)]
    blocks = (*words, Items(items, numbered=True), *squares, *pictures)
    return Section("build", "Putting it together", blocks)


def _diagonal(answers: Answers, one: Rectangle) -> Item:
    sizes = answers.sizes
    about = f"{answers.names(one.parts)}, {sizes.by(one.along, one.across)} over all ({one.where})"
    return Item(f"corner to corner {sizes.one(one.diagonal)}", about)


def _step(answers: Answers, step: Step) -> Item:
    name, text = TOLD.get(step.do, _joined)(answers, step)
    return Item(text, name, (*_lines(answers, step), *_times(answers, step)))


def _cut(answers: Answers, step: Step) -> tuple[str, str]:
    last = [p.part.id for p in answers.build.parts if p.part.fit == "to-fit"]
    rest = ""
    if last:
        rest = f" {answers.names(last, 8)}: left for last, cut to fit."
    return "Cut", f"{_parts(answers, step)}, by the lists and drawings above.{rest}"


def _sand(answers: Answers, step: Step) -> tuple[str, str]:
    grit = f" with {step.grit} grit" if step.grit else ", from the coarser grit to the finer"
    return "Sand", f"{_parts(answers, step)}{grit}, along the grain."


def _dry_fit(answers: Answers, step: Step) -> tuple[str, str]:
    return "Dry fit", DRY_FIT


def _joined(answers: Answers, step: Step) -> tuple[str, str]:
    name = "Glue" if step.do == "glue" else "Put together"
    joints = joints_of(answers.build, step)
    if not joints:
        return name, f"{_parts(answers, step)}."
    count = sum(joint.quantity for joint in joints)
    return name, f"{listed([joint.id for joint in joints], 12)}: {counted(count, 'joint')}."


def _finish(answers: Answers, step: Step) -> tuple[str, str]:
    name = "Stain" if step.do == "stain" else "Finish"
    finish = finish_of(answers.build, step)
    if finish is None:
        return name, f"{_parts(answers, step)}; the build names nothing that the tables know."
    coats = coats_of(step, finish)
    ends = [int(coats.low), int(coats.high)]
    many = counted(ends[0], "coat") if ends[0] == ends[1] else f"{ends[0]} to {ends[1]} coats"
    bare = " Keep the glue faces bare: tape them." if step.bare_at_joints else ""
    where = _parts(answers, step) if step.parts else "all parts"
    return name, f"{many} of {finish.name} on {where}.{bare}"


def _wait(answers: Answers, step: Step) -> tuple[str, str]:
    return "Wait", "leave it alone; what dries, dries."


def _use(answers: Answers, step: Step) -> tuple[str, str]:
    ready = hours(answers.time.ready_to_use)
    return "Use", f"glue and finish have cured {ready} after the first cut."


TOLD = {
    "cut": _cut,
    "sand": _sand,
    "dry-fit": _dry_fit,
    "finish": _finish,
    "stain": _finish,
    "wait": _wait,
    "use": _use,
}


def _parts(answers: Answers, step: Step) -> str:
    return answers.names(step.parts, 12) if step.parts else "All parts"


def _lines(answers: Answers, step: Step) -> Iterator[str]:
    """What belongs to a step: each joint with its fastener, and the clock of the glue."""
    if step.do not in ("glue", "assemble"):
        return
    joints = joints_of(answers.build, step)
    ids = {joint.id for joint in joints}
    named = [one for one in answers.advice if one.judged.joint.id in ids]
    for held, found in alike(answers, named).items():
        yield _held(answers, held, [one.judged.joint for one in found])
    yield from _clock(answers, joints)


def _held(answers: Answers, held: Held, joints: list[Joint]) -> str:
    count = sum(joint.quantity for joint in joints)
    each = f"{counted(count, 'joint')}, each " if count > 1 else ""
    first = f"; drill {held.pilot}" if held.pilot[:1].isdigit() else ""
    glue = f"; {held.glue}" if held.glue.endswith(PROPOSED) else ""
    names = listed([joint.id for joint in joints], len(joints))
    if len(joints) == 1:
        names += f": {answers.named(joints[0].through)} to {answers.named(joints[0].into)}"
    return f"{names}: {each}{held.fastener}{first}{glue}"


def _clock(answers: Answers, joints: list[Joint]) -> Iterator[str]:
    """How long each glue stays open and stays in clamps, and in how many goes it is done."""
    warmth = answers.document.place.temperature
    glues: dict[str, tuple[Glue, list[Joint]]] = {}
    for joint in joints:
        glue = glue_in(answers.build, joint)
        if glue is not None:
            glues.setdefault(glue.key, (glue, []))[1].append(joint)
    for glue, held in glues.values():
        time = working_time(glue, Label(), warmth)
        if time is not None:
            yield f"{glue.name} stays open {_minutes(time)}; {LABEL}"
        if all(joint.method in HELD for joint in held):
            yield "spread it joint by joint: what is driven holds each one as it sets"
        turns = goes(answers.build, held)
        if turns > 1:
            yield f"that is not long enough for all of them: do it in {turns} goes"
        clamped = clamp_time(glue, warmth)
        if clamped is not None and any(joint.method not in HELD for joint in held):
            yield f"leave it in clamps {_minutes(clamped)}"


def _minutes(limit: Limit) -> str:
    low, high = float(limit.low), float(limit.high)
    if high >= 120:
        low, high, unit = low / 60, high / 60, "hours"
    else:
        unit = "min"
    return f"{low:g} {unit}" if low == high else f"{low:g} to {high:g} {unit}"


def _times(answers: Answers, step: Step) -> Iterator[str]:
    """Hands on, and waiting, by the same tasks that the whole time is added up from."""
    tasks = tasks_of(answers.build, step, [], answers.time.own_order)
    work, dries = added(task.work for task in tasks), added(task.dries for task in tasks)
    if work.high:
        yield f"hands on: {hours(work)}"
    if dries is not NOTHING and dries.high:
        yield f"waiting: {hours(dries)}"
