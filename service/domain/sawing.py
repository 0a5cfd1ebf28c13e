"""Which of the caller's saws can make a cut, and what stops the others."""

from collections.abc import Iterable, Iterator, Sequence
from fractions import Fraction
from math import cos, radians, sqrt
from typing import Literal

from service.domain.build import End, Saw
from service.domain.catalog import Catalog, SawLimit
from service.domain.parts import ResolvedPart
from service.domain.values import dataclass, replace

Limit = Literal["miter", "bevel", "width", "thickness"]


@dataclass(frozen=True, slots=True)
class Cut:
    """A cut across a part: the end's angles, and the width and thickness to get through."""

    end: End
    width: Fraction
    thickness: Fraction


def cuts_of(part: ResolvedPart) -> Iterator[Cut]:
    """The two end cuts of a part. Boards to be glued up can be cut square one by one."""
    if part.sized is None or part.sized.width is None:
        return
    whole, thickness = part.sized.width.listed, part.sized.thickness.listed
    glue_up = part.part.glued_from
    board = (
        (whole + glue_up.edge_loss * (glue_up.boards - 1)) / glue_up.boards if glue_up else whole
    )
    for end in part.part.ends:
        yield Cut(end, board if end.is_square else whole, thickness)


@dataclass(frozen=True, slots=True)
class Stop:
    """Why a saw can't make a cut. Angles in degrees, sizes in inches.

    `own` says that the figure is the caller's; otherwise `rests_on` names the table row.
    """

    saw: Saw
    limit: Limit
    wants: float
    reaches: float
    own: bool
    rests_on: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Reach:
    """How far a saw goes in one direction, and where that is known from."""

    value: float
    own: bool
    rests_on: tuple[str, ...] = ()


def stops(saws: Sequence[Saw], cut: Cut, catalog: Catalog, region: str) -> list[Stop]:
    """What stops each saw, or an empty list as soon as one of them can make the cut."""
    found: list[Stop] = []
    for saw in saws:
        kind = catalog.key("saw", region, saw.kind) or saw.kind
        stop = next(stops_of(saw, kind, cut, catalog), None)
        if stop is None:
            return []
        found.append(stop)
    return found


def stops_of(saw: Saw, kind: str, cut: Cut, catalog: Catalog) -> Iterator[Stop]:
    """Everything about a cut that a saw does not reach. Figures not known stop nothing."""
    limits = Limits(saw, kind, catalog)
    end = cut.end
    wants: list[tuple[Limit, float, Reach | None]] = [
        ("miter", end.miter, limits.angle("miter") if end.miter else None),
        ("bevel", end.bevel, limits.angle("bevel") if end.bevel else None),
    ]
    if kind == "miter-saw":
        wants.append(("width", float(cut.width), limits.width(end.miter)))
    wants.append(("thickness", float(cut.thickness), limits.thickness(end.bevel)))
    for limit, want, reach in wants:
        if reach is not None and want > reach.value + 1e-9:
            yield Stop(saw, limit, want, reach.value, reach.own, reach.rests_on)


def taken_to_slide(
    parts: Iterable[ResolvedPart], saws: Sequence[Saw], catalog: Catalog, region: str
) -> Iterator[str]:
    """What is assumed of saws of which nobody says whether they slide, where that decides a cut."""
    unsaid = [saw for saw in saws if saw.slides is None and saw.crosscut is None]
    if not unsaid:
        return
    short = [replace(saw, slides=False) if saw in unsaid else saw for saw in saws]
    for cut in {cut: None for part in parts for cut in cuts_of(part)}:
        if stops(short, cut, catalog, region) and not stops(saws, cut, catalog, region):
            names = " and ".join(dict.fromkeys(saw.kind for saw in unsaid))
            yield f"{names}: taken to slide, as `slides` is not given; some cuts need it"
            return


@dataclass(frozen=True, slots=True)
class Limits:
    """What one saw reaches: its own figures where stated, else the most its kind does."""

    saw: Saw
    kind: str
    catalog: Catalog

    def angle(self, turn: Literal["miter", "bevel"]) -> Reach | None:
        """Degrees that the table turns or the blade tilts."""
        own = self.saw.miter_to if turn == "miter" else self.saw.bevel_to
        return Reach(own, True) if own is not None else self.table(f"{turn}-angle", "")

    def width(self, miter: float) -> Reach | None:
        """Width of board crossed at a miter.

        The blade's path on the table is as long whatever the turn, so the width shrinks with the
        cosine; where the width at 45 degrees is known, the path is taken to change evenly up to it.
        """
        own, own_45 = self.saw.crosscut, self.saw.crosscut_at_45
        if own is not None:
            square: Reach | None = Reach(float(own), True)
            turned = Reach(float(own_45), True) if own_45 is not None else None
        else:
            square = self.table("crosscut-width", "square")
            turned = self.table("crosscut-width", "miter-45")
        if square is None:
            return None
        path_45 = turned.value * sqrt(2) if turned else square.value
        path = square.value + (path_45 - square.value) * min(miter, 45) / 45
        rests_on = square.rests_on + (turned.rests_on if turned and miter else ())
        return Reach(path * cos(radians(miter)), square.own, rests_on)

    def thickness(self, bevel: float) -> Reach | None:
        """Thickness of board cut through with the blade tilted."""
        if self.saw.depth is not None:
            return Reach(float(self.saw.depth) * cos(radians(bevel)), True)
        item = "crosscut-thickness" if self.kind == "miter-saw" else "cut-depth"
        square = self.table(item, "square")
        if square is None or not bevel:
            return square
        tilted = self.table(item, "bevel-45")
        at_45 = tilted.value if tilted else square.value / sqrt(2)
        rests_on = square.rests_on + (tilted.rests_on if tilted else ())
        return Reach(square.value + (at_45 - square.value) * min(bevel, 45) / 45, False, rests_on)

    def table(self, item: str, condition: str) -> Reach | None:
        """The most that saws of the kind reach; blade and slide narrow it down where stated."""
        limits = self.catalog.saw_limits(self.kind, item, condition)
        rows = [row for row in limits if self.is_of(row)]
        if not rows:
            return None
        best = max(rows, key=lambda row: row.high)
        return Reach(float(best.high), False, (best.row,))

    def is_of(self, row: SawLimit) -> bool:
        """Whether a table row speaks of this saw, by blade and slide where both are known."""
        saw = self.saw
        return (row.blade is None or saw.blade is None or row.blade == saw.blade) and (
            row.slides is None or saw.slides is None or row.slides == saw.slides
        )
