"""Rules about a glue-up: what is finished before it, how long it takes, and how cold it is."""

from collections.abc import Iterator
from fractions import Fraction

from service.domain.build import Joint, Step
from service.domain.findings import Change, Mend, Spot, rule
from service.domain.glued import glued, glued_in
from service.domain.glues import Glue
from service.domain.gluing import (
    LABEL_WINS,
    GlueUp,
    Label,
    Limit,
    coldest,
    glue_up,
    too_cold,
    working_time,
)
from service.domain.resolving import ResolvedBuild

CLOSED_TOGETHER = frozenset({"glue", "dowel", "lap"})  # nothing else holds them until it sets


@rule(
    "glue.over-finish",
    title="A part is finished before it is glued",
    severity="warn",
    basis="practice",
    numbers={"joint": "word", "parts": "words"},
)
def over_finish(build: ResolvedBuild) -> Iterator[Spot]:
    """Glue sticks to wood, not to the film on it.

    Keep the surfaces of the joint bare (say `bare_at_joints`), or glue first and finish after.
    """
    steps = build.build.steps
    for index, step in enumerate(steps):
        if step.do != "finish" or step.bare_at_joints:
            continue
        spoiled = [
            (one, finished)
            for later in steps[index + 1 :]
            for one in glued_in(later, glued(build))
            if (finished := _finished(step, one.joint))
        ]
        if not spoiled:
            continue
        one, parts = spoiled[0]
        yield Spot(
            at=f"#/steps/{index}",
            also_at=one.at,
            detail=(
                f"{' and '.join(parts)} {'is' if len(parts) == 1 else 'are'} finished before "
                f"{one.joint.id} is glued."
            ),
            numbers={"joint": one.joint.id, "parts": parts},
            mend=Mend(
                "Leave the surfaces of the joint bare: tape them off before the finish.",
                (
                    Change(
                        f"/steps/{index}/bare_at_joints",
                        value=True,
                        adds=step.bare_at_joints is None,
                    ),
                ),
            ),
        )


@rule(
    "glue.too-slow",
    title="The glue sets before the last joint is closed",
    severity="warn",
    basis="practice",
    numbers={"glue": "word", "minutes": "count", "limit": "count", "groups": "count"},
)
def too_slow(build: ResolvedBuild) -> Iterator[Spot]:
    """From the first glue spread to the last joint closed there are only so many minutes.

    Joints that clamps close together are meant: one that screws close as it is made is done
    before the next one is spread. Work in groups, with more hands, or with a slower glue.
    """
    known = glued(build)
    for index, step in enumerate(build.build.steps):
        if step.minutes is None or not step.minutes:
            continue
        joints = glued_in(step, known)
        if not joints or any(one.joint.method not in CLOSED_TOGETHER for one in joints):
            continue
        count = sum(one.joint.quantity for one in joints)
        timed = [
            (limit.high, one.glue, limit)
            for one in joints
            if (limit := working_time(one.glue, Label(), build.build.place.temperature))
        ]
        if timed:
            _, glue, limit = min(timed, key=lambda entry: entry[0])
            judged = glue_up(count, step.minutes / count, 1, limit)
            if judged.too_slow:
                yield slow_spot(f"#/steps/{index}/minutes", glue, judged)


@rule(
    "glue.too-cold",
    title="It is too cold for the glue",
    severity="warn",
    basis="practice",
    numbers={"glue": "word", "temperature": "count", "coldest": "count"},
)
def cold(build: ResolvedBuild) -> Iterator[Spot]:
    """Below a temperature of its own a glue chalks or stays soft, and the joint never holds.

    Wood and glue have to be warm too, not only the air, until the clamps come off. Temperatures
    are degrees Fahrenheit. The temperature of the place is taken as that of the gluing.
    """
    temperature = build.build.place.temperature
    if temperature is None:
        return
    glues = {one.glue.key: one.glue for one in glued(build)}
    chilled = [
        (limit.low, glue.key)
        for glue in glues.values()
        if (limit := too_cold(glue, Label(), temperature))
    ]
    if chilled:
        _, key = max(chilled)
        yield cold_spot("#/place/temperature", glues[key], temperature, Label())


def slow_spot(at: str, glue: Glue, judged: GlueUp) -> Spot:
    """What is said of a glue-up that takes longer than there is."""
    assert judged.limit is not None
    groups = len(judged.groups) if judged.groups else judged.joints
    split = " and ".join(dict.fromkeys(str(size) for size in judged.groups or ()))
    words = (
        f"Glue it up in {groups} groups of {split}."
        if judged.groups and groups > 1
        else "One joint alone takes longer: take a slower glue, or more hands."
    )
    many = "1 joint takes" if judged.joints == 1 else f"{judged.joints} joints take"
    return Spot(
        at=at,
        detail=(
            f"{many} {shown(judged.minutes)} min; {glue.name} leaves "
            f"{span(judged.limit)} min{told_by(judged.limit)}."
        ),
        numbers={
            "glue": glue.key,
            "minutes": float(judged.minutes),
            "limit": float(judged.limit.high),
            "groups": groups,
        },
        mend=Mend(words),
        rests_on=judged.limit.rests_on,
    )


def cold_spot(at: str, glue: Glue, temperature: Fraction, label: Label) -> Spot:
    """What is said of a temperature below what the glue asks for."""
    limit = coldest(glue, label)
    assert limit is not None
    return Spot(
        at=at,
        detail=(
            f"It is {shown(temperature)} F; {glue.name} wants {shown(limit.low)} F or more"
            f"{told_by(limit)}."
        ),
        numbers={
            "glue": glue.key,
            "temperature": float(temperature),
            "coldest": float(limit.low),
        },
        mend=Mend("Warm the wood, the glue and the room, or take a glue that sets in the cold."),
        rests_on=limit.rests_on,
    )


def told_by(limit: Limit) -> str:
    """Whose figure it is."""
    return " by its label" if limit.from_label else f" ({LABEL_WINS})"


def span(limit: Limit) -> str:
    """A range in words: `5`, `5 to 6`."""
    low, high = shown(limit.low), shown(limit.high)
    return low if low == high else f"{low} to {high}"


def shown(amount: Fraction) -> str:
    """A number with at most two decimals."""
    return f"{round(float(amount), 2):g}"


def _finished(step: Step, joint: Joint) -> tuple[str, ...]:
    """The parts of a joint that a finishing step coats; all parts when it names none."""
    meeting = [id for id in (joint.through, joint.into) if id != "wall"]
    return tuple(dict.fromkeys(id for id in meeting if not step.parts or id in step.parts))
