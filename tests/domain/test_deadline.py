"""Time is out: looked at often enough, told where it counts, and never longer than outside."""

from collections.abc import Iterator

import pytest

from service.domain import deadline
from service.domain.deadline import keep_time, kept_time, seconds_for_a_search, within
from service.domain.errors import OutOfTime


class Hands:
    """A clock that stands still until somebody turns its hands."""

    def __init__(self) -> None:
        self.now = 100.0

    def __call__(self) -> float:
        return self.now


@pytest.fixture
def clock(monkeypatch: pytest.MonkeyPatch) -> Iterator[Hands]:
    hands = Hands()
    monkeypatch.setattr(deadline, "monotonic", hands)
    yield hands
    deadline.end()


def test_without_a_deadline_nothing_is_ever_out_of_time(clock: Hands) -> None:
    clock.now = 1e9
    keep_time()
    assert seconds_for_a_search(7.0) == 7.0


def test_time_is_out_at_the_deadline_and_not_before(clock: Hands) -> None:
    with within(5):
        clock.now = 104.9
        keep_time()
        clock.now = 105
        with pytest.raises(OutOfTime):
            keep_time()
    keep_time()


def test_an_inner_deadline_is_never_later_than_the_outer_one(clock: Hands) -> None:
    with within(5):
        with within(60):
            clock.now = 106
            with pytest.raises(OutOfTime):
                keep_time()
        with within(1), pytest.raises(OutOfTime):
            keep_time()


def test_an_inner_deadline_ends_with_what_it_is_for(clock: Hands) -> None:
    with within(5):
        with within(1):
            clock.now = 102
            with pytest.raises(OutOfTime):
                keep_time()
        keep_time()


def test_items_are_handed_out_while_there_is_time(clock: Hands) -> None:
    taken = []
    with within(3), pytest.raises(OutOfTime):
        for item in kept_time(range(10)):
            taken.append(item)
            clock.now += 1
    assert taken == [0, 1, 2]


def test_a_search_leaves_time_to_show_what_it_found(clock: Hands) -> None:
    with within(10):
        assert seconds_for_a_search(2) == 2
        assert 5 < seconds_for_a_search(60) < 10
        clock.now = 111
        assert seconds_for_a_search(60) == 0
