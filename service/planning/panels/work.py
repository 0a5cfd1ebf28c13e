"""Counted work of the search among sheets, with the wall clock as the last resort."""

from service.planning.effort import Clock


class Spent(Exception):
    """The work that was allowed is done, or the deadline is met."""


class Work:
    """Pairs of pieces weighed so far, and how many may be.

    The count is the same on every machine; the clock only rings when the machine is too slow.
    """

    def __init__(self, allowed: int, clock: Clock) -> None:
        self.allowed = allowed
        self.clock = clock
        self.done = 0

    def spend(self, pairs: int) -> None:
        """Count pairs; refuse to go on when enough was done or the deadline is met."""
        self.done += pairs
        if self.done > self.allowed or self.clock.out():
            raise Spent

    def can(self, pairs: int) -> bool:
        """Count pairs; False when enough was done or the deadline is met."""
        try:
            self.spend(pairs)
        except Spent:
            return False
        return True

    def part(self, share: float) -> "Work":
        """A share of what is left, to be spent and then booked with `book`."""
        return Work(int(max(0, self.allowed - self.done) * share), self.clock)

    def book(self, part: "Work") -> None:
        """Count what a part has done."""
        self.done += part.done
