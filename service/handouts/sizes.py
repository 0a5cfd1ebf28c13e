"""Sizes on the page: inches or millimeters, or both, as a tape is read."""

from dataclasses import dataclass
from fractions import Fraction

from service.domain.tape import MM, is_binary, nearest, plain, rounded, tape, tape_step
from service.domain.weight import said

FINEST = 32  # halves of a sixteenth can still be split by eye


@dataclass(frozen=True, slots=True)
class Sizes:
    """How the page writes a size. `metric` is what the build is in; `both` adds the other unit."""

    metric: bool = False
    both: bool = False

    def one(self, size: Fraction) -> str:
        """A size: `24 1/2"`; with both, `24 1/2" (622.3 mm)`.

        What no tape shows is given as the nearest mark and then in decimals: `16 11/16" (16.676")`.
        """
        words, exact = read(size, self.metric)
        others = [exact, _other(size, self.metric) if self.both else ""]
        more = ", ".join(other for other in others if other)
        return f"{words} ({more})" if more else words

    def at_least(self, size: Fraction) -> str:
        """A distance to keep, on the next mark of a tape above it."""
        return self.one(nearest(size, tape_step(self.metric), "up"))

    def by(self, *sizes: Fraction | None) -> str:
        """Sizes with an x between them; the other unit once, at the end."""
        known = [size for size in sizes if size is not None]
        words = " x ".join(plain(size, self.metric) for size in known)
        if not self.both:
            return words
        return f"{words} ({' x '.join(_other(size, self.metric) for size in known)})"


def read(size: Fraction, metric: bool) -> tuple[str, str]:
    """What a tape shows, and the size in decimals where that is something else."""
    if metric or (is_binary(size) and size.denominator <= FINEST):
        return plain(size, metric), ""
    return tape(size), f'{rounded(size, 3)}"'


def _other(size: Fraction, metric: bool) -> str:
    return tape(size, to=Fraction(1, FINEST)) if metric else f"{rounded(size / MM, 1)} mm"


def weight(pounds: float, sizes: Sizes) -> str:
    """Pounds or kilograms, or both, with no more digits than they are worth."""
    words = said(pounds, sizes.metric)
    return f"{words} ({said(pounds, not sizes.metric)})" if sizes.both else words


def listed(words: list[str], most: int = 6) -> str:
    """`a, b and c`; what is over `most` is counted: `a, b and 7 more`."""
    if len(words) > most:
        words = [*words[: most - 1], f"{len(words) - most + 1} more"]
    if len(words) < 2:
        return "".join(words)
    return f"{', '.join(words[:-1])} and {words[-1]}"


def counted(number: int, one: str) -> str:
    """`1 board`, `3 boards`."""
    return f"{number} {one if number == 1 else many(one)}"


def many(one: str) -> str:
    """The plural of a word of the shop: `holes`, `notches`."""
    return f"{one}es" if one.endswith(("ch", "sh", "s", "x")) else f"{one}s"
