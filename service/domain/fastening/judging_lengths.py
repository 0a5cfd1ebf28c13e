"""Lengths to choose among for the fastener of a joint: which is right, and why."""

from collections.abc import Iterable, Iterator
from fractions import Fraction

from service.domain.fastening.fixing import DRIVEN, Fixing, placed
from service.domain.fastening.flaws import flaws
from service.domain.fastening.joints import JudgedJoint
from service.domain.fastening.meeting import Meeting
from service.domain.fastening.proposing import Option
from service.domain.fastening.surroundings import Surroundings
from service.domain.values import dataclass, replace

OF_LENGTH = frozenset({"pokes-out", "too-short", "breaks-out", "pocket-length", "mismatch"})


@dataclass(frozen=True, slots=True)
class LengthJudged:
    """One length for the fastener of the joint. `verdict` is right, doubtful or wrong."""

    length: Fraction
    bite: Fraction | None
    clear: Fraction | None
    verdict: str
    why: str


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
    found = [flaw for flaw in flaws(meeting, fixing, around) if flaw.code in OF_LENGTH]
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
