"""Will it stay up: the pull that tips a piece, how far it may lean, what opening it does.

Tipping is about the front edge of what the piece stands on, with a straight pull forward. Where
the parts are is not in a build, so weight is taken at the middle of the piece, and said to be.
"""

from collections.abc import Iterator
from math import atan2, degrees

from service.domain.catalog import Catalog
from service.domain.loads import Carried, carried
from service.domain.resolving import ResolvedBuild
from service.domain.values import dataclass
from service.domain.weight import weigh, weigh_part, whole

HALF = 0.5  # of height and depth, where weight is taken to be


@dataclass(frozen=True, slots=True)
class Swung:
    """Something that opens: pounds, and how far in front of the front edge its middle comes.

    Negative while it stays behind that edge. `reach` is how far its own front edge stands out.
    """

    name: str
    kind: str
    weight: float
    ahead: float
    reach: float


@dataclass(frozen=True, slots=True)
class Piece:
    """A piece on its feet: inches and pounds, with what is on it and what opens."""

    height: float
    depth: float
    weight: float
    load: float = 0.0
    opens: tuple[Swung, ...] = ()

    @property
    def shut(self) -> "Piece":
        """The same with everything shut."""
        return Piece(self.height, self.depth, self.weight, self.load)

    @property
    def empty(self) -> "Piece":
        """The same with nothing on it."""
        return Piece(self.height, self.depth, self.weight, 0.0, self.opens)

    @property
    def all_of_it(self) -> float:
        return self.weight + self.load

    @property
    def rights(self) -> float:
        """The moment that keeps it on its feet, inch-pounds about the front edge.

        Below 0 it goes over by itself.
        """
        resting = self.all_of_it - sum(one.weight for one in self.opens)
        return resting * self.depth * HALF - sum(one.weight * one.ahead for one in self.opens)

    def pull(self, height: float) -> float:
        """Pounds of straight pull forward, at a height, that tip it; 0 where none is needed."""
        return max(0.0, self.rights) / height

    def hung(self, reach: float) -> float:
        """Pounds hung that far in front of the front edge that tip it; 0 where none is needed."""
        return max(0.0, self.rights) / reach

    @property
    def lean(self) -> float:
        """Degrees that the floor may slope forward before it goes over by itself."""
        return degrees(atan2(max(0.0, self.rights), self.all_of_it * self.height * HALF))


@dataclass(frozen=True, slots=True)
class ClothingRule:
    """Whether the rule on clothing storage units speaks of a piece, as far as is known.

    `reaches` names each threshold, with its figure, and whether the piece is at it (None: not
    known). The rule is the law of one country, and says nothing of pieces outside it.
    """

    reaches: tuple[tuple[str, float, bool | None], ...]
    rests_on: tuple[str, ...]

    @property
    def applies(self) -> bool | None:
        """True or False; None where something is not known and nothing rules it out."""
        found = [reached for _, _, reached in self.reaches]
        if False in found:
            return False
        return None if None in found else True


def clothing_rule(
    catalog: Catalog, height: float | None, weight: float | None, encloses: float | None
) -> ClothingRule:
    """The thresholds in force, each against what is known (inches, pounds, cubic feet).

    Source: cpsc-clothing-storage, 16 CFR 1261.
    """
    named = (("height", height), ("mass", weight), ("volume", encloses))
    cautions = [catalog.cautions[f"tip-over.rule-{name}"] for name, _ in named]
    reaches = tuple(
        (name, caution.low or 0.0, None if given is None else given >= (caution.low or 0.0))
        for (name, given), caution in zip(named, cautions, strict=True)
    )
    return ClothingRule(reaches, tuple(caution.row for caution in cautions))


def piece_of(build: ResolvedBuild) -> Piece | None:
    """A build on its feet, loaded and with everything open; None where a size is missing."""
    stands = build.build.stands
    if stands is None or stands.height is None or stands.depth is None:
        return None
    weight = whole(weigh(build)).low
    if weight <= 0:
        return None
    load = sum(one.weight for one in carried(build) if isinstance(one, Carried))
    opens = tuple(opened(build, float(stands.depth)))
    return Piece(float(stands.height), float(stands.depth), weight, load, opens)


def opened(build: ResolvedBuild, depth: float) -> Iterator[Swung]:
    """Everything that moves, open: drawers two thirds of the way, doors square to the front.

    A lid stands up at the back and tips nothing forward.
    """
    share = float(build.catalog.standing["tip.open-share"].high or 0)
    for moving in build.build.moving:
        part = build.by_id.get(moving.part) if moving.part else None
        each = weigh_part(part).each if part else None
        weight = each.high * part.part.quantity if part and each else 0.0
        if moving.kind == "drawer":
            out = share * depth
            yield Swung(moving.part or "a drawer", "drawer", weight, out - depth * HALF, out)
        elif moving.kind == "door" and part is not None and part.sized and part.sized.width:
            wide = float(part.sized.width.listed)
            yield Swung(moving.part or "a door", "door", weight, wide * HALF, wide)


def with_a_drawer_open(piece: Piece, catalog: Catalog) -> Piece:
    """The piece with a drawer out as far as tests pull it, its own weight left in the piece."""
    out = float(catalog.standing["tip.open-share"].high or 0) * piece.depth
    drawer = Swung("a drawer", "drawer", 0.0, 0.0, out)
    return Piece(piece.height, piece.depth, piece.weight, piece.load, (drawer,))
