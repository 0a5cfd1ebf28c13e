"""What the tables know of finishes, and of how long work takes."""

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction


@dataclass(frozen=True, slots=True)
class Figure:
    """A printed range, or words. Where only one end is printed the other is None."""

    row: str
    low: Fraction | None
    high: Fraction | None
    words: str | None

    @property
    def least(self) -> Fraction:
        """The lower printed end; zero where there is only a text."""
        return self.low if self.low is not None else self.high or Fraction(0)


@dataclass(frozen=True, slots=True)
class Finishing:
    """A finish: hours, and square feet per US gallon, by property (and condition, after a space).

    `kind` is film, oil, paint, primer, stain, conditioner or wax.
    """

    key: str
    name: str
    kind: str
    figures: Mapping[str, Figure]

    def figure(self, name: str) -> Figure | None:
        """The row for a property; under any condition where none holds without one."""
        if name in self.figures:
            return self.figures[name]
        return next((f for n, f in self.figures.items() if n.startswith(f"{name} ")), None)
