"""What the planner found out about the boards and sheets that a plan says to buy.

The domain imports no planner; it is handed these.
"""

from decimal import Decimal
from typing import Literal

from service.domain.values import dataclass


@dataclass(frozen=True, slots=True)
class StockYield:
    """Whether what is planned and on hand of a stock yields its parts, kerf counted.

    `planned` is the first entry of the shopping list that it speaks of. `wanted` and `short` pair
    part ids with pieces; `kerf_alone`: without the kerf it would do.
    """

    stock: str
    planned: int
    enough: Literal["yes", "no", "unknown"]
    wanted: tuple[tuple[str, int], ...]
    short: tuple[tuple[str, int], ...]
    kerf_alone: bool


@dataclass(frozen=True, slots=True)
class Outlay:
    """The least that the wood can cost, proved or at least bounded, and the budget for it."""

    least: Decimal
    budget: Decimal
    currency: str | None
    proved: bool


@dataclass(frozen=True, slots=True)
class Purchasing:
    """Everything that the rules about buying rest on."""

    yields: tuple[StockYield, ...] = ()
    outlay: Outlay | None = None


NOTHING_KNOWN = Purchasing()
