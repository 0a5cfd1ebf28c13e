"""How a cut plan looks in answers: JSON for programs, marks along the tape for people."""

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from typing import Any

from service.api import shown
from service.domain.deadline import kept_time
from service.domain.ends import Slant
from service.domain.naming import letter
from service.domain.resolving import ResolvedBuild
from service.planning.adding_up import outlay_of
from service.planning.job import CutBoard, Piece
from service.planning.panels.planned import CutSheet
from service.planning.purchasing import shares_of
from service.planning.setting_up import KEPT_SIDE, short_to_hold, shortest_held, stop_blocks
from service.planning.shortfall import missing_from
from service.planning.whole import CutPlan, PlannedBoards, PlannedSheets


@dataclass(frozen=True, slots=True)
class Showing:
    """A plan and the build that it is for, in the build's units."""

    build: ResolvedBuild
    plan: CutPlan

    @property
    def metric(self) -> bool:
        return self.build.metric

    def letter(self, part: str) -> str:
        """The letter that stands for a part on drawings."""
        return letter(self.build.by_id[part].index)

    def length(self, size: Fraction) -> dict[str, Any]:
        return shown.length(shown.exactly(size), self.metric)

    def answer(self) -> dict[str, Any]:
        """Everything but what every answer carries."""
        plan, money = self.plan, self.money()
        return {
            "status": plan.status,
            **money,
            "enough": {"yes": True, "no": False}.get(plan.enough, "unknown"),
            "deadline_met": plan.deadline_met,
            "boards": [row for one in plan.boards for row in self.boards(one)],
            "sheets": [row for one in plan.sheets for row in self.sheets(one)],
            "stop_blocks": [row for one in plan.boards for row in self.stops(one)],
            "stop_block_side": KEPT_SIDE,
            "buy": [row for one in plan.all for row in self.buy(one)],
            "unplaced": list(self.unplaced()),
            "compared": [self.compared(one) for one in plan.boards if one.comparison],
            **self.shares(),
        }

    def money(self) -> dict[str, Any]:
        """Cost, bound and gap; null where nothing has a price."""
        plan, budget = self.plan, self.build.build.buying.budget
        stated = None if budget is None else cents(budget)
        if not any(one.asked.priced for one in plan.all):
            nothing = {"cost": None, "bound": None, "gap_percent": None, "currency": None}
            return nothing | {"budget": stated, "over_budget": None}
        outlay = outlay_of(self.build, plan)
        return {
            "cost": cents(outlay.cost),
            "bound": cents(outlay.bound),
            "gap_percent": outlay.gap_percent,
            "currency": self.build.build.buying.currency,
            "spare_cost": cents(outlay.spare),
            "store_cuts_cost": cents(outlay.store_cuts),
            "tax": cents(outlay.tax),
            "outlay": cents(outlay.total),
            "budget": stated,
            "over_budget": None if budget is None else outlay.total > budget,
            "without_prices": [o.asked.stock.key for o in plan.all if not o.asked.priced],
        }

    def boards(self, one: PlannedBoards) -> Iterator[dict[str, Any]]:
        """Every board with its cuts in the order to make them, from the left end."""
        held = shortest_held(self.build.catalog)
        whole, widths = one.asked.job.width, {p.id: p.width for p in one.asked.job.parts}
        for board in kept_time(one.plan.boards):
            yield {
                "stock": one.asked.stock.key,
                "wood": one.asked.stock.wood,
                "from": board.source,
                "length": self.length(board.length),
                "price": price(board.price, one),
                "strips": [self.length(width) for width in board.strips],
                "cuts": [
                    self.cut(piece, board, widths[piece.part] or whole, whole)
                    for piece in board.pieces
                ],
                "left": [self.length(end - start) for start, end in board.rests],
                "left_strips": list(board.rest_strips) if board.strips else [],
                "keep": list(board.keep),
                "too_short_to_hold": [] if held is None else list(short_to_hold(board, held)),
            }

    def cut(self, piece: Piece, board: CutBoard, wide: Fraction, whole: Fraction) -> dict[str, Any]:
        """One piece on its board: tape marks from the board's left end, and how the saw stands.

        It is to be `wide`, and comes from a strip or from the `whole` width of the board.
        """
        here = board.strips[piece.strip] if board.strips else whole
        return {
            "part": piece.part,
            "letter": self.letter(piece.part),
            "start": self.length(piece.start),
            "end": self.length(piece.end),
            "left_angle": angles(piece.left),
            "right_angle": angles(piece.right),
            "turned": piece.turned,
            "over": piece.over,
            "strip": piece.strip,
            "rip_to": self.length(wide) if wide < here else None,
        }

    def stops(self, one: PlannedBoards) -> Iterator[dict[str, Any]]:
        """Lengths that a stop block repeats."""
        for block in stop_blocks(one.plan.boards):
            yield {
                "stock": one.asked.stock.key,
                "length": self.length(block.length),
                "parts": list(block.parts),
                "count": block.count,
            }

    def sheets(self, one: PlannedSheets) -> Iterator[dict[str, Any]]:
        """Every sheet with its panels and its cuts in order."""
        for sheet in kept_time(one.plan.sheets):
            yield {
                "stock": one.asked.stock.key,
                "from": "on-hand" if sheet.sheet.on_hand else "store",
                "length": self.length(sheet.sheet.length),
                "width": self.length(sheet.sheet.width),
                "price": price(sheet.sheet.price, one),
                "pieces": list(self.panels(sheet)),
                "cuts": list(self.sheet_cuts(sheet)),
                "left": [
                    {
                        "length": self.length(rest.area.length),
                        "width": self.length(rest.area.width),
                        "keep": rest.keep,
                    }
                    for rest in sheet.rests
                ],
            }

    def panels(self, sheet: CutSheet) -> Iterator[dict[str, Any]]:
        for placed in sheet.panels:
            yield {
                "part": placed.panel,
                "letter": self.letter(placed.panel),
                "x": self.length(placed.area.x),
                "y": self.length(placed.area.y),
                "length": self.length(placed.area.length),
                "width": self.length(placed.area.width),
                "turned": placed.turned,
            }

    def sheet_cuts(self, sheet: CutSheet) -> Iterator[dict[str, Any]]:
        for cut in sheet.cuts:
            yield {
                "order": cut.order,
                "across": cut.across,
                "at": self.length(cut.at),
                "by": cut.by,
                "trim": cut.trim,
                "piece": {
                    "x": self.length(cut.piece.x),
                    "y": self.length(cut.piece.y),
                    "length": self.length(cut.piece.length),
                    "width": self.length(cut.piece.width),
                },
            }

    def buy(self, one: PlannedBoards | PlannedSheets) -> Iterator[dict[str, Any]]:
        """The shopping list of one stock."""
        if isinstance(one, PlannedBoards):
            for row in one.plan.buy:
                yield {
                    "stock": one.asked.stock.key,
                    "length": self.length(row.length),
                    "width": None,
                    "count": row.count,
                    "spare": row.spare,
                    "price": price(row.price, one),
                    "total": price(row.total, one),
                }
            return
        bought = Counter(sheet.sheet for sheet in one.plan.sheets if not sheet.sheet.on_hand)
        for sheet, count in bought.items():
            yield {
                "stock": one.asked.stock.key,
                "length": self.length(sheet.length),
                "width": self.length(sheet.width),
                "count": count,
                "spare": 0,
                "price": price(sheet.price, one),
                "total": price(sheet.price * count, one),
            }

    def unplaced(self) -> Iterator[dict[str, Any]]:
        """Pieces that can't be made, and why."""
        for one in missing_from(self.plan):
            yield {"part": one.part, "quantity": one.quantity, "why": one.why}

    def compared(self, one: PlannedBoards) -> dict[str, Any]:
        """What the plan saves, and what other ways of buying cost."""
        held, plan = one.comparison, one.plan
        assert held is not None
        plain, tips = held.longest_first, held.tip_to_tip
        return {
            "stock": one.asked.stock.key,
            "cost": price(plan.cost, one),
            "longest_first": price(plain.cost, one) if plain and not plain.unplaced else None,
            "tip_to_tip": price(tips.cost, one) if tips and not tips.unplaced else None,
            "out_of_time": held.out_of_time,
            "one_length_only": [
                {
                    "length": self.length(alone.length),
                    "cost": None if alone.cost is None else price(alone.cost, one),
                }
                for alone in held.alone
            ],
        }

    def shares(self) -> dict[str, float]:
        """How much of the wood ends up in parts, is kept, and is waste."""
        shares = shares_of(self.build, self.plan)
        return {
            "used_percent": shares.used,
            "kept_percent": shares.kept,
            "waste_percent": shares.waste,
        }


def price(amount: Decimal, one: PlannedBoards | PlannedSheets) -> str | None:
    """Money, or null where the stock has no price."""
    return cents(amount) if one.asked.priced else None


def cents(amount: Decimal) -> str:
    """Money to the cent."""
    return f"{amount:.2f}"


def angles(slant: Slant) -> dict[str, float]:
    """Miter and bevel of an end, degrees off square as the saw is set; signs as the piece lies."""
    miter, bevel = slant.settings
    return {"miter": round(miter, 2), "bevel": round(bevel, 2)}
