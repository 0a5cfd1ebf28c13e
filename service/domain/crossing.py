"""Where a joint holds solid wood fast across its grain, and over how much of its width.

`crosses` of a joint says it. Without it the surfaces that meet say it, as far as they can: a face
on a face may lie either way, so only pieces whose lengths tell them apart are taken as crossed.
"""

from collections.abc import Iterator
from fractions import Fraction

from service.domain.build import Joint
from service.domain.parts import ResolvedPart
from service.domain.resolving import ResolvedBuild
from service.domain.values import dataclass

NOTHING = Fraction(0)
# How long a piece is that lies across a board, against the board's width and length.
SPANS_FROM, SPANS_TO, SHORTER = Fraction(3, 5), Fraction(11, 10), Fraction(3, 4)
LETS_GO = frozenset({"clip", "loose", "hinge"})  # ways to hold that leave wood free to move


@dataclass(frozen=True, slots=True)
class Crossing:
    """A joint that may hold `part` fast over `width` inches across its grain."""

    at: str
    joint: Joint
    part: ResolvedPart
    width: Fraction
    stated: bool
    sure: bool


NARROW_RAIL = "crossed.frame"  # row of standing_practice


def crossings(build: ResolvedBuild) -> Iterator[Crossing]:
    """Every joint that holds, or may hold, solid wood fast across its grain.

    The end of a narrow rail on the edge of a stile is left out: face frames are joined so, in
    every wood, with all of the rail's width held.
    """
    frame = build.catalog.standing.get(NARROW_RAIL)
    narrow = frame.high if frame and frame.high else Fraction(0)
    for index, joint in enumerate(build.build.joints):
        through, into = build.by_id.get(joint.through), build.by_id.get(joint.into)
        if through is None or into is None or not _holds(joint):
            continue
        found = _found(f"#/joints/{index}", joint, through, into)
        if found is None or found.width <= 0 or (_in_frame(joint) and found.width <= narrow):
            continue
        yield found


def _in_frame(joint: Joint) -> bool:
    """Whether an end meets an edge: the joint of a rail and a stile."""
    surfaces = {joint.touches or "face", joint.enters}
    return joint.crosses is None and surfaces == {"end", "edge"}


def _found(at: str, joint: Joint, through: ResolvedPart, into: ResolvedPart) -> Crossing | None:
    solid = [part for part in (through, into) if _is_solid(part)]
    if not solid:
        return None
    if joint.crosses is not None:
        # Solid parts have their sizes.
        widest = max(solid, key=lambda part: part.sized.width.listed)  # type: ignore[union-attr]
        width = min(joint.crosses, _width(widest))
        return Crossing(at, joint, widest, width, stated=True, sure=True)
    if joint.enters is None:
        return None
    meets = (joint.touches or "face", joint.enters)
    ways = [
        _crossed(part, other, mine, theirs)
        for part, other, (mine, theirs) in (
            (through, into, meets),
            (into, through, (meets[1], meets[0])),
        )
        if _is_solid(part)
    ]
    known = [(part, width, sure) for part, width, sure in ways if width > 0]
    if not known:
        return None
    part, width, sure = max(known, key=lambda way: way[1])
    return Crossing(at, joint, part, width, stated=False, sure=sure)


def _crossed(
    part: ResolvedPart, other: ResolvedPart, mine: str, theirs: str
) -> tuple[ResolvedPart, Fraction, bool]:
    """How far across its grain the other may hold a part, and whether the sizes leave no doubt."""
    width, length = _width(part), part.part.length or NOTHING
    theirs_long, theirs_wide = other.part.length or NOTHING, _width(other)
    if mine == "end" and theirs == "edge":
        return part, min(width, theirs_long), True
    if mine == "end" and theirs == "face":
        return part, min(width, theirs_long), width > theirs_wide
    if mine == "face" and theirs in ("face", "edge"):
        across = min(width, theirs_long)
        spans = SPANS_FROM * width <= theirs_long <= SPANS_TO * width
        return part, across, spans and theirs_long <= SHORTER * length
    return part, NOTHING, False


def _holds(joint: Joint) -> bool:
    """Whether it holds fast at more than one place across the width."""
    if joint.lets_move or joint.method in LETS_GO:
        return False
    is_glued = joint.glue is not None and joint.glue != "none"
    if joint.method is None and not is_glued:
        return False
    return is_glued or joint.count is None or joint.count > 1


def _is_solid(part: ResolvedPart) -> bool:
    """Solid wood with its grain along its length; sheet products and rounds do not count."""
    sized = part.sized
    if sized is None or sized.width is None or part.part.length is None or part.panel is not None:
        return False
    return sized.form == "board" or (sized.form == "panel" and part.part.grain == "length")


def _width(part: ResolvedPart) -> Fraction:
    sized = part.sized
    return sized.width.listed if sized and sized.width else NOTHING
