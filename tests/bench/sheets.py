"""Sheets against the clock: hobby cases, the guillotine set, the variable-size set.

    scripts/bench sheets --set hobby --cases 100 --deadline 6
    scripts/bench sheets --set gcut
    scripts/bench sheets --set vs --sizes 20,40 --deadline 6

Benchmark files are read from the folder that the environment variable DRYFIT_BENCHMARKS names.
One thread, CPU seconds. A fixed piece of arithmetic is timed first: the machine's reference.
"""

import argparse
import os
import platform
import sys
from collections.abc import Iterator
from decimal import Decimal
from fractions import Fraction
from pathlib import Path
from random import Random
from time import perf_counter, process_time

import numpy as np

from service.planning.panels.asking import Cutting, Panel, Sheet
from service.planning.panels.guillotine import Guillotine
from service.planning.panels.lots import Kind, Lot, Stock
from service.planning.panels.planned import SheetPlan
from service.planning.panels.sheets import plan_sheets

Question = tuple[list[Panel], list[Sheet], Cutting]

GCUT_OPTIMA = (
    56460, 60536, 61036, 61698, 246000, 238998, 242567, 246633, 971100, 982025, 980096, 979986,
)  # fmt: skip
"""As listed with the set (Beasley 1985), unconstrained, without turning."""

SIZES = ((5, 9), (10, 19), (20, 29), (30, 40))


def machine() -> str:
    """The machine, and how long a fixed piece of arithmetic takes on it."""
    start = process_time()
    total = 0
    for number in range(3_000_000):
        total += number * number % 7
    plain = process_time() - start
    start = process_time()
    array = np.arange(1 << 15, dtype=np.int64)
    for _ in range(4000):
        total += int(np.maximum(array, array[::-1]).sum())
    return (
        f"{platform.machine()}, Python {platform.python_version()}, numpy {np.__version__}; "
        f"reference: 3,000,000 plain steps {plain:.2f} s, "
        f"4,000 array steps {process_time() - start:.2f} s"
    )


def hobby(seed: int) -> Question:
    """5 to 40 rectangles from full, half and small sheets, sometimes an offcut; 1/16 in."""
    r, t = Random(seed), 16
    many = r.randint(5, 40)
    kinds = max(2, min(many, r.randint(3, 12)))
    step = r.choice([t, t // 2, t // 4, t // 8])
    sizes = []
    for _ in range(kinds):
        w, h = r.choice([
            (r.uniform(3, 16), r.uniform(6, 30)), (r.uniform(10, 24), r.uniform(12, 48)),
            (r.uniform(2, 8), r.uniform(12, 60)),
        ])  # fmt: skip
        w, h = (max(step, int(size * t) // step * step) for size in (w, h))
        sizes.append([h, w, 1, r.random() < 0.5])
    for _ in range(many - kinds):
        sizes[r.randrange(kinds)][2] += 1
    sheets = [(96 * t, 48 * t, int(6200 * r.uniform(0.85, 1.2)), None)]
    if r.random() < 0.8:
        sheets.append((48 * t, 24 * t, int(2100 * r.uniform(0.85, 1.2)), None))
    if r.random() < 0.6:
        sheets.append((48 * t, 48 * t, int(3700 * r.uniform(0.85, 1.2)), None))
    if r.random() < 0.4:
        sheets.append((int(r.uniform(20, 60)) * t, int(r.uniform(12, 40)) * t, 0, 1))
    return (
        [
            Panel(f"p{place}", Fraction(h, t), Fraction(w, t), count, turns)
            for place, (h, w, count, turns) in enumerate(sizes)
        ],
        [
            Sheet(f"s{place}", Fraction(a, t), Fraction(b, t), Decimal(p) / 100, most, p == 0)
            for place, (a, b, p, most) in enumerate(sheets)
        ],
        Cutting(kerf=Fraction(1, 8), store_cuts=0),
    )


def variable_size(text: str) -> Question:
    """The variable-size set: items and bins in whole numbers, bins with costs, no turning."""
    numbers = [int(word) for word in text.split()]
    many, bins = numbers[0], numbers[1]
    rows = numbers[3:]
    sheets = [
        Sheet(f"s{k}", Fraction(rows[4 * k]), Fraction(rows[4 * k + 1]), Decimal(rows[4 * k + 3]))
        for k in range(bins)
    ]
    rows = rows[4 * bins :]
    panels = [
        Panel(f"p{k}", Fraction(rows[4 * k + 1]), Fraction(rows[4 * k + 2]), rows[4 * k + 3])
        for k in range(many)
    ]
    return panels, sheets, Cutting(kerf=Fraction(0), store_cuts=0)


def benchmarks() -> Path:
    """The folder of the benchmark files; ends the run where none is named."""
    folder = os.environ.get("DRYFIT_BENCHMARKS")
    if not folder or not Path(folder, "2d").is_dir():
        sys.exit("skipped: DRYFIT_BENCHMARKS names no folder with the 2d sets")
    return Path(folder, "2d")


class Tally:
    """Plans of one set, and what the table says of them."""

    def __init__(self, detail: bool) -> None:
        self._detail = detail
        self._rows: list[tuple[int, SheetPlan, float, float]] = []

    def plan(self, name: str, question: Question, deadline: float) -> None:
        """Plan one case and time it."""
        wall, cpu = perf_counter(), process_time()
        plan = plan_sheets(*question, deadline_s=deadline)
        wall, cpu = perf_counter() - wall, process_time() - cpu
        pieces = sum(panel.quantity for panel in question[0])
        self._rows.append((pieces, plan, cpu, wall))
        if self._detail and plan.status != "optimal":
            print(
                f"  {name}: {pieces} panels, cost {plan.cost}, bound {plan.bound}, "
                f"cpu {cpu:.2f} s, wall {wall:.2f} s, work {plan.work / 1e6:.0f} M"
            )

    def line(self, name: str, low: int = 0, high: int = 10**9) -> str:
        """One line of the table, for cases between two numbers of panels."""
        rows = [row for row in self._rows if low <= row[0] <= high]
        if not rows:
            return f"{name:>12} | none"
        cpus = sorted(row[2] for row in rows)
        cost, bound = sum(row[1].cost for row in rows), sum(row[1].bound for row in rows)
        proved = sum(row[1].status == "optimal" for row in rows)
        over = 100 * (float(cost) / float(bound) - 1) if bound else 0.0
        met = sum(row[1].deadline_met for row in rows)
        gap = sum(row[1].gap_percent for row in rows) / len(rows)
        median, tail = cpus[len(cpus) // 2], cpus[len(cpus) * 9 // 10]
        return (
            f"{name:>12} | {len(rows):5} | {proved:6} | {over:8.2f} % | {gap:6.2f} %"
            f" | {median:6.2f} | {tail:6.2f} | {cpus[-1]:6.2f} | {sum(cpus):7.1f}"
            f" | {max(row[3] for row in rows):6.2f} | {met}"
        )

    HEAD = (
        "      panels | cases | proved | cost/bound | mean gap | median | 90 %   | max    | sum cpu"
        " | wall   | deadline met"
    )


def run_hobby(cases: range, deadline: float, detail: bool) -> None:
    """The seeded hobby cases, by number of panels."""
    tally = Tally(detail)
    for seed in cases:
        tally.plan(f"seed {seed}", hobby(seed), deadline)
    print(f"hobby cases {cases.start} to {cases.stop - 1}, deadline {deadline:g} s, CPU seconds")
    print("(prototype: 73 to 75 of 100 proved, cost/bound 5.3 %, median 0.76 s, 90 % 5.7 s)")
    print(Tally.HEAD)
    for low, high in SIZES:
        print(tally.line(f"{low}-{high}", low, high))
    print(tally.line("all"))


def run_gcut() -> None:
    """The guillotine set, unconstrained: one table of cuts a case."""
    folder = benchmarks() / "gcut"
    print("gcut 1 to 12, one table of cuts each (prototype: 0.002 to 0.27 s)")
    for number, optimum in enumerate(GCUT_OPTIMA, start=1):
        words = [int(w) for w in (folder / f"gcut{number}.txt").read_text("utf-8").split()]
        width, height = words[1:3]
        rows = [words[place : place + 3] for place in range(3, 3 + 3 * words[0], 3)]
        lot = Lot(tuple(Kind(w, h, width) for w, h, _ in rows), (Stock(width, height, 1),))
        cpu = process_time()
        table = Guillotine(lot, grained=True, most=10**9)
        best = table.worth_of(table.values([float(row[2]) for row in rows]), width, height)
        cpu = process_time() - cpu
        says = "optimal" if best == optimum else f"WRONG, {optimum} expected"
        print(f"  gcut{number:<3} {best:9.0f} {says}  {cpu:.3f} s")


def variable_files(sizes: list[int]) -> Iterator[tuple[str, Question]]:
    """The variable-size set's questions with some numbers of panels."""
    for path in sorted((benchmarks() / "2dvsbpp").glob("MB_*.txt")):
        text = path.read_text("utf-8")
        if int(text.split()[0]) in sizes:
            yield path.stem, variable_size(text)


def run_variable(sizes: list[int], deadline: float, detail: bool) -> None:
    """The variable-size set, by number of panels."""
    tally = Tally(detail)
    for name, question in variable_files(sizes):
        tally.plan(name, question, deadline)
    print(f"variable-size set, deadline {deadline:g} s, CPU seconds")
    print("(prototype: 20 panels 10 of 20 proved, mean gap 2.8 %; 40 panels 5 of 20, 4.7 %)")
    print(Tally.HEAD)
    for size in sizes:
        print(tally.line(str(size), size, size))
    print(tally.line("all"))


def main() -> None:
    """Read what is wanted and print its tables."""
    ask = argparse.ArgumentParser(description="Sheets against the clock.")
    ask.add_argument("--set", choices=("hobby", "gcut", "vs"), required=True)
    ask.add_argument("--cases", type=int, default=100)
    ask.add_argument("--first", type=int, default=0)
    ask.add_argument("--sizes", default="20,40")
    ask.add_argument("--deadline", type=float, default=6.0)
    ask.add_argument("--detail", action="store_true")
    said = ask.parse_args()
    print(machine(), flush=True)
    if said.set == "hobby":
        run_hobby(range(said.first, said.first + said.cases), said.deadline, said.detail)
    elif said.set == "gcut":
        run_gcut()
    else:
        sizes = [int(size) for size in said.sizes.split(",")]
        run_variable(sizes, said.deadline, said.detail)


if __name__ == "__main__":
    main()
