"""POST /v1/cut-plan: what do I buy, and how do I cut it?"""

from typing import Any

from flask import Blueprint, Response, request

from service.api import shown
from service.api.answers import answered, carried
from service.api.bodies import read_json
from service.api.described import planned, scenes
from service.api.described.operations import BUILDS, Example, Operation, described_as
from service.api.documents.build import BuildForm
from service.api.documents.fields import Text, Word
from service.api.house import house
from service.api.parameters import NumberText, QueryForm, read_query
from service.api.planned import Showing
from service.api.planned_lines import lines
from service.api.reading import read_as
from service.domain.errors import Complaint, UnknownName
from service.domain.resolving import ResolvedBuild, resolve
from service.planning.offers import Choice
from service.planning.wanted import FULL_KERF, assumed_kerf
from service.planning.whole import plan_build

routes = Blueprint("cut_plan", __name__)

MOST_SECONDS = 30.0


class CutPlanQuery(QueryForm):
    """How long to search, whether to compare, and which pieces to cut anew after a slip."""

    deadline_s = NumberText(0, MOST_SECONDS, load_default=10.0)
    compare = Word("true", "false", load_default="false")
    spoiled = Text()


_QUERY = CutPlanQuery()


@routes.post("/v1/cut-plan")
@described_as(Operation(
    "planCuts", "What do I buy, and how do I cut it?",
    "The cheapest boards and sheets for a build, the cuts in order, what is left, and the least "
    "that any plan could cost.",
    planned.CUT_PLAN, BUILDS, _QUERY, body=BuildForm(), refusals=(UnknownName,),
    examples={
        "slats": Example("Four slats that do not come out of an 8 ft board", body=scenes.SLATS),
        "sheet": Example("Two panels out of a sheet", body=scenes.BACK_PANEL),
    },
))  # fmt: skip
def plan_cuts() -> Response:
    """The cheapest boards and sheets, the cuts in order, and what is left."""
    asked = read_query(_QUERY)
    resolved = resolve(read_as(house().build_form, read_json(request)), house().catalog)
    plan = plan_build(
        resolved,
        seconds=max(0.1, asked["deadline_s"]),
        compare=asked["compare"] == "true",
        choice=Choice(pieces=spoiled(asked.get("spoiled"), resolved)),
    )
    answer: dict[str, Any] = Showing(resolved, plan).answer()
    rows = [row for part in resolved.parts for row in part.rests_on]
    granted = assumed_kerf(resolved)
    rows += [FULL_KERF] if granted else []
    answer |= carried(house().catalog, rows, (*resolved.assumed, *granted))
    return answered(answer, [*lines(answer), *shown.closing(answer)])


def spoiled(text: str | None, build: ResolvedBuild) -> dict[str, int] | None:
    """Pieces to be cut anew: `leg:1,rail:2`. Raises UnknownName for a part not in the list."""
    if text is None:
        return None
    pieces: dict[str, int] = {}
    for entry in text.split(","):
        part, _, count = entry.strip().partition(":")
        if part not in build.by_id or not (count or "1").isascii() or not (count or "1").isdigit():
            raise UnknownName(Complaint("spoiled", f"{entry.strip()!r} is no part:count."))
        if part in pieces:
            raise UnknownName(Complaint("spoiled", f"{part} is named twice."))
        pieces[part] = int((count or "1")[:4])
        if not 1 <= pieces[part] <= build.by_id[part].part.quantity:
            there = build.by_id[part].part.quantity
            raise UnknownName(Complaint("spoiled", f"There are 1 to {there} of {part} to spoil."))
    return pieces
