"""Rules about parts that form a shape together: leaning, mitered, evenly spaced."""

from collections.abc import Iterator

from service.domain.angles.problems import Kind
from service.domain.findings import Mend, Spot, rule
from service.domain.resolving import ResolvedBuild


def spots(build: ResolvedBuild, kind: Kind) -> Iterator[Spot]:
    """Every problem of one kind, once a place."""
    for judged in build.shapes:
        for problem in judged.problems:
            if problem.kind == kind:
                yield Spot(
                    at=problem.at,
                    detail=problem.detail,
                    numbers=problem.numbers,
                    mend=Mend(problem.words, problem.changes),
                    also_at=problem.also_at,
                    rests_on=problem.rests_on,
                )


@rule(
    "shape.length",
    title="A size does not go with its shape",
    severity="fault",
    numbers={"wanted": "length", "stated": "length", "by": "length"},
)
def length(build: ResolvedBuild) -> Iterator[Spot]:
    """A slanted part has several lengths, and only one of them is the one that the shape needs.

    The usual slips: the length read to the short point instead of the long one, a lap or a piece
    marked to its middle or far side, the plumb height taken for the length of a leaning leg, two
    braces that would overlap because boards have width.
    """
    yield from spots(build, "length")


@rule(
    "shape.angle",
    title="A cut is not at the angle that its shape needs",
    severity="fault",
    numbers={"wanted": "angle", "stated": "angle"},
)
def angle(build: ResolvedBuild) -> Iterator[Spot]:
    """A saw's scale reads 0 at square; a protractor laid along the edge reads 90 there.

    So the complement is often set by mistake: 60 for 30. Angles are compared to a quarter of a
    degree, which is about what a shop saw can be set to.
    """
    yield from spots(build, "angle")


@rule(
    "shape.lean",
    title="The two cuts of a part lean the wrong way",
    severity="fault",
    numbers={"wanted": "word"},
)
def lean(build: ResolvedBuild) -> Iterator[Spot]:
    """A leaning leg has parallel cuts; a rail between such legs, or a frame's side, opposed ones.

    For parallel cuts the part is slid along between the two, for opposed ones it is turned over.
    """
    yield from spots(build, "lean")


@rule(
    "shape.unlike",
    title="Parts that form a shape together are not alike, or not enough",
    severity="fault",
    numbers={"wanted": "word", "stated": "word"},
)
def unlike(build: ResolvedBuild) -> Iterator[Spot]:
    """Legs of one piece are alike, mitered sides have one section, and a ring has all its sides.

    Legs that lean both ways are half of them mirror images of the others.
    """
    yield from spots(build, "unlike")


@rule(
    "shape.blank",
    title="The blank is narrower than the slant needs",
    severity="fault",
    numbers={"wanted": "length", "stated": "length", "by": "length"},
)
def blank(build: ResolvedBuild) -> Iterator[Spot]:
    """A sloping side is wider along its slope than it is high, and beveled edges take still more.

    Height over the cosine of the lean is the face; thickness times the tangent comes on top.
    """
    yield from spots(build, "blank")


@rule(
    "shape.uneven",
    title="Pieces in a row are not spaced evenly",
    severity="warn",
    numbers={"wanted": "length", "stated": "length", "by": "length"},
)
def uneven(build: ResolvedBuild) -> Iterator[Spot]:
    """The eye sees an uneven gap sooner than an uneven size.

    Positions are near sides from one end. Laying one rounded step off again and again adds the
    rounding up; a list of middles or far sides moves the whole row.
    """
    yield from spots(build, "uneven")
