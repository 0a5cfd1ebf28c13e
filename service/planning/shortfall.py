"""What a plan can't make, and why, in words."""

from collections.abc import Iterator

from service.domain.purchase import Lacking
from service.planning.whole import CutPlan

WHY = {
    "unknown-stock": "its stock is unknown",
    "stock-without-a-name": "its stock has no name that could be bought",
    "no-size": "a length or a width is missing",
    "points-cross": "its cuts cross",
    "longer-than-any-board": "longer than any board there is",
    "too-long-to-carry": "longer than the longest board you can carry",
    "wider-than-the-board": "wider than the board",
    "no-boards": "no board of this stock is for sale or on hand",
    "not-enough-boards": "not enough boards",
    "larger than every sheet": "larger than every sheet",
    "not enough sheets": "not enough sheets",
}


def missing_from(plan: CutPlan) -> Iterator[Lacking]:
    """Pieces that no board and no sheet yields."""
    for left in plan.left:
        yield Lacking(left.part, left.quantity, WHY[left.why])
    for boards in plan.boards:
        for one in boards.plan.unplaced:
            yield Lacking(one.part, one.quantity, WHY[one.why])
    for sheets in plan.sheets:
        for panel in sheets.plan.unplaced:
            yield Lacking(panel.panel, panel.quantity, WHY[panel.why])
