"""Where two parts meet, as a fastener sees it: what it passes, and how deep the other part is.

Thickness lies behind a face, width behind an edge, length behind an end. A part let into a dado
or a rabbet meets less wood there. Parts of unknown stock, or without a size that matters, make no
meeting.
"""

from collections.abc import Mapping
from fractions import Fraction
from typing import Literal

from service.domain.build import Cutout, Joint
from service.domain.catalog import Interval, Wood
from service.domain.material import FIBER_AND_CHIPS
from service.domain.parts import ResolvedPart
from service.domain.solid import Solid
from service.domain.stocks import Sized
from service.domain.values import dataclass

Surface = Literal["face", "edge", "end"]

WALL = "wall"
BOARDLIKE = FIBER_AND_CHIPS | {"osb"}


@dataclass(frozen=True, slots=True)
class Side:
    """One of the parts, seen from the surface where it meets the other.

    `depth` lies behind the surface, `whole` is that before any cutout; `narrow` and `wide` are the
    sizes of the surface itself. `thickness` is the part's own, `across` its size across the grain.
    None where the part states no such size.
    """

    name: str
    surface: Surface
    thickness: Interval
    depth: Interval | None
    narrow: Interval | None
    wide: Interval | None
    panel: str | None
    wood: Wood | None
    treated: bool
    rests_on: tuple[str, ...]
    whole: Interval | None = None
    across: Interval | None = None

    @property
    def hard(self) -> bool:
        """A hardwood, as shops tell them: drilled larger, and split sooner."""
        return self.wood is not None and self.wood.kind == "hardwood"

    @property
    def into_panel_edge(self) -> bool:
        return self.panel is not None and self.surface != "face"


@dataclass(frozen=True, slots=True)
class Meeting:
    """Two parts and how they meet. `lean` is degrees by which an end that is entered is cut off
    square; `lean_across` the size of the part in the direction of that lean."""

    through: Side
    into: Side
    layers: Fraction
    lean: float
    lean_across: Interval | None
    assumed: tuple[str, ...]
    enters_stated: bool

    @property
    def passed(self) -> Interval | None:
        """What a straight fastener goes through before it reaches the other part."""
        depth = self.through.depth
        return plus(depth, self.layers) if depth and self.layers else depth

    @property
    def rests_on(self) -> tuple[str, ...]:
        return (*self.through.rests_on, *self.into.rests_on)


def plus(size: Interval, more: Fraction) -> Interval:
    """A size and an exact one together."""
    return Interval(size.low + more, size.listed + more, size.high + more)


def meet(
    joint: Joint, by_id: Mapping[str, ResolvedPart], treated: Mapping[str, bool]
) -> Meeting | None:
    """The meeting of a joint's two parts; None at a wall, or where a part or its stock is unknown.

    `treated` says which parts are of treated wood.
    """
    through, into = by_id.get(joint.through), by_id.get(joint.into)
    if joint.into == WALL or through is None or into is None:
        return None
    if through.sized is None or into.sized is None:
        return None
    pocketed = joint.method == "pocket-screw"
    touches: Surface = joint.touches or ("end" if pocketed else "face")
    enters: Surface = joint.enters or "face"
    assumed = []
    if joint.touches is None:
        assumed.append(f"{joint.id}: {joint.through} touches with its {touches}")
    if joint.enters is None:
        assumed.append(f"{joint.id}: the {enters} of {joint.into} is entered")
    lean, across = lean_of(into) if enters == "end" else (0.0, None)
    if lean:
        assumed.append(f"{joint.id}: {joint.into} leans {lean:g} degrees behind its cut end")
    return Meeting(
        through=side_of(through, touches, joint.into, treated),
        into=side_of(into, enters, joint.through, treated),
        layers=sum(joint.layers, Fraction(0)),
        lean=lean,
        lean_across=across,
        assumed=tuple(assumed),
        enters_stated=joint.enters is not None,
    )


def side_of(part: ResolvedPart, surface: Surface, other: str, treated: Mapping[str, bool]) -> Side:
    """One part from the surface where it meets the other, less what is cut away for it there."""
    sized = part.sized
    assert sized is not None
    thickness, width = real(sized)
    length = None if part.part.length is None else Interval.exactly(part.part.length)
    depth: Interval | None
    narrow: Interval | None
    wide: Interval | None
    if surface == "face":
        depth, narrow, wide = thickness, width, length
    elif surface == "edge":
        depth, narrow, wide = width, thickness, length
    else:
        depth, narrow, wide = length, thickness, width
    if surface != "end" and narrow and wide and wide.listed < narrow.listed:
        narrow, wide = wide, narrow
    return Side(
        name=part.part.id,
        surface=surface,
        thickness=thickness,
        depth=less(depth, part.part.cutouts, surface, other),
        narrow=narrow,
        wide=wide,
        panel=part.panel,
        wood=part.wood,
        treated=treated.get(part.part.id, False),
        rests_on=part.rests_on,
        whole=depth,
        across=length if part.part.grain == "width" else width,
    )


def real(sized: Sized) -> tuple[Interval, Interval | None]:
    """Thickness and width that the wood can have: never more than its stock has."""
    thickness, width = sized.thickness, sized.width
    if thickness is sized.stock_thickness and width is sized.stock_width:
        return thickness, width  # as bought, like most parts
    if thickness.listed > sized.stock_thickness.high:
        thickness = sized.stock_thickness
    if width and sized.stock_width and width.listed > sized.stock_width.high:
        width = sized.stock_width
    return thickness, width


def less(
    depth: Interval | None, cutouts: tuple[Cutout, ...], surface: Surface, other: str
) -> Interval | None:
    """The depth that is left under a cutout made for the other part."""
    sides = ("face", "back") if surface == "face" else (surface,)
    for cutout in cutouts:
        made_for_it = cutout.fits == other and cutout.on in sides
        if made_for_it and cutout.depth and depth and cutout.depth < depth.low:
            return plus(depth, -cutout.depth)
    return depth


def lean_of(part: ResolvedPart) -> tuple[float, Interval | None]:
    """How far the ends of a part are cut off square, and the size that it leans across.

    Where the two ends differ nobody says which is entered: the one that leans less counts.
    """
    solid, sized = part.solid, part.sized
    if not isinstance(solid, Solid) or sized is None:
        return 0.0, None
    thickness, width = real(sized)
    leans = [(end.bevel, thickness) if end.bevel else (end.miter, width) for end in part.part.ends]
    return min(leans, key=lambda lean: lean[0])
