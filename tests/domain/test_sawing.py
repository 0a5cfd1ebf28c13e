"""What stops a saw, with saws and tables made by hand and the reach figured by hand."""

from fractions import Fraction

import pytest

from service.domain.build import End, Saw
from service.domain.catalog import Catalog, SawLimit
from service.domain.sawing import Cut, stops

TEN = Fraction(10)


def limit(item: str, condition: str, high: str, slides: bool | None = None) -> SawLimit:
    size = Fraction(high)
    return SawLimit("t/r", "miter-saw", TEN, slides, item, condition, size, size)


TABLE = Catalog(
    "by hand",
    saws=(
        limit("crosscut-width", "square", "6", slides=False),
        limit("crosscut-width", "square", "12", slides=True),
        limit("crosscut-thickness", "square", "7/2"),
        limit("crosscut-thickness", "bevel-45", "2"),
    ),
    keys={"saw": frozenset({"miter-saw", "hand-saw"})},
)


def stopped(saw: Saw, width: str, thickness: str = "3/4", **end: float) -> list[str]:
    cut = Cut(End(**end), Fraction(width), Fraction(thickness))
    return [stop.limit for stop in stops([saw], cut, TABLE, "us")]


OWN = Saw("miter-saw", crosscut=Fraction(11, 2), crosscut_at_45=Fraction(7, 2))


@pytest.mark.parametrize(
    ("miter", "reaches", "beyond"),
    [
        (0, "5.5", "5.51"),
        (45, "3.5", "3.51"),
        # Half way the path on the table is (5.5 + 3.5 x 1.41421) / 2 = 5.22487, and the board
        # lies across it: 5.22487 x cos 22.5 = 4.82716.
        (22.5, "4.827", "4.828"),
        # Beyond 45 the path stays what it is there: 3.5 x 1.41421 x cos 50 = 3.18165.
        (50, "3.181", "3.182"),
    ],
)
def test_the_width_crossed_shrinks_with_the_turn(miter: float, reaches: str, beyond: str) -> None:
    assert stopped(OWN, reaches, miter=miter) == []
    assert stopped(OWN, beyond, miter=miter) == ["width"]


def test_without_a_width_at_45_the_path_stays_as_long() -> None:
    saw = Saw("miter-saw", crosscut=Fraction(10))
    assert stopped(saw, "7.071", miter=45) == []  # 10 x cos 45 = 7.07107
    assert stopped(saw, "7.072", miter=45) == ["width"]


@pytest.mark.parametrize(
    ("bevel", "reaches", "beyond"),
    [(0, "3.5", "3.51"), (45, "2", "2.01"), (22.5, "2.75", "2.76"), (50, "2", "2.01")],
)
def test_the_thickness_cut_shrinks_with_the_tilt(bevel: float, reaches: str, beyond: str) -> None:
    saw = Saw("miter-saw", blade=TEN)
    assert stopped(saw, "3", reaches, bevel=bevel) == []
    assert stopped(saw, "3", beyond, bevel=bevel) == ["thickness"]


def test_a_depth_of_its_own_shrinks_with_the_cosine() -> None:
    saw = Saw("circular-saw", depth=Fraction(2))
    assert stopped(saw, "3", "1.73", bevel=30) == []  # 2 x cos 30 = 1.73205
    assert stopped(saw, "3", "1.74", bevel=30) == ["thickness"]


def test_a_saw_that_may_slide_is_taken_to_reach_as_far_as_those_that_do() -> None:
    assert stopped(Saw("miter-saw", blade=TEN), "12") == []
    assert stopped(Saw("miter-saw", blade=TEN, slides=False), "6.01") == ["width"]


def test_nothing_stops_a_saw_that_the_tables_say_nothing_of() -> None:
    assert stopped(Saw("hand-saw"), "24", "6", miter=50, bevel=30) == []


def test_one_saw_that_can_is_enough() -> None:
    cut = Cut(End(), TEN, Fraction(3, 4))
    short, long = Saw("miter-saw", crosscut=Fraction(6)), Saw("miter-saw", crosscut=Fraction(12))
    assert stops([short, long], cut, TABLE, "us") == []
    assert len(stops([short, short], cut, TABLE, "us")) == 2
