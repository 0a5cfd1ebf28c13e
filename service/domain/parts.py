"""A part with everything that the tables and geometry add to it."""

from service.domain.build import NOTHING_NOTED, Part
from service.domain.catalog import Spread, Wood
from service.domain.material import EDGE_GLUED, density
from service.domain.shape import shape_part, shape_round
from service.domain.solid import Crossed, Rod, Solid, Unclear
from service.domain.stocks import Sized, Sizing, UnknownStock, size_part
from service.domain.values import dataclass


@dataclass(frozen=True, slots=True)
class ResolvedPart:
    """A part with its real sizes. `sized` is None where its stock is unknown."""

    index: int
    part: Part
    sized: Sized | None
    unknown: UnknownStock | None
    solid: Solid | Rod | Crossed | Unclear | None
    wood: Wood | None
    density: Spread | None
    assumed: tuple[str, ...]

    @property
    def at(self) -> str:
        return f"#/parts/{self.index}"

    @property
    def panel(self) -> str | None:
        """The sheet product that it is of; None for solid wood, edge-glued boards among it."""
        sized = self.sized
        if sized is not None and sized.panel is not None:
            material: str | None = sized.panel.material
        elif self.wood is not None and self.wood.kind == "panel":
            material = self.wood.key
        else:
            material = "plywood" if sized is not None and sized.form == "panel" else None
        return None if material == EDGE_GLUED else material

    @property
    def is_ripped(self) -> bool:
        """Whether it is narrower than the board that it comes from; sheets have no such width."""
        sized = self.sized
        if sized is None or sized.width is None or sized.stock_width is None:
            return False
        return sized.width.listed < sized.stock_width.listed

    @property
    def rests_on(self) -> tuple[str, ...]:
        """Table rows behind the sizes."""
        return self.sized.rests_on if self.sized else ()


def resolve_part(index: int, part: Part, sizing: Sizing) -> ResolvedPart:
    """One part with its sizes, solid and material."""
    material = material_of(part, sizing)
    sized = material.sized
    solid = solid_of(part, sized) if sized else None
    assumed = sized.assumed if sized else ()
    if solid is not None and not isinstance(solid, Unclear) and solid.assumed:
        assumed += tuple(f"{part.id}: {text}" for text in solid.assumed)
    return ResolvedPart(
        index, part, sized, material.unknown, solid, material.wood, material.density, assumed
    )


@dataclass(frozen=True, slots=True)
class Material:
    """What a part is of. `sized` is None where its stock is unknown."""

    sized: Sized | None
    unknown: UnknownStock | None
    wood: Wood | None
    density: Spread | None


def material_of(part: Part, sizing: Sizing) -> Material:
    """The real sizes of a part and its wood; found once for all that only name the same stock."""
    only_named = (
        part.stock.name is not None
        and part.width is None
        and part.thickness is None
        and part.glued_from is None
        and part.known is NOTHING_NOTED
    )
    if not only_named:
        return _found(part, sizing)
    asked = ("material", part.stock.name)
    if asked not in sizing.worked_out:
        sizing.worked_out[asked] = _found(part, sizing)
    material: Material = sizing.worked_out[asked]
    return material


def _found(part: Part, sizing: Sizing) -> Material:
    found = size_part(part, sizing)
    sized, unknown = (None, found) if isinstance(found, UnknownStock) else (found, None)
    wood, moisture = sizing.wood_of(part, sized), sizing.note_for(part).moisture
    return Material(sized, unknown, wood, density(wood, moisture) if wood else None)


def solid_of(part: Part, sized: Sized) -> Solid | Rod | Crossed | Unclear | None:
    """The part's solid at its listed sizes; None where a size is missing."""
    if part.length is None or sized.width is None:
        return None
    if sized.form == "round":
        return shape_round(part, part.length, sized.width.listed)
    return shape_part(part, part.length, sized.width.listed, sized.thickness.listed)
