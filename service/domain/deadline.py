"""Time is out: how long one answer may be worked on, and who looks at the clock.

What computes goes through its parts, joints and rules with `kept_time`. There is one
deadline for a question, set by whoever asks it; without one nothing is ever out of time.
"""

from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from time import monotonic
from typing import TypeVar

from service.domain.errors import OutOfTime

T = TypeVar("T")

_END: ContextVar[float | None] = ContextVar("deadline", default=None)
_FOR_THE_REST = 0.8  # of what is left, for a search: its plan is still to be added up and shown


@contextmanager
def within(seconds: float) -> Iterator[None]:
    """Whatever is asked inside has so many seconds, or what is left of an earlier deadline."""
    own, outer = monotonic() + seconds, _END.get()
    before = _END.set(own if outer is None else min(own, outer))
    try:
        yield
    finally:
        _END.reset(before)


def begin(seconds: float) -> None:
    """From now on there are so many seconds, until `end`."""
    _END.set(monotonic() + seconds)


def end() -> None:
    """There is no deadline any more."""
    _END.set(None)


def last_moment() -> float | None:
    """When the deadline is, on the monotonic clock that all processes of a machine share."""
    return _END.get()


def keep_time() -> None:
    """Nothing, while there is time. Raises OutOfTime when there is none left."""
    last = _END.get()
    if last is not None and monotonic() >= last:
        raise OutOfTime


def kept_time(items: Iterable[T]) -> Iterator[T]:
    """The items one by one, while there is time. Raises OutOfTime."""
    for item in items:
        keep_time()
        yield item


def seconds_for_a_search(wanted: float) -> float:
    """The seconds wanted, or fewer, so that the answer can be made of what a search finds."""
    last = _END.get()
    return wanted if last is None else max(0.0, min(wanted, _FOR_THE_REST * (last - monotonic())))
