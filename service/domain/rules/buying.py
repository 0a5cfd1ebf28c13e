"""Rules about what a plan says to buy; the planner's findings are handed in."""

from collections.abc import Iterator

from service.domain.findings import Mend, Spot, rule
from service.domain.resolving import ResolvedBuild
from service.domain.rules.panels import panels_on_sheets, turns_freely
from service.domain.solid import Rod, Solid
from service.domain.supply import longest_piece


@rule(
    "buy.not-enough",
    title="What the plan says to buy does not yield the parts",
    severity="fault",
    numbers={"wanted": "count", "made": "count", "kerf_alone": "word"},
)
def not_enough(build: ResolvedBuild) -> Iterator[Spot]:
    """The boards and sheets of a shopping list, with what is on hand, must yield every part.

    Each cut turns some wood to dust: four 24 in pieces do not come out of an 8 ft board. The
    shortfall is proved by the planner; where it could not be, the answer says so under what was
    not judged.
    """
    for found in build.purchasing.yields:
        if found.enough != "no":
            continue
        lacking = [(part, count) for part, count in found.short if not too_big(build, part)]
        if not lacking:
            continue
        wanted = sum(count for _, count in found.wanted)
        made = wanted - sum(count for _, count in found.short)
        short = ", ".join(f"{count} of {part}" for part, count in lacking)
        dust = " Without the saw's kerf it would just do." if found.kerf_alone else ""
        yield Spot(
            at=f"#/buying/planned/{found.planned}",
            also_at=build.by_id[lacking[0][0]].at,
            detail=f"The {found.stock} planned and on hand gives {made} of {wanted} pieces; "
            f"missing: {short}.{dust}",
            numbers={
                "wanted": wanted,
                "made": made,
                "kerf_alone": "yes" if found.kerf_alone else "no",
            },
            mend=Mend("Buy one more, or a longer one; the cut plan tells the cheapest way."),
        )


def too_big(build: ResolvedBuild, id: str) -> bool:
    """Whether a part comes out of nothing at all, which another rule says."""
    part = build.by_id[id]
    if part.sized is None or not isinstance(part.solid, Solid | Rod):
        return False
    longest = longest_piece(build.sizing, part.sized)
    if longest is not None:
        return part.solid.blank_length > longest.length
    return any(
        panel.part is part and not panel.upright and not (panel.turned and turns_freely(part))
        for panel in panels_on_sheets(build)
    )


@rule(
    "buy.over-budget",
    title="The wood costs more than the budget",
    severity="warn",
    numbers={"least": "word", "budget": "word"},
)
def over_budget(build: ResolvedBuild) -> Iterator[Spot]:
    """Even the cheapest way to buy the wood that has a price is over the budget stated.

    Screws, glue and finish come on top. Another stock, leftovers or a smaller piece may help.
    """
    outlay = build.purchasing.outlay
    if outlay is None or outlay.least <= outlay.budget:
        return
    money = f" {outlay.currency}" if outlay.currency else ""
    yield Spot(
        at="#/buying/budget",
        detail=f"The wood costs at least {outlay.least}{money}; the budget is {outlay.budget}.",
        numbers={"least": str(outlay.least), "budget": str(outlay.budget)},
        mend=Mend("Look at what each stock costs in the estimate, and swap the dearest."),
    )
