"""Measure the planning of boards, one thread, in CPU seconds, beside the figures to beat.

scripts/bench boards --set hobby|ties|proofs|cpsat|classic|hard|variable|growth
    [--limit N] [--seconds S] [--only NAME,...]

The published sets are read from the folder that DRYFIT_BENCHMARKS names; without it those are
skipped. The general solver of `cpsat` is a package of its own, for this measurement only.
"""

import argparse
import json
import os
import platform
import random
import subprocess
import sys
import time
from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from math import gcd
from pathlib import Path

from service.planning.boards import plan_boards, plan_longest_first
from service.planning.effort import Clock, Effort
from service.planning.filling import by_rules_of_thumb
from service.planning.job import ForSale, Job, OnHand, Part
from service.planning.problem import Problem, Supply
from service.planning.proof import check_proof
from service.planning.scaling import scaled
from service.planning.search import Outcome, solve

CLASSIC = ("falkenauer_u", "falkenauer_t", "schwerin1", "schwerin2", "waescher", "hard28",
           "scholl1", "scholl2", "scholl3")  # fmt: skip
TICKS = 64


@dataclass(frozen=True, slots=True)
class Run:
    """One case: its name, CPU seconds, and what came out."""

    name: str
    cpu: float
    outcome: Outcome


def timed(name: str, problem: Problem, seconds: float) -> Run:
    """Solve for money alone; the clock counts CPU seconds, so that a busy machine is fair."""
    start = time.process_time()
    outcome = solve(problem, Clock(seconds, time.process_time), Effort())
    return Run(name, time.process_time() - start, outcome)


def spread(values: Sequence[float]) -> str:
    """Median, tails and worst, milliseconds or seconds."""
    ordered = sorted(values)

    def at(share: float) -> str:
        value = ordered[min(len(ordered) - 1, int(share * len(ordered)))]
        return f"{value * 1000:.1f} ms" if value < 1 else f"{value:.2f} s"

    return f"median {at(0.5)}, p90 {at(0.9)}, p99 {at(0.99)}, max {at(1)}"


def machine_reference() -> str:
    """How fast this machine is: seconds of a fixed piece of pure Python."""
    start, total = time.process_time(), 0
    for n in range(3_000_000):
        total += n & 7
    return (f"{platform.machine()}, Python {platform.python_version()}, "
            f"3 million additions in {time.process_time() - start:.3f} s")  # fmt: skip


def hobby_job(seed: int) -> Job:
    """10 to 60 pieces in 3 to 10 sizes, 2 to 4 lengths at prices out of proportion, offcuts."""
    r = random.Random(seed)
    count, kinds = r.randint(10, 60), r.randint(3, 10)
    kinds = min(kinds, count)
    step = r.choice([TICKS, TICKS // 2, TICKS // 4, TICKS // 8, TICKS // 16])
    drawn: set[int] = set()
    while len(drawn) < kinds:
        x = r.choice([r.uniform(4, 20), r.uniform(10, 40), r.uniform(20, 80)])
        drawn.add(max(step, int(x * TICKS) // step * step))
    wanted = dict.fromkeys(sorted(drawn), 1)
    lengths = list(wanted)
    for _ in range(count - kinds):
        wanted[lengths[r.randrange(kinds)]] += 1
    usual = [(96, 398), (120, 598), (144, 748), (192, 1098)]
    level = r.choice([1.0, 1.6, 2.7])
    for_sale = []
    for place in sorted(r.sample(range(4), r.randint(2, 4))):
        length, price = usual[place]
        cents = int(price * level * r.uniform(0.88, 1.15))
        for_sale.append(ForSale(Fraction(length), Decimal(cents) / 100))
    on_hand = [
        OnHand(Fraction(int(r.uniform(12, 80) * TICKS) // 8 * 8, TICKS))
        for _ in range(r.randint(0, 4))
    ]
    trim = Fraction(r.choice([0, TICKS // 4, TICKS // 2]), 2 * TICKS)
    parts = tuple(Part(f"p{n}", Fraction(n, TICKS), c) for n, c in wanted.items())
    return Job(parts, tuple(for_sale), tuple(on_hand), Fraction(1, 8), trim)


def bench_hobby(limit: int, seconds: float) -> None:
    """Money alone, proven; and what it saves against the plain longest-first plan."""
    runs = [timed(str(s), scaled(hobby_job(s)).problem, seconds) for s in range(limit)]
    proven = sum(run.outcome.optimal for run in runs)
    slow = sum(run.cpu > 5 for run in runs)
    print(f"hobby cases, money: {proven} of {limit} proven; {spread([r.cpu for r in runs])}; "
          f"{slow} over 5 s")  # fmt: skip
    print("  to beat: 1,999 of 2,000; median 7 ms, p90 23 ms, p99 124 ms, max 18 s")
    for run in runs:
        if not run.outcome.optimal:
            print(f"  open: seed {run.name}, {run.outcome.cost} over {run.outcome.bound}")
    saved = []
    for seed in range(min(limit, 400)):
        plain, best = plan_longest_first(hobby_job(seed)).cost, runs[seed].outcome.cost
        if plain and best is not None:
            saved.append(1 - float(best) / 100 / float(plain))
    saved.sort()
    print(f"  against the plain plan ({len(saved)} cases): mean {sum(saved) / len(saved):.1%}, "
          f"median {saved[len(saved) // 2]:.1%} saved; to beat: 11 %, 8 %")  # fmt: skip


def bench_ties(limit: int, seconds: float) -> None:
    """All three goals and the plan laid out."""
    del seconds
    cpus, proved = [], [0, 0, 0]
    for seed in range(limit):
        job = hobby_job(seed)
        start = time.process_time()
        plan = plan_boards(job)
        cpus.append(time.process_time() - start)
        for place, goal in enumerate((plan.status == "optimal", plan.fewest, plan.largest_rest)):
            proved[place] += goal
    print(f"money, boards, longest rest: {proved} of {limit} proven; {spread(cpus)}")
    print("  to beat: all of 60; median 53 ms and 60 asked, p90 150 ms and 200 asked")


def bench_proofs(limit: int, seconds: float) -> None:
    """Proofs followed again in plain whole numbers, without arrays or solver."""
    held, boxes, cpu = 0, 0, 0.0
    for seed in range(limit):
        problem = scaled(hobby_job(seed)).problem
        outcome = timed(str(seed), problem, seconds).outcome
        if outcome.proof is not None and outcome.cost is not None:
            start = time.process_time()
            held += check_proof(problem, outcome.proof, outcome.cost)
            cpu += time.process_time() - start
            boxes += len(outcome.proof.boxes)
    print(f"proofs: {held} of {limit} hold by whole numbers alone; {boxes} boxes in {cpu:.2f} s")
    print("  to beat: 399 of 400, and it also covers every purchase")


def bench_cpsat(limit: int, seconds: float) -> None:
    """The first cases in a general solver: a plain assignment model, and one symmetry cut."""
    problems = [scaled(hobby_job(seed)).problem for seed in range(limit)]
    own = [timed(str(n), problem, 20) for n, problem in enumerate(problems)]
    mine = sorted(run.cpu for run in own)[limit // 2]
    print(f"ours: {sum(r.outcome.optimal for r in own)} of {limit}; {spread([r.cpu for r in own])}")
    for ordered, beat in ((False, "100 times, 26 of 40"), (True, "25 times, 38 of 40")):
        answers = general_solver(problems, seconds, ordered)
        if answers is None:
            print("cpsat: skipped, the general solver is not installed")
            return
        cpus = [cpu for _, _, cpu in answers]
        for (proven, cost, _), run in zip(answers, own, strict=True):
            assert not proven or cost == run.outcome.cost, (run.name, cost, run.outcome.cost)
        ratio = sorted(cpus)[limit // 2] / mine
        name = "with one symmetry cut" if ordered else "plain"
        print(f"general solver, {name}: {sum(p for p, _, _ in answers)} of {limit}; "
              f"{spread(cpus)}; ratio of medians {ratio:.0f} (to beat: {beat})")  # fmt: skip
        sys.stdout.flush()


def general_solver(
    problems: Sequence[Problem], seconds: float, ordered: bool
) -> list[tuple[int, int, float]] | None:
    """(proven, cost, CPU seconds) of each problem, from a process of its own."""
    asked = [
        {
            "lengths": problem.lengths,
            "demands": problem.demands,
            "supplies": [(s.capacity, s.price, s.limit) for s in problem.supplies],
            "boards": sum(cut.times for cut in by_rules_of_thumb(problem) or ()) + 2,
        }
        for problem in problems
    ]
    script = Path(__file__).with_name("general_solver.py")
    command = [sys.executable, str(script), str(seconds), *(["ordered"] if ordered else [])]
    run = subprocess.run(
        command, input=json.dumps(asked), text=True, capture_output=True, check=False
    )
    if run.returncode:
        return None
    rows = [line.split() for line in run.stdout.splitlines()]
    return [(int(proven), int(cost), float(cpu)) for proven, cost, cpu in rows]


def folder() -> Path | None:
    """Where the published sets are; None, said aloud, where they are not."""
    named = os.environ.get("DRYFIT_BENCHMARKS")
    if not named or not Path(named).is_dir():
        print("skipped: DRYFIT_BENCHMARKS names no folder with the published sets")
        return None
    return Path(named)


def of_one_length(capacity: int, weights: Iterable[int]) -> Problem:
    """A published case: one length, one price."""
    counts = Counter(weights)
    lengths = tuple(sorted(counts, reverse=True))
    demands = tuple(counts[length] for length in lengths)
    return Problem(lengths, demands, (Supply(capacity, 1),))


def published(path: Path) -> Iterator[tuple[str, Problem]]:
    """The cases of one file of the classic sets."""
    lines = path.read_text(encoding="utf-8").splitlines()
    for at in range(1, 2 * int(lines[0]), 2):
        name, capacity, _, _ = lines[at].split()
        yield name, of_one_length(int(capacity), map(int, lines[at + 1].split()))


def bench_classic(limit: int, seconds: float, only: Sequence[str]) -> None:
    """The classic sets of one length: proven within the seconds, and within one."""
    root = folder()
    if root is None:
        return
    total, quick, cases, cpu = 0, 0, 0, 0.0
    for name in CLASSIC:
        if only and name not in only:
            continue
        picked = list(published(root / "1d" / f"{name}.txt"))
        runs = report(name, [timed(n, p, seconds) for n, p in picked[: limit or None]])
        total += sum(run.outcome.optimal for run in runs)
        quick += sum(run.outcome.optimal and run.cpu <= 1 for run in runs)
        cases, cpu = cases + len(runs), cpu + sum(run.cpu for run in runs)
    print(f"classic sets: {total} of {cases} proven, {quick} within 1 s; {cpu:.0f} s in all")
    print("  to beat: 1,605 of 1,615 within 20 s, 1,390 within 1 s; 1,142 s in all")


def report(name: str, runs: list[Run]) -> list[Run]:
    """Print one set."""
    open_ = [run for run in runs if not run.outcome.optimal]
    print(f"  {name}: {len(runs) - len(open_)} of {len(runs)} proven; "
          f"{spread([run.cpu for run in runs])}")  # fmt: skip
    for run in open_:
        print(f"    open: {run.name}, {run.outcome.cost} over {run.outcome.bound}, {run.cpu:.1f} s")
    sys.stdout.flush()
    return runs


def bench_hard(limit: int, seconds: float) -> None:
    """Cases built to be hard: those of 201 and 202 items."""
    root = folder()
    if root is None:
        return
    runs = []
    for path in sorted((root / "nc-nd" / "ai_ani").glob("*.txt"))[:]:
        numbers = list(map(int, path.read_text(encoding="utf-8").split()))
        kinds, capacity = numbers[:2]
        pairs = list(zip(numbers[2::2], numbers[3::2], strict=True))[:kinds]
        if sum(count for _, count in pairs) <= 202:
            pairs.sort(reverse=True)
            problem = Problem(tuple(w for w, _ in pairs), tuple(c for _, c in pairs),
                              (Supply(capacity, 1),))  # fmt: skip
            runs.append(timed(path.stem, problem, seconds))
    report("hard cases of 201 and 202 items", runs[: limit or None])
    print("  to beat: 13 of 20")


def bench_variable(limit: int, seconds: float) -> None:
    """Several lengths with costs, few of each."""
    root = folder()
    if root is None:
        return
    runs = []
    for path in sorted((root / "nc-nd" / "vscsp").glob("*.txt"))[: limit or None]:
        numbers = list(map(int, path.read_text(encoding="utf-8").split()))
        kinds = numbers[0]
        supplies = tuple(Supply(numbers[1 + 3 * k], numbers[3 + 3 * k], numbers[2 + 3 * k])
                         for k in range(kinds))  # fmt: skip
        at = 2 + 3 * kinds
        pairs = sorted(zip(numbers[at::2], numbers[at + 1 :: 2], strict=True), reverse=True)
        problem = Problem(tuple(w for w, _ in pairs), tuple(c for _, c in pairs), supplies)
        runs.append(timed(path.stem, problem, seconds))
    report("several lengths with costs", runs)
    print("  to beat: 115 of 140 within 8 s")


def grown(pieces: int, kinds: int, grid: int) -> Problem:
    """Pieces of 4 to 80 in out of four lengths for sale."""
    r, lengths = random.Random(1), set[int]()
    while len(lengths) < kinds:
        lengths.add(max(grid, int(r.uniform(4, 80) * TICKS) // grid * grid))
    ordered = sorted(lengths)
    counts = [0] * kinds
    for _ in range(pieces):
        counts[r.randrange(kinds)] += 1
    kerf, trim = 8, 16
    items = sorted(((n + kerf, c) for n, c in zip(ordered, counts, strict=True) if c), reverse=True)
    step = gcd(*(n for n, _ in items))
    supplies = tuple(
        Supply((length * TICKS - trim + kerf) // step, price)
        for length, price in ((96, 398), (120, 571), (144, 748), (192, 1043))
    )
    return Problem(tuple(n // step for n, _ in items), tuple(c for _, c in items), supplies)


def bench_growth(limit: int, seconds: float) -> None:
    """100 to 100,000 pieces in 10 to 1,000 lengths."""
    asked = {10: 0.4, 40: 0.4, 200: 2, 1000: 20}
    for kinds, grid in ((10, 8), (40, 8), (200, 4), (1000, 4)):
        for pieces in (100, 1_000, 10_000, 100_000):
            if kinds > pieces or (limit and pieces > limit):
                continue
            allowed = seconds or asked[kinds]
            run = timed("", grown(pieces, kinds, grid), allowed)
            cost, bound = run.outcome.cost or 0, run.outcome.bound
            gap = (cost - bound) / max(1, bound)
            print(f"  {pieces:>7} pieces, {kinds:>4} lengths: {run.cpu:6.2f} s "
                  f"(asked: {asked[kinds]}), gap {gap:.4%} (asked: 0.01%)")  # fmt: skip
            sys.stdout.flush()


def main() -> None:
    """Measure one set."""
    sets: dict[str, tuple[Callable[[int, float], None], int, float]] = {
        "hobby": (bench_hobby, 2000, 20),
        "ties": (bench_ties, 200, 20),
        "proofs": (bench_proofs, 400, 20),
        "cpsat": (bench_cpsat, 40, 10),
        "hard": (bench_hard, 0, 20),
        "variable": (bench_variable, 0, 8),
        "growth": (bench_growth, 0, 0),
    }
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--set", choices=[*sets, "classic"], required=True)
    parser.add_argument("--limit", type=int, help="cases at most (growth: pieces at most)")
    parser.add_argument("--seconds", type=float, help="CPU seconds for a case")
    parser.add_argument("--only", default="", help="classic: these files only")
    asked = parser.parse_args()
    print(f"this machine: {machine_reference()}")
    if asked.set == "classic":
        names = [name for name in asked.only.split(",") if name]
        bench_classic(asked.limit or 0, asked.seconds or 20, names)
        return
    run, limit, seconds = sets[asked.set]
    run(asked.limit or limit, seconds if asked.seconds is None else asked.seconds)


if __name__ == "__main__":
    main()
