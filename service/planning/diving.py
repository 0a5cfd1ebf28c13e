"""A plan out of the relaxed optimum: board after board is kept, and the rest is solved again.

A board after which the rest would cost too much is put back, and another one is tried; after so
many of them the dive is given up.
"""

from collections.abc import Callable, Sequence
from dataclasses import replace
from math import floor
from typing import NamedTuple

from service.planning.filling import by_rules_of_thumb
from service.planning.pricing import pricing_of
from service.planning.problem import Column, Cut, Cuts, Problem
from service.planning.proof import Box, floor_under
from service.planning.relaxing import Relaxation

SHARE_A_STEP = 10  # one board in so many is kept a step
FEW_PIECES = 100
LEANING = 0.3
MANY_PIECES, FEW_ROUNDS = 150, 3


Finish = Callable[[Sequence[int], Sequence[int | None]], Cuts | None]


class _State(NamedTuple):
    """What is still wanted, which boards are still there, and what the kept ones cost."""

    left: tuple[int, ...]
    stock: tuple[int | None, ...]
    cost: int


def dive(
    relaxation: Relaxation,
    amounts: Sequence[float],
    stock: Sequence[int | None],
    *,
    ceiling: int | None,
    patience: int,
    turn: int = 0,
    finish: Finish | None = None,
) -> Cuts | None:
    """Cuts cheaper than the ceiling from at most these boards; None if the dive finds none.

    `amounts` are the relaxed amounts of the columns to start from; `patience` is how many boards
    may be put back. Every `turn` goes another way where choices are close. `finish` packs what
    is left once that is little.
    """
    diver = _Diver(relaxation, ceiling, patience, turn)
    diver.finish = finish
    try:
        return diver.run(tuple(amounts), tuple(stock))
    finally:
        diver.restore()


class _Diver:
    def __init__(
        self, relaxation: Relaxation, ceiling: int | None, patience: int, turn: int
    ) -> None:
        self.relaxation, self.problem = relaxation, relaxation.problem
        self.master = relaxation.master
        self.ceiling, self.patience, self.turn = ceiling, patience, turn
        self.finish: Finish | None = None
        self.kept: list[Cut] = []
        self.refused: set[Column] = set()

    def run(self, amounts: Sequence[float], stock: tuple[int | None, ...]) -> Cuts | None:
        """Dive to the ground."""
        state = _State(self.problem.demands, stock, 0)
        while any(state.left) and not self.relaxation.clock.out():
            choice = self._choose(amounts, state)
            if not choice:
                break
            after = self._after(state, choice)
            packed = self._packed(after)
            if packed is not None:
                return (*self.kept, *choice, *packed)
            rest = self._rest(after) if any(after.left) else ()
            if rest is None:
                self.refused.update(Column(cut.supply, cut.pattern) for cut in choice)
                self.patience -= 1
                if self.patience < 0:
                    return None
                continue
            self.kept.extend(choice)
            state, amounts = after, rest
        return self._finished(state)

    def _packed(self, state: _State) -> Cuts | None:
        """What is left, packed at once, the first time that it is little."""
        finish = self.finish
        if finish is None or not any(state.left) or sum(state.left) > FEW_PIECES:
            return None
        self.finish = None
        return finish(state.left, state.stock)

    def restore(self) -> None:
        """Give the relaxed problem its own demands back."""
        self.master.ask_for(self.problem.demands)

    def _room(self, column: Column, state: _State) -> int:
        often = min(state.left[item] // count for item, count in column.pattern)
        stock = state.stock[column.supply]
        return often if stock is None else min(often, stock)

    def _choose(self, amounts: Sequence[float], state: _State) -> list[Cut]:
        """What is whole already; if nothing is, the largest fractions that still fit."""
        whole, fractions, boards = list[Cut](), list[tuple[float, Column]](), 0.0
        now = state
        for place, (column, amount) in enumerate(zip(self.master.columns, amounts, strict=False)):
            if amount < 1e-6:
                continue
            boards += amount
            if column in self.refused:
                continue
            times = min(floor(amount + 1e-6), self._room(column, now))
            if times > 0:
                whole.append(Cut(*column, times))
                now = self._after(now, whole[-1:])
            leaning = (place * 2654435761 + self.turn * 320741597) % 2**32 / 2**32
            share = amount - floor(amount) + (LEANING * leaning if self.turn else 0)
            fractions.append((-round(share, 6), column))
        return whole or self._largest(fractions, state, 1 + int(boards) // SHARE_A_STEP)

    def _largest(
        self, fractions: list[tuple[float, Column]], state: _State, most: int
    ) -> list[Cut]:
        chosen: list[Cut] = []
        for _, column in sorted(fractions):
            if len(chosen) < most and self._room(column, state) > 0:
                chosen.append(Cut(*column, 1))
                state = self._after(state, chosen[-1:])
        return chosen

    def _after(self, state: _State, cuts: Sequence[Cut]) -> _State:
        left, stock, cost = list(state.left), list(state.stock), state.cost
        for supply, pattern, times in cuts:
            for item, count in pattern:
                left[item] -= count * times
            limit = stock[supply]
            stock[supply] = None if limit is None else limit - times
            cost += self.problem.supplies[supply].price * times
        return _State(tuple(left), tuple(stock), cost)

    def _rest(self, state: _State) -> tuple[float, ...] | None:
        """The relaxed optimum of what is left; None if it must cost too much."""
        relaxation, master = self.relaxation, self.master
        none = (0,) * len(state.stock)
        master.ask_for(state.left)
        master.count_boards(none, state.stock)
        pricing = pricing_of(self.problem, state.left)
        problem, box = replace(self.problem, demands=state.left), Box(none, state.stock)
        rounds = FEW_ROUNDS if sum(state.left) > MANY_PIECES else None
        while True:
            relaxed = master.solve(relaxation.clock.left())
            if not relaxed.solved or relaxation.clock.out():
                return ()
            worth = relaxation.whole(relaxed)
            values = pricing.values(worth)
            bound, _, _ = floor_under(problem, worth, values, relaxation.scale, box)
            if self.ceiling is not None and state.cost + bound >= self.ceiling:
                return None
            rounds = None if rounds is None else rounds - 1
            if rounds == 0 or not relaxation.price_in(relaxed, worth, pricing):
                return None if relaxed.missing > 1e-6 else tuple(relaxed.amounts.tolist())

    def _finished(self, state: _State) -> Cuts | None:
        """The cuts kept, and what is left by rules of thumb."""
        cuts = tuple(self.kept)
        if not any(state.left):
            return cuts
        problem, wanted = part_of(self.problem, state.left, state.stock)
        rest = by_rules_of_thumb(problem)
        return None if rest is None else (*cuts, *renumbered(rest, wanted))


def renumbered(cuts: Cuts, items: Sequence[int]) -> Cuts:
    """The cuts of a part of a problem, with the whole problem's items."""
    return tuple(
        cut._replace(pattern=tuple((items[i], count) for i, count in cut.pattern)) for cut in cuts
    )


def part_of(
    problem: Problem, left: Sequence[int], stock: Sequence[int | None]
) -> tuple[Problem, list[int]]:
    """What is still to cut from what is still there, and the items of it."""
    wanted = [item for item, count in enumerate(left) if count]
    supplies = tuple(
        replace(supply, limit=limit) for supply, limit in zip(problem.supplies, stock, strict=True)
    )
    nest, widths = problem.nest, problem.widths
    return Problem(
        tuple(problem.lengths[item] for item in wanted),
        tuple(left[item] for item in wanted),
        supplies,
        None if nest is None else replace(nest, groups=tuple(nest.groups[i] for i in wanted)),
        tuple(widths[item] for item in wanted) if widths else (),
    ), wanted
