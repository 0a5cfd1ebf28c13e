"""A cut part in words: lengths from point to point, how to trace its ends, how the saw is set."""

from collections.abc import Iterator

from service.domain.angles.settings import Stops, cuts_of
from service.domain.parts import ResolvedPart
from service.domain.solid import Rod, Solid
from service.handouts.drawings.pens import Pen
from service.handouts.drawings.views import BACK, FRONT

ENDS = (("first", 1, 4, 1), ("second", 2, 3, -1))


def is_beveled(solid: Solid) -> bool:
    """Whether an end or an edge is not square through the thickness."""
    corners = solid.corners
    pairs = zip(FRONT.values(), BACK.values(), strict=True)
    return any(corners[front][:2] != corners[back][:2] for front, back in pairs)


def lengths_in_words(solid: Solid | Rod, pen: Pen) -> Iterator[str]:
    """Distances from point to point along the part."""
    if isinstance(solid, Rod):
        for word, size in solid.lengths().items():
            yield f"{word.replace('-', ' ')}: {pen.say(size)}"
        return
    corners = solid.corners
    faces = [("front face", FRONT)]
    faces += [("back face", BACK)] if is_beveled(solid) else []
    for face, names in faces:
        (a, b, c, d) = names
        low = corners[names[b]][0] - corners[names[a]][0]
        up = corners[names[c]][0] - corners[names[d]][0]
        yield f"{face}: point {a} to point {b} {pen.say(low)}; point {d} to point {c} {pen.say(up)}"
    back, front = solid.face_widths
    if back != front:
        yield f"the front face is {pen.say(front)} wide, the back face {pen.say(back)}"


def tracing(solid: Solid, pen: Pen) -> Iterator[str]:
    """How to mark each end without reading an angle."""
    corners = solid.corners
    for side, low, up, inward in ENDS:
        off = (corners[FRONT[up]][0] - corners[FRONT[low]][0]) * inward
        long, short = (low, up) if off > 0 else (up, low)
        over = tuple(_over_the_edges(solid, pen, side, inward))
        if off:
            yield (
                f"To trace the {side} end: square a line across the front face at point {long}, "
                f"measure {pen.say(abs(off))} inward along the other edge to point {short}, and "
                "join the two points"
            )
        elif over:
            yield f"To trace the {side} end: square a line across the front face at point {low}"
        yield from over


def _over_the_edges(solid: Solid, pen: Pen, side: str, inward: int) -> Iterator[str]:
    """Where the back face's points lie, from a square line carried over each edge."""
    corners = solid.corners
    low, up = (1, 4) if side == "first" else (2, 3)
    offs = {n: (corners[BACK[n + 4]][0] - corners[FRONT[n]][0]) * inward for n in (low, up)}
    if not any(offs.values()):
        return
    told = [
        f"point {n + 4} lies {pen.say(abs(off))} further {'in' if off > 0 else 'out'} than point "
        f"{n}" if off else f"point {n + 4} lies square behind point {n}"
        for n, off in offs.items()
    ]  # fmt: skip
    yield (
        f"On the back face, {told[0]} and {told[1]}: mark both over the edges and join all four "
        f"points around the {side} end"
    )


def settings_in_words(part: ResolvedPart) -> Iterator[str]:
    """The saw's scales, off square and where 90 is square."""
    for cut in cuts_of(part.part, Stops()):
        for way in cut.ways[:1]:
            yield (
                f"Saw, {cut.cut}, {way.how}: table {way.turned:.1f}, blade {way.tilted:.1f} off "
                f"square ({way.turned_scale:.1f} and {way.tilted_scale:.1f} where 90 is square)"
            )


def alike(part: ResolvedPart) -> Iterator[str]:
    """How many there are of the part, and how many of them are mirror images."""
    count, mirrored = part.part.quantity, part.part.mirrored
    if count > 1:
        words = f", but {mirrored} of them mirrored" if mirrored else ""
        yield f"{'Both' if count == 2 else f'All {count}'} are alike{words}"
