"""The shape of a cut plan: what to buy, and every cut in order."""

from service.api.described.carried import LENGTH, LENGTH_OR_NULL, answer
from service.api.described.words import (
    MONEY,
    NUMBER,
    TEXT,
    WHOLE,
    YES_NO,
    one_of,
    or_null,
    record,
    several,
    shape,
    told,
)

_ANGLES = record("Degrees off square, signs as the piece lies.", miter=NUMBER, bevel=NUMBER)
_PRICE = or_null(MONEY)
_FROM = one_of("store", "on-hand")

_CUT = shape("CutPiece", record(
    "One piece on its board, by marks along a tape from the board's left end.",
    part=TEXT, letter=TEXT, start=LENGTH, end=LENGTH, left_angle=_ANGLES, right_angle=_ANGLES,
    turned=YES_NO, over=YES_NO, strip=told(or_null(WHOLE), "Its strip, the first one being 0."),
    rip_to=told(LENGTH_OR_NULL, "Width to rip it to; null where it is as wide as what holds it."),
))  # fmt: skip
_BOARD = shape("PlannedBoard", record(
    "A board and its cuts in the order to make them.",
    stock=TEXT, wood=or_null(TEXT), from_=_FROM, length=LENGTH, price=_PRICE,
    strips=told(several(LENGTH), "Widths to rip it into first."),
    cuts=several(_CUT),
    left=told(several(LENGTH), "What is left over."),
    left_strips=told(several(WHOLE), "For each rest, its strip; empty where none is ripped."),
    keep=told(several(YES_NO), "For each rest, whether it is worth keeping."),
    too_short_to_hold=told(several(TEXT), "Parts to cut from a longer piece, or to clamp."),
))  # fmt: skip
_SHEET = shape("PlannedSheet", record(
    "A sheet, the panels in it and the cuts in order.",
    stock=TEXT, from_=_FROM, length=LENGTH, width=LENGTH, price=_PRICE,
    pieces=several(shape("PlacedPanel", record(
        "A panel by its corner nearest the sheet's.",
        part=TEXT, letter=TEXT, x=LENGTH, y=LENGTH, length=LENGTH, width=LENGTH, turned=YES_NO,
    ))),
    cuts=several(shape("SheetCut", record(
        "A cut from edge to edge of the piece that it divides.",
        order=WHOLE, across=one_of("length", "width"), at=LENGTH, by=one_of("store", "home"),
        trim=YES_NO, piece=record(
            "The piece in hand, by its corner nearest the sheet's.",
            x=LENGTH, y=LENGTH, length=LENGTH, width=LENGTH,
        ),
    ))),
    left=several(record("A rest.", length=LENGTH, width=LENGTH, keep=YES_NO)),
))  # fmt: skip
_BUY = shape("ShoppingLine", record(
    "A line of the shopping list.",
    stock=TEXT, length=LENGTH, width=LENGTH_OR_NULL, count=WHOLE, spare=WHOLE, price=_PRICE,
    total=_PRICE,
))  # fmt: skip
_COMPARED = shape("PlanCompared", record(
    "What other ways of buying and cutting would cost.",
    stock=TEXT, cost=_PRICE, longest_first=_PRICE, tip_to_tip=_PRICE,
    out_of_time=told(YES_NO, "True where time ran out before every length was tried alone."),
    one_length_only=several(record("Boards of one length only.", length=LENGTH, cost=_PRICE)),
))  # fmt: skip

CUT_PLAN = answer(
    "CutPlanAnswer",
    "The cheapest boards and sheets, the cuts in order, and what is left.",
    {
        "spare_cost": MONEY,
        "store_cuts_cost": MONEY,
        "tax": MONEY,
        "outlay": told(MONEY, "All that is paid: wood, spares, cuts at the store and tax."),
        "without_prices": told(several(TEXT), "Stocks that the sum leaves out."),
    },
    status=told(one_of("optimal", "feasible"), "Whether the plan is proved the least."),
    cost=told(_PRICE, "Of the wood; null where nothing has a price."),
    bound=told(_PRICE, "No plan can cost less."),
    gap_percent=or_null(NUMBER),
    currency=or_null(TEXT),
    budget=_PRICE,
    over_budget=told(or_null(YES_NO), "Whether the outlay is over the budget."),
    enough=told({"anyOf": [YES_NO, one_of("unknown")]}, "Whether the parts can all be made."),
    deadline_met=told(YES_NO, "True where a search stopped because time ran out."),
    boards=several(_BOARD),
    sheets=several(_SHEET),
    stop_blocks=several(record(
        "A length that a stop block repeats.",
        stock=TEXT, length=LENGTH, parts=several(TEXT), count=WHOLE,
    )),
    stop_block_side=TEXT,
    buy=several(_BUY),
    unplaced=several(record("What can't be made.", part=TEXT, quantity=WHOLE, why=TEXT)),
    compared=several(_COMPARED),
    used_percent=NUMBER,
    kept_percent=NUMBER,
    waste_percent=NUMBER,
)  # fmt: skip
