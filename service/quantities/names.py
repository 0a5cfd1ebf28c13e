"""One spelling for shop names, so that a table can be asked for any of them."""

import re
import unicodedata

from service.quantities.reading import DOUBLE_MARKS, FRACTION_SLASH, MINUS, SINGLE_MARKS, VULGAR
from service.quantities.refusals import refusal

LONGEST_NAME = 100

_SIGNS = "".join(VULGAR)
_BESIDE_VULGAR = re.compile(f"(?<=[0-9])(?=[{_SIGNS}])|(?<=[{_SIGNS}])(?=[0-9])")
_TO_ASCII = str.maketrans(
    VULGAR
    | {"\N{MULTIPLICATION SIGN}": "x", FRACTION_SLASH: "/", MINUS: "-"}
    | dict.fromkeys("\u2010\u2011\u2012\u2013\u2014", "-")  # hyphens and dashes
    | dict.fromkeys(f"\"'`{SINGLE_MARKS}{DOUBLE_MARKS}", "")
)
_TIMES = re.compile("(?<=[0-9]) *x *(?=[0-9])")


def spelling(text: str) -> str:
    """Lower case, plain fractions, no spaces around the x of a size, no quote marks.

    `5/4 X 6` and `5/4x6"` become the same, and so do `MDF ½` and `mdf 1/2`. Raises QuantityError
    for a text that is empty, over 100 characters, or holds a control, an invisible or an
    unassigned character.
    """
    if not isinstance(text, str):
        raise refusal(text, "a name", "it is not text", "it like 1x12 or red oak")
    if len(text) > LONGEST_NAME:
        why = f"it has more than {LONGEST_NAME} characters"
        raise refusal(text, "a name", why, "it like 1x12 or red oak")
    if any(unicodedata.category(letter).startswith("C") for letter in text):
        why = "it holds a character that can't be seen"
        raise refusal(text, "a name", why, "it like 1x12 or red oak")
    plain = text
    if not text.isascii():  # fractions first: NFKC would make 1½ into 11/2
        plain = _composed(_BESIDE_VULGAR.sub(" ", text).translate(_TO_ASCII))
    plain = _composed(plain.translate(_TO_ASCII))
    plain = _TIMES.sub("x", " ".join(plain.split()))
    if not plain:
        raise refusal(text, "a name", "nothing is written", "it like 1x12 or red oak")
    return plain


def _composed(text: str) -> str:
    """Full-width letters, ligatures and capitals, each as its plain lower-case form."""
    return unicodedata.normalize("NFKC", unicodedata.normalize("NFKC", text).casefold())
