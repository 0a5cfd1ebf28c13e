"""GET /v1/tip-over: the pull that tips a piece, and whether one country's rule speaks of it."""

from collections.abc import Iterator, Mapping
from fractions import Fraction
from typing import Any

from flask import Blueprint, Response

from service.api import found, shown
from service.api.answers import answered, carried
from service.api.described import standing as described
from service.api.described.operations import IN_USE, Example, Operation, described_as
from service.api.documents.fields import Length, Quantity, Volume, Word
from service.api.documents.schemas import Book, Json, schema_of, text_of
from service.api.house import house
from service.api.one_piece import judged
from service.api.parameters import UnitsForm, WholeText, read_query
from service.domain.build import Build, Moving, Part, Stands, Stock
from service.domain.catalog import Catalog
from service.domain.findings import Finding, settled
from service.domain.resolving import ResolvedBuild, resolve
from service.domain.rules import safety, standing
from service.domain.standing import ClothingRule, Piece, clothing_rule, with_a_drawer_open
from service.domain.weight import said
from service.quantities import mass, patterns

routes = Blueprint("tip_over", __name__)

DRAWERED = frozenset({"dresser", "chest-of-drawers"})
CLOTHING = DRAWERED | {"wardrobe"}
HALF_WAY = "weight is taken at half the height and half the depth"


class Pounds(Quantity[Fraction]):
    """A weight with its unit: `85 lb`, `40 kg`."""

    def read(self, value: Any) -> Fraction:
        return mass(value)


@schema_of.register
def _(field: Pounds, book: Book) -> Json:
    return book.named("Pounds", text_of(patterns.MASS_TEXT))


class TipOverQuery(UnitsForm):
    """A piece on its feet, empty or as it is used."""

    height = Length(required=True)
    depth = Length(required=True)
    weight = Pounds(required=True)
    push_at = Length()
    kind = Word("dresser", "chest-of-drawers", "wardrobe", "bookcase", "cabinet", "other")
    encloses = Volume()
    children = WholeText(0, 120)


_FORM = TipOverQuery()


@routes.get("/v1/tip-over")
@described_as(Operation(
    "pullThatTips", "Could it tip over?",
    "The pull that tips a piece, how far it may lean, what opening a drawer does, and whether one "
    "country's rule on clothing storage speaks of it.",
    described.TIP_OVER, IN_USE, _FORM,
    examples={
        "bookcase": Example(
            "A bookcase", {"height": "60", "depth": "11", "weight": "70lb", "kind": "bookcase"}
        ),
        "dresser": Example(
            "A dresser in a child's room",
            {"height": "48", "depth": "16", "weight": "85 lb", "kind": "dresser", "children": "3"},
        ),
    },
))  # fmt: skip
def pull_that_tips() -> Response:
    """The pull that tips it, how far it may lean, what opening a drawer does."""
    asked, catalog = read_query(_FORM), house().catalog
    metric = asked["units"] == "mm"
    weight = float(asked["weight"])
    piece = Piece(float(asked["height"]), float(asked["depth"]), weight)
    push_at = asked.get("push_at") or asked["height"]
    rule = clothing_rule(catalog, float(asked["height"]), weight, _number(asked.get("encloses")))
    open_piece = with_a_drawer_open(piece, catalog) if asked.get("kind") in DRAWERED else None
    hung = open_piece.hung(open_piece.opens[0].reach) if open_piece else None
    hangs, leans = catalog.standing["tip.hung-weight"], catalog.standing["tip.lean"]
    answer = {
        "push_at": shown.length(push_at, metric),
        "tips_at_pull": shown.weight(piece.pull(float(push_at))),
        "tips_leaning_degrees": round(piece.lean, 1),
        "one_test_leans_degrees": float(leans.high or 0),
        "tips_with_hung_on_a_drawer": shown.weight(hung) if hung is not None else None,
        "the_test_hangs": shown.weight(float(hangs.high or 0)),
        "clothing_rule": _rule(rule, asked.get("kind")),
        "fix_it": catalog.cautions["tip-over.anchor"].words,
        "findings": found.at_parameters(
            _found(asked, catalog, open_piece or piece, metric), {"#/stands": "height"}, metric
        ),
        **carried(
            catalog,
            [*rule.rests_on, hangs.row, leans.row, catalog.cautions["tip-over.anchor"].row],
            _assumed(asked),
        ),
    }
    return answered(answer, _lines(answer, metric))


def _found(asked: Mapping[str, Any], catalog: Catalog, piece: Piece, metric: bool) -> list[Finding]:
    stands = Stands(height=asked["height"], depth=asked["depth"], encloses=asked.get("encloses"))
    drawers = (Moving("drawer"),) if asked.get("kind") in DRAWERED else ()
    build = Build(
        "a piece",
        parts=(Part("piece", Stock(), None),),
        stands=stands,
        moving=drawers,
        youngest=asked.get("children"),
    )
    resolved: ResolvedBuild = resolve(build, catalog)
    tips = [
        settled(standing.tips, spot, catalog) for spot in standing.tipping(catalog, piece, metric)
    ]
    return [*tips, *judged(resolved, (safety.tip_over,))]


def _rule(rule: ClothingRule, kind: str | None) -> dict[str, Any]:
    stores = None if kind is None else kind in CLOTHING
    applies = False if stores is False else rule.applies if stores else None
    return {
        "applies": applies,
        "stores_clothes": stores,
        "thresholds": [
            {"what": name, "at_least": figure, "reached": reached}
            for name, figure, reached in rule.reaches
        ],
        "means": "whether a United States rule speaks of it, and nothing about how it stands",
    }


def _number(value: Fraction | None) -> float | None:
    return None if value is None else float(value)


def _assumed(asked: Mapping[str, Any]) -> Iterator[str]:
    yield HALF_WAY
    yield "a straight pull forward, on a level, hard floor"
    if asked.get("kind") in DRAWERED:
        yield "one drawer two thirds out, empty"
    if "push_at" not in asked:
        yield "pulled at the top"
    elif asked["push_at"] > asked["height"]:
        yield "push_at is over its height: it is pulled by something that stands on it"


def _lines(answer: Mapping[str, Any], metric: bool) -> Iterator[str]:
    pull = said(answer["tips_at_pull"]["lb"], metric)
    yield f"a pull of {pull} at {answer['push_at']['tape']} tips it"
    yield f"  goes over leaning {answer['tips_leaning_degrees']:g} degrees; one test leans " + (
        f"{answer['one_test_leans_degrees']:g}"
    )
    if answer["tips_with_hung_on_a_drawer"]:
        hung = said(answer["tips_with_hung_on_a_drawer"]["lb"], metric)
        test = said(answer["the_test_hangs"]["lb"], metric)
        yield f"  {hung} hung on an open drawer tips it; the test hangs {test}"
    applies = {True: "speaks of it", False: "does not speak of it", None: "may speak of it"}
    spoken = applies[answer["clothing_rule"]["applies"]]
    yield f"  the US rule on clothing storage {spoken}, which says nothing of how it stands"
    if answer["fix_it"] not in (finding["detail"] for finding in answer["findings"]):
        yield f"  {answer['fix_it']}"
    yield from found.in_lines(answer)
    yield from shown.closing(answer)
