"""One spelling for shop names, so that a table can be asked for any of them."""

import re
import unicodedata
from functools import lru_cache

_BESIDE_VULGAR = re.compile(r"(?<=[0-9])(?=[¼½¾⅛⅜⅝⅞])|(?<=[¼½¾⅛⅜⅝⅞])(?=[0-9])")
_TO_ASCII = str.maketrans(
    {"\N{MULTIPLICATION SIGN}": "x", "\N{FRACTION SLASH}": "/", "\N{MINUS SIGN}": "-"}
    | dict.fromkeys("\u2010\u2011\u2012\u2013\u2014", "-")  # hyphens and dashes
    | dict.fromkeys("\"'`\u2018\u2019\u201c\u201d\u2032\u2033", "")  # quotes, feet, inches
)
_TIMES = re.compile("(?<=[0-9]) *x *(?=[0-9])")


@lru_cache(maxsize=4096)
def spelled(name: str) -> str:
    """Lower case, plain fractions, no spaces around the x of a size, no quote marks.

    `5/4 X 6` and `5/4x6"` become the same, and so do `MDF ½` and `mdf 1/2`.
    """
    apart = _BESIDE_VULGAR.sub(" ", name).translate(_TO_ASCII)
    folded = unicodedata.normalize("NFKC", unicodedata.normalize("NFKC", apart).casefold())
    return _TIMES.sub("x", " ".join(folded.translate(_TO_ASCII).split()))
