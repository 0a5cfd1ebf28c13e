"""What is worked out once for the tables and kept: questions that come again are not asked anew."""

from collections.abc import Callable
from typing import Any, TypeVar

from service.domain.catalog import Catalog

T = TypeVar("T")

_NOT_YET: Any = object()
MOST_KEPT = 48  # of a kind; an answer for one joint is some 20,000 characters


def kept(catalog: Catalog, name: tuple[object, ...], work: Callable[[], T]) -> T:
    """What was worked out before for these tables, else worked out now.

    The first word of the name is its kind; of each kind so many are kept at most.
    """
    known: Any = catalog.worked_out.get(name[0])
    if known is None:
        known = catalog.worked_out.setdefault(name[0], {})
    found: T = known.get(name, _NOT_YET)  # one look-up: names are long
    if found is not _NOT_YET:
        return found
    found = work()
    if len(known) >= MOST_KEPT:
        known.clear()
    known[name] = found
    return found
