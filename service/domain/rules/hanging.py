"""Rules about pieces that hang on a wall."""

from collections.abc import Iterator
from fractions import Fraction

from service.domain.findings import Mend, Spot, rule
from service.domain.hanging import bite_wanted, hung, studs_met
from service.domain.resolving import ResolvedBuild
from service.domain.tape import plain


@rule(
    "hang.misses-studs",
    title="The rail is shorter than the studs are apart",
    severity="warn",
    basis="geometry",
    numbers={"rail": "length", "studs": "length"},
)
def misses_studs(build: ResolvedBuild) -> Iterator[Spot]:
    """Wallboard holds next to nothing: screws have to sit in the studs behind it.

    A rail as long as the studs are apart meets one wherever it is put; a shorter one may miss
    them all.
    """
    for one in hung(build):
        if one.rail is None or one.studs is None or studs_met(one.rail, one.studs).least:
            continue
        metric = build.metric
        yield Spot(
            at=one.at,
            detail=(
                f"{one.joint.through} is {plain(one.rail, metric)} long and the studs are "
                f"{plain(one.studs, metric)} apart: it meets one only where it happens to."
            ),
            numbers={"rail": one.rail, "studs": one.studs},
            mend=Mend(
                f"Make the rail {plain(one.studs, metric)} long or more, put the piece where a "
                "stud is, or screw a board across two studs first."
            ),
        )


@rule(
    "hang.bite",
    title="The screw hardly reaches into the stud",
    severity="warn",
    basis="practice",
    numbers={"bite": "length", "wanted": "length"},
)
def bite(build: ResolvedBuild) -> Iterator[Spot]:
    """What counts is the wood of the stud, past the rail and the wallboard.

    Shops want an inch there at the least, many an inch and a half.
    """
    wanted = bite_wanted(build.catalog)
    least, better = wanted.low or Fraction(0), wanted.high or Fraction(0)
    for one in hung(build):
        if one.bite is None or one.bite >= least:
            continue
        metric = build.metric
        reaches = f"leaves {plain(one.bite, metric)} in" if one.bite > 0 else "does not reach"
        longer = better - one.bite
        yield Spot(
            at=f"{one.at}/fastener/length",
            detail=(
                f"Past the rail and the wallboard the screw {reaches} the stud; shops want "
                f"{plain(least, metric)} to {plain(better, metric)}."
            ),
            numbers={"bite": one.bite, "wanted": least},
            mend=Mend(f"Take a screw {plain(longer, metric)} longer."),
            rests_on=(wanted.row,),
        )


@rule(
    "hang.wall-unknown",
    title="The wall that it hangs on is not judged",
    severity="note",
    basis="practice",
    numbers={"wall": "word"},
)
def wall_unknown(build: ResolvedBuild) -> Iterator[Spot]:
    """What holds in a stud does not hold in masonry, plaster or hollow board.

    For those take a fixing made for that wall and that weight, by what its maker says; nothing is
    judged here.
    """
    for one in hung(build):
        if one.wall == "studs" and one.studs is not None:
            continue
        known = {"masonry": "It is masonry", "studs": "The spacing of its studs is not given"}
        why = known.get(one.wall, "It is not said what the wall is")
        yield Spot(
            at=one.at,
            detail=(
                f"{why}: how it holds there is not judged. Take a fixing made for that wall and "
                "that weight."
            ),
            numbers={"wall": one.wall},
        )
