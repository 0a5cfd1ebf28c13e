"""Resizing what has no run, and what stands in for stock that another region does not sell."""

from fractions import Fraction
from math import cos, radians
from typing import Any

import pytest

from service.api.documents.build import BuildForm
from service.domain.catalog import Catalog
from service.domain.checking import check
from service.domain.resizing.answer import NothingGives, Resized, Resizing, UnknownInResize
from service.domain.resizing.resize import resize

Json = dict[str, Any]

LEG: Json = {
    "name": "Leaning leg",
    "parts": [
        {"id": "leg", "stock": "1x3", "length": "16 23/64", "ends": [{"miter": 12}, {"miter": 12}],
         "ends_lean": "same", "measured": "center"}
    ],
    "shapes": [{"id": "legs", "shape": "leaning", "height": "16", "lean": 12,
                "parts": {"leg": ["leg"]}}],
}  # fmt: skip
PLATFORM: Json = {
    "name": "Platform", "wood": "spf",
    "parts": [
        {"id": "side", "stock": "1x6", "length": "30", "quantity": 2, "wood": "red oak"},
        {"id": "shelf", "stock": "1x4", "length": "22 1/2"},
    ],
    "runs": [
        {"id": "wide", "equals": "24", "pieces": [
            {"part": "side", "along": "thickness", "count": 2},
            {"part": "shelf", "along": "length"}]},
        {"id": "deep", "equals": "11", "pieces": [
            {"part": "side", "along": "width", "count": 2}]},
    ],
}  # fmt: skip


def resized(catalog: Catalog, document: Json, **how: Any) -> Resized:
    return resize(BuildForm().load(document), Resizing(**how), catalog)


def test_a_piece_of_shapes_alone_takes_a_new_measure(catalog: Catalog) -> None:
    """A leg that leans 12 degrees under a height of 20 in is 20 / cos 12 long."""
    found = resized(catalog, LEG, to={"legs.height": Fraction(20)})
    sizes = {change.path: change.is_now for change in found.changed}
    assert sizes["/shapes/0/height"] == 20
    length = sizes["/parts/0/length"]
    assert isinstance(length, Fraction)
    assert float(length) == pytest.approx(20 / cos(radians(12)), abs=1e-3)
    assert set(sizes) == {"/shapes/0/height", "/parts/0/length"}


def test_a_measure_that_no_shape_has_is_refused_with_those_there_are(catalog: Catalog) -> None:
    with pytest.raises(UnknownInResize, match=r"measures of shapes: legs\.height"):
        resized(catalog, LEG, to={"legs.widht": Fraction(20)})


def test_a_measure_that_a_shape_can_not_have_is_refused(catalog: Catalog) -> None:
    """Crossed legs 2 1/2 in wide do not cross within 1 in."""
    crossed: Json = {
        "name": "Crossed",
        "parts": [{"id": "leg", "stock": "1x3", "length": "24 31/64", "quantity": 2}],
        "shapes": [{"id": "cross", "shape": "crossed-legs", "width": "20", "height": "18",
                    "parts": {"leg": ["leg"]}}],
    }  # fmt: skip
    with pytest.raises(NothingGives, match="cross can't be built so"):
        resized(catalog, crossed, to={"cross.width": Fraction(1)})


def test_what_stands_in_for_a_board_keeps_its_width(catalog: Catalog) -> None:
    """The board was as wide as its stock; nobody said that it may be another width."""
    found = {c.path: c for c in resized(catalog, PLATFORM, region="eu").changed}
    assert found["/parts/0/width"].is_now == Fraction(11, 2)
    assert found["/parts/0/stock"].is_now == "plywood-18mm"
    with pytest.raises(NothingGives):
        resized(catalog, PLATFORM, region="eu", to={"deep": Fraction(12)})


def test_a_panel_in_place_of_solid_wood_is_said_and_is_not_of_that_wood(catalog: Catalog) -> None:
    answer = resized(catalog, PLATFORM, region="eu")
    found = {c.path: c for c in answer.changed}
    assert "a panel in place of solid wood" in found["/parts/0/stock"].why
    assert (found["/parts/0/wood"].was, found["/parts/0/wood"].is_now) == ("red oak", None)
    wood = check(answer.build, catalog).resolved.parts[0].wood
    assert wood is not None and wood.kind == "panel"
