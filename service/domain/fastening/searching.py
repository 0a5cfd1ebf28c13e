"""The best fastener of each method for a joint, searched for by geometry in the sizes made."""

from bisect import bisect_left
from collections.abc import Iterator
from dataclasses import field
from fractions import Fraction

from service.domain.fastening.candidates import Made, Stouts, candidates, stouts_for
from service.domain.fastening.choosing import (
    Choice,
    RuledOut,
    Want,
    fixing_for,
    glue_for,
    lowered,
    refused,
    way_of,
)
from service.domain.fastening.driving import Driven
from service.domain.fastening.fixing import Fixing, placed
from service.domain.fastening.flaws import flaws, is_sound
from service.domain.fastening.ladders import Ladder, ladders
from service.domain.fastening.likely import Bounds, bounds
from service.domain.fastening.meeting import Meeting
from service.domain.fastening.surroundings import Surroundings, said
from service.domain.fastening.tooling import Tools, words
from service.domain.keeping import kept
from service.domain.values import dataclass, replace

Hands = tuple[bool, ...]  # of what is driven by hand, and what a machine drives: what is tried


@dataclass(frozen=True, slots=True)
class Reachable:
    """The sizes of a method that a shop can drive, the usual one first, and their lengths."""

    made: tuple[Made, ...]
    ladders: tuple[Ladder, ...]


@dataclass(frozen=True, slots=True)
class Trial:
    """One method with the sizes at hand: how the usual one is driven, how long any may be, and
    the one that is sound, None where none is."""

    sizes: Reachable
    pattern: Fixing
    bounds: Bounds
    sound: tuple[Made, Fixing, Driven | None] | None


@dataclass(slots=True)
class Search:
    """What is tried for one joint, remembered while its answer is made.

    Shops differ in their tools alone, so what one has shown need not be tried for the next.
    """

    meeting: Meeting
    want: Want
    around: Surroundings
    trials: dict[tuple[str, Hands, bool], Trial] = field(default_factory=dict)
    stout: Stouts = field(init=False)
    glue: str = field(init=False)

    def __post_init__(self) -> None:
        self.stout = stouts_for(self.meeting, self.around.metric)
        self.glue = glue_for(self.want, self.around)

    def choose(self, method: str, tools: Tools) -> Choice | RuledOut:
        """The best fastener of a method in a shop with those tools, or why there is none."""
        found = self._tried(method, tools)
        if isinstance(found, Trial):
            return RuledOut(method, self._why_none(found))
        return found

    def find(self, method: str, tools: Tools) -> Choice | None:
        """The same without the reasons."""
        found = self._tried(method, tools)
        return found if isinstance(found, Choice) else None

    def _tried(self, method: str, tools: Tools) -> Choice | RuledOut | Trial:
        way = way_of(method, tools)
        refusal = refused(self.meeting, method, self.glue, way)
        if refusal:
            return RuledOut(method, refusal)
        if method == "glue":
            return Choice(None, Fixing("glue", glue=self.glue), way.tools[True])
        name = (method, way.hands, way.bored)
        trial = self.trials.get(name)
        if trial is None:
            sizes = self._sizes(method, way.hands)
            if not sizes.made:
                every = self._sizes(method, (True, False)).made
                lacking = way.lacking[every[0].by_hand] if every else None
                return RuledOut(
                    method, f"no {words(lacking)} at hand" if lacking else "none are made"
                )
            trial = self.trials[name] = self.trial(sizes, way.bored)
        if trial.sound is None:
            return trial
        made, fixing, here = trial.sound
        return Choice(made, fixing, way.tools[made.by_hand], here)

    def _sizes(self, method: str, hands: Hands) -> Reachable:
        catalog, stout = self.around.catalog, self.stout

        def reachable() -> Reachable:
            every = candidates(catalog, method, stout)
            made = tuple(one for one in every if one.by_hand in hands)
            return Reachable(made, ladders(method, made))

        return kept(
            catalog, ("reachable", method, hands, stout.band, stout.thin, stout.metric), reachable
        )

    def trial(self, sizes: Reachable, bored: bool) -> Trial:
        """The first sound length. Screws and dowels: the usual size first; nails: any size.

        Of the lengths the longest that is wished for comes first, then what goes least beyond.
        """
        meeting, around = self.meeting, self.around
        pattern = fixing_for(meeting, sizes.made[0], bored, self.want, around)
        limits = bounds(meeting, pattern, around)
        for rungs in sizes.ladders:
            for length, made in rungs.between(*limits):
                fixing = replace(pattern, length=length, diameter=made.diameter, gauge=made.gauge)
                here = placed(meeting, fixing)
                if is_sound(meeting, fixing, here, around):
                    return Trial(sizes, pattern, limits, (made, fixing, here))
        return Trial(sizes, pattern, limits, None)

    def _why_none(self, trial: Trial) -> str:
        """Why no size of a method is right here: what is wrong with the nearest."""
        meeting, around, pattern = self.meeting, self.around, trial.pattern
        contradiction = next(flaws(meeting, pattern, around), None)
        if contradiction is not None and contradiction.severity != "note":
            return lowered(contradiction.detail)
        told = []
        for length in around_the_least(trial):
            grave = (f for f in flaws(meeting, replace(pattern, length=length), around))
            flaw = next((f for f in grave if f.severity != "note"), None)
            if flaw is not None and lowered(flaw.detail) not in told:
                told.append(lowered(flaw.detail))
        return "; ".join(told[:2]) or f"no {said(pattern.method)} of a length that is made fits"


def around_the_least(trial: Trial) -> Iterator[Fraction]:
    """The shortest length at or over the least that bites, and the longest under it."""
    lengths = trial.sizes.made[0].lengths
    place = bisect_left(lengths, trial.bounds[0])
    yield from lengths[place : place + 1]
    yield from lengths[max(0, place - 1) : place]
