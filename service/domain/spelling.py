"""One spelling for shop names, so that a table can be asked for any of them."""

import re
import unicodedata
from functools import lru_cache
from math import log

VULGAR = {
    "½": "1/2", "⅓": "1/3", "⅔": "2/3", "¼": "1/4", "¾": "3/4", "⅕": "1/5", "⅖": "2/5",
    "⅗": "3/5", "⅘": "4/5", "⅙": "1/6", "⅚": "5/6", "⅐": "1/7", "⅛": "1/8", "⅜": "3/8",
    "⅝": "5/8", "⅞": "7/8", "⅑": "1/9", "⅒": "1/10",
}  # fmt: skip

MINUS = "\N{MINUS SIGN}"
FRACTION_SLASH = "\N{FRACTION SLASH}"
SINGLE_MARKS = "\N{PRIME}\u2018\u2019"  # and the single quotation marks
DOUBLE_MARKS = "\N{DOUBLE PRIME}\u201c\u201d"  # and the double ones

_SIGNS = "".join(VULGAR)
_BESIDE_VULGAR = re.compile(f"(?<=[0-9])(?=[{_SIGNS}])|(?<=[{_SIGNS}])(?=[0-9])")
_TO_ASCII = str.maketrans(
    VULGAR
    | {"\N{MULTIPLICATION SIGN}": "x", FRACTION_SLASH: "/", MINUS: "-"}
    | dict.fromkeys("\u2010\u2011\u2012\u2013\u2014", "-")  # hyphens and dashes
    | dict.fromkeys(f"\"'`{SINGLE_MARKS}{DOUBLE_MARKS}", "")
)
_TIMES = re.compile("(?<=[0-9]) *x *(?=[0-9])")


_SIZE = re.compile(r"(?:(\d+) )?(\d+(?:\.\d+)?)(?:/(\d+))?")


@lru_cache(maxsize=1024)
def spelled(name: str) -> str:
    """Lower case, plain fractions, no spaces around the x of a size, no quote marks.

    `5/4 X 6` and `5/4x6"` become the same, and so do `MDF ½` and `mdf 1/2`.
    """
    plain = name
    if not name.isascii():  # fractions first: NFKC would make 1½ into 11/2
        plain = _composed(_BESIDE_VULGAR.sub(" ", name).translate(_TO_ASCII))
    plain = _composed(plain.translate(_TO_ASCII))
    return _TIMES.sub("x", " ".join(plain.split()))


def _composed(text: str) -> str:
    """Full-width letters, ligatures and capitals, each as its plain lower-case form."""
    return unicodedata.normalize("NFKC", unicodedata.normalize("NFKC", text).casefold())


@lru_cache(maxsize=8192)
def sizes_in(name: str) -> tuple[float, ...]:
    """The numbers of a spelled name, smallest first: 1.25 and 6 of `5/4x6`."""
    return tuple(
        sorted(
            int(whole or 0) + float(over) / (int(under) if under and int(under) else 1)
            for whole, over, under in _SIZE.findall(name)
        )
    )


def apart(one: tuple[float, ...], other: tuple[float, ...]) -> float:
    """How far two sets of sizes are apart, as the logarithm of their ratios; sizes only."""
    return sum(abs(log(a / b)) for a, b in zip(one, other, strict=True) if a and b)
