"""Rules about sizes that add up along a line."""

from collections import Counter
from collections.abc import Iterator, Mapping

from service.domain.findings import Mend, Number, Spot, rule
from service.domain.mending import JudgedRun
from service.domain.naming import repeats
from service.domain.resolving import ResolvedBuild
from service.domain.runs import ResolvedRun
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
        detail += "".join(f" {told}" for told, _ in too_many_in(build, run))
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


@rule(
    "run.too-many",
    title="A run counts more pieces of a part than the list has",
    severity="fault",
    numbers={"part": "word", "counted": "count", "listed": "count"},
)
def too_many(build: ResolvedBuild) -> Iterator[Spot]:
    """Pieces that stand in one line are different pieces, so the list needs that many of them.

    Either the quantity of the part or the count in the run is a slip. Where the sum is off as
    well, that finding says it.
    """
    for judged in build.runs:
        if judged.judgment.verdict in ("off", "does-not-fit"):
            continue
        for told, numbers in too_many_in(build, judged.run):
            part = build.by_id[str(numbers["part"])]
            yield Spot(
                at=judged.run.at,
                also_at=f"{part.at}/quantity" if part.part.quantity > 1 else part.at,
                detail=told,
                numbers=numbers,
                mend=Mend("List as many as the run counts, or count fewer in the run."),
            )


def too_many_in(
    build: ResolvedBuild, run: ResolvedRun
) -> Iterator[tuple[str, Mapping[str, Number]]]:
    """Parts of which a run counts more than there are. An id given twice counts for nothing."""
    twice = {build.build.parts[index].id for index in repeats(build.build)}
    counted: Counter[str] = Counter()
    for size in run.pieces:
        if size.piece.part is not None and not size.piece.less:
            counted[size.piece.part] += size.piece.count
    for id, count in counted.items():
        listed = build.by_id[id].part.quantity
        if count > listed and id not in twice:
            told = f"The run {run.run.id} counts {count} of {id}; the list has {listed}."
            yield told, {"part": id, "counted": count, "listed": listed}
