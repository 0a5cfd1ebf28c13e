"""What a cell of a reference table may hold: one kind a column, used for every purpose.

The loader reads a printed cell with its kind, the database keeps the printed text, the catalog
gets the exact value, and the browser shows, sorts and finds by it.
"""

import re
from collections.abc import Callable
from fractions import Fraction
from typing import Any, ClassVar, TypeVar

from sqlalchemy import Dialect, Integer, Text
from sqlalchemy.types import TypeDecorator

from service.domain.spelling import spelled
from service.reference.printed import (
    Printed,
    Unreadable,
    read_length,
    read_number,
    read_sheet,
    read_temperature,
    shown_length,
    shown_number,
    with_inches,
)

T = TypeVar("T")
Sought = Callable[[Any], bool]

KEY_LETTERS = "abcdefghijklmnopqrstuvwxyz0123456789.-"


class Kind(TypeDecorator[T]):
    """A kind of cell. `word` names it and `holds` explains it where the tables are described."""

    impl: Any = Text
    word: ClassVar[str]
    holds: ClassVar[str]
    nothing: ClassVar[Any] = None  # what JSON shows for an empty cell

    def __init_subclass__(cls, **options: Any) -> None:
        super().__init_subclass__(**options)
        cls.cache_ok = True  # SQLAlchemy asks each class for its own word that it never changes

    def read(self, text: str) -> T:
        """The value of a printed cell; raises `Unreadable`."""
        raise NotImplementedError

    def printed(self, value: T) -> Any:
        """What the database keeps."""
        return value.text if isinstance(value, Printed) else value

    def shown(self, value: T) -> Any:
        """The value as JSON shows it."""
        return value

    def rank(self, value: T) -> Any:
        """What cells of this kind are sorted by."""
        return value.value if isinstance(value, Printed) else value

    def sought(self, asked: str) -> Sought:
        """A test for cells that are what a caller asked for: the same text, or the same value."""
        try:
            wanted = self.rank(self.read(asked))
        except Unreadable:
            return lambda cell: cell is not None and str(self.printed(cell)) == asked
        return lambda cell: cell is not None and self.rank(cell) == wanted

    def process_bind_param(self, value: T | None, dialect: Dialect) -> Any:
        return None if value is None else self.printed(value)

    def result_processor(self, dialect: Dialect, coltype: object) -> Callable[[Any], T | None]:
        """Every text of a column is read once, and alike cells are one value in memory."""
        return _Known(self.read).__getitem__


class _Known(dict[Any, Any]):
    """The values of the texts that a column was found to hold."""

    def __init__(self, read: Callable[[Any], Any]) -> None:
        super().__init__({None: None})
        self._read = read

    def __missing__(self, text: Any) -> Any:
        self[text] = value = self._read(text)
        return value


class Words(Kind[str]):
    """Words, as they are."""

    word, holds = "text", "words"

    def read(self, text: str) -> str:
        return text


class Key(Kind[str]):
    """A name made of a-z, 0-9, point and hyphen."""

    word, holds = "key", "a key: a-z, 0-9, point and hyphen"

    def read(self, text: str) -> str:
        if not text or text.strip(KEY_LETTERS):
            raise Unreadable(f"{text!r} is not a key: only a-z, 0-9, point and hyphen")
        return text


class Spelling(Kind[str]):
    """A name as `spelled` writes it, so that whatever a caller writes can be looked up."""

    word, holds = "spelling", "a name in lower case, with plain fractions and no quote marks"

    def read(self, text: str) -> str:
        if spelled(text) != text:
            raise Unreadable(f"{text!r} must be written {spelled(text)!r}")
        return text

    def sought(self, asked: str) -> Sought:
        return super().sought(spelled(asked))


class Choice(Kind[str]):
    """One of a few known words."""

    word, holds = "choice", "one of a few known words"

    def __init__(self, *known: str) -> None:
        super().__init__()
        self.known = known

    def read(self, text: str) -> str:
        if text not in self.known:
            raise Unreadable(f"{text!r} is none of {', '.join(self.known)}")
        return text


class Whole(Kind[int]):
    """A whole number of at most nine digits."""

    impl = Integer
    word, holds = "whole number", "a whole number"

    def read(self, text: str) -> int:
        if not re.fullmatch(r"-?\d{1,9}", str(text), re.ASCII):
            raise Unreadable(f"{text!r} is not a whole number")
        return int(text)


class Number(Kind[Printed[Fraction]]):
    """A number with the digits of the print: `0.40`, `3/32`, `1 1/4`."""

    word, holds = "number", "a number; CSV keeps the digits as printed"

    def read(self, text: str) -> Printed[Fraction]:
        return read_number(text)

    def shown(self, value: Printed[Fraction]) -> Any:
        return shown_number(value.value)


class Length(Kind[Printed[Fraction]]):
    """A length with its unit: `3/4 in`, `19 mm`. The value is in inches."""

    word, holds = "length", "a length as printed, with its inches and millimeters"

    def __init__(self, zero: bool = False) -> None:
        super().__init__()
        self.zero = zero

    def read(self, text: str) -> Printed[Fraction]:
        return read_length(text, self.zero)

    def shown(self, value: Printed[Fraction]) -> Any:
        return shown_length(value.text, value.value)

    def sought(self, asked: str) -> Sought:
        return super().sought(with_inches(asked))


class Amount(Kind[Printed[Fraction]]):
    """A plain number, or a length or a temperature with its unit: `0.5`, `1/4 in`, `100 F`.

    The value of a length is in inches, of a temperature in degrees Fahrenheit.
    """

    word, holds = "amount", "a number, or a length or a temperature with its unit"

    def read(self, text: str) -> Printed[Fraction]:
        if text[-1:].isdigit():
            return read_number(text)
        if text[-1:] in ("F", "C"):
            return read_temperature(text)
        return read_length(text, zero=True)

    def shown(self, value: Printed[Fraction]) -> Any:
        if value.text[-1:].isdigit():
            return shown_number(value.value)
        if value.text[-1:] in ("F", "C"):
            return {"printed": value.text, "f": float(value.value)}
        return shown_length(value.text, value.value)


class _Listed(Kind[Printed[tuple[Any, ...]]]):
    """Several things of one kind in a cell, with a semicolon between them."""

    nothing = ()

    def one(self, text: str) -> Any:
        """The value of one of them."""
        raise NotImplementedError

    def one_shown(self, text: str, value: Any) -> Any:
        return text

    def read(self, text: str) -> Printed[tuple[Any, ...]]:
        return Printed(text, tuple(self.one(part) for part in text.split(";")))

    def shown(self, value: Printed[tuple[Any, ...]]) -> Any:
        texts = (part.strip() for part in value.text.split(";"))
        return [self.one_shown(*pair) for pair in zip(texts, value.value, strict=True)]

    def sought(self, asked: str) -> Sought:
        try:
            wanted = self.one(asked)
        except Unreadable:
            return lambda cell: cell is not None and cell.text == asked
        return lambda cell: cell is not None and (wanted in cell.value or cell.text == asked)


class Lengths(_Listed):
    """Lengths with their units: `8 ft; 10 ft`. The values are in inches."""

    word, holds = "lengths", "lengths as printed, each with its inches and millimeters"

    def one(self, text: str) -> Fraction:
        return read_length(text.strip()).value

    def one_shown(self, text: str, value: Fraction) -> Any:
        return shown_length(text, value)

    def sought(self, asked: str) -> Sought:
        return super().sought(with_inches(asked))


class SheetSizes(_Listed):
    """Sheets, width by length: `4 x 8 ft; 1220 x 2440 mm`. The values are in inches."""

    word, holds = "sheet sizes", "width and length of sheets as printed, in inches besides"

    def one(self, text: str) -> tuple[Fraction, Fraction]:
        return read_sheet(text.strip())

    def one_shown(self, text: str, value: tuple[Fraction, Fraction]) -> Any:
        width, length = value
        return {"printed": text, "width_in": float(width), "length_in": float(length)}


class Keys(_Listed):
    """Keys, such as `spruce-white;spruce-black`; of rows of the table `of`, where it is named."""

    word, holds = "keys", "several keys"

    def __init__(self, of: str | None = None) -> None:
        super().__init__()
        self.of = of

    def one(self, text: str) -> str:
        return Key().read(text.strip())


class WholeNumbers(_Listed):
    """Whole numbers in order: `120;150;180`."""

    word, holds = "whole numbers", "several whole numbers"

    def one(self, text: str) -> int:
        return Whole().read(text.strip())

    def one_shown(self, text: str, value: int) -> Any:
        return value


def yes_or_no() -> Choice:
    """A cell that says yes or no."""
    return Choice("yes", "no")
