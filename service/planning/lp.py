"""The only module that knows the solver: the relaxed choice of patterns, and small whole programs.

One thread always: the solver's scheduler is one for the process, and a second number of threads
makes it fail without a word. Nothing is printed. Limits are counted work; the seconds given are
the last resort. The versions from 1.16 print a banner on standard output and are not used.
"""

from collections.abc import Iterable, Sequence
from typing import Literal, NamedTuple

import highspy
import numpy as np
from numpy.typing import NDArray

from service.planning.problem import Column, Problem

Reals = NDArray[np.float64]

DUAL, PRIMAL = 1, 4
_NOTHING = (np.array([], dtype=np.int32), np.array([], dtype=np.float64))


class Relaxed(NamedTuple):
    """An optimum of the relaxed choice; `solved` is False when the seconds ran out.

    `worth` is the price that one more of each item would cost, `charges` what one more board of
    each supply would save or cost beyond its price, `amounts` how often each column is used,
    `missing` how many pieces no column yields.
    """

    solved: bool
    worth: Reals
    charges: Reals
    amounts: Reals
    missing: float


def _quiet() -> highspy.Highs:
    solver = highspy.Highs()  # type: ignore[no-untyped-call]  # its stubs leave __init__ bare
    solver.setOptionValue("output_flag", False)
    solver.setOptionValue("threads", 1)
    solver.setOptionValue("random_seed", 0)
    return solver


class Master:
    """Which patterns, how often, in fractions: warm from one question to the next."""

    def __init__(self, problem: Problem) -> None:
        self.problem = problem
        self.columns: list[Column] = []
        self._known: set[Column] = set()
        self._items = len(problem.lengths)
        self._solver = solver = _quiet()
        solver.setOptionValue("presolve", "off")
        self._moved = False
        inf = highspy.kHighsInf
        for demand in problem.demands:
            solver.addRow(float(demand), inf, 0, *_NOTHING)
        for supply in problem.supplies:
            solver.addRow(0.0, _upper(supply.limit), 0, *_NOTHING)
        self.missing_price = (problem.pieces + 1) * (1 + max(s.price for s in problem.supplies))
        for item in range(self._items):
            self._add_one(float(self.missing_price), [item], [1.0])

    def _add_one(self, price: float, rows: list[int], values: list[float]) -> None:
        self._solver.addCol(
            price, 0.0, highspy.kHighsInf, len(rows),
            np.array(rows, dtype=np.int32), np.array(values, dtype=np.float64),
        )  # fmt: skip

    def add(self, columns: Iterable[Column]) -> int:
        """Make columns available; how many of them are new."""
        fresh = 0
        for column in columns:
            if column in self._known or not column.pattern:
                continue
            self._known.add(column)
            self.columns.append(column)
            fresh += 1
            rows = [item for item, _ in column.pattern]
            values = [float(count) for _, count in column.pattern]
            price = float(self.problem.supplies[column.supply].price)
            self._add_one(price, [*rows, self._items + column.supply], [*values, 1.0])
        return fresh

    def count_boards(self, low: Sequence[int], high: Sequence[int | None]) -> None:
        """Keep the number of boards of every supply between two bounds."""
        self._moved = True
        for place, (least, most) in enumerate(zip(low, high, strict=True)):
            self._solver.changeRowBounds(self._items + place, float(least), _upper(most))

    def ask_for(self, demands: Sequence[int]) -> None:
        """Change how many of each item are wanted."""
        self._moved = True
        for item, demand in enumerate(demands):
            self._solver.changeRowBounds(item, float(demand), highspy.kHighsInf)

    def solve(self, seconds: float | None) -> Relaxed:
        """The optimum over the columns at hand."""
        solver = self._solver
        # New columns leave the last optimum feasible, new bounds leave it unbeaten.
        solver.setOptionValue("simplex_strategy", DUAL if self._moved else PRIMAL)
        self._moved = False
        if seconds is not None:
            solver.setOptionValue("time_limit", solver.getRunTime() + max(0.001, seconds))
        solver.run()
        solution = solver.getSolution()
        values, duals = np.array(solution.col_value), np.array(solution.row_dual)
        return Relaxed(
            solved=solver.getModelStatus() == highspy.HighsModelStatus.kOptimal,
            worth=np.maximum(duals[: self._items], 0.0),
            charges=duals[self._items :],
            amounts=values[self._items :],
            missing=float(values[: self._items].sum()),
        )


def _upper(most: int | None) -> float:
    return float(highspy.kHighsInf) if most is None else float(most)


class Program(NamedTuple):
    """A whole program, column by column: entries are (row, value)."""

    costs: Sequence[float]
    most: Sequence[float]
    entries: Sequence[Sequence[tuple[int, float]]]
    row_low: Sequence[float]
    row_high: Sequence[float]


class Answer(NamedTuple):
    """What came of a whole program: the best amounts found and a floor under the cost."""

    status: Literal["solved", "impossible", "open"]
    amounts: list[int] | None
    floor: float


def solve_whole(program: Program, *, nodes: int, seconds: float | None, first_only: bool) -> Answer:
    """Solve a whole program to the last unit, within a number of nodes.

    `first_only` stops at the first amounts found.
    """
    solver = _quiet()
    for name, value in (("mip_rel_gap", 0.0), ("mip_abs_gap", 0.999), ("mip_max_nodes", nodes)):
        solver.setOptionValue(name, value)
    if seconds is not None:
        solver.setOptionValue("time_limit", max(0.001, seconds))
    if first_only:
        solver.setOptionValue("mip_max_improving_sols", 1)
    solver.passModel(_model(program))
    solver.run()
    info, status = solver.getInfo(), solver.getModelStatus()
    amounts = None
    if info.primal_solution_status == 2:
        amounts = [round(value) for value in solver.getSolution().col_value]
    if status == highspy.HighsModelStatus.kInfeasible:
        return Answer("impossible", None, float("inf"))
    solved = status == highspy.HighsModelStatus.kOptimal
    return Answer("solved" if solved else "open", amounts, float(info.mip_dual_bound))


def _model(program: Program) -> highspy.HighsLp:
    model = highspy.HighsLp()
    model.num_col_, model.num_row_ = len(program.costs), len(program.row_low)
    model.col_cost_ = np.array(program.costs, dtype=np.float64)
    model.col_lower_ = np.zeros(len(program.costs))
    model.col_upper_ = np.array(program.most, dtype=np.float64)
    model.row_lower_ = np.array(program.row_low, dtype=np.float64)
    model.row_upper_ = np.array(program.row_high, dtype=np.float64)
    starts = np.cumsum([0] + [len(entry) for entry in program.entries])
    model.a_matrix_.format_ = highspy.MatrixFormat.kColwise
    model.a_matrix_.start_ = starts.astype(np.int32)
    rows = [row for entry in program.entries for row, _ in entry]
    values = [value for entry in program.entries for _, value in entry]
    model.a_matrix_.index_ = np.array(rows, dtype=np.int32)
    model.a_matrix_.value_ = np.array(values, dtype=np.float64)
    model.integrality_ = [highspy.HighsVarType.kInteger] * len(program.costs)
    return model
