"""GET /v1/hanging: a rail on a wall: which studs it meets, how deep the screws go, their pull."""

from collections.abc import Iterator, Mapping
from fractions import Fraction
from typing import Any

from flask import Blueprint, Response
from marshmallow import ValidationError, validates_schema

from service.api import found, shown
from service.api.answers import answered, carried
from service.api.described import standing
from service.api.described.operations import IN_USE, Example, Operation, described_as
from service.api.documents.fields import Length, Weight, Word
from service.api.house import house
from service.api.one_piece import judged
from service.api.parameters import UnitsForm, WholeText, read_query
from service.domain.build import Build, Fastener, Joint, Part, Place, Stock, Wall
from service.domain.catalog import Catalog
from service.domain.hanging import (
    ALWAYS,
    USUAL_BOARD,
    bite_of,
    bite_wanted,
    pull_on_screws,
    studs_met,
)
from service.domain.resolving import resolve
from service.domain.rules import hanging
from service.domain.tape import plain
from service.domain.weight import said

routes = Blueprint("hanging", __name__)

RULES = (hanging.misses_studs, hanging.bite, hanging.wall_unknown)


class HangingQuery(UnitsForm):
    """A rail, the wall behind it, the screws through it, and what hangs on it."""

    rail = Length(required=True)
    wall = Word("studs", "masonry", "unknown", load_default="studs")
    studs = Length()
    through = Length()
    wallboard = Length()
    screw = Length()
    screws = WholeText(1, 100, load_default=2)
    hangs = Weight(data_key="load")
    depth = Length()
    arm = Length()

    @validates_schema
    def _pull_needs_all(self, data: dict[str, Any], **_: Any) -> None:
        wanted = ("hangs", "depth", "arm")
        if any(name in data for name in wanted) and not all(name in data for name in wanted):
            raise ValidationError("load, depth and arm go together.", field_name="load")
        if "screw" in data and "through" not in data:
            raise ValidationError("This is required with screw.", field_name="through")


_FORM = HangingQuery()


@routes.get("/v1/hanging")
@described_as(Operation(
    "railOnWall", "Does the screw reach the stud?",
    "Which studs a rail meets, how deep its screws go, and the pull on the upper ones.",
    standing.HANGING, IN_USE, _FORM,
    examples={
        "rail": Example(
            "A 36 in rail on studs", {"rail": "36", "studs": "16", "through": "3/4", "screw": "3"}
        ),
        "pull": Example(
            "What pulls on the screws of a cabinet",
            {"rail": "30", "studs": "16", "load": "60 lb", "depth": "12", "arm": "24"},
        ),
    },
))  # fmt: skip
def rail_on_a_wall() -> Response:
    """Studs met, the bite of the screws, and the pull on the upper ones."""
    asked, catalog = read_query(_FORM), house().catalog
    metric = asked["units"] == "mm"
    board = asked.get("wallboard", USUAL_BOARD)
    on_studs = asked["wall"] == "studs" and "studs" in asked
    met = studs_met(asked["rail"], asked["studs"]) if on_studs else None
    bite = None
    if on_studs and "screw" in asked:
        bite = bite_of(asked["screw"], asked["through"], board)
    pull = None
    if "hangs" in asked:
        pull = pull_on_screws(float(asked["hangs"]), float(asked["depth"]), float(asked["arm"]))
    wanted = bite_wanted(catalog)
    told = [catalog.cautions[key] for key in ALWAYS]
    answer = {
        "wall": asked["wall"],
        "judged": on_studs,
        "studs_met": {"least": met.least, "most": met.most} if met else None,
        "bite": _signed(bite, metric),
        "wanted": {
            "low": shown.length(wanted.low or Fraction(0), metric),
            "high": shown.length(wanted.high or Fraction(0), metric),
        },
        "pull_on_upper_screws": None if pull is None else shown.weight(pull),
        "pull_on_each": None if pull is None else shown.weight(pull / asked["screws"]),
        "always": [caution.words for caution in told],
        "not_judged": ["the wall and what is in it", "what holds the rail to the piece"],
        "findings": found.at_parameters(
            judged(resolve(build_of(asked, board), catalog), RULES),
            {"#/joints/0": "rail", "#/joints/0/fastener/length": "screw"},
            metric,
        ),
        **carried(
            catalog,
            [wanted.row, *_spacing(catalog), *(caution.row for caution in told)],
            _assumed(asked),
        ),
    }
    return answered(answer, _lines(answer, metric))


def build_of(asked: Mapping[str, Any], board: Fraction) -> Build:
    """The rail and its screws as a build on that wall."""
    thick = asked.get("through", Fraction(3, 4))
    rail = Part("rail", Stock(thickness=thick, width=Fraction(3)), asked["rail"])
    fastener = Fastener(length=asked["screw"]) if "screw" in asked else None
    joint = Joint("wall", "rail", "wall", method="screw", fastener=fastener)
    wall = Wall(asked["wall"], asked.get("studs"), board)
    return Build("a rail", asked["units"], place=Place(wall=wall), parts=(rail,), joints=(joint,))


def _spacing(catalog: Catalog) -> list[str]:
    keys = ("hang.stud-spacing", "hang.stud-spacing.metric")
    return [catalog.standing[key].row for key in keys]


def _signed(size: Fraction | None, metric: bool) -> dict[str, Any] | None:
    if size is None:
        return None
    return shown.length(max(size, Fraction(0)), metric) | {"reaches": size > 0}


def _assumed(asked: Mapping[str, Any]) -> Iterator[str]:
    if "screw" in asked and "wallboard" not in asked:
        yield f"wallboard {plain(USUAL_BOARD, asked['units'] == 'mm')} thick"
    if "hangs" in asked:
        yield "the load hangs half the depth in front of the wall"
        yield f"{asked['screws']} upper screws share the pull alike"


def _lines(answer: Mapping[str, Any], metric: bool) -> Iterator[str]:
    if answer["studs_met"]:
        met = answer["studs_met"]
        studs = "stud" if met["least"] == 1 else "studs"
        yield f"meets {met['least']} {studs} wherever it is put, {met['most']} at most"
    else:
        yield "the wall is not judged: take a fixing made for that wall and that weight"
    if answer["bite"]:
        low, high = answer["wanted"]["low"]["tape"], answer["wanted"]["high"]["tape"]
        yield f"  screws sit {answer['bite']['tape']} in the stud; shops want {low} to {high}"
    if answer["pull_on_upper_screws"]:
        every, each = (
            said(answer[name]["lb"], metric) for name in ("pull_on_upper_screws", "pull_on_each")
        )
        yield f"  pull on the upper screws: {every} together, {each} each"
    for words in answer["always"]:
        yield f"  {words}"
    yield from found.in_lines(answer)
    yield from shown.closing(answer)
