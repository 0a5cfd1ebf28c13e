"""A flaw of a fastening, and what decides besides the joint: the tables, the place, the units."""

from collections.abc import Mapping
from fractions import Fraction

from service.domain.catalog import Catalog
from service.domain.findings import Basis, Number, Severity
from service.domain.gluing import Where
from service.domain.tape import plain
from service.domain.values import dataclass

MARGIN = Fraction(1, 8)  # in; wood to leave past a point; practice, row tip-clearance.any
PLACES = {"damp": "in a damp place", "covered": "outdoors under cover", "outdoors": "outdoors"}
WET = frozenset({"outdoors", "covered", "damp"})


@dataclass(frozen=True, slots=True)
class Flaw:
    """One thing wrong: its code and severity, the field of the joint it stands in, why."""

    code: str
    severity: Severity
    field: str
    detail: str
    numbers: Mapping[str, Number]
    basis: Basis = "geometry"
    rests_on: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Surroundings:
    """What else decides: the tables, where the piece will be, how sizes are said.

    `keep` is the wood that must be left past a point, inches. `humidity` (percent) and `warmth`
    (degrees Fahrenheit) are those of the place, where it states them.
    """

    catalog: Catalog
    where: Where | None = None
    metric: bool = False
    keep: Fraction = MARGIN
    humidity: float | None = None
    warmth: float | None = None

    def say(self, size: Fraction) -> str:
        """A size in a sentence."""
        return plain(size, self.metric)

    def rows(self, *keys: str) -> tuple[str, ...]:
        """Those rules of thumb that the tables hold, as rows."""
        told = self.catalog.practice
        return tuple(told[key].row for key in keys if key in told)


def said(method: str) -> str:
    """A method as a thing: pocket screw, finish nail."""
    return method.replace("-", " ")
