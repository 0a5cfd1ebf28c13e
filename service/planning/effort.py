"""How much work a plan may take: counted work first, a wall clock as the last resort."""

from collections.abc import Callable
from dataclasses import dataclass
from time import monotonic


@dataclass(frozen=True, slots=True)
class Effort:
    """Limits of counted work: the same plan in every process and thread, however busy.

    `nodes`: splits by numbers of boards. `patience`: boards that a dive may put back, `turns`:
    dives at most to fill one purchase.
    `leaf_steps`: steps of the search among given boards.
    `leaf_nodes`: nodes of a whole program over the patterns at hand, then over all near-best ones.
    `listed`: near-best patterns at most; `listing_steps`: steps to find them.
    `flow_nodes`: nodes of the last resort, a whole program over cutting marks.
    """

    nodes: int = 1500
    patience: int = 30
    turns: int = 16
    leaf_steps: int = 1500
    leaf_nodes: tuple[int, int] = (200, 20_000)
    listed: int = 60_000
    listing_steps: int = 8_000_000
    flow_nodes: int = 3000


class Clock:
    """Seconds until the deadline; remembers whether it was met."""

    def __init__(self, seconds: float | None, now: Callable[[], float] = monotonic) -> None:
        self._now = now
        self._end = None if seconds is None else now() + seconds
        self.rang = False

    def left(self) -> float | None:
        """Seconds left, None without a deadline; never below zero."""
        if self._end is None:
            return None
        return max(0.0, self._end - self._now())

    def out(self) -> bool:
        """Whether the deadline is met; from then on it is known to have been."""
        if self._end is not None and self._now() >= self._end:
            self.rang = True
        return self.rang
