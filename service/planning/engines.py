"""The planners of boards and of sheets, loaded at the first plan.

Their arrays and their solver are a fifth of the memory of a service, and most questions plan
nothing: whoever plans a build comes in by this door.
"""

from collections.abc import Sequence

from service.planning.job import Job, Plan
from service.planning.panels.asking import Cutting, Panel, Sheet
from service.planning.panels.planned import SheetPlan


def plan_boards(job: Job, *, seconds: float) -> Plan:
    """Boards of one stock; see `boards.plan_boards`."""
    from service.planning import boards  # noqa: PLC0415  # loads numpy and the solver

    return boards.plan_boards(job, seconds=seconds)


def plan_longest_first(job: Job) -> Plan:
    """The plain plan that others are held against; see `boards.plan_longest_first`."""
    from service.planning import boards  # noqa: PLC0415  # as above

    return boards.plan_longest_first(job)


def plan_tip_to_tip(job: Job, *, seconds: float) -> Plan:
    """A plan without nesting; see `boards.plan_tip_to_tip`."""
    from service.planning import boards  # noqa: PLC0415  # as above

    return boards.plan_tip_to_tip(job, seconds=seconds)


def plan_sheets(
    panels: Sequence[Panel], sheets: Sequence[Sheet], cutting: Cutting, *, deadline_s: float
) -> SheetPlan:
    """Sheets of one stock; see `panels.sheets.plan_sheets`."""
    from service.planning.panels import sheets as planner  # noqa: PLC0415  # loads numpy

    return planner.plan_sheets(panels, sheets, cutting, deadline_s=deadline_s)
