"""The grammar of a written number, and numbers that come as numbers.

    number   = whole sep fraction | fraction | decimal
    fraction = digits "/" digits            ¾ is the same as 3/4
    sep      = spaces | "-" [space]         20 3/4 and 20-3/4
    decimal  = digits ["." digits] | digits "," digits | "." digits

ASCII digits only. The expression below never gives a digit back once taken (possessive
repeats), so its time grows in line with the text, and the text has 64 characters at most.
"""

import re
from decimal import Decimal
from fractions import Fraction

from service.domain.ratio import Ratio
from service.domain.spelling import DOUBLE_MARKS, FRACTION_SLASH, MINUS, SINGLE_MARKS, VULGAR
from service.domain.tape import FINEST_UNDER
from service.quantities.refusals import refusal, shown
from service.quantities.units import Kind

LONGEST_TEXT = 64
TOO_LARGE = 10**10  # the first number with an exponent over 9
_MOST_DECIMALS = 40

# Phones and word processors write these for what was typed. The spaces around a vulgar fraction
# keep 20¾ from becoming 203/4 and ¾5 from becoming 3/45.
_TYPED = str.maketrans(
    {sign: f" {digits} " for sign, digits in VULGAR.items()}
    | dict.fromkeys(DOUBLE_MARKS, '"')
    | dict.fromkeys(SINGLE_MARKS, "'")
    | dict.fromkeys("\u2010\u2011\u2013", "-")  # hyphens and the en dash
    | dict.fromkeys("\u00a0\u2009\u202f", " ")  # no-break and thin spaces
    | {FRACTION_SLASH: "/"}
)

_NUMBER = re.compile(
    r" *+(?:"
    r"(?:([0-9]++)(?: ++|- ?))?([0-9]++)/([0-9]++)"
    r"|([0-9]++)(?:([.,])([0-9]++))?"
    r"|\.([0-9]++)"
    r") *+"
)
_EXPONENT = re.compile(r"[eE][-+]?[0-9]")


def typed(value: object, kind: Kind) -> str:
    """The text with typeset marks turned into those of a keyboard."""
    if not isinstance(value, str):
        raise refusal(value, kind.name, "it is not text", kind.example)
    if len(value) > LONGEST_TEXT:
        why = f"it has more than {LONGEST_TEXT} characters"
        raise refusal(value, kind.name, why, kind.example)
    return value if value.isascii() else value.translate(_TYPED)


def leading_number(text: str, kind: Kind, start: int = 0) -> tuple[int, int, str]:
    """Numerator and denominator of the number at `start`, and what follows it."""
    match = _NUMBER.match(text, start)
    if match is None:
        raise refusal(text, kind.name, _why_no_number(text[start:]), kind.example)
    whole, over, under, digits, mark, decimals, point = match.groups()
    rest = text[match.end() :]
    if under is not None:
        return *_fraction(whole, over, under, text, kind), rest
    if digits is None:
        return int(point), 10 ** len(point), rest
    if decimals is None:
        return int(digits), 1, rest
    if mark == "," and len(decimals) == 3:
        why = "a comma before three digits could mean thousands or a decimal"
        raise refusal(text, kind.name, why, "a decimal point, or no mark for thousands")
    return int(digits + decimals), 10 ** len(decimals), rest


def _fraction(whole: str | None, over: str, under: str, text: str, kind: Kind) -> tuple[int, int]:
    numerator, denominator = int(over), int(under)
    if not 0 < denominator <= FINEST_UNDER:  # finer are slips, and slow down exact sums
        why = f"the lower number of a fraction goes from 1 to {FINEST_UNDER:,}"
        raise refusal(text, kind.name, why, kind.example)
    if whole is None:
        return numerator, denominator
    if numerator >= denominator:
        why = "a fraction after a whole number must be under one"
        raise refusal(text, kind.name, why, kind.example)
    return int(whole) * denominator + numerator, denominator


def _why_no_number(text: str) -> str:
    start = text.strip(" ")
    if not start:
        return "nothing is written"
    if start[0] in ("-", MINUS):
        return "it can't be negative"
    return "it doesn't start with a number in the digits 0 to 9"


def why_no_unit(rest: str, kind: Kind) -> str:
    """What is wrong with `rest`, found where a unit should stand."""
    if not rest:
        return "the unit is missing"
    if rest[0] == "/":
        return "the fraction is not finished"
    if _EXPONENT.match(rest):
        return "exponents are not read in text"
    if rest[0] in "0123456789-.,_":
        return "it holds more than one number"
    keys = ", ".join(unit.key for unit in kind.units)
    return f"“{shown(rest)}” is not one of its units ({keys})"


def exact(value: object, kind: Kind) -> Fraction:
    """A number that came as a number. Floats are read as they are written: 0.1 is 1/10."""
    if isinstance(value, int) and not isinstance(value, bool):
        return Ratio(value) if abs(value) < TOO_LARGE else _too_large(value, kind)
    if isinstance(value, float):
        value = Decimal(repr(value))
    if not isinstance(value, Decimal):
        raise refusal(value, kind.name, "it is neither a number nor text", kind.example)
    if not value.is_finite():
        raise refusal(value, kind.name, "it is not a finite number", kind.example)
    exponent = value.as_tuple().exponent
    # Before Fraction: it would write out 10**999999999 in full.
    if value.adjusted() > 9 or not isinstance(exponent, int) or exponent > 9:
        return _too_large(value, kind)
    if exponent < -_MOST_DECIMALS:
        why = f"it has more than {_MOST_DECIMALS} decimals"
        raise refusal(value, kind.name, why, kind.example)
    return Ratio(value)


def _too_large(value: object, kind: Kind) -> Fraction:
    raise refusal(value, kind.name, "it is too large", kind.example)


def checked(value: Fraction, given: object, kind: Kind, *, zero: bool) -> Fraction:
    """`value`, unless it is negative, or zero where zero makes no sense."""
    if value > 0 or (zero and value == 0):
        return value
    why = "it can't be negative" if value < 0 else "it must be more than zero"
    raise refusal(given, kind.name, why, kind.example)
