"""The lengths that a joint may take, from the likeliest on: few are judged before one is right.

What is made is put in order once for the tables; a joint then looks for its lengths by halving.
"""

from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import groupby

from service.domain.fastening.candidates import Made
from service.domain.values import dataclass

SIZE_COUNTS = frozenset({"screw", "dowel"})  # the usual diameter goes before the likeliest length


@dataclass(frozen=True, slots=True)
class Ladder:
    """Lengths, shortest first, each with the sizes made in it, the usual one first.

    `rough` are the lengths as floats: they settle it many times faster, and only where two are
    equal the exact lengths are asked.
    """

    lengths: tuple[Fraction, ...]
    rough: tuple[float, ...]
    made: tuple[tuple[Made, ...], ...]

    def between(
        self, low: Fraction, likely: Fraction, high: Fraction
    ) -> Iterator[tuple[Fraction, Made]]:
        """From `low` to `high`, both included: downward from the likely one, then upward."""
        least, most = float(low), float(high)
        start, end = bisect_left(self.rough, least), bisect_right(self.rough, most)
        if start < end and self.rough[start] == least and self.lengths[start] < low:
            start += 1
        if start < end and self.rough[end - 1] == most and self.lengths[end - 1] > high:
            end -= 1
        if start >= end:
            return
        middle = bisect_right(self.rough, float(likely), start, end)
        for place in (*range(middle - 1, start - 1, -1), *range(middle, end)):
            for made in self.made[place]:
                yield self.lengths[place], made


def ladders(method: str, tried: Sequence[Made]) -> tuple[Ladder, ...]:
    """The lengths of what is made, as one ladder, or where the size counts as one a diameter."""
    if method not in SIZE_COUNTS:
        return (ladder(tried),) if tried else ()
    return tuple(ladder(tuple(same)) for _, same in groupby(tried, lambda made: made.diameter))


def ladder(tried: Sequence[Made]) -> Ladder:
    """The lengths of some sizes as one ladder."""
    found: dict[Fraction, list[Made]] = {}
    for made in tried:
        for length in made.lengths:
            found.setdefault(length, []).append(made)
    lengths = tuple(sorted(found))
    return Ladder(
        lengths, tuple(map(float, lengths)), tuple(tuple(found[length]) for length in lengths)
    )
