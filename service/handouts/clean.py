"""Text without what could break out of a line or turn it around, for every form of the page."""

import unicodedata

# Marks that turn the direction of text, and others that are not seen: they could make a page
# read as what it does not say.
UNSEEN = frozenset({"Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp"})


def one_line(text: str) -> str:
    """The text on one line: what can't be seen becomes a space, runs of spaces one space."""
    if text.isascii() and text.isprintable() and "  " not in text and text == text.strip():
        return text
    seen = (" " if unicodedata.category(sign) in UNSEEN else sign for sign in text)
    return " ".join("".join(seen).split())
