"""Fractions that add and compare quickly.

Every size is an exact fraction, and a check is largely sums and comparisons of them. The standard
library's `Fraction` is right but slow in them: it asks abstract classes what the other number is.
A `Ratio` is such a fraction, knows the two kinds that it meets (fractions and whole numbers), and
leaves every other operation to `Fraction`. What is figured with a `Ratio` is one again, so it is
enough that sizes begin as such: in `quantities` and in the tables. Everything else says `Fraction`.
"""

from fractions import Fraction
from math import gcd
from typing import Any

_new = object.__new__


class Ratio(Fraction):
    """A `Fraction` that is quick with other fractions and with whole numbers."""

    __slots__ = ()
    _numerator: int
    _denominator: int

    def __add__(self, other: Any) -> Any:
        kind = type(other)
        if kind is Ratio or kind is Fraction:
            return _sum(self._numerator, self._denominator, other._numerator, other._denominator)
        if kind is int:
            return _lowest(self._numerator + other * self._denominator, self._denominator)
        return Fraction.__add__(self, other)

    def __radd__(self, other: Any) -> Any:
        kind = type(other)
        if kind is Fraction or kind is int:
            return self.__add__(other)
        return Fraction.__radd__(self, other)

    def __sub__(self, other: Any) -> Any:
        kind = type(other)
        if kind is Ratio or kind is Fraction:
            return _sum(self._numerator, self._denominator, -other._numerator, other._denominator)
        if kind is int:
            return _lowest(self._numerator - other * self._denominator, self._denominator)
        return Fraction.__sub__(self, other)

    def __rsub__(self, other: Any) -> Any:
        kind = type(other)
        if kind is Fraction or kind is int:
            return _lowest(-self._numerator, self._denominator).__add__(other)
        return Fraction.__rsub__(self, other)

    def __mul__(self, other: Any) -> Any:
        kind = type(other)
        if kind is Ratio or kind is Fraction:
            return _product(
                self._numerator, self._denominator, other._numerator, other._denominator
            )
        if kind is int:
            return _product(self._numerator, self._denominator, other, 1)
        return Fraction.__mul__(self, other)

    def __rmul__(self, other: Any) -> Any:
        kind = type(other)
        if kind is Fraction or kind is int:
            return self.__mul__(other)
        return Fraction.__rmul__(self, other)

    def __truediv__(self, other: Any) -> Any:
        kind = type(other)
        if (kind is Ratio or kind is Fraction) and other._numerator > 0:
            return _product(
                self._numerator, self._denominator, other._denominator, other._numerator
            )
        if kind is int and other > 0:
            return _product(self._numerator, self._denominator, 1, other)
        return _as_ratio(Fraction.__truediv__(self, other))

    def __rtruediv__(self, other: Any) -> Any:
        return _as_ratio(Fraction.__rtruediv__(self, other))

    def __neg__(self) -> Any:
        return _lowest(-self._numerator, self._denominator)

    def __abs__(self) -> Any:
        return self if self._numerator >= 0 else _lowest(-self._numerator, self._denominator)

    def __eq__(self, other: Any) -> bool:
        kind = type(other)
        if kind is Ratio or kind is Fraction:
            over, under = self._numerator, self._denominator
            same: bool = over == other._numerator and under == other._denominator
            return same
        return Fraction.__eq__(self, other)

    def __lt__(self, other: Any) -> Any:
        kind = type(other)
        if kind is Ratio or kind is Fraction:
            return self._numerator * other._denominator < other._numerator * self._denominator
        if kind is int:
            return self._numerator < other * self._denominator
        return Fraction.__lt__(self, other)

    def __le__(self, other: Any) -> Any:
        kind = type(other)
        if kind is Ratio or kind is Fraction:
            return self._numerator * other._denominator <= other._numerator * self._denominator
        if kind is int:
            return self._numerator <= other * self._denominator
        return Fraction.__le__(self, other)

    def __gt__(self, other: Any) -> Any:
        kind = type(other)
        if kind is Ratio or kind is Fraction:
            return self._numerator * other._denominator > other._numerator * self._denominator
        if kind is int:
            return self._numerator > other * self._denominator
        return Fraction.__gt__(self, other)

    def __ge__(self, other: Any) -> Any:
        kind = type(other)
        if kind is Ratio or kind is Fraction:
            return self._numerator * other._denominator >= other._numerator * self._denominator
        if kind is int:
            return self._numerator >= other * self._denominator
        return Fraction.__ge__(self, other)

    __hash__ = Fraction.__hash__

    def __bool__(self) -> bool:
        return self._numerator != 0

    def __float__(self) -> float:
        return self._numerator / self._denominator


def ratio(over: int, under: int) -> Ratio:
    """The ratio of two whole numbers, the lower one above zero."""
    shared = gcd(over, under)
    return _lowest(over // shared, under // shared)


def _lowest(over: int, under: int) -> Ratio:
    """A ratio of two numbers that have no factor in common, the lower one above zero."""
    made = _new(Ratio)
    made._numerator = over
    made._denominator = under
    return made


def _sum(over: int, under: int, more: int, below: int) -> Ratio:
    """Two fractions in lowest terms together, in lowest terms.

    Only factors that the lower numbers share can be left in both. Source: Knuth, The Art of
    Computer Programming, volume 2, section 4.5.1.
    """
    shared = gcd(under, below)
    if shared == 1:
        return _lowest(over * below + more * under, under * below)
    part = under // shared
    total = over * (below // shared) + more * part
    left = gcd(total, shared)
    if left == 1:
        return _lowest(total, part * below)
    return _lowest(total // left, part * (below // left))


def _product(over: int, under: int, times: int, below: int) -> Ratio:
    """The product of two fractions in lowest terms, in lowest terms."""
    shared = gcd(over, below)
    if shared > 1:
        over, below = over // shared, below // shared
    shared = gcd(times, under)
    if shared > 1:
        times, under = times // shared, under // shared
    return _lowest(over * times, under * below)


def _as_ratio(found: Any) -> Any:
    return Ratio(found) if type(found) is Fraction else found
