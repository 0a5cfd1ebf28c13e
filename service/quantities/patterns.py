"""What can be written for each quantity, as regular expressions that every client can use.

They say what the readers in this room read, in the part of the language that ECMA 262, Python and
Rust share, made from the same units. Their names and grammar are those of `reading.py`. They say
how a quantity is written, not how large it may be: `1/0` matches nothing, `2000 ft` does match.
"""

from service.domain.spelling import DOUBLE_MARKS, FRACTION_SLASH, MINUS, SINGLE_MARKS, VULGAR
from service.quantities.units import (
    ANGLE,
    COVERAGE,
    DURATION,
    FORCE,
    FORCE_PER_AREA,
    FORCE_PER_LENGTH,
    LENGTH,
    MASS,
    PRESSURE,
    VOLUME,
    Kind,
)


def _one_of(signs: str) -> str:
    """A class of characters; what is not ASCII is written by its number."""
    return "[" + "".join(c if c.isascii() else f"\\u{ord(c):04x}" for c in signs) + "]"


_SPACE = _one_of(" \u00a0\u2009\u202f")
_DASH = _one_of("\u2010\u2011\u2013-")
_SIGN = _one_of(f"\u2010\u2011\u2013{MINUS}+-")
_SLASH = _one_of("/" + FRACTION_SLASH)
_SINGLE, _DOUBLE = _one_of("'" + SINGLE_MARKS), _one_of('"' + DOUBLE_MARKS)
_UNDER = "0*[1-9][0-9]{0,5}"
_MIXED = f"(?:[0-9]+(?:{_SPACE}+|{_DASH}{_SPACE}?))?[0-9]+{_SLASH}{_UNDER}"
_TYPESET = f"(?:[0-9]+(?:{_SPACE}*|{_DASH}))?{_one_of(''.join(VULGAR))}"
_POINT = r"[0-9]+(?:\.[0-9]+)?|\.[0-9]+"
_COMMA = "[0-9]+,(?:[0-9]{1,2}|[0-9]{4,})"  # before three digits it could mean thousands
_NUMBER = f"{_SPACE}*(?:{_MIXED}|{_TYPESET}|{_COMMA}|{_POINT}){_SPACE}*"
_IN_A_LIST = f"{_SPACE}*(?:{_MIXED}|{_TYPESET}|{_POINT}){_SPACE}*"  # commas stand between items
_FEET = f"(?:[fF][eE][eE][tT]|[fF][oO][oO][tT]|[fF][tT]\\.?|{_SINGLE})"
_BETWEEN = f"{_SPACE}*{_DASH}?{_SPACE}*"
_SQUARES = {"ft2": f"sq(?:ft|\\.?{_SPACE}ft)", "in2": f"sq\\.?{_SPACE}in", "m2": f"sq\\.?{_SPACE}m"}
_SIGNS = {
    "/": f"(?:{_SLASH}|{_SPACE}{_SLASH}{_SPACE}|{_SPACE}per{_SPACE})",
    "2": r"\^?[2\u00b2]",
    "3": r"\^?[3\u00b3]",
    "'": _SINGLE,
    '"': _DOUBLE,
    "-": _DASH,
    " ": _SPACE,
    "°": r"\u00b0",
    "º": r"\u00ba",
}


def _units(*kinds: Kind) -> str:
    """Any spelling of a unit, with or without a full stop; case as `Kind.unit` forgives it."""
    words = sorted({word for kind in kinds for word in kind.spellings})
    return f"(?:{'|'.join(_spelled(word, word == word.lower()) for word in words)})\\.?{_SPACE}*"


def _spelled(word: str, any_case: bool) -> str:
    for square, other in _SQUARES.items():
        before, found, after = word.partition(square)
        if found and not before[-1:].isalpha():
            plain, start = _letters(square, any_case), _spelled(before, any_case)
            return f"{start}(?:{plain}|{other}){_spelled(after, any_case)}"
    return _letters(word, any_case)


def _letters(word: str, any_case: bool) -> str:
    return "".join(
        f"[{c}{c.upper()}]" if any_case and c.isascii() and c.isalpha() else _SIGNS.get(c, c)
        for c in word
    )


def _whole(pattern: str) -> str:
    return f"^(?:{pattern})$"


def _sized(number: str) -> str:
    """What follows the number of a length: its unit; after feet may come inches."""
    inches = Kind("inches", "", LENGTH.units[:1])
    return f"(?:{_units(LENGTH)}|{_FEET}{_BETWEEN}{number}(?:{_units(inches)})?)"


_WITH_UNIT = f"{_NUMBER}{_sized(_NUMBER)}"
_SIGNED = f"{_SPACE}*{_SIGN}?"
_DEGREES = f"(?:{_units(ANGLE)})?"

LENGTH_TEXT = _whole(f"{_WITH_UNIT}?")
LENGTH_IN_A_LIST = _whole(f"{_IN_A_LIST}{_sized(_IN_A_LIST)}?")
PAIR_TEXT = _whole(f"{_NUMBER}[xX\\u00d7]{_WITH_UNIT}?|{_WITH_UNIT}[xX\\u00d7]{_WITH_UNIT}")
ANGLE_TEXT = _whole(f"{_SIGNED}{_NUMBER}{_DEGREES}")
ANGLE_IN_A_LIST = _whole(f"{_SIGNED}{_IN_A_LIST}{_DEGREES}")
TWO_ANGLES_TEXT = _whole(",".join([f"{_SIGNED}{_IN_A_LIST}{_DEGREES}"] * 2))
MASS_TEXT = _whole(f"{_NUMBER}(?:{_units(MASS)})?")
WEIGHT_TEXT = _whole(f"{_NUMBER}{_units(FORCE)}")
LOAD_TEXT = _whole(f"{_NUMBER}{_units(FORCE, FORCE_PER_LENGTH, FORCE_PER_AREA)}")
WEIGHT_AT_TEXT = _whole(f"{_IN_A_LIST}{_sized(_IN_A_LIST)}?:{_IN_A_LIST}{_units(FORCE)}")
_GAUGE = r" *(?:#|[nN][oO]\.? ?)?[0-9]{1,2}(?: ?[gG][aA])? *"
FASTENER_TEXT = _whole(f"(?:(?:{_GAUGE}|{_WITH_UNIT}?)? ?[xX\\u00d7] ?)?{_WITH_UNIT}?")
PRESSURE_TEXT = _whole(f"{_NUMBER}{_units(PRESSURE)}")
COVERAGE_TEXT = _whole(f"{_NUMBER}{_units(COVERAGE)}")
VOLUME_TEXT = _whole(f"{_NUMBER}{_units(VOLUME)}")
DURATION_TEXT = _whole(f"{_NUMBER}(?:{_units(DURATION)})?")
TEMPERATURE_TEXT = _whole(
    f"{_SIGNED}{_NUMBER}(?:\\u00b0|\\u00ba|deg{_SPACE}?)?{_SPACE}?[FfCc]{_SPACE}*"
)
MONEY_TEXT = r"^[0-9]{1,10}(?:\.[0-9]{1,4})?$"
