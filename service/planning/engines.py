"""The planners of boards and of sheets, loaded at the first plan, in a process of their own.

Their arrays and their solver are a fifth of the memory of a service, and most questions plan
nothing: whoever plans a build comes in by this door, and `apart` says who works behind it.
"""

import os
from collections.abc import Sequence
from importlib import import_module
from typing import Any

from service.planning.apart import done
from service.planning.job import Job, Plan
from service.planning.panels.asking import Cutting, Panel, Sheet
from service.planning.panels.planned import SheetPlan

BOARDS, SHEETS = "service.planning.boards", "service.planning.panels.sheets"


def plan_boards(job: Job, *, seconds: float) -> Plan:
    """Boards of one stock; see `boards.plan_boards`."""
    plan: Plan = done(work, BOARDS, "plan_boards", job, seconds=seconds)
    return plan


def plan_longest_first(job: Job) -> Plan:
    """The plain plan that others are held against; see `boards.plan_longest_first`."""
    plan: Plan = done(work, BOARDS, "plan_longest_first", job)
    return plan


def plan_tip_to_tip(job: Job, *, seconds: float) -> Plan:
    """A plan without nesting; see `boards.plan_tip_to_tip`."""
    plan: Plan = done(work, BOARDS, "plan_tip_to_tip", job, seconds=seconds)
    return plan


def plan_sheets(
    panels: Sequence[Panel], sheets: Sequence[Sheet], cutting: Cutting, *, deadline_s: float
) -> SheetPlan:
    """Sheets of one stock; see `panels.sheets.plan_sheets`."""
    plan: SheetPlan = done(
        work, SHEETS, "plan_sheets", tuple(panels), tuple(sheets), cutting, deadline_s=deadline_s
    )
    return plan


def work(module: str, name: str, *given: Any, **more: Any) -> Any:
    """A planner by its name, so that only who works loads it."""
    return getattr(import_module(module), name)(*given, **more)


def load() -> None:
    """All planners, with their arrays and their solver, whose products need no second thread."""
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
    for module in (BOARDS, SHEETS):
        import_module(module)
