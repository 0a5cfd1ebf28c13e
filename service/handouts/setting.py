"""The PDF set in a process of its own: what sets type takes memory that no other question needs."""

from importlib import import_module
from typing import Literal

from service.handouts.page import Handout
from service.planning.apart import done


def set_on_paper(handout: Handout, paper: Literal["letter", "a4"]) -> bytes:
    """The page as a PDF; see `pdf.as_pdf`. Raises OutOfTime at the deadline of the question."""
    return done(work, handout, paper)


def work(handout: Handout, paper: Literal["letter", "a4"]) -> bytes:
    """The page as a PDF, set here."""
    from service.handouts.pdf import as_pdf  # noqa: PLC0415  # loads what sets type

    return as_pdf(handout, paper)


def load() -> None:
    """What sets type, and the letters."""
    import_module("service.handouts.pdf")
    import_module("service.handouts.typeface").typeface()
