"""Requests counted in this process: bounded, and cheap whoever comes.

It counts as a storage of the limits library does, which counts in Redis too. That library's own one
in memory walks through every key it holds a hundred times a second, which is dear once many
addresses have come.
"""

from threading import Lock
from time import time

MOST_KEYS = 50_000  # some 10 MB


class Tally:
    """Counts by key, each forgotten after its time. What is over `most` forgets the oldest."""

    def __init__(self, most: int = MOST_KEYS) -> None:
        self._counts: dict[str, tuple[int, float]] = {}
        self._lock, self._most = Lock(), most

    def incr(self, key: str, expiry: int) -> int:
        """The count of a key, with this one; a new one lasts `expiry` seconds."""
        now = time()
        with self._lock:
            count, until = self._counts.get(key, (0, 0.0))
            if until <= now:
                self._counts.pop(key, None)
                count, until = 0, now + expiry
                if len(self._counts) >= self._most:
                    self._make_room(now)
            self._counts[key] = count + 1, until
            return count + 1

    def _make_room(self, now: float) -> None:
        """Forget what has run out, and at least a tenth: then it is seldom called."""
        self._counts = {key: kept for key, kept in self._counts.items() if kept[1] > now}
        over = len(self._counts) - self._most * 9 // 10
        for key in list(self._counts)[: max(0, over)]:
            del self._counts[key]
