"""Values on their way to another process and back: pickled, fractions and frozen values quickly.

The standard library writes a fraction as text and reads it back with a grammar, and asks a frozen
value for its fields one by one; a plan is hundreds of both.
"""

import pickle
from collections.abc import Callable
from dataclasses import fields, is_dataclass
from fractions import Fraction
from io import BufferedIOBase, BytesIO
from typing import Any

from service.domain.ratio import Ratio

Reduced = tuple[Callable[..., Any], tuple[Any, ...]]


def put(stream: BufferedIOBase, value: Any) -> None:
    """Write a value and send it off."""
    parcel = BytesIO()
    _Packer(parcel, pickle.HIGHEST_PROTOCOL).dump(value)
    stream.write(parcel.getbuffer())
    stream.flush()


def take(stream: BufferedIOBase) -> Any:
    """The next value. Raises EOFError when none comes any more."""
    return pickle.load(stream)  # both ends are processes of one service


def _packed(number: Fraction) -> Reduced:
    return _unpacked, (type(number), number.numerator, number.denominator)


def _unpacked(kind: type[Fraction], over: int, under: int) -> Fraction:
    """Without looking for a common factor, for it has none."""
    number: Any = object.__new__(kind)
    number._numerator, number._denominator = over, under  # as `domain/ratio.py`
    found: Fraction = number
    return found


class _Ways(dict[type, Callable[[Any], Reduced]]):
    """How values of a type are packed; types that it does not know are left to pickle."""

    def __missing__(self, kind: type) -> Callable[[Any], Reduced]:
        if not is_dataclass(kind) or not all(field.init for field in fields(kind)):
            raise KeyError(kind)
        names = [field.name for field in fields(kind)]

        def way(value: Any) -> Reduced:
            return kind, tuple([getattr(value, name) for name in names])

        self[kind] = way
        return way


class _Packer(pickle.Pickler):
    dispatch_table = _Ways({Fraction: _packed, Ratio: _packed})
