"""How heavy parts and pieces are: cut volume times density, with the spread that wood has."""

from collections.abc import Iterator
from math import pi

from service.domain.build import Cutout
from service.domain.catalog import Catalog, Spread
from service.domain.material import AS_SOLD, pounds
from service.domain.parts import ResolvedPart
from service.domain.resolving import ResolvedBuild
from service.domain.solid import Rod, Solid
from service.domain.values import dataclass

KILOGRAM = 0.45359237  # of a pound, exactly (agreement of 1959)


@dataclass(frozen=True, slots=True)
class Mass:
    """Pounds from and to, what is usual, and the rows behind them."""

    low: float
    usual: float
    high: float
    rests_on: tuple[str, ...] = ()

    def times(self, count: float) -> "Mass":
        return Mass(self.low * count, self.usual * count, self.high * count, self.rests_on)

    @property
    def spread_percent(self) -> float:
        """How far the ends lie from the middle, at most."""
        if self.usual == 0:
            return 0.0
        return 100 * max(self.high - self.usual, self.usual - self.low) / self.usual


@dataclass(frozen=True, slots=True)
class PartMass:
    """One line of the parts list: what one of it weighs. `each` is None where nothing says it."""

    part: ResolvedPart
    each: Mass | None
    why_not: str = ""


def mass_of(volume: float, density: Spread) -> Mass:
    """The mass of a volume in cubic inches."""
    usual = density.usual if density.usual is not None else (density.low + density.high) / 2
    return Mass(
        pounds(volume, density.low),
        pounds(volume, usual),
        pounds(volume, density.high),
        density.rests_on,
    )


def weigh(build: ResolvedBuild) -> tuple[PartMass, ...]:
    """Every part of a build, cut: without fasteners, glue and finish."""
    return tuple(weigh_part(part) for part in build.parts)


def weigh_part(part: ResolvedPart) -> PartMass:
    """One part, cut to shape, cutouts taken off."""
    if not isinstance(part.solid, Solid | Rod):
        return PartMass(part, None, "a size of it is missing or unclear")
    if part.density is None:
        named = part.wood.name if part.wood else None
        return PartMass(part, None, f"no density of {named}" if named else "its wood is not named")
    return PartMass(part, mass_of(cut_volume(part, part.solid), part.density))


def whole(masses: tuple[PartMass, ...]) -> Mass:
    """All parts together, those that can be weighed."""
    known = [one.each.times(one.part.part.quantity) for one in masses if one.each]
    return added(known)


def added(masses: list[Mass]) -> Mass:
    """Several masses as one; their spreads are added, as if every board were heavy or light."""
    rows = tuple(dict.fromkeys(row for mass in masses for row in mass.rests_on))
    return Mass(
        sum(m.low for m in masses), sum(m.usual for m in masses), sum(m.high for m in masses), rows
    )


def cut_volume(part: ResolvedPart, solid: Solid | Rod) -> float:
    """Cubic inches that are left of a part when it is cut; cutouts that overlap count twice."""
    taken = sum(cutout_volume(cutout, solid) for cutout in part.part.cutouts)
    return max(0.0, float(solid.volume) - taken)


def cutout_volume(cutout: Cutout, solid: Solid | Rod) -> float:
    """Cubic inches that one cutout takes out, at all its places."""
    length, width, thick = (
        float(size) for size in (solid.blank_length, solid.blank_width, solid.thickness)
    )
    size = float(cutout.size) if cutout.size is not None else 0.0
    through, across = (width, thick) if cutout.on == "edge" else (thick, width)
    if cutout.on == "end":
        through, across = length, width
    deep = float(cutout.depth) if cutout.depth is not None else through
    places = max(1, len(cutout.at))
    if cutout.kind == "hole":
        return places * pi * size**2 / 4 * min(deep, through)
    long = length if cutout.runs == "along" and cutout.on != "end" else across
    return places * size * min(deep, through) * long


def unweighed(masses: tuple[PartMass, ...]) -> Iterator[str]:
    """Parts that have no mass, and why."""
    for one in masses:
        if one.each is None:
            yield f"{one.part.part.id}: {one.why_not}"


def lifting_line(catalog: Catalog) -> tuple[float, str]:
    """The heaviest lift with two hands that a guide gives, pounds, and its row."""
    caution = catalog.cautions["lifting.two-hands"]
    return caution.high or 0.0, caution.row


def said(weight: float, metric: bool = False) -> str:
    """Pounds, or kilograms in a metric build, with no more digits than they are worth."""
    number, unit = (weight * KILOGRAM, "kg") if metric else (weight, "lb")
    return f"{number:,.0f} {unit}" if number >= 20 else f"{number:.1f} {unit}".replace(".0 ", " ")


def moisture_taken(moisture: float | None) -> str:
    """What moisture a density is taken at, in words."""
    percent = AS_SOLD if moisture is None else moisture
    return f"{percent:g} % moisture"
