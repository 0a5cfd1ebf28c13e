"""One spelling for shop names, so that a table can be asked for any of them."""

import unicodedata

from service.domain.spelling import spelled
from service.quantities.refusals import refusal

LONGEST_NAME = 100


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
    plain = spelled(text)
    if not plain:
        raise refusal(text, "a name", "nothing is written", "it like 1x12 or red oak")
    return plain
