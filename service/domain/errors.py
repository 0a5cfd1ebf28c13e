"""Refusals that the domain raises: names and plain words, no HTTP."""

from service.domain.values import dataclass


class DryfitError(Exception):
    """The question could not be answered."""


@dataclass(frozen=True, slots=True)
class Complaint:
    """One thing wrong with what was asked: where it stands and why it is refused.

    ``place`` is a JSON pointer in URI-fragment form (``#/parts/0/wood``) for a document, or the
    name of a parameter for a one-line question.
    """

    place: str
    detail: str


class UnknownName(DryfitError):
    """A name is not in the reference tables."""

    def __init__(self, *complaints: Complaint) -> None:
        super().__init__("; ".join(complaint.detail for complaint in complaints))
        self.complaints = complaints


class UnknownCode(DryfitError):
    """There is no finding with that code."""


class UnknownTable(DryfitError):
    """There is no reference table with that name."""


class UnknownKey(DryfitError):
    """There is no row with that key in the table."""


class UnknownColumn(DryfitError):
    """The table has no such column."""


class UnknownCursor(DryfitError):
    """The cursor is not one that this list gave."""


class OutOfTime(DryfitError):
    """The question takes longer to work out than one answer may take."""

    def __init__(self) -> None:
        super().__init__("Ask about fewer parts or joints at once, or ask again when it is quiet.")
