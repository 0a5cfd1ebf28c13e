"""Text that people write, to exact numbers and back.

Lengths are `Fraction` inches, money is `Decimal`, angles are float degrees. Every reader raises
`QuantityError` with one plain sentence. pint is imported by `units.py` alone, only when a test
or a build of tables asks it to confirm a factor: it never sees a caller's text.
"""

from service.domain.tape import exact as written
from service.domain.tape import nearest, tape
from service.quantities.lengths import length, size_pair
from service.quantities.measures import (
    Load,
    amount_in,
    angle,
    coverage,
    density,
    duration,
    load,
    mass,
    number,
    pressure,
    temperature,
    volume,
)
from service.quantities.money import money
from service.quantities.names import spelling
from service.quantities.refusals import QuantityError
from service.quantities.tapes import Measured, measured

__all__ = [
    "Load",
    "Measured",
    "QuantityError",
    "amount_in",
    "angle",
    "coverage",
    "density",
    "duration",
    "length",
    "load",
    "mass",
    "measured",
    "money",
    "nearest",
    "number",
    "pressure",
    "size_pair",
    "spelling",
    "tape",
    "temperature",
    "volume",
    "written",
]
