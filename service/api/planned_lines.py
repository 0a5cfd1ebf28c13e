"""A cut plan in plain lines, as a builder reads it at the saw."""

from collections.abc import Iterator, Mapping
from decimal import Decimal
from typing import Any

from service.planning.setting_up import KEPT_SIDE

Json = Mapping[str, Any]

BESIDE = {"spare_cost": "spare boards", "store_cuts_cost": "cuts at the store", "tax": "tax"}


def lines(answer: Json) -> Iterator[str]:
    """A plan as a builder reads it at the saw."""
    yield from _money(answer)
    yield from _shopping(answer)
    for number, board in enumerate(answer["boards"], 1):
        yield ""
        yield from _board(number, board)
    for number, sheet in enumerate(answer["sheets"], 1):
        yield ""
        yield from _sheet(number, sheet)
    yield ""


def _board(number: int, board: Json) -> Iterator[str]:
    """A board, the pieces on it with the ends that are not square, and what is left."""
    price = f", {board['price']}" if board["price"] else ""
    yield f"board {number}: {board['stock']} {board['length']['tape']} ({board['from']}{price})"
    ripped = board["strips"]
    if ripped:
        many = "" if len(ripped) == 1 else f" into {len(ripped)} strips"
        yield f"  rip it first{many}: {', '.join(strip['tape'] for strip in ripped)} wide"
    for cut in board["cuts"]:
        strip = f", strip {cut['strip'] + 1}" if len(ripped) > 1 else ""
        rip = f", rip to {cut['rip_to']['tape']} wide" if cut["rip_to"] else ""
        yield (
            f"  {cut['letter']} {cut['part']}: {cut['start']['tape']} to {cut['end']['tape']}"
            f"{strip}{rip}{_angled(cut)}"
        )
    strips = board["left_strips"] if len(ripped) > 1 else [None] * len(board["left"])
    rests = zip(board["left"], board["keep"], strips, strict=True)
    left = ", ".join(rest["tape"] + _of_strip(strip) + _kept(keep) for rest, keep, strip in rests)
    yield f"  left: {left or 'nothing'}"
    for part in board["too_short_to_hold"]:
        yield f"  {part}: too short to hold; cut it from a longer piece or clamp it"


def _angled(cut: Json) -> str:
    """Ends that are not square, in degrees off square."""
    said = (
        f"{side} end {word} {abs(cut[f'{side}_angle'][word]):g}"
        for side in ("left", "right")
        for word in ("miter", "bevel")
        if cut[f"{side}_angle"][word]
    )
    told = ", ".join(said)
    return f", {told} degrees off square" if told else ""


def _sheet(number: int, sheet: Json) -> Iterator[str]:
    """A sheet, where its pieces lie, the cuts in order, each in the piece in hand, and the rest."""
    whole = _size(sheet)
    price = f", {sheet['price']}" if sheet["price"] else ""
    yield f"sheet {number}: {sheet['stock']} {whole} ({sheet['from']}{price})"
    for piece in sheet["pieces"]:
        yield f"  {piece['letter']} {piece['part']}: {_size(piece)} at {_corner(piece)}"
    for cut in sheet["cuts"]:
        piece = cut["piece"]
        hand = "the sheet" if _size(piece) == whole else f"{_size(piece)} from {_corner(piece)}"
        trim = ", to trim a raw edge" if cut["trim"] else ""
        yield (
            f"  cut {cut['order']} ({cut['by']}), in hand {hand}: its {cut['across']} at "
            f"{cut['at']['tape']}{trim}"
        )
    left = ", ".join(_size(rest) + _kept(rest["keep"]) for rest in sheet["left"])
    yield f"  left: {left or 'nothing'}"


def _size(piece: Json) -> str:
    return f"{piece['length']['tape']} x {piece['width']['tape']}"


def _corner(piece: Json) -> str:
    return f"{piece['x']['tape']}, {piece['y']['tape']}"


def _of_strip(strip: int | None) -> str:
    return "" if strip is None else f" of strip {strip + 1}"


def _kept(keep: bool) -> str:
    return " (keep)" if keep else ""


def _money(answer: Json) -> Iterator[str]:
    """The outlay, how near it is to the least possible, and the budget."""
    proof = "proved least" if answer["status"] == "optimal" else "best found"
    if answer["enough"] is not True:
        proof = "for what can be made; not every part can"
    if answer["cost"] is None:
        yield "no prices: the least wood is planned instead of the least money"
        return
    currency = answer["currency"] or ""
    yield (
        f"{answer['outlay']} {currency} in all; wood {answer['cost']} "
        f"({proof}, at least {answer['bound']})"
    )
    for name, what in BESIDE.items():
        if Decimal(answer[name]):
            yield f"  of that {what}: {answer[name]}"
    if answer["budget"] is not None:
        left = Decimal(answer["budget"]) - Decimal(answer["outlay"])
        over = f"{-left} over it" if answer["over_budget"] else f"{left} left of it"
        yield f"budget {answer['budget']} {currency}: {over}"
    for stock in answer["without_prices"]:
        yield f"not in the sum: {stock}, which has no price"


def _shopping(answer: Json) -> Iterator[str]:
    """What to buy, what can't be made, and stop blocks."""
    for row in answer["buy"]:
        wide = f" x {row['width']['tape']}" if row["width"] else ""
        money = f" at {row['price']}" if row["price"] else ""
        yield f"buy {_count(row)} of {row['stock']} {row['length']['tape']}{wide}{money}"
    for row in answer["unplaced"]:
        yield f"can't be made: {row['quantity']} of {row['part']}, {row['why']}"
    for block in answer["stop_blocks"]:
        yield f"stop block at {block['length']['tape']}: {block['count']} pieces"
    if answer["stop_blocks"]:
        yield KEPT_SIDE
    for one in answer["compared"]:
        yield from _compared(one)


def _compared(one: Json) -> Iterator[str]:
    """What other ways to buy the wood of one stock would cost, where they can be told."""
    ways = [
        ("longest part first", one["longest_first"]),
        ("laid tip to tip", one["tip_to_tip"]),
        *((f"{way['length']['tape']} boards only", way["cost"]) for way in one["one_length_only"]),
    ]
    told = ", ".join(f"{way} {cost}" for way, cost in ways if cost is not None)
    if told:
        late = "; time ran out before all were tried" if one["out_of_time"] else ""
        yield f"compare {one['stock']}, {one['cost']} as planned: {told}{late}"


def _count(row: Json) -> str:
    """How many to buy: `2`, `2 and 1 spare`, `1 spare`."""
    said = [str(row["count"])] if row["count"] else []
    return " and ".join([*said, f"{row['spare']} spare"] if row["spare"] else said)
