"""Estimates by hand: the arithmetic stands beside each expected number."""

from dataclasses import replace
from decimal import Decimal
from fractions import Fraction
from time import perf_counter
from typing import Any

import pytest

from service.api.documents.build import BuildForm
from service.domain.build import Step
from service.domain.catalog import Catalog
from service.domain.cost import cost, wood_line
from service.domain.finishing import Span, needed
from service.domain.handwork import cutting
from service.domain.purchase import Bought, Purchase, converted, each, planned_purchase
from service.domain.resolving import ResolvedBuild, resolve
from service.domain.swaps import Swap, swaps
from service.domain.timeline import timeline
from service.planning.offers import prices_of
from service.planning.wanted import stock_of

F = Fraction


def resolved(catalog: Catalog, **rest: Any) -> ResolvedBuild:
    parts = [{"id": "rail", "stock": "1x4", "length": "24", "quantity": 2},
             {"id": "stile", "stock": "1x4", "length": "12", "quantity": 2}]  # fmt: skip
    return resolve(BuildForm().load({"name": "Trial", "parts": parts, **rest}), catalog)


def offered(build: ResolvedBuild, coats: tuple[Step, ...] = ()) -> tuple[Swap, ...]:
    bought = planned_purchase(build)
    return swaps(build, bought, cost(build, bought, coats), coats)


def priced(*prices: dict[str, Any], **rest: Any) -> dict[str, Any]:
    return {"price_list": {"currency": "USD", "prices": list(prices)}, **rest}


def test_finish_is_area_times_coats_over_spread_and_loss() -> None:
    # 100 ft2 x 2 coats / 400 ft2/gal = 0.5 gal, a tenth more lost: 0.55 gal.
    one = needed(F(100), Span(F(2), F(2)), Span(F(400), F(400)), Span(F(1, 10), F(1, 10)))
    assert (one.low, one.high) == (F(11, 20), F(11, 20))


# 1x4 counts 1 x 4 in: a third of a board foot in a foot. 8 ft at 0.90 a foot is 7.20.
@pytest.mark.parametrize(
    ("price", "expected"),
    [
        ({"price": "7.20", "length": "96"}, {"piece": "7.20", "foot": "0.90", "board-foot": "2.7"}),
        ({"price": "0.90", "per": "foot", "length": "96"},
         {"piece": "7.20", "foot": "0.90", "board-foot": "2.7"}),
        ({"price": "2.70", "per": "board-foot", "length": "96"},
         {"piece": "7.20", "foot": "0.90", "board-foot": "2.7"}),
    ],
)  # fmt: skip
def test_a_price_is_said_in_every_way(
    catalog: Catalog, price: dict[str, str], expected: dict[str, str]
) -> None:
    build = resolved(catalog, buying=priced({"stock": "1x4", **price}))
    found = converted(build, build.build.buying.prices[0])
    assert found == {name: Decimal(money) for name, money in expected.items()}


def test_a_price_by_the_piece_holds_for_its_own_length_only(catalog: Catalog) -> None:
    build = resolved(catalog, buying=priced({"stock": "1x4", "price": "7.20", "length": "96"}))
    price = build.build.buying.prices[0]
    assert each(build, price, F(96), None) == Decimal("7.20")
    assert each(build, price, F(72), None) is None


def test_money_goes_to_the_piece_to_what_is_kept_and_to_waste() -> None:
    # 6/10, 3/10 and 1/10 of 10.00.
    line = wood_line(Bought("1x4", F(96), None, 1, Decimal("10.00"), "store", F(10), F(6), F(3)))
    assert (line.in_piece, line.kept, line.waste) == (
        Decimal("6.00"), Decimal("3.00"), Decimal("1.00"),
    )  # fmt: skip


def test_a_whole_estimate_with_tax(catalog: Catalog) -> None:
    # 2 boards x 7.20 = 14.40; 8 % tax = 1.152, to the cent 1.15; 15.55 in all.
    buying = priced(
        {"stock": "1x4", "price": "7.20", "length": "96"},
        planned=[{"stock": "1x4", "length": "96", "quantity": 2}], tax_percent="8",
    )  # fmt: skip
    build = resolved(catalog, buying=buying)
    found = cost(build, planned_purchase(build))
    assert (found.subtotal, found.tax, found.total) == (
        Decimal("14.40"), Decimal("1.15"), Decimal("15.55"),
    )  # fmt: skip
    assert found.missing == ()


def test_a_missing_price_is_named_and_nothing_is_made_up(catalog: Catalog) -> None:
    build = resolved(catalog, buying={"planned": [{"stock": "1x4", "length": "96"}]})
    found = cost(build, planned_purchase(build))
    assert (found.missing, found.total) == (("1x4, 96 in",), Decimal("0.00"))


def test_without_a_plan_wood_is_counted_by_its_parts_and_says_so(catalog: Catalog) -> None:
    # (2 x 24 + 2 x 12) in = 6 ft at 0.90 = 5.40.
    build = resolved(catalog, buying=priced({"stock": "1x4", "price": "0.90", "per": "foot"}))
    found = cost(build, planned_purchase(build))
    assert found.total == Decimal("5.40")
    assert not found.wood_is_planned


def test_store_cuts_cost_after_the_free_ones(catalog: Catalog) -> None:
    # 5 cuts, 2 free: 3 x 0.50.
    build = resolved(catalog, buying={"store_cuts": {"free": 2, "each": "0.50"}})
    assert cost(build, Purchase(store_cuts=5)).total == Decimal("1.50")


def test_screws_are_bought_by_the_box_where_that_is_cheaper(catalog: Catalog) -> None:
    joint = {"id": "j", "through": "rail", "into": "stile", "method": "screw", "count": 2,
             "quantity": 4, "fastener": {"gauge": 8, "length": "1 1/4"}}  # fmt: skip
    # 8 screws: 8 x 0.40 = 3.20, or a box of 5 twice: 2 x 1.50 = 3.00.
    buying = priced(
        {"stock": "screw 8x1 1/4", "price": "0.40"},
        {"stock": "screw 8x1 1/4, box of 5", "price": "1.50"},
    )
    build = resolved(catalog, joints=[joint], buying=buying)
    (line,) = [line for line in cost(build, Purchase()).lines if line.kind == "fasteners"]
    assert (line.count, line.money) == (2, Decimal("3.00"))


@pytest.mark.parametrize(
    ("units", "fastener", "sold", "missing"),
    [
        # Pegs of two diameters are two things to buy; a price by the length alone holds for both.
        ("in", {"diameter": "3/8", "length": "2"}, "dowel 3/8x2", "dowel 1/4x2"),
        ("in", {"diameter": "3/8", "length": "2"}, "dowel 2", None),
        ("mm", {"diameter": "8", "length": "40"}, "dowel 8x40", "dowel 6.35x40"),
        ("mm", {"diameter": "8", "length": "40"}, "dowel 8x40 mm", "dowel 6.35x40"),
    ],
)
def test_a_fastener_is_called_by_its_sizes_in_the_units_of_the_build(
    catalog: Catalog, units: str, fastener: dict[str, str], sold: str, missing: str | None
) -> None:
    joints = [
        {"id": id, "through": "rail", "into": "stile", "method": "dowel", "count": 2,
         "fastener": {**fastener, **size}}
        for id, size in (("one", {}), ("other", {"diameter": "1/4 in"}))
    ]  # fmt: skip
    buying = priced({"stock": sold, "price": "0.10"})
    build = resolved(catalog, units=units, joints=joints, buying=buying)
    found = cost(build, Purchase())
    lines = [line for line in found.lines if line.kind == "fasteners"]
    assert [line.what for line in lines] == [sold, missing or sold]
    assert [line.money for line in lines] == [Decimal("0.20"), None if missing else Decimal("0.20")]


def test_a_price_of_a_wood_that_no_table_has_is_no_price_of_every_wood(catalog: Catalog) -> None:
    """It may be a select grade at three times the price: nobody said that the parts are of it."""
    buying = priced(
        {"stock": "1x4", "price": "30.00", "length": "96", "wood": "my best boards"},
        planned=[{"stock": "1x4", "length": "96"}],
    )
    build = resolved(catalog, buying=buying)
    assert cost(build, planned_purchase(build)).missing == ("1x4, 96 in",)
    stock = stock_of(build.parts[0], build)
    assert list(prices_of(build, stock)) == []


def test_a_metric_build_is_counted_in_meters_and_milliliters(catalog: Catalog) -> None:
    """2400 mm is 94.488 in, which nobody asks a shop for; a US gallon is 3785.4 ml."""
    parts = [{"id": "rail", "stock": "ex-25x100", "length": "600", "quantity": 4}]
    joint = {"id": "j", "through": "rail", "into": "rail", "glue": "pva-interior", "quantity": 9}
    planned = {"planned": [{"stock": "ex-25x100", "length": "2400"}]}
    metric = {"name": "Rails", "units": "mm", "region": "uk", "parts": parts, "joints": [joint]}
    build = resolve(BuildForm().load({**metric, "buying": planned}), catalog)
    lines = {line.kind: line for line in cost(build, planned_purchase(build)).lines}
    assert lines["wood"].what == "ex-25x100, 2400 mm"
    # 267 ft2 a gallon; the smaller face of nine joints in square feet, a tenth or a fifth lost.
    low, high = (float(n) for n in lines["glue"].need.removesuffix(" ml").split(" to "))
    inches = cost(replace_units(build), planned_purchase(build)).lines
    ounces = next(line.need for line in inches if line.kind == "glue").removesuffix(" fl oz")
    for milliliters, ounce in zip((low, high), map(float, ounces.split(" to ")), strict=True):
        assert milliliters == pytest.approx(ounce * 29.5735, abs=2)
    unplanned = resolve(BuildForm().load(metric), catalog)
    assert cost(unplanned, planned_purchase(unplanned)).lines[0].need == "2.40 m"


def replace_units(build: ResolvedBuild) -> ResolvedBuild:
    """The same build, its answers in inches."""
    sizing = replace(build.sizing, build=replace(build.build, units="in"))
    return replace(build, sizing=sizing)


@pytest.mark.parametrize("width", [None, "3 1/2", "3"])
def test_a_board_as_wide_as_its_stock_is_not_ripped(catalog: Catalog, width: str | None) -> None:
    """A 1x4 measures 3 1/2 in: a width that says no more than that asks for no cut along it."""
    part = {"id": "rail", "stock": "1x4", "length": "24", **({"width": width} if width else {})}
    rips = catalog.work_times["rip"]
    build = resolve(BuildForm().load({"name": "One", "parts": [part]}), catalog)
    square = catalog.work_times["cut-square"]
    least = 2 * square.least + (rips.least if width == "3" else 0)
    assert cutting(build, Step("cut")).low == least


@pytest.mark.parametrize(("budget", "meets"), [("6.00", True), ("5.99", False)])
def test_another_wood_is_offered_where_the_budget_is_passed(
    catalog: Catalog, budget: str, meets: bool
) -> None:
    # 1x4 of pine at 10.00, of spf at 6.00: 4.00 saved.
    buying = priced(
        {"stock": "1x4", "price": "10.00", "length": "96", "wood": "pine"},
        {"stock": "1x4", "price": "6.00", "length": "96", "wood": "spf"},
        planned=[{"stock": "1x4", "length": "96"}], budget=budget,
    )  # fmt: skip
    build = resolved(catalog, wood="pine", buying=buying)
    (swap,) = offered(build)
    assert (swap.saves, swap.meets_budget) == (Decimal("4.00"), meets)


def glued(catalog: Catalog, glue: str, temperature: str = "70F") -> ResolvedBuild:
    joint = {"id": "j", "through": "rail", "into": "stile", "method": "glue", "glue": glue}
    return resolved(catalog, joints=[joint], place={"temperature": temperature})


def test_another_glue_changes_the_wait(catalog: Catalog) -> None:
    # White glue: 30 to 90 min in clamps; slower polyurethane glue: 240 min at least.
    white, slow = (timeline(glued(catalog, g)) for g in ("pva-interior", "polyurethane-glue"))
    assert (white.waiting.low, white.waiting.high) == (F(1, 2), F(3, 2))
    assert slow.waiting.low == 4


def test_cold_doubles_the_time_of_construction_adhesive(catalog: Catalog) -> None:
    # 15 to 120 min at 70 F, twice as long at 50 F.
    warm, cold = (
        timeline(glued(catalog, "construction-adhesive", t)).waiting for t in ("70F", "50F")
    )
    assert (cold.low, cold.high) == (2 * warm.low, 2 * warm.high) == (F(1, 2), F(4))


def test_another_coat_adds_its_recoat_time(catalog: Catalog) -> None:
    # One coat waits 24 h to handling; a second adds 2 to 4 h before it.
    build = resolved(catalog)
    one, two = (
        timeline(build, (Step("finish", finish="water-polyurethane", count=n),)).waiting
        for n in (1, 2)
    )
    assert (one.low, one.high) == (24, 24)
    assert (two.low, two.high) == (26, 28)


def test_paint_in_the_cold_waits_a_day_between_coats(catalog: Catalog) -> None:
    coats = (Step("finish", finish="latex-paint", count=2),)
    # 2 h to recoat, 24 h below 50 F: 22 h more at the low end.
    warm = timeline(resolved(catalog, place={"temperature": "70F"}), coats).waiting
    cold = timeline(resolved(catalog, place={"temperature": "45F"}), coats).waiting
    assert cold.low - warm.low == 22


def test_finishing_before_assembly_masks_the_glue_faces(catalog: Catalog) -> None:
    coats = (Step("finish", finish="water-polyurethane", count=1, bare_at_joints=True),)
    tasks = [one.task.what for one in timeline(glued(catalog, "pva-interior"), coats).tasks]
    assert tasks[-3:] == ["mask the glue faces", "water-based polyurethane, coat 1", "glue j"]


def test_a_stated_wait_counts_once_beside_the_clamps(catalog: Catalog) -> None:
    joint = {"id": "j", "through": "rail", "into": "stile", "method": "glue",
             "glue": "pva-interior"}  # fmt: skip
    steps = [{"do": "glue", "joints": ["j"]}, {"do": "wait", "hours": 24}]
    assert timeline(resolved(catalog, joints=[joint], steps=steps)).waiting.high == 24


PLY = "3/4 plywood"


def sheets(budget: str, *prices: dict[str, Any]) -> dict[str, Any]:
    planned = [{"stock": PLY, "length": "24", "width": "24", "quantity": 4}]
    return priced(
        {"stock": PLY, "price": "20.00", "length": "24", "width": "24"}, *prices,
        planned=planned, budget=budget,
    )  # fmt: skip


def panels(catalog: Catalog, **rest: Any) -> ResolvedBuild:
    parts = [{"id": "back", "stock": PLY, "length": "20", "width": "20", "quantity": 4}]
    return resolve(BuildForm().load({"name": "Trial", "parts": parts, **rest}), catalog)


@pytest.mark.parametrize(("wide", "count", "saves"), [("49", 1, "40.00"), ("47 15/16", 2, None)])
def test_a_larger_sheet_is_offered_where_it_holds_the_smaller_ones(
    catalog: Catalog, wide: str, count: int, saves: str | None
) -> None:
    # Four of 24 x 24 in come out of 49 x 49 with a kerf between; only two out of 49 x 47 15/16.
    # 4 x 20.00 - 1 x 40.00 = 40.00; 2 x 40.00 saves nothing.
    build = panels(
        catalog, shop={"kerf": "1/8"},
        buying=sheets("45", {"stock": PLY, "price": "40.00", "length": "49", "width": wide}),
    )  # fmt: skip
    found = offered(build)
    assert [str(one.saves) for one in found] == ([saves] if saves else [])
    assert all(one.to.startswith(f"{count} x ") for one in found)


# One coat on 2 rails and 2 stiles is under a quart: 30.00 against 18.00, 12.00 saved.
@pytest.mark.parametrize(
    ("other", "where", "saves"),
    [
        ("oil-polyurethane", "indoors", ["12.00"]),
        ("latex-paint", "indoors", []),  # another family
        ("shellac", "indoors", ["12.00"]),
        ("shellac", "damp", []),
    ],
)
def test_a_cheaper_finish_of_the_same_family_is_offered(
    catalog: Catalog, other: str, where: str, saves: list[str]
) -> None:
    buying = priced(
        {"stock": "water-polyurethane 1 qt", "price": "30.00"},
        {"stock": f"{other} 1 qt", "price": "18.00"}, budget="20",
    )  # fmt: skip
    build = resolved(catalog, place={"where": where}, buying=buying)
    coats = (Step("finish", finish="water-polyurethane", count=1),)
    assert [str(one.saves) for one in offered(build, coats)] == saves


@pytest.mark.parametrize(("budget", "meets"), [("24.00", True), ("23.99", False)])
def test_two_swaps_together_are_offered_where_one_is_not_enough(
    catalog: Catalog, budget: str, meets: bool
) -> None:
    # 10.00 + 30.00 = 40.00; pine to spf saves 4.00, the other finish 12.00: 24.00 is left.
    buying = priced(
        {"stock": "1x4", "price": "10.00", "length": "96", "wood": "pine"},
        {"stock": "1x4", "price": "6.00", "length": "96", "wood": "spf"},
        {"stock": "water-polyurethane 1 qt", "price": "30.00"},
        {"stock": "oil-polyurethane 1 qt", "price": "18.00"},
        planned=[{"stock": "1x4", "length": "96"}], budget=budget,
    )  # fmt: skip
    build = resolved(catalog, wood="pine", buying=buying)
    found = offered(build, (Step("finish", finish="water-polyurethane", count=1),))
    assert [(str(one.saves), one.meets_budget) for one in found] == [
        ("4.00", False), ("12.00", False), ("16.00", meets),
    ]  # fmt: skip


def test_a_swap_saves_its_tax_too(catalog: Catalog) -> None:
    # 10.00 and 8.25 % is 10.83 (10.825 up); 6.00 and its tax is 6.50 (6.495 up): 4.33 saved.
    buying = priced(
        {"stock": "1x4", "price": "10.00", "length": "96", "wood": "pine"},
        {"stock": "1x4", "price": "6.00", "length": "96", "wood": "spf"},
        planned=[{"stock": "1x4", "length": "96"}], budget="7", tax_percent="8.25",
    )  # fmt: skip
    (swap,) = offered(resolved(catalog, wood="pine", buying=buying))
    assert (swap.saves, swap.meets_budget) == (Decimal("4.33"), True)


def test_the_critical_path_leaves_out_what_dries_beside_a_longer_wait(catalog: Catalog) -> None:
    # The rail is stained (18 to 24 h) while white glue on the stiles sets in 90 min at most.
    joint = {"id": "j", "through": "stile", "into": "stile", "method": "glue",
             "glue": "pva-interior"}  # fmt: skip
    steps = [
        {"do": "stain", "finish": "oil-stain", "count": 1, "parts": ["rail"], "minutes": 10},
        {"do": "glue", "joints": ["j"], "minutes": 10},
    ]
    tasks = timeline(resolved(catalog, joints=[joint], steps=steps)).tasks
    assert [one.critical for one in tasks] == [True, False]


def test_the_critical_path_goes_through_the_hands(catalog: Catalog) -> None:
    steps = [
        {"do": "cut", "minutes": 30},
        {"do": "sand", "minutes": 30},
        {"do": "wait", "hours": 1},
    ]
    whole = timeline(resolved(catalog, steps=steps))
    assert [one.critical for one in whole.tasks] == [True, True, True]
    assert whole.done.high == 2


# The surface of the parts is shared evenly; three joints go in two rounds.
@pytest.mark.parametrize(("do", "share"), [("sand", F(1, 2)), ("glue", F(2, 3))])
def test_two_people_share_the_work_and_joints_whole(catalog: Catalog, do: str, share: F) -> None:
    joint = {"id": "j", "through": "rail", "into": "stile", "quantity": 3, "method": "glue",
             "glue": "pva-interior"}  # fmt: skip
    step = {"do": do, **({"joints": ["j"]} if do == "glue" else {})}
    one, two = (
        timeline(resolved(catalog, joints=[joint], steps=[{**step, "people": n}])).hands_on.high
        for n in (1, 2)
    )
    assert two == one * share


def test_stated_minutes_are_those_of_all_people_together(catalog: Catalog) -> None:
    steps = [{"do": "sand", "minutes": 30, "people": 3}]
    assert timeline(resolved(catalog, steps=steps)).hands_on.high == F(1, 2)


def clamped(catalog: Catalog, glue: str, joints: int, quantity: int = 1) -> ResolvedBuild:
    alike = [
        {"id": f"j{n}", "through": "rail", "into": "stile", "quantity": quantity,
         "method": "glue", "glue": glue}
        for n in range(joints)
    ]  # fmt: skip
    return resolved(catalog, joints=alike, place={"temperature": "70F"})


# 3 min a joint for quick hands. White glue stays open for 5 min: one joint at a time;
# polyurethane glue for at least 15: five joints.
@pytest.mark.parametrize(
    ("glue", "joints", "glue_ups"),
    [("pva-interior", 3, 3), ("polyurethane-glue", 5, 1), ("polyurethane-glue", 6, 2)],
)
def test_the_usual_order_glues_up_as_much_as_the_glue_stays_open_for(
    catalog: Catalog, glue: str, joints: int, glue_ups: int
) -> None:
    tasks = timeline(clamped(catalog, glue, joints)).tasks
    assert sum(one.task.what.startswith("glue ") for one in tasks) == glue_ups


def test_screws_close_a_joint_so_that_it_is_not_counted_into_a_glue_up(catalog: Catalog) -> None:
    alike = [
        {"id": f"j{n}", "through": "rail", "into": "stile", "method": "screw", "count": 2,
         "glue": "polyurethane-glue"}
        for n in range(2)
    ]  # fmt: skip
    whole = timeline(resolved(catalog, joints=alike))
    assert [one.task.what for one in whole.tasks][-2:] == ["glue j0", "glue j1"]
    assert (whole.waiting.low, whole.waiting.high) == (0, 0)


def test_joints_of_a_line_that_the_glue_does_not_wait_for_go_in_turns(catalog: Catalog) -> None:
    # Four joints with white glue, one at a time: 90 min in clamps at most, four times over.
    whole = timeline(clamped(catalog, "pva-interior", 1, quantity=4))
    assert (whole.waiting.low, whole.waiting.high) == (F(1, 2), 6)
    assert any("4 joints take 4 goes" in note for note in whole.notes)


def test_what_dries_holds_up_only_what_touches_the_same_parts(catalog: Catalog) -> None:
    # Rail 0:00 to 0:10, free a day later; stile 0:10 to 0:20; then the rail again after the day.
    coat = {"do": "stain", "finish": "gel-stain", "count": 1, "minutes": 10}
    steps = [{**coat, "parts": [id]} for id in ("rail", "stile", "rail")]
    starts = [one.start.high for one in timeline(resolved(catalog, steps=steps)).tasks]
    assert starts == [0, F(10, 60), 24 + F(10, 60)]


def test_a_wait_holds_up_everything_and_runs_beside_what_dries(catalog: Catalog) -> None:
    # The coat dries for a day from 0:10; beside it three hours are waited, then the stile sanded.
    coat = {"do": "stain", "finish": "gel-stain", "count": 1, "minutes": 10, "parts": ["rail"]}
    steps = [coat, {"do": "wait", "hours": 3}, {"do": "sand", "minutes": 10, "parts": ["stile"]}]
    starts = [one.start.high for one in timeline(resolved(catalog, steps=steps)).tasks]
    assert starts == [0, F(10, 60), 3 + F(10, 60)]


def test_very_many_coats_are_timed_at_once(catalog: Catalog) -> None:
    # 200 steps of 100 coats at a minute each: the work alone is 20,000 minutes.
    steps = [{"do": "finish", "finish": "shellac", "count": 100, "minutes": 1}] * 200
    build = resolved(catalog, steps=steps)
    started = perf_counter()
    assert timeline(build).hands_on.high == F(20_000, 60)
    assert perf_counter() - started < 10


def test_a_metric_build_is_priced_in_millimeters_and_milliliters(catalog: Catalog) -> None:
    """A screw of 4 x 50 mm is on its box as 4x50; an inch has 25.4 mm, a fluid ounce 29.57 ml."""
    joint = {"id": "j", "through": "rail", "into": "stile", "touches": "face", "enters": "face",
             "method": "screw", "fastener": {"diameter": "4", "length": "50"}, "count": 2,
             "quantity": 20, "glue": "pva-interior"}  # fmt: skip
    parts = [{"id": "rail", "stock": "ex-25x75", "length": "600", "quantity": 2},
             {"id": "stile", "stock": "ex-25x75", "length": "300", "quantity": 2}]  # fmt: skip
    buying = priced({"stock": "screw 4x50", "price": "0.10"},
                    {"stock": "ex-25x75", "length": "2400", "price": "5.60"},
                    planned=[{"stock": "ex-25x75", "length": "2400"}])  # fmt: skip
    build = resolve(BuildForm().load({
        "name": "Trial", "units": "mm", "region": "uk", "parts": parts, "joints": [joint],
        "buying": buying,
    }), catalog)  # fmt: skip
    wood, screws, glue = cost(build, planned_purchase(build)).lines
    assert wood.what == "ex-25x75, 2400 mm"
    assert (screws.what, screws.money) == ("screw 4x50", Decimal("4.00"))
    # 20 faces of some 300 x 69 mm are 0.41 m2; 6 m2 a liter, as glues are used, is 69 ml.
    low, high = (int(word) for word in glue.need.removesuffix(" ml").split(" to "))
    assert 35 <= low <= 69 <= high <= 140


def test_a_drop_of_glue_is_not_called_nothing(catalog: Catalog) -> None:
    joint = {"id": "j", "through": "rail", "into": "stile", "touches": "end", "enters": "face",
             "method": "glue", "glue": "pva-interior"}  # fmt: skip
    build = resolved(catalog, joints=[joint])
    glue = next(line for line in cost(build, Purchase()).lines if line.kind == "glue")
    assert glue.need == "under 0.1 fl oz"
