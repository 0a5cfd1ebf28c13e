"""Cautions about wood that was used before."""

from collections.abc import Iterator

from service.domain.cautions import PAINTED, used_before
from service.domain.findings import Spot, rule
from service.domain.resolving import ResolvedBuild
from service.domain.rules.safety import words


@rule(
    "safety.reclaimed",
    title="Wood with a past: metal and old paint",
    severity="note",
    basis="practice",
    numbers={},
)
def reclaimed(build: ResolvedBuild) -> Iterator[Spot]:
    """Nails and screws hide in wood that was used before, and old paint may hold lead.

    Look for metal before a blade or a bit meets it, and test paint before it is cut, sanded or
    scraped. Local rules on lead come before anything said here.
    """
    told: set[str] = set()
    for at, name, caution in used_before(build):
        if caution in told:
            continue
        told.add(caution)
        text, rows = words(build, caution)
        local = " Local rules on lead come first." if caution == PAINTED else ""
        yield Spot(at=at, detail=f"{name}: {text}{local}", rests_on=rows)
