"""Glues as values: what they are called, how fast they set, and what water they stand."""

from collections.abc import Mapping
from dataclasses import field
from fractions import Fraction

from service.domain.values import dataclass


@dataclass(frozen=True, slots=True)
class GlueFigure:
    """A printed range; times are minutes, temperatures degrees Fahrenheit.

    An end that the source does not print is None. `condition` says what the value holds under.
    """

    row: str
    low: Fraction | None
    high: Fraction | None
    usual: Fraction | None
    unit: str
    condition: str = ""


@dataclass(frozen=True, slots=True)
class GlueWords:
    """What is said of a glue in words, such as its class in a standard."""

    row: str
    words: str
    condition: str = ""


@dataclass(frozen=True)
class Glue:
    """A kind of glue. Properties are those of the table: open-time, clamp-time, water-class..."""

    row: str
    key: str
    name: str
    kind: str
    figures: Mapping[str, tuple[GlueFigure, ...]] = field(default_factory=dict)
    words: Mapping[str, tuple[GlueWords, ...]] = field(default_factory=dict)

    def figure(self, of: str) -> GlueFigure | None:
        """The value that holds without a condition, else the first; None where none is known."""
        told = self.figures.get(of, ())
        return next((one for one in told if not one.condition), next(iter(told), None))

    def said(self, of: str) -> GlueWords | None:
        """What is said of a property, where one thing is said."""
        return next(iter(self.words.get(of, ())), None)


@dataclass(frozen=True, slots=True)
class GlueClass:
    """A class of glue in a standard, or a figure for clamping and spreading."""

    row: str
    key: str
    statement: str
    low: Fraction | None
    high: Fraction | None
    unit: str
