"""Rules about sizes that add up along a line."""

from collections.abc import Iterator

from service.domain.findings import Mend, Spot, rule
from service.domain.mending import JudgedRun
from service.domain.resolving import ResolvedBuild
from service.domain.tape import plain


def mend_of(judged: JudgedRun) -> Mend | None:
    """The single change that closes the run."""
    return Mend(judged.mend.words, judged.mend.changes) if judged.mend else None


@rule(
    "run.does-not-add-up",
    title="Sizes along a line do not add up",
    severity="fault",
    numbers={"sum": "length", "target": "length", "by": "length", "fails_at": "word"},
)
def does_not_add_up(build: ResolvedBuild) -> Iterator[Spot]:
    """The pieces along a line must come to what the line is said to be.

    Real sizes are summed, not the ones in the names of boards. Where the thickness of a sheet
    varies from sheet to sheet, the sum is tried at the thin and at the thick end; if it comes out
    at some thickness in between, measuring the sheet settles it.
    """
    for judged in build.runs:
        run, judgment = judged.run, judged.judgment
        if judgment.verdict != "off" or run.total is None or run.target is None:
            continue
        total, target, by = run.total.listed, run.target.listed, judgment.by
        way = "over" if by > 0 else "short"
        detail = (
            f"The run {run.run.id} comes to {plain(total, build.metric)} where "
            f"{plain(target, build.metric)} is wanted: {plain(abs(by), build.metric)} {way}."
        )
        varies = judgment.fails_at != "every size"
        if varies:
            detail += " Within the tolerance of the stock it could come out: measure the pieces."
        yield Spot(
            at=run.at,
            detail=detail,
            numbers={"sum": total, "target": target, "by": by, "fails_at": judgment.fails_at},
            mend=mend_of(judged),
            rests_on=run.rests_on,
            severity="warn" if varies else None,
        )


@rule(
    "run.does-not-fit",
    title="Pieces do not go into the opening",
    severity="fault",
    numbers={"sum": "length", "opening": "length", "over": "length", "fails_at": "word"},
)
def does_not_fit(build: ResolvedBuild) -> Iterator[Spot]:
    """What goes into an opening can't be bigger than the opening.

    `fits` is the opening's full size, and no allowance is made for it: walls are seldom square,
    so measure in several places and enter the smallest.
    """
    for judged in build.runs:
        run, judgment = judged.run, judged.judgment
        if judgment.verdict != "does-not-fit" or run.total is None or run.run.fits is None:
            continue
        total, opening = run.total.listed, run.run.fits
        yield Spot(
            at=run.at,
            detail=(
                f"The run {run.run.id} comes to {plain(total, build.metric)}; the opening is "
                f"{plain(opening, build.metric)}, {plain(total - opening, build.metric)} less."
            ),
            numbers={
                "sum": total,
                "opening": opening,
                "over": total - opening,
                "fails_at": judgment.fails_at,
            },
            mend=mend_of(judged),
            rests_on=run.rests_on,
            severity=None if judgment.fails_at == "every size" else "warn",
        )


@rule(
    "run.tight",
    title="Pieces fill the opening beyond the clearance asked for",
    severity="warn",
    numbers={"sum": "length", "opening": "length", "clearance": "length", "fails_at": "word"},
)
def tight(build: ResolvedBuild) -> Iterator[Spot]:
    """What slides, swings or is lifted into an opening needs the clearance stated for it.

    It also fires when a sheet at the thick end of its tolerance would not go in.
    """
    for judged in build.runs:
        run, judgment = judged.run, judged.judgment
        if judgment.verdict != "tight" or run.total is None or run.run.fits is None:
            continue
        thick = judgment.fails_at == "thick end"
        total, opening = run.total.high if thick else run.total.listed, run.run.fits
        left = opening - total
        room = (
            f"leaves {plain(left, build.metric)}, {plain(run.run.clearance, build.metric)} is asked"
            if left >= 0
            else f"is {plain(-left, build.metric)} too big"
        )
        at = " at the thick end of the tolerance" if thick else ""
        yield Spot(
            at=run.at,
            detail=f"The run {run.run.id} comes to {plain(total, build.metric)}{at}: it {room}.",
            numbers={
                "sum": total,
                "opening": opening,
                "clearance": run.run.clearance,
                "fails_at": judgment.fails_at,
            },
            mend=mend_of(judged),
            rests_on=run.rests_on,
        )
