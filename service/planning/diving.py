"""A plan out of the relaxed optimum: whole parts of it are kept, the rest is solved again."""

from math import floor

from service.planning.filling import by_rules_of_thumb
from service.planning.pricing import pricing_of
from service.planning.problem import Column, Cut, Cuts, Problem
from service.planning.relaxing import Relaxation, Seen


def dive(relaxation: Relaxation, seen: Seen, bound: int) -> Cuts | None:
    """Keep whole boards of the relaxed optimum, price in patterns for what is left, and so on."""
    del bound
    diver = _Diver(relaxation)
    try:
        return diver.run(seen.amounts)
    finally:
        diver.restore()


class _Diver:
    def __init__(self, relaxation: Relaxation) -> None:
        self.relaxation, self.problem = relaxation, relaxation.problem
        self.master = relaxation.master
        self.left = list(self.problem.demands)
        self.stock = [supply.limit for supply in self.problem.supplies]
        self.kept: dict[Column, int] = {}

    def run(self, amounts: tuple[float, ...]) -> Cuts | None:
        while any(self.left) and not self.relaxation.clock.out():
            if not self._keep_whole(amounts):
                break
            if any(self.left):
                amounts = self._solve_rest()
        cuts = tuple(Cut(*column, times) for column, times in sorted(self.kept.items()))
        if not any(self.left):
            return cuts
        rest = by_rules_of_thumb(self._rest())
        return None if rest is None else _joined(cuts, self._with_own_items(rest))

    def restore(self) -> None:
        self.master.ask_for(self.problem.demands)
        none = [0] * len(self.stock)
        self.master.count_boards(none, [supply.limit for supply in self.problem.supplies])

    def _room(self, column: Column) -> int:
        often = min(self.left[item] // count for item, count in column.pattern)
        stock = self.stock[column.supply]
        return often if stock is None else min(often, stock)

    def _keep(self, column: Column, times: int) -> None:
        self.kept[column] = self.kept.get(column, 0) + times
        for item, count in column.pattern:
            self.left[item] -= count * times
        stock = self.stock[column.supply]
        self.stock[column.supply] = None if stock is None else stock - times

    def _keep_whole(self, amounts: tuple[float, ...]) -> bool:
        """Keep what is whole already; if nothing is, the largest fraction that still fits."""
        kept, fractions = False, []
        for column, amount in zip(self.master.columns, amounts, strict=False):
            if amount < 1e-6:
                continue
            times = min(floor(amount + 1e-6), self._room(column))
            if times > 0:
                self._keep(column, times)
                kept = True
            fractions.append((-round(amount - floor(amount), 6), column))
        if kept:
            return True
        for _, column in sorted(fractions):
            if self._room(column) > 0:
                self._keep(column, 1)
                return True
        return False

    def _solve_rest(self) -> tuple[float, ...]:
        relaxation, master = self.relaxation, self.master
        master.ask_for(self.left)
        master.count_boards([0] * len(self.stock), self.stock)
        pricing = pricing_of(self.problem, self.left)
        while True:
            relaxed = master.solve(relaxation.clock.left())
            if not relaxed.solved or relaxation.clock.out():
                return ()
            values = pricing.values(relaxation.whole(relaxed))
            if not relaxation.price_in(relaxed, values, pricing):
                return tuple(relaxed.amounts.tolist())

    def _rest(self) -> Problem:
        """What is still to cut, from what is still there."""
        from dataclasses import replace

        wanted = [item for item, count in enumerate(self.left) if count]
        self._wanted = wanted
        supplies = tuple(
            replace(supply, limit=stock)
            for supply, stock in zip(self.problem.supplies, self.stock, strict=True)
        )
        nest, widths = self.problem.nest, self.problem.widths
        return Problem(
            tuple(self.problem.lengths[item] for item in wanted),
            tuple(self.left[item] for item in wanted),
            supplies,
            None if nest is None else replace(nest, groups=tuple(nest.groups[i] for i in wanted)),
            tuple(widths[item] for item in wanted) if widths else (),
        )

    def _with_own_items(self, cuts: Cuts) -> Cuts:
        return tuple(
            cut._replace(pattern=tuple((self._wanted[i], count) for i, count in cut.pattern))
            for cut in cuts
        )


def _joined(first: Cuts, second: Cuts) -> Cuts:
    return (*first, *second)
