"""What a cut plan costs: the outlay by its parts."""

from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal

from service.domain.resolving import ResolvedBuild
from service.planning.whole import CutPlan

CENT = Decimal("0.01")


@dataclass(frozen=True, slots=True)
class Outlay:
    """Money for a plan, to the cent: wood and its proven bound, spare boards, store cuts, tax."""

    cost: Decimal
    bound: Decimal
    spare: Decimal
    store_cuts: Decimal
    tax: Decimal

    @property
    def total(self) -> Decimal:
        """Everything together."""
        return self.cost + self.spare + self.store_cuts + self.tax

    @property
    def gap_percent(self) -> float:
        """By how much, in percent, the wood might be bought cheaper."""
        return round(float(100 * (self.cost - self.bound) / self.cost), 2) if self.cost else 0.0


def outlay_of(build: ResolvedBuild, plan: CutPlan) -> Outlay:
    """What a plan costs; stocks without a price add nothing."""
    fee = store_fee(build, plan)
    percent = build.build.buying.tax_percent or Decimal(0)
    taxed = (plan.cost + plan.spare_cost + fee) * percent / 100
    amounts = (plan.cost, plan.bound, plan.spare_cost, fee, taxed)
    return Outlay(*(amount.quantize(CENT, ROUND_HALF_UP) for amount in amounts))


def store_fee(build: ResolvedBuild, plan: CutPlan) -> Decimal:
    """What the store asks for its cuts, after the free ones."""
    store = build.build.buying.store_cuts
    if store is None or store.each is None:
        return Decimal(0)
    return store.each * max(0, counted_store_cuts(plan) - store.free)


def counted_store_cuts(plan: CutPlan) -> int:
    """Cuts that the store makes; squaring a raw edge is not counted."""
    return sum(
        cut.by == "store" and not cut.trim
        for one in plan.sheets
        for sheet in one.plan.sheets
        for cut in sheet.cuts
    )
