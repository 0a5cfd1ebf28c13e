"""The cut plan over HTTP: checked from the answer alone, by a checker of its own."""

import itertools
import json
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest
from flask.testing import FlaskClient

from service.quantities import length

Json = dict[str, Any]

WHOLE = Path(__file__).parents[1] / "builds" / "whole"
SOUND = sorted(p for p in WHOLE.glob("*.json") if "spoiled" not in p.stem and p.stem != "expected")


def ask(client: FlaskClient, build: Json, query: str = "") -> Json:
    answer = client.post(f"/v1/cut-plan{query}", json=build)
    assert answer.status_code == 200, answer.get_data(as_text=True)
    told: Json = answer.get_json()
    return told


def build(*parts: Json, **rest: Any) -> Json:
    return {"name": "Cuts", "parts": list(parts), **rest}


def prices(*rows: tuple[str, str, str], **more: Any) -> Json:
    listed = [{"stock": s, "length": n, "price": p, **more} for s, n, p in rows]
    return {"price_list": {"currency": "USD", "prices": listed}}


def inches(size: Json) -> Fraction:
    return Fraction(str(size["in"]))


def board_faults(board: Json, kerf: Fraction) -> list[str]:
    """Square pieces overlap, come nearer than the kerf, or leave the board."""
    cuts = sorted(board["cuts"], key=lambda cut: inches(cut["start"]))
    faults = []
    slack = Fraction(1, 10**5)  # answers give six decimals
    for one, two in itertools.pairwise(cuts):
        slanted = any(
            cut[side]["miter"] or cut[side]["bevel"]
            for cut in (one, two)
            for side in ("left_angle", "right_angle")
        )
        if not slanted and inches(two["start"]) - inches(one["end"]) < kerf - slack:
            faults.append(f"{one['part']} and {two['part']} are too near")
    if cuts and (
        inches(cuts[0]["start"]) < 0 or inches(cuts[-1]["end"]) > inches(board["length"]) + slack
    ):
        faults.append("a piece leaves the board")
    return faults


@pytest.mark.parametrize("path", SOUND, ids=lambda path: path.stem)
def test_a_whole_build_is_planned_and_every_piece_is_there(client: FlaskClient, path: Path) -> None:
    document = json.loads(path.read_text())
    told = ask(client, document)
    strips = {
        part["id"]: part.get("quantity", 1) * part.get("glued_from", {}).get("boards", 1)
        for part in document["parts"]
    }
    kerf = length(document["shop"]["kerf"], document.get("units", "in"))
    counted = dict.fromkeys(strips, 0)
    for board in told["boards"]:
        assert board["strips"] or board_faults(board, kerf) == []
        for cut in board["cuts"]:
            counted[cut["part"]] += 1
    for sheet in told["sheets"]:
        for piece in sheet["pieces"]:
            counted[piece["part"]] += 1
    for row in told["unplaced"]:
        assert "no name" in row["why"]
        counted[row["part"]] += row["quantity"]
    assert counted == strips
    shares = told["used_percent"] + told["kept_percent"] + told["waste_percent"]
    assert shares == pytest.approx(100, abs=0.2)


def test_four_times_24_in_do_not_come_out_of_an_8_ft_board(client: FlaskClient) -> None:
    part = {"id": "slat", "stock": "1x4", "length": "24", "quantity": 4}
    told = ask(client, build(part, buying=prices(("1x4", "96", "5.00"))))
    assert [row["count"] for row in told["buy"]] == [2]
    assert (told["status"], told["cost"], told["bound"]) == ("optimal", "10.00", "10.00")


def test_pieces_that_fill_a_board_to_the_end_fit_it(client: FlaskClient) -> None:
    """Three kerfs lie between four pieces: 4 x 23 29/32 + 3 x 1/8 = 96."""
    part = {"id": "slat", "stock": "1x4", "length": "23 29/32", "quantity": 4}
    told = ask(client, build(part, buying=prices(("1x4", "96", "5.00"))))
    assert [row["count"] for row in told["buy"]] == [1]
    part["length"] = "23 59/64"
    told = ask(client, build(part, buying=prices(("1x4", "96", "5.00"))))
    assert [row["count"] for row in told["buy"]] == [2]


def test_least_money_wins_over_fewest_boards(client: FlaskClient) -> None:
    part = {"id": "slat", "stock": "1x4", "length": "47", "quantity": 4}
    rows = prices(("1x4", "96", "5.00"), ("1x4", "192", "12.00"))
    told = ask(client, build(part, buying=rows), "?compare=true")
    assert [(row["length"]["tape"], row["count"]) for row in told["buy"]] == [('96"', 2)]
    alone = {row["length"]["tape"]: row["cost"] for row in told["compared"][0]["one_length_only"]}
    assert alone == {'96"': "10.00", '192"': "12.00"}


def test_an_offcut_on_hand_is_free_and_its_knot_is_kept_out(client: FlaskClient) -> None:
    part = {"id": "slat", "stock": "1x4", "length": "14", "quantity": 2}
    buying = prices(("1x4", "96", "5.00"))
    offcut = {"stock": "1x4", "length": "30"}
    told = ask(client, build(part, buying={**buying, "offcuts": [offcut]}))
    assert told["cost"] == "0.00"
    knotty = {**offcut, "defects": [{"from": "13", "to": "15"}]}
    told = ask(client, build(part, buying={**buying, "offcuts": [knotty]}))
    for board in told["boards"]:
        for cut in board["cuts"]:
            if board["from"] == "on-hand":
                assert inches(cut["end"]) <= 13 or inches(cut["start"]) >= 15


def test_without_prices_the_least_wood_is_planned_and_no_money_is_named(
    client: FlaskClient,
) -> None:
    part = {"id": "slat", "stock": "1x4", "length": "47", "quantity": 2}
    told = ask(client, build(part))
    assert told["cost"] is told["currency"] is None
    assert [row["price"] for row in told["buy"]] == [None]
    assert [row["length"]["tape"] for row in told["buy"]] == ['96"']


def test_after_a_slip_only_the_spoiled_piece_is_cut_anew(client: FlaskClient) -> None:
    part = {"id": "slat", "stock": "1x4", "length": "24", "quantity": 4}
    buying = {**prices(("1x4", "96", "5.00")), "offcuts": [{"stock": "1x4", "length": "40"}]}
    told = ask(client, build(part, buying=buying), "?spoiled=slat:1")
    assert [len(board["cuts"]) for board in told["boards"]] == [1]
    assert (told["cost"], told["boards"][0]["from"]) == ("0.00", "on-hand")
    refused = client.post("/v1/cut-plan?spoiled=slot:1", json=build(part))
    assert refused.status_code == 422


def test_tax_and_spare_boards_are_shown_apart(client: FlaskClient) -> None:
    part = {"id": "slat", "stock": "1x4", "length": "24", "quantity": 2}
    buying = {**prices(("1x4", "96", "5.00")), "spare": 1, "tax_percent": "10"}
    told = ask(client, build(part, buying=buying))
    money = {name: told[name] for name in ("cost", "spare_cost", "tax", "outlay")}
    assert money == {"cost": "5.00", "spare_cost": "5.00", "tax": "1.00", "outlay": "11.00"}


@pytest.mark.parametrize(
    ("price", "per", "expected"),
    [("5.00", "piece", "5.00"), ("0.75", "foot", "6.00"), ("1.50", "board-foot", "4.00")],
)
def test_prices_are_converted_to_a_board(
    client: FlaskClient, price: str, per: str, expected: str
) -> None:
    """A 1x4 of 8 ft: 8 ft, and 1 x 4 x 96 / 144 = 2 2/3 board feet."""
    part = {"id": "slat", "stock": "1x4", "length": "90"}
    told = ask(client, build(part, buying=prices(("1x4", "96", price), per=per)))
    assert told["cost"] == expected


def test_the_store_charges_for_cuts_after_the_free_ones(client: FlaskClient) -> None:
    panel = {"id": "back", "stock": "mdf-0.5in", "length": "48", "width": "23", "quantity": 2}
    row = {"stock": "mdf-0.5in", "length": "96", "width": "48", "price": "30.00"}
    buying = {
        "price_list": {"currency": "USD", "prices": [row]},
        "store_cuts": {"free": 0, "each": "1.50", "at_most": 4},
    }
    shop = {"longest_board": "60"}
    told = ask(client, build(panel, buying=buying, shop=shop))
    made = [cut for sheet in told["sheets"] for cut in sheet["cuts"] if cut["by"] == "store"]
    assert made
    assert float(told["store_cuts_cost"]) == 1.5 * sum(not cut["trim"] for cut in made)


def test_a_narrow_part_may_come_from_a_rip_where_a_saw_rips(client: FlaskClient) -> None:
    part = {"id": "strip", "stock": "1x8", "length": "90", "width": "3", "quantity": 2}
    rows = prices(("1x8", "96", "9.00"))
    told = ask(client, build(part, buying=rows, shop={"saws": [{"kind": "table-saw"}]}))
    assert [row["count"] for row in told["buy"]] == [1]
    told = ask(client, build(part, buying=rows, shop={"saws": [{"kind": "miter-saw"}]}))
    assert [row["count"] for row in told["buy"]] == [2]


def test_stop_blocks_stand_on_the_kept_side(client: FlaskClient) -> None:
    part = {"id": "slat", "stock": "1x4", "length": "20", "quantity": 5}
    told = ask(client, build(part, buying=prices(("1x4", "96", "5.00"))))
    (block,) = told["stop_blocks"]
    assert (block["length"]["tape"], block["count"]) == ('20"', 5)
    assert "kept" in told["stop_block_side"]


def test_a_plan_in_text_fits_80_columns(client: FlaskClient) -> None:
    document = json.loads((WHOLE / "boot-rack.json").read_text())
    text = client.post("/v1/cut-plan?format=text", json=document).get_data(as_text=True)
    assert max(map(len, text.splitlines())) <= 80
    assert "buy 2 of 1x3" in text


def test_the_same_question_has_the_same_answer(client: FlaskClient) -> None:
    document = json.loads((WHOLE / "hall-mirror.json").read_text())
    assert ask(client, document) == ask(client, document)


@pytest.mark.parametrize(
    "query",
    [
        "?deadline_s=abc",
        "?deadline_s=nan",
        "?deadline_s=-1",
        "?compare=1",
        "?x=1",
        "?spoiled=slat:9",
    ],
)
def test_nonsense_is_refused(client: FlaskClient, query: str) -> None:
    part = {"id": "slat", "stock": "1x4", "length": "20"}
    assert client.post(f"/v1/cut-plan{query}", json=build(part)).status_code == 422


def test_an_estimate_costs_what_the_cut_plan_says(client: FlaskClient) -> None:
    """Two boards of 5.00; 4 x 24 in of 192 in is half of the wood, and a kerf each is lost."""
    part = {"id": "slat", "stock": "1x4", "length": "24", "quantity": 4}
    document = build(part, buying={**prices(("1x4", "96", "5.00")), "keep_at_least": "12"})
    told = client.post("/v1/estimate", json=document).get_json()
    (line,) = [line for line in told["cost"]["lines"] if line["what"].startswith("1x4")]
    assert (line["money"], line["in_piece"]) == ("10.00", "5.00")
    listed = client.post("/v1/estimate?bought=none", json=document).get_json()
    assert listed["cost"]["lines"] != told["cost"]["lines"]


def test_a_board_kept_for_one_part_serves_no_other(client: FlaskClient) -> None:
    slat = {"id": "slat", "stock": "1x4", "length": "20"}
    foot = {"id": "foot", "stock": "1x4", "length": "10"}
    offcut = {"stock": "1x4", "length": "30 1/8"}
    buying = {**prices(("1x4", "96", "5.00")), "offcuts": [offcut]}
    assert ask(client, build(slat, foot, buying=buying))["cost"] == "0.00"
    kept = {**buying, "offcuts": [{**offcut, "for": ["foot"]}]}
    told = ask(client, build(slat, foot, buying=kept))
    assert told["cost"] == "5.00"
    (on_hand,) = [board for board in told["boards"] if board["from"] == "on-hand"]
    assert [cut["part"] for cut in on_hand["cuts"]] == ["foot"]


def test_nothing_is_called_least_that_leaves_parts_out_or_prices(client: FlaskClient) -> None:
    slat = {"id": "slat", "stock": "1x4", "length": "40", "quantity": 5}
    rail = {"id": "rail", "stock": "1x2", "length": "40"}
    buying = prices(("1x4", "48", "5.00"), at_most=1)
    text = client.post("/v1/cut-plan?format=text", json=build(slat, rail, buying=buying)).get_data(
        as_text=True
    )
    assert "not every part can" in text
    assert "not in the sum: 1x2" in text
    assert "least" not in text.splitlines()[0].replace("at least", "")


def narrow(**rest: Any) -> dict[str, Any]:
    return {
        "name": "Narrow",
        **rest,
        "parts": [{"id": "lath", "stock": "1x6", "length": "20", "width": "2", "quantity": 8}],
    }


def text_of(client: FlaskClient, document: Any, query: str = "") -> str:
    response = client.post(f"/v1/cut-plan?format=text{query}", json=document)
    assert response.status_code == 200
    return response.text


def test_a_part_narrower_than_its_board_is_told_to_be_ripped(client: FlaskClient) -> None:
    document = narrow()
    cuts = [cut for board in ask(client, document)["boards"] for cut in board["cuts"]]
    assert {cut["rip_to"]["in"] for cut in cuts} == {2}
    assert text_of(client, document).count('rip to 2" wide') == 8


# Of 5 1/2 in come two strips of 2 in; without the strip two pieces stand at one mark.
def test_a_ripped_board_tells_its_strips_and_where_each_piece_is(client: FlaskClient) -> None:
    document = narrow(shop={"saws": [{"kind": "table-saw"}]})
    (board,) = ask(client, document)["boards"]
    assert {cut["rip_to"] for cut in board["cuts"]} == {None}
    assert len(board["left_strips"]) == len(board["left"])
    text = text_of(client, document)
    assert 'rip it first into 2 strips: 2", 2" wide' in text
    marks = [line for line in text.splitlines() if line.startswith("  A lath")]
    assert len(set(marks)) == len(marks) == 8


def test_what_is_paid_beside_the_wood_and_what_was_compared_is_told(client: FlaskClient) -> None:
    prices = [
        {"stock": "1x4", "length": "96", "price": "5.00"},
        {"stock": "1x4", "length": "72", "price": "4.50"},
    ]
    price_list = {"currency": "USD", "prices": prices}
    document = {
        "name": "Rails",
        "parts": [{"id": "rail", "stock": "1x4", "length": "24", "quantity": 3}],
        "buying": {"price_list": price_list, "spare": 1, "tax_percent": "10"},
    }
    text = text_of(client, document, "&compare=true")
    assert "  of that spare boards: 4.50\n  of that tax: 0.95\n" in text
    assert '96" boards only 5.00' in " ".join(text.split())


def test_a_part_is_spoiled_once(client: FlaskClient) -> None:
    response = client.post("/v1/cut-plan?spoiled=lath:1,lath:2", json=narrow())
    assert response.status_code == 422
    assert [error["parameter"] for error in response.json["errors"]] == ["spoiled"]


def test_a_part_wider_than_its_board_is_not_planned(client: FlaskClient) -> None:
    part = {"id": "top", "stock": "1x6", "length": "24", "width": "7"}
    told = ask(client, build(part, buying=prices(("1x6", "96", "5.00"))))
    assert [(one["part"], one["quantity"]) for one in told["unplaced"]] == [("top", 1)]
    assert told["enough"] is False and told["boards"] == []


@pytest.mark.parametrize("measured", ["5 7/16", "5 9/16"])
def test_boards_that_were_measured_are_as_wide_as_that(client: FlaskClient, measured: str) -> None:
    """Parts of the whole width are not ripped from boards of the width in the table."""
    part = {"id": "top", "stock": "1x6", "length": "24"}
    told = ask(
        client,
        build(
            part,
            stocks={"1x6": {"measured_width": measured}},
            shop={"saws": [{"kind": "table-saw"}]},
            buying=prices(("1x6", "96", "5.00")),
        ),
    )
    (board,) = told["boards"]
    assert board["strips"] == [] and told["unplaced"] == []


def test_an_offcut_as_wide_as_the_boards_that_were_measured_serves(client: FlaskClient) -> None:
    part = {"id": "top", "stock": "1x6", "length": "24"}
    offcut = {"stock": "1x6", "length": "30", "width": "5 7/16"}
    buying = {**prices(("1x6", "96", "5.00")), "offcuts": [offcut]}
    assert ask(client, build(part, buying=buying))["cost"] == "5.00"
    measured = {"1x6": {"measured_width": "5 7/16"}}
    assert ask(client, build(part, stocks=measured, buying=buying))["cost"] == "0.00"


def test_what_ripped_boards_leave_counts_by_the_width_of_its_strip(client: FlaskClient) -> None:
    """Five strips of 2 in: three whole ones, 47 3/4 and 23 5/8 in are kept, of 96 x 11 1/4 in."""
    slat = {"id": "slat", "stock": "1x12", "length": "24", "width": "2", "quantity": 5}
    buying = {**prices(("1x12", "96", "5.00")), "keep_at_least": "12"}
    told = ask(client, build(slat, shop={"saws": [{"kind": "table-saw"}]}, buying=buying))
    area = 96 * 11.25
    kept = 100 * 2 * (3 * 96 + 47.75 + 23.625) / area
    assert told["kept_percent"] == pytest.approx(kept, abs=0.05)
    assert told["used_percent"] == pytest.approx(100 * 5 * 24 * 2 / area, abs=0.05)
    assert told["waste_percent"] >= 0
    costs = client.post(
        "/v1/estimate", json=build(slat, shop={"saws": [{"kind": "table-saw"}]}, buying=buying)
    ).get_json()["cost"]
    (line,) = [line for line in costs["lines"] if line["what"].startswith("1x12")]
    assert float(line["kept"]) == pytest.approx(5 * kept / 100, abs=0.01)


@pytest.mark.parametrize(
    ("more", "cost"),
    [
        ({}, "60.00"),
        ({"width": "48"}, "60.00"),
        ({"width": "48", "length": "96", "per": "foot"}, "480.00"),
    ],
)
def test_prices_of_sheets_hold_for_the_sizes_that_they_leave_out(
    client: FlaskClient, more: Json, cost: str
) -> None:
    back = {"id": "back", "stock": "plywood-3/4", "length": "90", "width": "40"}
    price = {"stock": "plywood-3/4", "price": "60.00", **more}
    listed = {"price_list": {"currency": "USD", "prices": [price]}}
    assert ask(client, build(back, buying=listed))["cost"] == cost


def test_a_kerf_that_nobody_told_is_assumed_and_says_where_it_is_from(client: FlaskClient) -> None:
    slat = {"id": "slat", "stock": "1x4", "length": "20"}
    told = ask(client, build(slat))
    assert any('the saw takes 1/8"' in text for text in told["assumed"])
    assert "saw_limits/table-saw.kerf.full" in {row["row"] for row in told["rests_on"]}
    own = ask(client, build(slat, shop={"kerf": "3/32"}))
    assert not any("the saw takes" in text for text in own["assumed"])


def test_a_price_of_a_wood_that_nobody_knows_is_no_price(client: FlaskClient) -> None:
    slat = {"id": "slat", "stock": "1x4", "length": "20"}
    told = ask(client, build(slat, buying=prices(("1x4", "96", "5.00"), wood="moonwood")))
    assert told["cost"] is None


@pytest.mark.parametrize(("width", "keep"), [("41 7/8", True), ("42", False)])
def test_a_rest_of_a_sheet_is_kept_from_six_inches_on(
    client: FlaskClient, width: str, keep: bool
) -> None:
    """Of 48 in, 41 7/8 and a kerf of 1/8 leave just 6."""
    back = {"id": "back", "stock": "mdf-0.5in", "length": "96", "width": width}
    row = {"stock": "mdf-0.5in", "length": "96", "width": "48", "price": "30.00"}
    listed = {"price_list": {"currency": "USD", "prices": [row]}}
    (sheet,) = ask(client, build(back, buying=listed))["sheets"]
    assert [rest["keep"] for rest in sheet["left"]] == [keep]
    least = {**listed, "keep_at_least": "5"}
    (sheet,) = ask(client, build(back, buying=least))["sheets"]
    assert [rest["keep"] for rest in sheet["left"]] == [True]
