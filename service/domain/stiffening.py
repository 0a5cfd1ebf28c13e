"""What would keep a loaded part within its limit, with numbers: each way by itself."""

from collections.abc import Iterator
from fractions import Fraction
from functools import lru_cache
from math import ceil, floor
from typing import Literal

from service.domain.beams import Beam, Spread, Support, bend
from service.domain.bending import Allowed, usual_limits
from service.domain.catalog import Catalog
from service.domain.loads import Carried, figured
from service.domain.sections import Layer, glued
from service.domain.tape import MM, SIXTEENTH, plain
from service.domain.weight import said

LIP = (0.75, 1.5)  # a dressed 1x2 on edge, the least that is worth gluing on


def counted(carried: Carried, limit: Allowed) -> float:
    """The sag that a limit counts, inches: with creep where it says so and the load stays.

    Of the range of creep the lower end, so that what is found is so at every end.
    """
    return _ends(carried, limit)[0]


def most_counted(carried: Carried, limit: Allowed) -> float:
    """The same at the upper end of creep."""
    return _ends(carried, limit)[1]


def what_counts(carried: Carried, limit: Allowed) -> Literal["first", "lasting"]:
    """Which sag a limit counts: the lasting one where it says so, the load stays and creep is
    known."""
    lasts = limit.counts == "lasting" and carried.load.stays and carried.lasting is not None
    return "lasting" if lasts else "first"


def _ends(carried: Carried, limit: Allowed) -> tuple[float, float]:
    lasting = carried.lasting
    if lasting is None or what_counts(carried, limit) == "first":
        return carried.now, carried.now
    return lasting


def longest_span(carried: Carried, limit: Allowed) -> float | None:
    """Inches between supports at which the limit is just met; None where no one span says it.

    The load keeps its pounds (or its pounds a foot) as the span changes.
    """
    if carried.load.points or carried.load.held == "several":
        return None
    now, own = most_counted(carried, limit), carried.moment_own
    own /= own + carried.moment_load
    power = 4 if carried.load.per != "total" else 3
    grows = 0 if limit.name == "your limit" else 1
    short, long = 1 / carried.span, 12_000 / carried.span
    for _ in range(40):  # bisected, as a share of the span that there is
        times: float = (short * long) ** 0.5
        sag = now * (own * times**4 + (1 - own) * times**power)
        if sag > limit.inches * times**grows:
            long = times
        else:
            short = times
    return short * carried.span


def ways(carried: Carried, limit: Allowed, metric: bool, people: bool = False) -> Iterator[str]:
    """Each way that would meet the limit, in words; a lighter load is none where people are it."""
    over = most_counted(carried, limit) / limit.inches
    if over <= 1:
        return
    span = longest_span(carried, limit)
    if span is not None:
        far = plain(_down(span, metric), metric)
        out = carried.load.held == "one-end"
        yield f"Let it stick out {far} at most." if out else f"Bring the supports to {far} apart."
    if carried.load.held in (None, "resting", "both-ends"):
        share = _with_middle_support(carried.load.held == "both-ends")
        yield f"Add a support in the middle: it leaves {share:.0%} of the sag."
    needed = carried.plank.high * over ** (1 / 3)
    yield f"Take stock {plain(_up(needed, metric), metric)} thick."
    if not carried.plank.round and not carried.load.stiffened_by:
        thick, tall = (figured(side, metric) for side in LIP)
        left = _with_lip(carried)
        yield f"Glue a lip, {thick} by {tall} on edge, along it: it leaves {left:.0%} of the sag."
    if people:
        return
    lighter, now = said(carried.weight / over, metric), said(carried.weight, metric)
    yield f"Or carry about {lighter} instead of {now}."


def loosest(catalog: Catalog, carried: Carried) -> Allowed:
    """Of the usual limits the one that allows most, for what counts."""
    return min(
        usual_limits(catalog, carried.reach), key=lambda one: counted(carried, one) / one.inches
    )


@lru_cache(maxsize=2)
def _with_middle_support(fixed: bool) -> float:
    """Share of the sag that a third support leaves, for an even load."""
    ends = (Support(0.0, fixed), Support(1.0, fixed))
    even = (Spread(0.0, 1.0, 1.0),)
    before = bend(Beam(1.0, ends, even)).sag
    return bend(Beam(1.0, (ends[0], Support(0.5), ends[1]), even)).sag / before


def _with_lip(carried: Carried) -> float:
    plank = carried.plank
    wide, high = LIP
    e = plank.material.stiffness.value
    layers = [Layer(plank.wide, plank.high, 0.0, e), Layer(wide, high, plank.high - high, e)]
    return plank.section.rigidity / glued(layers).rigidity


def _down(size: float, metric: bool) -> Fraction:
    step = MM if metric else SIXTEENTH
    return floor(Fraction(size) / step) * step


def _up(size: float, metric: bool) -> Fraction:
    step = MM if metric else SIXTEENTH
    return ceil(Fraction(size) / step) * step
