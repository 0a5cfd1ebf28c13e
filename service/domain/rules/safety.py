"""The usual cautions, each tied to something that the build says. Their words stand in the tables.

Limits of workplaces are not given as targets for a home shop.
"""

from collections.abc import Iterator

from service.domain.cautions import (
    DRYING_OILS,
    SOLVENT,
    dusty_parts,
    finishes,
    heavy,
    nailed,
    small_children,
    uses,
)
from service.domain.findings import Mend, Severity, Spot, rule
from service.domain.hanging import ALWAYS, hung
from service.domain.loads import PEOPLE, inches
from service.domain.resolving import ResolvedBuild
from service.domain.tape import plain
from service.domain.weight import lifting_line, said


def words(build: ResolvedBuild, *keys: str) -> tuple[str, tuple[str, ...]]:
    """Cautions in their own words, and their rows."""
    told = [build.catalog.cautions[key] for key in keys]
    return " ".join(one.words for one in told), tuple(one.row for one in told)


def where_children_are(build: ResolvedBuild) -> Severity:
    """A warning where small children are named, a note otherwise."""
    return "warn" if small_children(build) else "note"


@rule("safety.dust", title="Mind the dust", severity="note", basis="practice", numbers={})
def dust(build: ResolvedBuild) -> Iterator[Spot]:
    """Dust of fiberboard, particleboard and treated wood is finer or worse than that of plain wood.

    Draw it off at the tool, wear a mask made for dust, and air the shop.
    """
    said_already: set[str] = set()
    for part, what in dusty_parts(build):
        if what in said_already:
            continue
        said_already.add(what)
        finer = () if what == "treated wood" else ("boards.fine-dust",)
        text, rows = words(build, *finer, "dust.extract-and-mask")
        yield Spot(at=part.at, detail=f"{part.part.id} is {what}. {text}", rests_on=rows)


@rule("safety.nailer", title="Mind the nailer", severity="note", basis="practice", numbers={})
def nailer(build: ResolvedBuild) -> Iterator[Spot]:
    """A power nailer drives its nail through a hand as well as through wood.

    Brads turn in the grain and come out of the side.
    """
    for at in nailed(build):
        text, rows = words(
            build, "nailer.line-of-fire", "nailer.sequential-trigger", "nailer.hand-distance"
        )
        yield Spot(at=at, detail=text, rests_on=rows)
        return


@rule(
    "safety.short-pieces",
    title="A piece is short for hands near a blade",
    severity="note",
    basis="practice",
    numbers={"length": "length", "line": "length"},
)
def short_pieces(build: ResolvedBuild) -> Iterator[Spot]:
    """A hand that holds a short piece is near the blade.

    Where saws are listed, their own figures say more; this is for builds that list none.
    """
    caution = build.catalog.cautions["cutting.small-pieces"]
    line = inches(caution.low or 0.0)
    if build.build.shop.saws:
        return
    for part in build.parts:
        length = part.part.length
        if length is not None and length < line:
            detail = f"{part.part.id} is {plain(length, build.metric)} long. {caution.words}"
            yield Spot(
                at=f"{part.at}/length",
                detail=detail,
                numbers={"length": length, "line": line},
                rests_on=(caution.row,),
            )


@rule(
    "safety.rags",
    title="Rags with drying oil catch fire by themselves",
    severity="note",
    basis="practice",
    numbers={"finish": "word"},
)
def rags(build: ResolvedBuild) -> Iterator[Spot]:
    """Oils that dry give off heat as they do; in a heap of rags it can't get away.

    It holds for every drying oil, oil-based stain and oil-based varnish.
    """
    for at, key in finishes(build):
        if key in DRYING_OILS:
            text, rows = words(build, "rags.catch-fire", "rags.dry-flat")
            yield Spot(at=at, detail=text, numbers={"finish": key}, rests_on=rows)


@rule(
    "safety.ventilation",
    title="Air the shop while finishing",
    severity="note",
    basis="practice",
    numbers={"finish": "word"},
)
def ventilation(build: ResolvedBuild) -> Iterator[Spot]:
    """Finishes thinned with solvent or alcohol fill a room with vapor that burns.

    Keep flames and pilot lights away, and do as the label says.
    """
    for at, key in finishes(build):
        if key in SOLVENT:
            text, rows = words(build, "finishing.solvents")
            yield Spot(at=at, detail=text, numbers={"finish": key}, rests_on=rows)


@rule(
    "safety.tip-over",
    title="Fix a tall piece to the wall",
    severity="note",
    basis="practice",
    numbers={"height": "length", "line": "length"},
)
def tip_over(build: ResolvedBuild) -> Iterator[Spot]:
    """Children climb what stands against a wall, and pull drawers out to do it.

    Pieces as tall as those that the rule on clothing storage speaks of, and whatever has drawers,
    belong on the wall, home-built or not.
    """
    stands = build.build.stands
    if stands is None or stands.fixed:
        return
    line = inches(build.catalog.cautions["tip-over.rule-height"].low or 0.0)
    drawers = any(one.kind == "drawer" for one in build.build.moving)
    tall = stands.height is not None and stands.height >= line
    if not tall and not drawers:
        return
    text, rows = words(build, "tip-over.anchor")
    height = stands.height if stands.height is not None else line
    yield Spot(
        at="#/stands",
        detail=text,
        numbers={"height": height, "line": line},
        rests_on=(*rows, "cautions/tip-over.rule-height"),
    )


@rule(
    "safety.gap",
    title="A gap that can hold a child's head",
    severity="warn",
    basis="practice",
    numbers={"gap": "length", "least": "length", "most": "length"},
)
def gap(build: ResolvedBuild) -> Iterator[Spot]:
    """A small body slips through an opening that then holds the head.

    The figures are those that playgrounds are judged by. Gaps are looked at where small children
    are named.
    """
    if not small_children(build):
        return
    row = build.catalog.standing["gap.head"]
    least, most = inches(float(row.low or 0)), inches(float(row.high or 0))
    text, rows = words(build, "children.head-gap")
    for index, run in enumerate(build.build.runs):
        for place, piece in enumerate(run.pieces):
            if piece.gap and piece.size is not None and least < piece.size < most:
                yield Spot(
                    at=f"#/runs/{index}/pieces/{place}/gap",
                    detail=f"The gap is {plain(piece.size, build.metric)}. {text}",
                    numbers={"gap": piece.size, "least": least, "most": most},
                    mend=Mend(f"Keep it to {plain(least, build.metric)} or less."),
                    rests_on=(row.row, *rows),
                )


@rule("safety.moving", title="A lid can drop", severity="note", basis="practice", numbers={})
def moving(build: ResolvedBuild) -> Iterator[Spot]:
    """A lid falls on fingers, heads and necks when nothing holds it open.

    It warns where small children are named.
    """
    text, rows = words(build, "children.lid")
    for index, one in enumerate(build.build.moving):
        if one.kind == "lid" and not one.held_open:
            yield Spot(
                at=f"#/moving/{index}",
                detail=text,
                mend=Mend("Fit a support that holds the lid wherever it is let go."),
                rests_on=rows,
                severity=where_children_are(build),
            )


@rule(
    "safety.sharp",
    title="A point that a child can run into",
    severity="warn",
    basis="practice",
    numbers={"tip": "angle", "line": "angle"},
)
def sharp(build: ResolvedBuild) -> Iterator[Spot]:
    """A steep miter or bevel leaves a sharp tip.

    Tips are looked at where small children are named.
    """
    if not small_children(build):
        return
    row = build.catalog.standing["sharp.tip"]
    line = float(row.high or 0)
    text, rows = words(build, "children.points")
    for part in build.parts:
        for place, end in enumerate(part.part.ends):
            tip = 90 - max(end.miter, end.bevel)
            if tip < line:
                yield Spot(
                    at=f"{part.at}/ends/{place}",
                    detail=f"{part.part.id} ends in a tip of {tip:g} degrees. {text}",
                    numbers={"tip": tip, "line": line},
                    rests_on=(row.row, *rows),
                )


@rule(
    "safety.lifting",
    title="Heavy for one person",
    severity="note",
    basis="handbook",
    numbers={"weight": "count", "line": "count"},
)
def lifting(build: ResolvedBuild) -> Iterator[Spot]:
    """Backs are hurt by lifts that looked possible.

    The line is for ideal lifts: close to the body, from the height of the knuckles, now and then.
    """
    line, row = lifting_line(build.catalog)
    weight = heavy(build, line)
    if weight is None:
        return
    text, _ = words(build, "lifting.two-hands")
    yield Spot(
        at="#/parts",
        detail=(
            f"The parts weigh about {said(weight, build.metric)} together; the line is "
            f"{said(line, build.metric)}. {text}"
        ),
        numbers={"weight": round(weight), "line": round(line)},
        rests_on=(row,),
    )


@rule("safety.people", title="It carries people", severity="note", basis="practice", numbers={})
def people(build: ResolvedBuild) -> Iterator[Spot]:
    """What people sit, stand or lie on breaks at its joints, which are not figured here.

    No strength of a seat or a step is worked out, and none is meant by silence.
    """
    for at, key in uses(build):
        if key in PEOPLE:
            text, rows = words(build, "seats.not-by-code", "code.not-furniture")
            yield Spot(at=at, detail=text, rests_on=rows)


@rule(
    "safety.walls", title="Before drilling into a wall", severity="note", basis="practice",
    numbers={},
)  # fmt: skip
def walls(build: ResolvedBuild) -> Iterator[Spot]:
    """Cables and pipes run in walls, often where a screw would go.

    Wiring is for licensed people, under the rules of the place.
    """
    text, rows = words(build, *ALWAYS)
    for one in hung(build):
        yield Spot(at=one.at, detail=text, rests_on=rows)
        return
