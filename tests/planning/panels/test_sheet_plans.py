"""Plans of sheets by hand, and what must always hold of them."""

from decimal import Decimal
from fractions import Fraction

import pytest

from service.planning.panels.asking import Cutting, Panel, Sheet
from service.planning.panels.planned import SheetPlan
from service.planning.panels.sheets import plan_sheets
from tests.planning.panels.cases import workshop
from tests.planning.panels.checker import faults

FULL = Sheet("full", Fraction(96), Fraction(48), Decimal("60.00"))
HALF = Sheet("half", Fraction(48), Fraction(48), Decimal("36.00"))
EIGHTH = Cutting(kerf=Fraction(1, 8), store_cuts=0)


def planned(
    panels: list[Panel], sheets: list[Sheet], cutting: Cutting = EIGHTH, effort: int = 10**7
) -> SheetPlan:
    plan = plan_sheets(panels, sheets, cutting, deadline_s=None, effort=effort)
    assert faults(panels, sheets, cutting, plan) == []
    return plan


def test_four_panels_that_fill_a_sheet_with_their_kerfs_come_out_of_one() -> None:
    # two kerfs of 1/8 along and across: 2 x 47 15/16 + 1/8 = 96, 2 x 23 15/16 + 1/8 = 48
    plan = planned([Panel("shelf", Fraction(767, 16), Fraction(383, 16), 4)], [FULL])
    assert (plan.cost, plan.status) == (Decimal("60.00"), "optimal")


def test_four_panels_a_sixty_fourth_too_long_need_two_sheets() -> None:
    plan = planned(
        [Panel("shelf", Fraction(767, 16) + Fraction(1, 64), Fraction(383, 16), 4)], [FULL]
    )
    assert (plan.cost, plan.status) == (Decimal("120.00"), "optimal")


def test_a_panel_as_large_as_the_sheet_needs_no_cut() -> None:
    (sheet,) = planned([Panel("top", Fraction(96), Fraction(48))], [FULL]).sheets
    assert sheet.cuts == () and sheet.rests == ()


def test_the_trim_comes_off_every_edge() -> None:
    panels, trimmed = (
        [Panel("top", Fraction(96), Fraction(48))],
        Cutting(kerf=Fraction(1, 8), trim=Fraction(1, 4)),
    )
    plan = planned(panels, [FULL], trimmed)
    assert [(u.panel, u.why) for u in plan.unplaced] == [("top", "larger than every sheet")]
    assert plan.enough == "no" and plan.cost == 0
    (sheet,) = planned([Panel("top", Fraction(191, 2), Fraction(95, 2))], [FULL], trimmed).sheets
    assert len(sheet.cuts) == 4 and all(cut.trim for cut in sheet.cuts)


def test_grain_keeps_a_panel_from_turning() -> None:
    across = [Panel("door", Fraction(20), Fraction(60))]
    assert planned(across, [FULL]).unplaced
    free = planned([Panel("door", Fraction(20), Fraction(60), turns=True)], [FULL])
    assert free.sheets[0].panels[0].turned


def test_a_sheet_without_grain_takes_every_panel_either_way() -> None:
    plain = Sheet("plain", Fraction(96), Fraction(48), Decimal("40.00"), grain=False)
    assert planned([Panel("door", Fraction(20), Fraction(60))], [plain]).sheets[0].panels[0].turned


def test_two_halves_are_bought_where_they_are_cheaper_than_a_whole() -> None:
    halves = [Panel("side", Fraction(48), Fraction(24), 4)]
    cheap = Sheet("half", Fraction(48), Fraction(49), Decimal("29.00"))
    assert planned(halves, [FULL, cheap]).cost == Decimal("58.00")


def test_of_purchases_that_cost_the_same_the_fewer_sheets_are_bought() -> None:
    same = Sheet("half", Fraction(48), Fraction(48), Decimal("30.00"))
    plan = planned([Panel("side", Fraction(47), Fraction(20), 4)], [FULL, same])
    assert (plan.cost, len(plan.sheets)) == (Decimal("60.00"), 1)


def test_an_offcut_on_hand_costs_nothing_and_is_used_once() -> None:
    offcut = Sheet("offcut", Fraction(30), Fraction(20), at_most=1, on_hand=True)
    plan = planned([Panel("shelf", Fraction(30), Fraction(20), 2)], [HALF, offcut])
    assert plan.cost == Decimal("36.00")
    assert sorted(cut.sheet.id for cut in plan.sheets) == ["half", "offcut"]


def test_no_more_sheets_are_taken_than_there_are() -> None:
    few = Sheet("few", Fraction(48), Fraction(48), Decimal("10.00"), at_most=2)
    plan = planned([Panel("top", Fraction(48), Fraction(48), 3)], [few, FULL])
    assert plan.cost == Decimal("80.00")


def test_what_the_sheets_do_not_yield_is_named_and_the_rest_is_planned() -> None:
    one = Sheet("one", Fraction(48), Fraction(48), Decimal("10.00"), at_most=1)
    plan = planned(
        [Panel("top", Fraction(48), Fraction(48), 2), Panel("beam", Fraction(99), Fraction(3))],
        [one],
    )
    assert [(u.panel, u.quantity, u.why) for u in plan.unplaced] == [
        ("top", 1, "not enough sheets"), ("beam", 1, "larger than every sheet"),
    ]  # fmt: skip
    assert (plan.enough, plan.cost, plan.status) == ("no", Decimal("10.00"), "optimal")


def pinwheel() -> list[Panel]:
    """Four 14 x 10 panels around a 4 x 4 one fill 24 x 24, but no straight cut parts them."""
    return [
        Panel("blade", Fraction(14), Fraction(10), 4, turns=True),
        Panel("hub", Fraction(4), Fraction(4)),
    ]


def test_a_pinwheel_cannot_be_cut_edge_to_edge() -> None:
    square = Sheet("square", Fraction(24), Fraction(24), Decimal("10.00"))
    plan = planned(pinwheel(), [square], Cutting(kerf=Fraction(0), store_cuts=0))
    assert (plan.cost, plan.status) == (Decimal("20.00"), "optimal")


@pytest.mark.parametrize(("turns", "cost"), [(0, "20.00"), (1, "10.00"), (None, "10.00")])
def test_four_quarters_need_one_turn_of_the_sheet(turns: int | None, cost: str) -> None:
    # without a turn the sheet gives strips of its own width only, and no quarter comes free
    quarters = [Panel("quarter", Fraction(24), Fraction(12), 4)]
    sheets = [
        Sheet("s", Fraction(48), Fraction(24), Decimal("10.00")),
        Sheet("strip", Fraction(24), Fraction(12), Decimal("5.00")),
    ]
    plan = planned(quarters, sheets, Cutting(kerf=Fraction(0), turns=turns, store_cuts=0))
    assert (plan.cost, plan.status) == (Decimal(cost), "optimal")


def test_all_four_cuts_of_a_small_panel_keep_the_larger_rest_whole() -> None:
    (sheet,) = planned([Panel("shelf", Fraction(24), Fraction(12))], [FULL]).sheets
    largest = max(rest.area.size for rest in sheet.rests)
    assert largest == (Fraction(96) - 24 - Fraction(1, 8)) * 48


def test_a_rest_is_kept_where_both_its_sides_are_long_enough() -> None:
    cutting = Cutting(kerf=Fraction(1, 8), keep_at_least=Fraction(10), store_cuts=0)
    (sheet,) = planned([Panel("top", Fraction(80), Fraction(40))], [FULL], cutting).sheets
    kept = {min(rest.area.length, rest.area.width) >= 10: rest.keep for rest in sheet.rests}
    assert kept == {True: True, False: False}


def test_the_store_makes_the_first_cuts_until_the_pieces_can_be_carried() -> None:
    carry = Cutting(kerf=Fraction(1, 8), carry=(Fraction(50), Fraction(50)), store_cuts=None)
    (sheet,) = planned([Panel("side", Fraction(47), Fraction(47), 2)], [FULL], carry).sheets
    stores = [cut for cut in sheet.cuts if cut.by == "store"]
    assert [cut.order for cut in stores] == list(range(1, len(stores) + 1))
    assert {(cut.piece.length, cut.piece.width) for cut in stores[:1]} == {
        (Fraction(96), Fraction(48))
    }
    homes = [cut.piece for cut in sheet.cuts if cut.by == "home"]
    assert all(piece.length <= 50 and piece.width <= 50 for piece in homes)


def test_the_store_makes_no_more_cuts_than_it_does() -> None:
    for most in (0, 1, 2):
        carry = Cutting(kerf=Fraction(1, 8), carry=(Fraction(30), Fraction(30)), store_cuts=most)
        plan = planned([Panel("side", Fraction(20), Fraction(20), 8)], [FULL], carry)
        assert all(sum(cut.by == "store" for cut in sheet.cuts) == most for sheet in plan.sheets)


def test_sizes_on_no_common_grid_are_still_planned() -> None:
    odd = [
        Panel("a", Fraction(10**9 + 7, 10**8 + 7), Fraction(31, 7), 3),
        Panel("b", Fraction(22, 13), Fraction(355, 113), 2),
    ]
    plan = planned(
        odd, [Sheet("s", Fraction(96) + Fraction(1, 10**9 + 9), Fraction(48), Decimal("60.00"))]
    )
    assert plan.cost == Decimal("60.00") and plan.enough == "yes"


def test_inches_in_hundredths_beside_millimeters_fit_to_the_last_step() -> None:
    # 5/127 in is a millimeter: two panels of 600 mm and a kerf fill 1,203 mm with 3 mm sawn
    metric = Cutting(kerf=Fraction(15, 127), store_cuts=0)
    pair = [
        Panel("a", Fraction(3000, 127), Fraction(1), 2),
        Panel("b", Fraction(1, 100), Fraction(1)),
    ]
    sheet = Sheet("s", Fraction(6015, 127), Fraction(1), Decimal("3.00"))
    assert planned(pair[:1], [sheet], metric).cost == Decimal("3.00")
    assert planned(pair, [sheet], metric).cost == Decimal("6.00")


def test_nothing_wanted_costs_nothing() -> None:
    plan = planned([], [FULL])
    assert (plan.cost, plan.status, plan.enough) == (0, "optimal", "yes")


def test_with_no_sheets_every_panel_is_named() -> None:
    plan = planned([Panel("top", Fraction(10), Fraction(10), 2)], [])
    assert [(u.panel, u.quantity) for u in plan.unplaced] == [("top", 2)]


@pytest.mark.parametrize("seed", range(24))
def test_a_plan_of_a_workshop_stands_up_to_the_checker(seed: int) -> None:
    panels, sheets, cutting = workshop(seed)
    assert planned(panels, sheets, cutting).enough == "yes"


def test_many_small_sheets_with_too_little_area_are_proved_not_to_do() -> None:
    offcuts = Sheet("offcut", Fraction(24), Fraction(24), Decimal(0), 20, on_hand=True)
    plan = planned([Panel("top", Fraction(23), Fraction(23), 24)], [offcuts])
    assert plan.enough == "no" and [u.quantity for u in plan.unplaced] == [4]
