"""The joints: which parts, what holds them, what to drill, and where."""

from collections.abc import Iterator

from service.domain.build import Joint
from service.domain.fastening.advising import Advice
from service.domain.fastening.meeting import WALL
from service.handouts.answers import Answers
from service.handouts.fastening import Held, alike
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
    """Every joint of the build, in its order; those that are held alike in one row."""
    if not answers.advice:
        return Section("joints", "Joints", (Words(NONE),))
    groups = alike(answers, answers.advice)
    rows = tuple(_row(answers, held, found) for held, found in groups.items())
    table = Table("joints", "Joints, with fastener, pilot hole and place", COLUMNS, rows)
    known = tuple(particulars(answers))
    return Section("joints", "Joints", (table, Items(known)) if known else (table,))


def particulars(answers: Answers) -> Iterator[Item]:
    """What to know of bolts, hinges, clips, laps and walls, once for joints that are alike."""
    shared: dict[tuple[str, ...], list[str]] = {}
    for one in answers.advice:
        memory = answers.build.catalog.from_memory
        lines = tuple(
            one.named(told.words) + (FROM_MEMORY if memory(told.rests_on) else "")
            for told in one.suggestions.particulars
        )
        if lines:
            shared.setdefault(lines, []).append(one.judged.joint.id)
    for lines, ids in shared.items():
        yield Item("what to know of it", name=listed(ids), under=lines)


def _row(answers: Answers, held: Held, found: list[Advice]) -> tuple[str, ...]:
    joints = [one.judged.joint for one in found]
    return (
        listed([joint.id for joint in joints], len(joints)),
        "; ".join(_parts(answers, joints)),
        _counts([joint.quantity for joint in joints]),
        held.fastener,
        held.pilot,
        held.place,
        held.glue,
    )


def _counts(counts: list[int]) -> str:
    """How many there are of each joint, in their order."""
    if len(counts) > 1 and len(set(counts)) == 1:
        return f"{counts[0]} of each"
    return " + ".join(map(str, counts))


def _parts(answers: Answers, joints: list[Joint]) -> list[str]:
    """What is joined to what; everything that goes to one place stands before it."""
    sides: dict[str, dict[str, None]] = {}
    for joint in joints:
        sides.setdefault(_into(answers, joint), {})[_side(answers, joint)] = None
    return [f"{listed(list(told), len(told))} to {into}" for into, told in sides.items()]


def _side(answers: Answers, joint: Joint) -> str:
    touches = f"{joint.touches} of " if joint.touches else ""
    return f"{touches}{answers.named(joint.through)}"


def _into(answers: Answers, joint: Joint) -> str:
    if joint.into == WALL:
        return "the wall"
    return (
        f"{joint.enters} of {answers.named(joint.into)}"
        if joint.enters
        else answers.named(joint.into)
    )
