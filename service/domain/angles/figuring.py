"""Every shape asked in one way: figured, rounded to a tape, with saw settings and an entry."""

from collections.abc import Callable, Mapping
from fractions import Fraction
from typing import Any

from service.domain.angles.answer import Asked, Figured, NotFigured, Wanted
from service.domain.angles.bracing import figure_brace, figure_crossed
from service.domain.angles.frames import figure_butted, figure_mitered
from service.domain.angles.leaning import figure_leaning
from service.domain.angles.props import figure_prop
from service.domain.angles.rings import figure_box, figure_polygon
from service.domain.angles.rows import figure_row
from service.domain.angles.settings import SawCut, Stops, saw_cuts
from service.domain.angles.splayed import figure_splayed
from service.domain.angles.tapers import figure_ends, figure_taper
from service.domain.build import End, Part, Shape
from service.domain.errors import Complaint
from service.domain.rounding import WHY, Rounded, Turn, cutting_order, rounded
from service.domain.solid import Solid
from service.domain.tape import plain
from service.domain.values import dataclass, replace

FAMILIES: Mapping[str, Callable[[Asked], Figured]] = {
    "leaning": figure_leaning,
    "splayed-legs": figure_splayed,
    "mitered-frame": figure_mitered,
    "butted-frame": figure_butted,
    "sloped-box": figure_box,
    "polygon": figure_polygon,
    "brace": figure_brace,
    "crossed-legs": figure_crossed,
    "prop": figure_prop,
    "tapered-leg": figure_taper,
    "ends": figure_ends,
    "row": figure_row,
}
USUAL_WITHIN = Fraction(1, 32)
NO_STOPS = "saw_miter_to and saw_bevel_to are not both given, so the saw's stops are not judged."


def figure(shape: str, asked: Asked) -> Figured:
    """A shape figured exactly. Raises NotFigured, also where a part's own cuts cross."""
    figured = FAMILIES[shape](asked)
    for wanted in figured.wanted:
        solid = wanted.solid
        if solid is not None and not isinstance(solid, Solid):
            why = "the cuts meet" if not hasattr(solid, "reason") else solid.reason
            name = next(iter(asked.fields), "shape")
            raise NotFigured(Complaint(name, f"There is no such {wanted.part.id}: {why}."))
    return figured


@dataclass(frozen=True, slots=True)
class CutPart:
    """A part ready to cut: rounded, its exact solid, and what its length was."""

    wanted: Wanted
    part: Part
    solid: Solid | None
    rounded: Rounded | None

    def said(self, metric: bool) -> str | None:
        """How its length was rounded, in words."""
        if self.rounded is None or self.rounded.off_by == 0:
            return None
        was = plain(self.rounded.was, metric)
        return (
            f"{self.part.id}: {plain(self.rounded.size, metric)}, was {was}; "
            + (WHY[self.rounded.how])
        )


@dataclass(frozen=True, slots=True)
class Answer:
    """Everything that `/v1/angles/{shape}` answers, as values."""

    shape: str
    figured: Figured
    parts: tuple[CutPart, ...]
    entry: Shape
    cuts: tuple[SawCut, ...]
    order: tuple[Turn, ...]
    assumed: tuple[str, ...]


def answer(shape: str, asked: Asked, stops: Stops, to: Fraction) -> Answer:
    """A shape ready to cut, lengths rounded to steps of `to` inches. Raises NotFigured."""
    figured = figure(shape, asked)
    sized = [w for w in figured.wanted if w.part.length is not None]
    steps = rounded([(w.part.length or Fraction(0), w.rounding) for w in sized], to)
    by_part = {w.part.id: step for w, step in zip(sized, steps, strict=True)}
    parts = tuple(_cut(wanted, by_part.get(wanted.part.id), to) for wanted in figured.wanted)
    order = cutting_order((w.part.id, w.rounding) for w in sized)
    cuts = saw_cuts(figured, stops)
    unknown = any(way.reaches is None for cut in cuts for way in cut.ways)
    assumed = figured.assumed + ((NO_STOPS,) if unknown else ())
    return Answer(shape, figured, parts, _entry(shape, asked, figured, to), cuts, order, assumed)


def _cut(wanted: Wanted, step: Rounded | None, to: Fraction) -> CutPart:
    solid = wanted.solid
    settled: dict[str, Any] = {
        "ends": _rounded_ends(wanted.part),
        "edges": _rounded_edges(wanted.part),
    }
    if wanted.width is not None and wanted.rounding == "alike":
        (wide,) = rounded([(wanted.width, "overall")], to)
        settled["width"] = wide.size
    if step is not None:
        settled["length"] = step.size
        settled["fit"] = "to-fit" if step.how == "between" else "to-list"
    part = replace(wanted.part, **settled)
    return CutPart(wanted, part, solid if isinstance(solid, Solid) else None, step)


def _rounded_ends(part: Part) -> tuple[End, End]:
    first, second = (_to_hundredths(end) for end in part.ends)
    return first, second


def _rounded_edges(part: Part) -> tuple[End, End]:
    top, bottom = (_to_hundredths(edge) for edge in part.edges)
    return top, bottom


def _to_hundredths(end: End) -> End:
    if end.is_square:
        return end
    return replace(end, miter=round(end.miter, 2), bevel=round(end.bevel, 2))


def _entry(shape: str, asked: Asked, figured: Figured, to: Fraction) -> Shape:
    """The `shapes` entry of a document that these parts belong to."""
    roles: dict[str, tuple[str, ...]] = {}
    for wanted in figured.wanted:
        roles[wanted.role] = (*roles.get(wanted.role, ()), wanted.part.id)
    within = to if to > USUAL_WITHIN else None
    return Shape(shape, shape, roles, dict(asked.fields), within)
