"""A cut plan in plain lines, as a builder reads it at the saw."""

from collections.abc import Iterator, Mapping
from typing import Any

from service.planning.setting_up import KEPT_SIDE


def lines(answer: Mapping[str, Any]) -> Iterator[str]:
    """A plan as a builder reads it at the saw."""
    yield from _summary(answer)
    for number, board in enumerate(answer["boards"], 1):
        yield ""
        yield (
            f"board {number}: {board['stock']} {board['length']['tape']} "
            f"({board['from']}{', ' + board['price'] if board['price'] else ''})"
        )
        for cut in board["cuts"]:
            yield f"  {cut['letter']} {cut['part']}: {cut['start']['tape']} to {cut['end']['tape']}"
        left = ", ".join(rest["tape"] for rest in board["left"])
        yield f"  left: {left or 'nothing'}"
        for part in board["too_short_to_hold"]:
            yield f"  {part}: too short to hold; cut it from a longer piece or clamp it"
    for number, sheet in enumerate(answer["sheets"], 1):
        yield ""
        size = f"{sheet['length']['tape']} x {sheet['width']['tape']}"
        yield f"sheet {number}: {sheet['stock']} {size} ({sheet['from']})"
        for piece in sheet["pieces"]:
            yield (
                f"  {piece['letter']} {piece['part']}: {piece['length']['tape']} x "
                f"{piece['width']['tape']} at {piece['x']['tape']}, {piece['y']['tape']}"
            )
        for cut in sheet["cuts"]:
            yield f"  cut {cut['order']} ({cut['by']}): {cut['across']} at {cut['at']['tape']}"
    yield ""


def _summary(answer: Mapping[str, Any]) -> Iterator[str]:
    proof = "proved least" if answer["status"] == "optimal" else "best found"
    if answer["enough"] is not True:
        proof = "for what can be made; not every part can"
    if answer["cost"] is None:
        yield "no prices: the least wood is planned instead of the least money"
    else:
        yield (
            f"{answer['outlay']} {answer['currency'] or ''} in all; wood {answer['cost']} "
            f"({proof}, at least {answer['bound']})"
        )
        for stock in answer["without_prices"]:
            yield f"not in the sum: {stock}, which has no price"
    for row in answer["buy"]:
        wide = f" x {row['width']['tape']}" if row["width"] else ""
        money = f" at {row['price']}" if row["price"] else ""
        spare = f" and {row['spare']} spare" if row["spare"] else ""
        yield f"buy {row['count']}{spare} of {row['stock']} {row['length']['tape']}{wide}{money}"
    for row in answer["unplaced"]:
        yield f"can't be made: {row['quantity']} of {row['part']}, {row['why']}"
    for block in answer["stop_blocks"]:
        yield f"stop block at {block['length']['tape']}: {block['count']} pieces"
    if answer["stop_blocks"]:
        yield KEPT_SIDE
