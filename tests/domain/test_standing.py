"""Tipping and hanging, by the balance of moments on paper."""

from fractions import Fraction
from math import atan2, degrees
from typing import Any

import pytest

from service.api.documents.build import BuildForm
from service.domain.catalog import Catalog
from service.domain.checking import check
from service.domain.hanging import pull_on_screws, studs_met
from service.domain.standing import Piece, Swung, clothing_rule


def test_a_pull_at_the_top_balances_half_the_depth() -> None:
    # 60 lb, 12 in deep, 48 in tall: 60 x 6 / 48 = 7.5 lb.
    assert Piece(48, 12, 60).pull(48) == pytest.approx(7.5)


def test_a_load_on_it_steadies_a_piece_that_is_shut() -> None:
    assert Piece(48, 12, 60, load=40).pull(48) == pytest.approx(12.5)


def test_it_may_lean_until_its_middle_is_over_the_edge() -> None:
    assert Piece(60, 10, 80).lean == pytest.approx(degrees(atan2(10, 60)))


def test_an_open_drawer_takes_from_what_rights_it() -> None:
    # Shut part 50 lb x 6 in = 300; drawer 10 lb, middle 2 in ahead: 300 - 20 = 280 in-lb.
    # A weight on its front, 8 in ahead, tips it at 280 / 8 = 35 lb.
    drawer = Swung("drawer", "drawer", 10, 2, 8)
    piece = Piece(48, 12, 60, opens=(drawer,))
    assert piece.rights == pytest.approx(280)
    assert piece.hung(8) == pytest.approx(35)


def test_what_goes_over_by_itself_needs_no_pull() -> None:
    piece = Piece(30, 10, 20, opens=(Swung("drawer", "drawer", 18, 10, 20),))
    assert piece.rights < 0
    assert piece.pull(30) == piece.hung(20) == 0


@pytest.mark.parametrize(
    ("height", "mass", "volume", "applies"),
    [
        (27, 30, 3.2, True),
        (26.99, 30, 3.2, False),
        (27, 29.99, 3.2, False),
        (27, 30, 3.19, False),
        (40, 60, None, None),
        (20, 60, None, False),
    ],
)
def test_the_rule_on_clothing_storage_speaks_from_27_in_30_lb_and_3_2_ft3(
    catalog: Catalog, height: float, mass: float, volume: float | None, applies: bool | None
) -> None:
    # 16 CFR 1261 as the commission sums it up.
    assert clothing_rule(catalog, height, mass, volume).applies is applies


@pytest.mark.parametrize(
    ("rail", "spacing", "least", "most"),
    [("16", "16", 1, 1), ("15 63/64", "16", 0, 1), ("31", "16", 1, 2), ("32", "16", 2, 2),
     ("48", "24", 2, 2), ("49", "24", 2, 3)],
)  # fmt: skip
def test_a_rail_meets_so_many_studs(rail: str, spacing: str, least: int, most: int) -> None:
    size = sum(map(Fraction, rail.split()), Fraction(0))
    met = studs_met(size, Fraction(spacing))
    assert (met.least, met.most) == (least, most)


def test_the_pull_on_upper_screws_turns_about_the_lower_edge() -> None:
    # 40 lb, 6 in in front of the wall, 10 in under the screws: 24 lb.
    assert pull_on_screws(40, 12, 10) == pytest.approx(24)


def chest(**changes: Any) -> dict[str, Any]:
    """A chest 40 in tall and 20 in deep of about 50 lb, with two drawers of 1x6 in it."""
    return {
        "name": "Chest", "wood": "spf",
        "parts": [
            {"id": "side", "stock": "1x12", "length": "40", "quantity": 4},
            {"id": "top", "stock": "1x12", "length": "36", "quantity": 6},
            {"id": "drawer", "stock": "1x6", "length": "20", "quantity": 8},
        ],
        "stands": {"height": "40", "width": "36", "depth": "20", "kept_square_by": ["back"]},
        **changes,
    }  # fmt: skip


def tips(catalog: Catalog, document: dict[str, Any]) -> list[str]:
    found = check(BuildForm().load(document), catalog).findings
    return [f.detail for f in found if f.code == "stands.tips"]


def test_drawers_make_a_piece_tip_that_stood(catalog: Catalog) -> None:
    assert tips(catalog, chest()) == []
    drawers = [{"kind": "drawer", "part": "drawer"}]
    (detail,) = tips(catalog, chest(moving=drawers))
    assert "hung on an open drawer" in detail
    assert detail.startswith("Empty")


def test_a_piece_fixed_to_the_wall_is_not_judged_for_tipping(catalog: Catalog) -> None:
    document = chest(moving=[{"kind": "drawer", "part": "drawer"}])
    document["stands"]["fixed"] = True
    assert tips(catalog, document) == []


def test_nothing_said_of_a_steady_piece_is_a_word_against_fixing_it(catalog: Catalog) -> None:
    document = chest()
    checked = check(BuildForm().load(document), catalog)
    (caution,) = [f for f in checked.findings if f.code == "safety.tip-over"]
    assert "Anchor" in caution.detail
