"""What the boards and sheets of a shopping list yield, and what the wood costs at least."""

from collections.abc import Iterator

from service.domain.resolving import ResolvedBuild
from service.domain.yields import Outlay, Purchasing, StockYield
from service.planning.engines import plan_boards, plan_sheets
from service.planning.job import Plan, Unplaced
from service.planning.offers import Choice, planned_of
from service.planning.panels.planned import SheetPlan
from service.planning.wanted import BoardJob, SheetJob, wanted_of
from service.planning.whole import Shares, enough, plan_build

CHECK_SECONDS = 1.0  # for all stocks together: a check is asked often


def purchasing_of(build: ResolvedBuild) -> Purchasing:
    """Everything that the rules about buying rest on; quick where the plan says nothing of it."""
    buying = build.build.buying
    yields = yields_of(build) if buying.planned else ()
    if buying.budget is None or not buying.prices:
        return Purchasing(yields)
    plan = plan_build(build, seconds=CHECK_SECONDS)
    outlay = Outlay(plan.bound, buying.budget, buying.currency, plan.status == "optimal")
    return Purchasing(yields, outlay)


def yields_of(build: ResolvedBuild) -> tuple[StockYield, ...]:
    """For each stock that the plan says to buy: do those boards and sheets yield the parts?"""
    wanted = wanted_of(build, Choice(planned_only=True))
    every: list[BoardJob | SheetJob] = [*wanted.boards, *wanted.sheets]
    jobs = [job for job in every if any(planned_of(build, job.stock))]
    clock = Shares(CHECK_SECONDS, len(jobs))
    return tuple(yield_of(build, job, clock.next()) for job in jobs)


def yield_of(build: ResolvedBuild, job: BoardJob | SheetJob, seconds: float) -> StockYield:
    """What the planned boards or sheets of one stock yield, and whether the kerf is to blame."""
    plan = solved(job, seconds / 2)
    short = [
        (one.part if isinstance(one, Unplaced) else one.panel, one.quantity)
        for one in plan.unplaced
    ]
    kerf_alone = bool(short) and not solved(job.without_kerf(), seconds / 2).unplaced
    return StockYield(
        stock=job.stock.key,
        planned=build.build.buying.planned.index(next(planned_of(build, job.stock))),
        enough=enough(plan),
        wanted=tuple(pieces_wanted(job)),
        short=tuple(short),
        kerf_alone=kerf_alone,
    )


def solved(job: BoardJob | SheetJob, seconds: float) -> Plan | SheetPlan:
    """The plan of one stock."""
    if isinstance(job, BoardJob):
        return plan_boards(job.job, seconds=seconds)
    return plan_sheets(job.panels, job.sheets, job.cutting, deadline_s=seconds)


def pieces_wanted(job: BoardJob | SheetJob) -> Iterator[tuple[str, int]]:
    """Part ids and how many pieces of each are wanted."""
    if isinstance(job, BoardJob):
        yield from ((part.id, part.quantity) for part in job.job.parts)
    else:
        yield from ((panel.id, panel.quantity) for panel in job.panels)
