"""POST /v1/estimate: what a build weighs and costs, and how long it takes."""

from collections.abc import Iterable, Iterator, Mapping
from decimal import Decimal
from typing import Any

from flask import Blueprint, Response, request

from service.api import shown
from service.api.answers import answered, carried, chosen_form
from service.api.bodies import read_json
from service.api.coverage import hours
from service.api.described import estimated as estimated_
from service.api.described import scenes
from service.api.described.operations import BUILDS, Example, Operation, described_as
from service.api.documents.build import BuildForm
from service.api.documents.fields import Text, Word
from service.api.house import house
from service.api.parameters import QueryForm, WholeText, read_query
from service.api.reading import read_as
from service.domain.build import Step
from service.domain.cost import Cost, Line, cost
from service.domain.errors import UnknownName
from service.domain.finishing import LABEL_DECIDES
from service.domain.known_names import not_known
from service.domain.purchase import (
    NOT_PLANNED,
    Purchase,
    carried_home,
    converted,
    planned_purchase,
)
from service.domain.resolving import ResolvedBuild, resolve
from service.domain.swaps import swaps
from service.domain.timeline import Timed, Timeline, timeline
from service.domain.weight import Mass, said, unweighed, weigh, whole
from service.planning.purchasing import purchase_of
from service.planning.whole import plan_build

routes = Blueprint("estimate", __name__)

PLAN_SECONDS = 3.0  # an estimate need not wait for the last proof


class EstimateQuery(QueryForm):
    """Coats for a build without steps, and what is taken to be bought: what the cut plan says, the
    list in the document, or nothing that is known.
    """

    finish = Text()
    coats = WholeText(1, 100)
    finish_when = Word("before", "after", load_default="after")
    bought = Word("plan", "list", "none", load_default="plan")


_FORM = EstimateQuery()


@routes.post("/v1/estimate")
@described_as(Operation(
    "estimateBuild", "What does it weigh and cost, and how long does it take?",
    "Mass with its spread, cost by line with what could be cheaper, and hours of work and of "
    "waiting, each with what is not known of it.",
    estimated_.ESTIMATE, BUILDS, _FORM, body=BuildForm(), refusals=(UnknownName,),
    examples={
        "ledge": Example("A ledge, varnished", {"finish": "water-polyurethane"}, scenes.LEDGE)
    },
))  # fmt: skip
def estimate_build() -> Response:
    """Mass, cost and time of a build, each with what is not known of it."""
    asked = read_query(_FORM)
    chosen_form("json", "text")
    build = resolve(read_as(house().build_form, read_json(request)), house().catalog)
    purchase, extra = _purchase(build, asked["bought"]), _extra(asked, build)
    answer = estimated(build, purchase, extra, _passed_over(asked))
    return answered(answer, _lines(answer, build.metric))


def _purchase(build: ResolvedBuild, bought: str) -> Purchase:
    if bought == "plan":
        return purchase_of(build, plan_build(build, seconds=PLAN_SECONDS))
    return planned_purchase(build) if bought == "list" else NOT_PLANNED


def estimated(
    build: ResolvedBuild,
    purchase: Purchase,
    extra: tuple[Step, ...],
    assumed: Iterable[str],
) -> dict[str, Any]:
    """The whole answer, for any purchase: that of a cut plan, or the one that the caller plans."""
    prices, when = cost(build, purchase, extra), timeline(build, extra)
    masses = weigh(build)
    piece = whole(masses)
    rows = [row for part in build.parts for row in part.rests_on]
    rows += [*piece.rests_on, *(row for line in prices.lines for row in line.rests_on)]
    rows += [*when.hands_on.rests_on, *(r for t in when.tasks for r in t.task.dries.rests_on)]
    return {
        "mass": {
            "piece": _mass(piece),
            "carry_home": _mass(carried_home(build, purchase, piece)),
            "spread_percent": round(piece.spread_percent, 1),
            "by_part": [
                {"part": one.part.part.id, "quantity": one.part.part.quantity,
                 "each": _mass(one.each)}
                for one in masses
            ],
            "not_weighed": list(unweighed(masses)),
        },
        "cost": _cost(build, purchase, prices, extra),
        "time": _time(when),
        "label": LABEL_DECIDES,
        **carried(build.catalog, rows, [*_assumed(build, purchase, when), *assumed]),
    }  # fmt: skip


def _extra(asked: Mapping[str, Any], build: ResolvedBuild) -> tuple[Step, ...]:
    """The coats that the address asks for, as one step."""
    if "finish" not in asked:
        return ()
    catalog, region = build.catalog, build.build.region
    if catalog.key("finish", region, asked["finish"]) is None:
        raise UnknownName(not_known(catalog, "finish", region, asked["finish"], "finish"))
    first = asked["finish_when"] == "before"
    return (Step("finish", finish=asked["finish"], count=asked.get("coats"), bare_at_joints=first),)


def _passed_over(asked: Mapping[str, Any]) -> Iterator[str]:
    if "coats" in asked and "finish" not in asked:
        yield "coats is passed over: no finish is named beside it"


def _mass(mass: Mass | None) -> dict[str, Any] | None:
    return None if mass is None else shown.mass(mass)


def _cost(
    build: ResolvedBuild, purchase: Purchase, found: Cost, extra: tuple[Step, ...]
) -> dict[str, Any]:
    return {
        "currency": build.build.buying.currency,
        "total": found.total,
        "total_is_whole": not found.missing and found.wood_is_planned,
        "subtotal": found.subtotal,
        "tax": found.tax,
        "purchase_planned": purchase.planned,
        "lines": [_line(line) for line in found.lines],
        "missing_prices": list(found.missing),
        "budget": found.budget,
        "over_budget": None if found.budget is None else found.total > found.budget,
        "swaps": [
            {"line": s.line, "to": s.to, "saves": s.saves, "meets_budget": s.meets_budget}
            for s in swaps(build, purchase, found, extra)
        ],
        "prices": [
            {
                "stock": one.stock,
                "wood": one.wood,
                "said": one.per,
                "per": {
                    per: _finer_than_cents(money) for per, money in converted(build, one).items()
                },
            }
            for one in build.build.buying.prices
        ],
    }


def _finer_than_cents(money: Decimal) -> Decimal:
    """To a hundredth of a cent: a price by the foot is often less than a cent apart."""
    return money.quantize(Decimal("0.0001")).normalize() + Decimal("0.00")


def _line(line: Line) -> dict[str, Any]:
    return {
        "kind": line.kind, "what": line.what, "count": line.count, "each": line.each,
        "money": line.money, "need": line.need, "note": line.note, "in_piece": line.in_piece,
        "kept": line.kept, "waste": line.waste,
    }  # fmt: skip


def _time(when: Timeline) -> dict[str, Any]:
    return {
        "hands_on": hours(when.hands_on),
        "waiting": hours(when.waiting),
        "done": hours(when.done),
        "ready_to_use": hours(when.ready_to_use),
        "own_order": when.own_order,
        "notes": list(when.notes),
        "steps": [_step(one) for one in when.tasks],
    }


def _step(one: Timed) -> dict[str, Any]:
    return {
        "what": one.task.what, "starts": hours(one.start), "hands_on": hours(one.task.work),
        "waits": hours(one.task.dries), "free": hours(one.free), "critical": one.critical,
    }  # fmt: skip


def _assumed(build: ResolvedBuild, purchase: Purchase, when: Timeline) -> Iterator[str]:
    yield from build.assumed
    yield "times of work by hand are common practice, from memory; every shop differs"
    if not purchase.planned:
        yield "the purchase is not planned: wood is counted by the length of the parts"
    if when.own_order:
        yield "no steps given: cut, sand, dry-fit, then the joints in the order of the document"


def _lines(answer: Mapping[str, Any], metric: bool) -> Iterator[str]:
    money, time = answer["cost"], answer["time"]
    yield from _weighed(answer["mass"], metric)
    short = "" if money["total_is_whole"] else ", as far as it is known"
    if all(line["money"] is None for line in money["lines"]):
        yield "cost: not known, no price is given for any of it"
    else:
        yield f"costs {_amount(money['total'], money['currency'])}{short}"
    if money["budget"] is not None:
        held = "over" if money["over_budget"] else "within"
        yield f"{held} the budget of {_amount(money['budget'], money['currency'])}{short}"
    for line in money["lines"]:
        cash = "no price" if line["money"] is None else _amount(line["money"], money["currency"])
        yield f"  {line['count']} x {line['what']}: {cash}"
    for named in ("hands_on", "waiting", "ready_to_use"):
        low, high = (round(time[named][end], 1) for end in ("low", "high"))
        yield f"{named.replace('_', ' ')}: {shown.span(low, high)} h"
    yield answer["label"]
    yield from shown.closing(answer)


def _weighed(mass: Mapping[str, Any], metric: bool) -> Iterator[str]:
    """What the piece weighs, as far as the wood of its parts is known."""
    usual: float = mass["piece"]["lb"]["usual"]
    if usual:
        short = ", without what is not weighed" if mass["not_weighed"] else ""
        yield f"weighs about {said(usual, metric)}, give or take {mass['spread_percent']} %{short}"
    else:
        yield "weight: not known"
    yield from (f"  not weighed: {text}" for text in mass["not_weighed"])


def _amount(money: Decimal, currency: str | None) -> str:
    return f"{money} {currency or ''}".strip()
