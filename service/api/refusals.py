"""What is refused before the trade is asked: the request itself is wrong in form."""

from collections.abc import Iterable
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Fault:
    """One thing wrong with a request: why, and a JSON pointer into the body or a parameter."""

    detail: str
    pointer: str | None = None
    parameter: str | None = None


class Refusal(Exception):
    """A request that can't be read. Each kind has its own problem type."""

    def __init__(self, detail: str, *faults: Fault) -> None:
        super().__init__(detail)
        self.detail = detail
        self.faults = faults


class NotJson(Refusal):
    """The body is not JSON."""


class RepeatedName(Refusal):
    """An object of the body says the same name twice."""


class TooManyValues(Refusal):
    """The document holds more values than one answer may take time for."""


class UnreadableMediaType(Refusal):
    """The body is of a kind that can't be read here."""


class InvalidDocument(Refusal):
    """The document is JSON, but wrong in form."""


class InvalidParameter(Refusal):
    """A parameter of the address is wrong."""


class NothingAcceptable(Refusal):
    """The answer can't be given in any of the forms asked for."""


class NotReady(Refusal):
    """The service can't answer at present."""


class QuotaExceeded(Refusal):
    """More requests came from one place than it may send.

    `members` stand in the problem besides; `retry_after` is in seconds.
    """

    def __init__(self, detail: str, violated: Iterable[str], retry_after: int) -> None:
        super().__init__(detail)
        self.retry_after = retry_after
        self.members = {"violated-policies": list(violated)}
