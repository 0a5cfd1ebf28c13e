"""Every text answer in 80 columns: the one place where lines are folded."""

import re
from collections.abc import Iterable, Iterator
from textwrap import TextWrapper

WIDTH = 80
PASTED = "curl "  # a line to paste is one line, however long its address is
DEEPER = 2

# `5 1/2 in` is one size and stays on one line, and so does any other number with its unit.
_UNITS = "in|ft|mm|cm|m|lb|kg|psi|MPa|min|h|F|C|gauge|degrees"
_WHOLE = re.compile(rf"(?<=[0-9]) (?=[0-9]{{1,4}}/[0-9]|(?:{_UNITS})\b|%)")
_TIED = "\N{NO-BREAK SPACE}"


def folded(lines: Iterable[str]) -> Iterator[str]:
    """Lines cut to 80 columns, what runs over indented two deeper below.

    Names with hyphens stay whole, so that they can be copied; lines to paste are left alone.
    """
    for line in lines:
        if len(line) <= WIDTH or line.startswith(PASTED):
            yield line.rstrip()
            continue
        deeper = " " * (len(line) - len(line.lstrip()) + DEEPER)
        for piece in _wrapper(deeper).wrap(_WHOLE.sub(_TIED, line)):
            yield piece.replace(_TIED, " ")


def _wrapper(deeper: str) -> TextWrapper:
    return TextWrapper(width=WIDTH, subsequent_indent=deeper, break_on_hyphens=False)
