"""The joints: which parts, what holds them, what to drill, and where."""

from collections.abc import Iterator

from service.domain.advising import Advice
from service.domain.glued import is_none
from service.domain.handwork import glue_in
from service.domain.meeting import WALL
from service.handouts.answers import Answers
from service.handouts.fastening import fastener, pilot, place
from service.handouts.page import Column, Item, Items, Section, Table, Words
from service.handouts.sizes import listed

COLUMNS = (
    Column("joint", "Joint"),
    Column("parts", "Parts"),
    Column("count", "How many joints", figures=True),
    Column("fastener", "Each is held by"),
    Column("pilot", "Pilot hole"),
    Column("place", "Where"),
    Column("glue", "Glue"),
)
FROM_MEMORY = " (from memory in part)"
NONE = "The build names no joints: nothing here says what holds it together."


def joints(answers: Answers) -> Section:
    """Every joint of the build, in its order."""
    if not answers.advice:
        return Section("joints", "Joints", (Words(NONE),))
    rows = tuple(_row(answers, one) for one in answers.advice)
    table = Table("joints", "Joints, with fastener, pilot hole and place", COLUMNS, rows)
    known = tuple(particulars(answers))
    return Section("joints", "Joints", (table, Items(known)) if known else (table,))


def particulars(answers: Answers) -> Iterator[Item]:
    """What to know of bolts, hinges, clips, laps and walls, once for joints that are alike."""
    alike: dict[tuple[str, ...], list[str]] = {}
    for one in answers.advice:
        memory = answers.build.catalog.from_memory
        lines = tuple(
            one.named(told.words) + (FROM_MEMORY if memory(told.rests_on) else "")
            for told in one.suggestions.particulars
        )
        if lines:
            alike.setdefault(lines, []).append(one.judged.joint.id)
    for lines, ids in alike.items():
        yield Item("what to know of it", name=listed(ids), under=lines)


def _row(answers: Answers, one: Advice) -> tuple[str, ...]:
    joint = one.judged.joint
    touches = f"{joint.touches} " if joint.touches else ""
    enters = f"{joint.enters} of " if joint.enters else ""
    into = "the wall" if joint.into == WALL else f"{enters}{answers.named(joint.into)}"
    side = (
        f"{touches}of {answers.named(joint.through)}" if touches else answers.named(joint.through)
    )
    return (
        joint.id,
        f"{side} to {into}",
        str(joint.quantity),
        fastener(answers, one),
        pilot(answers, one),
        place(answers, one),
        _glue(answers, one),
    )


def _glue(answers: Answers, one: Advice) -> str:
    joint = one.judged.joint
    if joint.glue is None:
        return "not said"
    if is_none(answers.build, joint):
        return "none"
    glue = glue_in(answers.build, joint)
    return glue.name if glue else joint.glue
