"""How much finish a surface takes, and how long its coats take to dry.

Areas are square feet, amounts US gallons, times hours; everything is a range.
"""

from fractions import Fraction

from service.domain.build import Step
from service.domain.catalog import Catalog
from service.domain.finish_values import Figure, Finishing
from service.domain.glues import GlueFigure
from service.domain.resolving import ResolvedBuild
from service.domain.solid import Rod, Solid
from service.domain.values import dataclass

SQUARE_FOOT = 144  # square inches
LABEL_DECIDES = (
    "for food, bedding or a child's mouth the label's own statement decides; this service does not"
)
COLD, FROST = Fraction(50), "below 50 F"  # the condition of the row for cold shops


@dataclass(frozen=True, slots=True)
class Span:
    """From and to, and the rows behind it. `at_least`: nobody prints an upper end."""

    low: Fraction
    high: Fraction
    rests_on: tuple[str, ...] = ()
    at_least: bool = False

    def times(self, count: Fraction | int) -> "Span":
        """The same, so many times."""
        return Span(self.low * count, self.high * count, self.rests_on, self.at_least)

    def plus(self, other: "Span") -> "Span":
        """Both, one after the other."""
        if other is NOTHING or self is NOTHING:
            return self if other is NOTHING else other
        rows = tuple(dict.fromkeys((*self.rests_on, *other.rests_on)))
        return Span(
            self.low + other.low, self.high + other.high, rows, self.at_least or other.at_least
        )


NOTHING = Span(Fraction(0), Fraction(0))


def span(figure: Figure | GlueFigure | None) -> Span | None:
    """A printed range in its own unit; None where nothing but words is printed."""
    if figure is None:
        return None
    ends = [end for end in (figure.low, figure.high) if end is not None]
    return Span(ends[0], ends[-1], (figure.row,), figure.high is None) if ends else None


def needed(area: Fraction, coats: Span, spread: Span, loss: Span) -> Span:
    """US gallons for an area: area x coats / spread x (1 + loss). The high end covers all."""
    low = area * coats.low / spread.high * (1 + loss.low)
    high = area * coats.high / spread.low * (1 + loss.high)
    return Span(low, high, tuple(dict.fromkeys(coats.rests_on + spread.rests_on + loss.rests_on)))


def finish_loss(catalog: Catalog) -> Span:
    """What stays in can, brush and rag, as a share: common practice, from memory."""
    return span(catalog.work_times["finish-loss"]) or NOTHING


def surface(build: ResolvedBuild, parts: tuple[str, ...] = ()) -> Fraction:
    """Square feet of every side of the parts named, or of all; joined faces are counted too."""
    known: dict[tuple[str, ...], Fraction] = build.shared.setdefault("surface", {})
    if parts not in known:
        inches = Fraction(0)
        for part in build.parts:
            if (not parts or part.part.id in parts) and isinstance(part.solid, Solid | Rod):
                inches += Fraction(part.solid.surface) * part.part.quantity
        known[parts] = inches / SQUARE_FOOT
    return known[parts]


def finish_of(build: ResolvedBuild, step: Step) -> Finishing | None:
    """The finish that a step names, where the tables have it."""
    key = step.finish and build.catalog.key("finish", build.build.region, step.finish)
    return build.catalog.finishes.get(key) if key else None


def little_against_water(finish: Finishing) -> Figure | None:
    """The row that says that a finish gives little against water; None where none says it."""
    figure = finish.figures.get("water-resistance")
    return figure if figure is not None and figure.words == "little" else None


def wants_top_coat(finish: Finishing) -> Figure | None:
    """The row that says that a finish is not to stay the last coat; None where none says it."""
    figure = finish.figures.get("top-coat")
    return figure if figure is not None and figure.words == "needed" else None


def coats_of(step: Step, finish: Finishing) -> Span:
    """As many coats as the step says, else as many as are usual."""
    if step.count is not None:
        return Span(Fraction(step.count), Fraction(step.count))
    return span(finish.figure("coats")) or Span(Fraction(1), Fraction(1))


def recoat(finish: Finishing, temperature: Fraction | None = None) -> Span | None:
    """Hours between coats; in the cold the longer time, where one is printed."""
    cold = finish.figures.get(f"recoat {FROST}")
    if cold is not None and temperature is not None and temperature < COLD:
        return span(cold)
    return span(finish.figure("recoat"))


def handled(finish: Finishing, damp: bool = False) -> Span | None:
    """Hours from the last coat until the piece may be handled."""
    wet = finish.figures.get("handle damp air")
    return span(wet) if wet is not None and damp else span(finish.figure("handle"))


def cured(finish: Finishing) -> Span | None:
    """Hours from the last coat until the finish has cured; None where it never does."""
    return span(finish.figure("full-cure"))
