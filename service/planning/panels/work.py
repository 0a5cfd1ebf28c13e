"""Counted work of the search among sheets, with the wall clock as the last resort."""

from service.planning.effort import Clock


class Spent(Exception):
    """The work that was allowed is done, or the deadline is met."""


class Work:
    """Pairs of pieces weighed so far, and how many may be.

    The count is the same on every machine; the clock only rings when the machine is too slow.
    What a part of some work does counts for the whole, too.
    """

    def __init__(self, allowed: int, clock: Clock, whole: "Work | None" = None) -> None:
        self.allowed = allowed
        self.clock = clock
        self.done = 0
        self._whole = whole

    @property
    def left(self) -> int:
        """Pairs that may still be weighed."""
        return max(0, self.allowed - self.done)

    def spend(self, pairs: int) -> None:
        """Count pairs; refuse to go on when enough was done or the deadline is met."""
        self.done += pairs
        if self._whole is not None:
            self._whole.spend(pairs)
        if self.done > self.allowed or self.clock.out():
            raise Spent

    def can(self, pairs: int) -> bool:
        """Count pairs; False when enough was done or the deadline is met."""
        try:
            self.spend(pairs)
        except Spent:
            return False
        return True

    def part(self, most: int) -> "Work":
        """Some of what is left, at most."""
        return Work(min(most, self.left), self.clock, self)

    def share(self, share: float) -> "Work":
        """A share of what is left."""
        return self.part(int(self.left * share))
