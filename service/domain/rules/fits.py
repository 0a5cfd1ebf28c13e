"""Rules about cutouts and what goes into them."""

from collections.abc import Iterator
from fractions import Fraction

from service.domain.findings import Mend, Spot, rule
from service.domain.fitting import find_laps, find_overlaps
from service.domain.resolving import ResolvedBuild
from service.domain.tape import plain

LOOSE = Fraction(1, 32)  # in; slack that shows and holds badly: common practice, no source
FLUSH = Fraction(1, 64)  # in; a step that sanding takes off: common practice, no source


@rule(
    "fit.binds",
    title="A part does not go into its cutout",
    severity="fault",
    numbers={"cutout": "length", "part": "length", "over": "length", "fails_at": "word"},
)
def binds(build: ResolvedBuild) -> Iterator[Spot]:
    """A slot narrower than the board in it has to be recut, or the board planed.

    Sheets vary in thickness: one at the thick end may bind where the listed size goes in. Measure
    the sheet in hand before cutting, and try a test cut in scrap.
    """
    for fit in build.fits:
        over = fit.inside.high - fit.size
        if over <= 0 or fit.nominal:
            continue
        always = fit.inside.listed > fit.size
        size = fit.inside.listed if always else fit.inside.high
        when = "" if always else " at the thick end of its tolerance"
        yield Spot(
            at=f"{fit.at}/{fit.field}",
            also_at=fit.other.at,
            detail=(
                f"The {fit.cutout.kind} in {fit.owner.part.id} is {plain(fit.size, build.metric)} "
                f"wide; {fit.other.part.id} is {plain(size, build.metric)}{when}."
            ),
            numbers={
                "cutout": fit.size,
                "part": size,
                "over": size - fit.size,
                "fails_at": "every size" if always else "thick end",
            },
            mend=Mend(f"Cut it {plain(fit.inside.high, build.metric)} wide, or fit it by hand."),
            rests_on=fit.rests_on,
            severity=None if always else "warn",
        )


@rule(
    "fit.loose",
    title="A part rattles in its cutout",
    severity="warn",
    basis="practice",
    numbers={"cutout": "length", "part": "length", "slack": "length"},
)
def loose(build: ResolvedBuild) -> Iterator[Spot]:
    """More than about 1/32 in of slack shows, and glue does not fill it well.

    The figure is common practice, without a source. The usual cause is a straight cut as wide as
    the name of the sheet, where the sheet itself is thinner.
    """
    for fit in build.fits:
        slack = fit.size - fit.inside.listed
        if slack <= LOOSE or fit.nominal:
            continue
        yield Spot(
            at=f"{fit.at}/{fit.field}",
            also_at=fit.other.at,
            detail=(
                f"The {fit.cutout.kind} in {fit.owner.part.id} is {plain(fit.size, build.metric)} "
                f"wide; {fit.other.part.id} is {plain(fit.inside.listed, build.metric)}: "
                f"{plain(slack, build.metric)} of slack."
            ),
            numbers={"cutout": fit.size, "part": fit.inside.listed, "slack": slack},
            mend=Mend(f"Cut it {plain(fit.inside.listed, build.metric)} wide."),
            rests_on=fit.rests_on,
        )


@rule(
    "fit.proud",
    title="Two halved parts do not come out flush",
    severity="fault",
    numbers={"taken": "length", "needed": "length", "step": "length"},
)
def proud(build: ResolvedBuild) -> Iterator[Spot]:
    """Where two parts house each other, the two depths together make up one part's thickness.

    Taken too shallow, one part stands proud of the other; too deep, it sinks. Strips of a grid
    that are halved on edge share their width in the same way. Of parts that are not alike it is
    the thickness of either: the faces on one side come flush, those on the other can't.
    """
    for lap in find_laps(build.parts):
        taken = sum(lap.depths, Fraction(0))
        step = lap.through.listed - taken
        if abs(step) <= FLUSH:
            continue
        way = "stands proud by" if step > 0 else "sinks by"
        alike = lap.other is lap.owner
        who = f"Two of {lap.owner.part.id}" if alike else (
            f"{lap.owner.part.id} and {lap.other.part.id}"
        )  # fmt: skip
        yield Spot(
            at=f"{lap.at}/depth",
            also_at=f"{lap.other_at}/depth" if lap.other_at != lap.at else None,
            detail=(
                f"{who} are let in {plain(taken, build.metric)} together, "
                f"{plain(lap.through.listed, build.metric)} is needed: one {way} "
                f"{plain(abs(step), build.metric)}."
            ),
            numbers={"taken": taken, "needed": lap.through.listed, "step": step},
            mend=Mend(
                f"Let the two depths come to {plain(lap.through.listed, build.metric)}; half each "
                f"is {plain(lap.through.listed / 2, build.metric)}."
            ),
            rests_on=lap.rests_on,
        )


@rule(
    "fit.overlap",
    title="Two cutouts of a part run into each other",
    severity="warn",
    numbers={"by": "length"},
)
def overlap(build: ResolvedBuild) -> Iterator[Spot]:
    """Two slots that share wood leave no wall between them, and two parts would want one place.

    `at` is the near side of a slot, not its middle. A step, a narrower cut all of which lies in a
    wider one of another depth, is meant.
    """
    for found in find_overlaps(build.parts):
        first, second = found.cutouts
        yield Spot(
            at=f"{found.at}/at",
            also_at=f"{found.other_at}/at" if found.other_at != found.at else None,
            detail=(
                f"On {found.part.part.id} the {second.kind} and the {first.kind} share "
                f"{plain(found.by, build.metric)} along the {second.on}."
            ),
            numbers={"by": found.by},
            mend=Mend("Measure again to the near side of each, from the first end."),
        )
