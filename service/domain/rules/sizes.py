"""Rules about stock: what it is called, what it measures, how long it comes."""

from collections.abc import Iterator
from fractions import Fraction

from service.domain.findings import Change, Mend, Spot, rule
from service.domain.mending import stock_changes
from service.domain.parts import ResolvedPart
from service.domain.resolving import ResolvedBuild
from service.domain.solid import Rod, Solid
from service.domain.stocks import Sized
from service.domain.supply import longest_piece
from service.domain.tape import exact, plain


@rule(
    "size.unknown-stock",
    title="No board or panel goes by this name",
    severity="fault",
    numbers={"nearest": "words"},
)
def unknown_stock(build: ResolvedBuild) -> Iterator[Spot]:
    """A stock name has to be one that the tables of the build's region know.

    Nothing can be said of a part whose stock is unknown: not its real size, not its weight, not
    whether it adds up with its neighbors. State the size inline if the board has no name.
    """
    for part in build.parts:
        if part.unknown is None:
            continue
        name, near = part.unknown.name, part.unknown.nearest
        hint = f" Nearest: {', '.join(near)}." if near else ""
        yield Spot(
            at=f"{part.at}/stock",
            detail=f'Nothing sold in region {build.build.region} is called "{name}".{hint}',
            numbers={"nearest": near},
            mend=Mend(
                "Use a name from the tables, or state thickness and width instead of a name.",
                stock_changes(part, build.trial),
            ),
        )


@rule(
    "size.nominal-for-actual",
    title="A board's printed size was taken for its real size",
    severity="fault",
    basis="standard",
    numbers={"stated": "length", "real": "length", "nominal": "length"},
)
def nominal_for_actual(build: ResolvedBuild) -> Iterator[Spot]:
    """The numbers in a board's name are not its size: a 1x4 is 3/4 in by 3 1/2 in.

    Boards are named for what they measured before they were dried and planed. A width or a
    thickness that repeats the name, a slot as wide as the name of the board in it, or a sum that
    comes out only with the sizes in the names, all come from the same slip. Sheets are sold by a
    fraction too, and most are thinner: where a sum could come out with some sheet within the
    tolerance, it is a warning.
    """
    yield from nominal_parts(build)
    yield from nominal_slots(build)
    yield from nominal_runs(build)


def nominal_fields(part: ResolvedPart) -> Iterator[tuple[str, Fraction, Fraction]]:
    """Stated sizes that are the number in the name: the field, what it says, what is real."""
    if part.sized is not None:
        for field, told, real in oversizes(part, part.sized):
            if told == nominal_size(part.sized, field):
                yield field, told, real


def nominal_parts(build: ResolvedBuild) -> Iterator[Spot]:
    """Parts whose own width or thickness is the number in the name.

    Runs that were figured with that size are mended in the same go.
    """
    for part in build.parts:
        for field, told, real in nominal_fields(part):
            follow = [
                change
                for judged in build.runs
                if judged.judgment.verdict == "nominal" and judged.mend
                if any(size.piece.part == part.part.id for size in judged.run.pieces)
                for change in judged.mend.changes
            ]
            yield Spot(
                at=f"{part.at}/{field}",
                detail=(
                    f"{part.part.id} is stated {plain(told, build.metric)} in {field}, the number "
                    f"in the name of {part.part.stock.name}; the board really measures "
                    f"{plain(real, build.metric)}."
                ),
                numbers={"stated": told, "real": real, "nominal": told},
                mend=Mend(
                    f"Write {plain(real, build.metric)}, and check what was figured from it.",
                    (Change(f"{part.at[1:]}/{field}", exact(real, build.metric)), *follow),
                ),
                rests_on=part.rests_on,
            )


def oversizes(part: ResolvedPart, sized: Sized) -> Iterator[tuple[str, Fraction, Fraction]]:
    """Stated sizes over what the stock yields: the field, what it says, what the stock has."""
    pairs = (
        ("thickness", part.part.thickness, sized.stock_thickness),
        ("width", part.part.width, sized.stock_width),
    )
    for field, told, bought in pairs:
        if told is not None and bought is not None and told > bought.high:
            yield field, told, bought.listed


def nominal_size(sized: Sized, field: str) -> Fraction | None:
    """The number in the stock's name for that direction."""
    return sized.named_thickness if field == "thickness" else sized.nominal_width


def nominal_slots(build: ResolvedBuild) -> Iterator[Spot]:
    """Slots as wide as the name of the board that goes into them."""
    for fit in build.fits:
        if not fit.nominal:
            continue
        real = fit.inside.listed
        yield Spot(
            at=f"{fit.at}/{fit.field}",
            also_at=fit.other.at,
            detail=(
                f"The {fit.cutout.kind} is {plain(fit.size, build.metric)} wide, the number in the "
                f"name of {fit.other.part.stock.name}; {fit.other.part.id} really measures "
                f"{plain(real, build.metric)}."
            ),
            numbers={"stated": fit.size, "real": real, "nominal": fit.size},
            mend=Mend(
                f"Cut it {plain(real, build.metric)} wide.",
                (Change(f"{fit.at[1:]}/{fit.field}", exact(real, build.metric)),),
            ),
            rests_on=fit.rests_on,
        )


def nominal_runs(build: ResolvedBuild) -> Iterator[Spot]:
    """Runs that close only with the sizes in the names, where no part says so of itself."""
    said = {part.part.id for part in build.parts if any(nominal_fields(part))}
    for judged in build.runs:
        run, judgment, mend = judged.run, judged.judgment, judged.mend
        if judgment.verdict != "nominal" or run.total is None or run.target is None:
            continue
        if any(size.piece.part in said for size in run.pieces):
            continue
        names = " and ".join(judgment.taken_for_nominal)
        total, target = run.total.listed, run.target.listed
        yield Spot(
            at=mend.at if mend else run.at,
            also_at=run.at,
            detail=(
                f"The run {run.run.id} comes to {plain(total, build.metric)}, not "
                f"{plain(target, build.metric)}; it comes out only if {names} measured what the "
                "name says."
            ),
            numbers={"stated": target, "real": total, "nominal": judgment.nominal_total},
            mend=Mend(mend.words, mend.changes) if mend else None,
            rests_on=run.rests_on,
            severity=None if judgment.fails_at == "every size" else "warn",
        )


@rule(
    "size.wider-than-stock",
    title="A part is bigger than the stock it comes from",
    severity="fault",
    basis="standard",
    numbers={"stated": "length", "stock": "length", "over": "length"},
)
def wider_than_stock(build: ResolvedBuild) -> Iterator[Spot]:
    """A board can be ripped narrower and planed thinner, never the other way.

    A wider part is glued up from several boards (`glued_from`) or cut from a panel; a thicker
    one needs another stock.
    """
    for part in build.parts:
        if part.sized is None:
            continue
        for field, told, real in oversizes(part, part.sized):
            if told == nominal_size(part.sized, field):
                continue
            yield Spot(
                at=f"{part.at}/{field}",
                detail=(
                    f"{part.part.id} is {plain(told, build.metric)} in {field}; its stock yields "
                    f"{plain(real, build.metric)}."
                ),
                numbers={"stated": told, "stock": real, "over": told - real},
                mend=Mend(
                    "Choose a bigger stock, glue the part up from more boards, or make it "
                    f"{plain(real, build.metric)}."
                ),
                rests_on=part.rests_on,
            )


@rule(
    "size.longer-than-stock",
    title="A part is longer than any board there is to cut it from",
    severity="fault",
    numbers={"needs": "length", "longest": "length"},
)
def longer_than_stock(build: ResolvedBuild) -> Iterator[Spot]:
    """A part must come out of one board that is for sale or on hand.

    What counts is the length from tip to tip, and what is left of a board after the bad ends are
    trimmed. Without a price list the lengths that shops usually carry are taken, as practice.
    """
    for part in build.parts:
        sized, solid = part.sized, part.solid
        if sized is None or sized.form == "panel" or not isinstance(solid, Solid | Rod):
            continue
        longest = longest_piece(build.sizing, sized)
        if longest is None or solid.blank_length <= longest.length:
            continue
        yield Spot(
            at=f"{part.at}/length",
            detail=(
                f"{part.part.id} needs {plain(solid.blank_length, build.metric)} tip to tip; the "
                f"longest piece to be had from {longest.where} is "
                f"{plain(longest.length, build.metric)}."
            ),
            numbers={"needs": solid.blank_length, "longest": longest.length},
            mend=Mend("Find a longer board, shorten the part, or join it from two pieces."),
            basis=longest.basis,
            rests_on=longest.rests_on,
        )
