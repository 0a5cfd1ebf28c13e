"""Rules about pieces on their feet: tipping over, and leaning out of square."""

from collections.abc import Iterator

from service.domain.catalog import Catalog
from service.domain.findings import Mend, Spot, rule
from service.domain.resolving import ResolvedBuild
from service.domain.standing import Piece, piece_of
from service.domain.weight import said


@rule(
    "stands.tips",
    title="The piece tips over too easily",
    severity="warn",
    basis="practice",
    numbers={"lean": "angle", "pull": "count", "hung": "count"},
)
def tips(build: ResolvedBuild) -> Iterator[Spot]:
    """A tall, shallow piece tips when it is pulled, climbed or opened, and falls on who is there.

    It warns where the piece would go over leaning by less than one test asks, by itself with
    everything open, or under the weight that the test of clothing storage hangs on an open drawer.
    Weight is taken at half the height and depth. Silence is no word against fixing it to a wall.
    """
    stands, piece = build.build.stands, piece_of(build)
    if stands is None or stands.fixed or piece is None:
        return
    yield from tipping(build.catalog, piece, build.metric)


def tipping(catalog: Catalog, piece: Piece, metric: bool) -> Iterator[Spot]:
    """One spot where a piece tips too easily, empty or loaded."""
    for each, loaded in ((piece.empty, "empty"), (piece, "loaded")):
        why, rows = _why(catalog, each, metric)
        if not why:
            continue
        yield Spot(
            at="#/stands",
            detail=(
                f"{loaded.capitalize()}, it weighs about {said(each.all_of_it, metric)} and "
                f"{why}. Weight is taken at half the height and half the depth."
            ),
            numbers={
                "lean": each.shut.lean,
                "pull": round(each.pull(each.height), 1),
                "hung": round(hung_on_a_drawer(each), 1),
            },
            mend=Mend(
                "Fix it to the wall. A deeper or lower piece, or weight at the bottom, helps too."
            ),
            rests_on=rows,
        )
        return


def _why(catalog: Catalog, piece: Piece, metric: bool) -> tuple[str, tuple[str, ...]]:
    """What tips it, in words, or nothing."""
    leans, hangs = (catalog.standing[f"tip.{name}"] for name in ("lean", "hung-weight"))
    if piece.opens and piece.rights <= 0:
        share = catalog.standing["tip.open-share"]
        return "goes over by itself with everything open", (share.row,)
    least = float(leans.high or 0)
    if piece.shut.lean < least:
        return f"goes over leaning {piece.shut.lean:.1f} degrees; one test asks for {least:g}", (
            leans.row,
        )
    drawers = [one for one in piece.opens if one.kind == "drawer"]
    weight = float(hangs.high or 0)
    if drawers and hung_on_a_drawer(piece) < weight:
        hung = said(hung_on_a_drawer(piece), metric)
        return (
            f"goes over with {hung} hung on an open drawer; the test of clothing storage hangs "
            f"{said(weight, metric)}"
        ), (hangs.row,)
    return "", ()


def hung_on_a_drawer(piece: Piece) -> float:
    """Pounds on the front of the drawer that stands out furthest that tip it; 0 without one."""
    drawers = [one for one in piece.opens if one.kind == "drawer"]
    return piece.hung(max(one.reach for one in drawers)) if drawers else 0.0


@rule(
    "stands.racks",
    title="Nothing keeps the piece square",
    severity="note",
    basis="practice",
    numbers={},
)
def racks(build: ResolvedBuild) -> Iterator[Spot]:
    """A frame of four sides leans over sideways unless something holds its corners square.

    A back, a brace, a wide rail or a rigid corner does it. It is a note where nothing is said of
    it, and a warning where the build says that nothing does it.
    """
    stands = build.build.stands
    if stands is None or stands.kept_square_by:
        return
    said_none = stands.kept_square_by is not None
    what = "says that nothing keeps" if said_none else "does not say what keeps"
    yield Spot(
        at="#/stands/kept_square_by" if said_none else "#/stands",
        detail=f"The build {what} it from leaning sideways.",
        mend=Mend("Add a back, a brace from corner to corner, or wide rails with glued corners."),
        severity="warn" if said_none else None,
    )
