"""The question about sheets, answered: what to buy, where every panel lies, and every cut.

Money first; of purchases that cost the same the fewest sheets; then the largest rest that was
found. The work is counted, so that the same question has the same answer everywhere; the wall
clock ends it only on a machine that is too slow, and the answer says so.
"""

from collections import Counter
from collections.abc import Iterator, Sequence
from fractions import Fraction
from typing import Literal

from service.domain.deadline import kept_time
from service.planning.effort import Clock
from service.planning.panels.asking import Cutting, Panel, Sheet
from service.planning.panels.buying import buy
from service.planning.panels.cutting import Bench
from service.planning.panels.exact import Exact, exact
from service.planning.panels.keeping import keep_larger
from service.planning.panels.lots import Layout, cost_of, turns_of
from service.planning.panels.planned import Area, CutSheet, Placed, SheetPlan, Unplaced
from service.planning.panels.searching import SEED
from service.planning.panels.work import Work

PAIRS_A_SECOND = 28_000_000
"""Pieces weighed a second, at least, on a slow machine: turns a deadline into counted work."""

SHARE_FOR_RESTS = 0.1


def plan_sheets(
    panels: Sequence[Panel],
    sheets: Sequence[Sheet],
    cutting: Cutting,
    *,
    deadline_s: float | None = 10.0,
    effort: int | None = None,
) -> SheetPlan:
    """The cheapest sheets found for the panels, with a floor under any purchase.

    `effort` counts pairs of pieces to weigh; without it, what a deadline's seconds are good for.
    """
    clock = Clock(None if deadline_s is None else deadline_s * 0.95)
    asked = exact(panels, sheets, cutting)
    if effort is None:
        effort = effort_for(10.0 if deadline_s is None else deadline_s)
    work = Work(effort, clock)
    found, left, short = buy(asked.lot, work, asked.base)
    extra = Work(int(effort * SHARE_FOR_RESTS), clock)
    layout = keep_larger(asked.lot, found.layout, SEED, extra)
    cost = asked.money(cost_of(asked.lot, layout))
    bound = min(cost, asked.money(0 if asked.rounded else found.floor))
    unplaced = _unplaced(panels, asked, left)
    return SheetPlan(
        status="optimal" if cost == bound else "feasible",
        cost=cost,
        bound=bound,
        sheets=tuple(_cut_sheets(panels, sheets, cutting, asked, layout)),
        unplaced=unplaced,
        enough=_enough(asked, short, unplaced),
        deadline_met=clock.rang,
        work=work.done + extra.done,
        off_by=asked.unit if asked.rounded else Fraction(0),
    )


def effort_for(seconds: float) -> int:
    """The work that seconds are good for; by tenths, so that the same question has the same answer.

    What is left of a deadline is a hair less each time, by what was done before.
    """
    return int(PAIRS_A_SECOND * max(0.05, round(seconds, 1)))


def _enough(
    asked: Exact, short: bool, unplaced: Sequence[Unplaced]
) -> Literal["yes", "no", "unknown"]:
    if not unplaced:
        return "yes"
    # what was rounded up may only seem too large
    return "no" if (asked.misfits or short) and not asked.rounded else "unknown"


def _unplaced(panels: Sequence[Panel], asked: Exact, left: Sequence[int]) -> tuple[Unplaced, ...]:
    """The panels left out: the last of each kind's, and those that no sheet takes."""
    out = Counter(
        place
        for places, count in zip(asked.panels, left, strict=True)
        for place in places[len(places) - count :]
    )
    return tuple(
        Unplaced(panel.id, panel.quantity, "larger than every sheet")
        if place in asked.misfits
        else Unplaced(panel.id, out[place], "not enough sheets")
        for place, panel in enumerate(panels)
        if place in asked.misfits or out[place]
    )


def _cut_sheets(
    panels: Sequence[Panel], sheets: Sequence[Sheet], cutting: Cutting, asked: Exact,
    layout: Layout,
) -> Iterator[CutSheet]:  # fmt: skip
    """Every sheet with its panels by name; sheets on hand and the cheaper ones come first."""
    waiting = [iter(places) for places in asked.panels]
    stacks = [iter(places) for places in asked.sheets]
    copies: Counter[int] = Counter()
    for laid in kept_time(sorted(layout, key=lambda laid: laid.stock)):
        bench = Bench(sheets[next(stacks[laid.stock])], laid.root, asked.unit, cutting)
        bench.work()
        placed = []
        for leaf in bench.leaves:
            place = next(waiting[leaf.kind])
            copies[place] += 1
            placed.append(_placed(panels[place], copies[place], leaf.area))
        yield CutSheet(
            bench.sheet, tuple(placed), tuple(bench.cuts), tuple(bench.rests),
            turns_of(laid.root),
        )  # fmt: skip


def _placed(panel: Panel, copy: int, area: Area) -> Placed:
    """A panel where it lies; its own size, also where the unit is a little coarse."""
    turned = abs(area.length - panel.length) > abs(area.length - panel.width)
    length, width = (panel.width, panel.length) if turned else (panel.length, panel.width)
    return Placed(panel.id, copy, Area(area.x, area.y, length, width), turned)
