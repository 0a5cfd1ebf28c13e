"""How long the service takes to start, and how much memory it holds after what.

Resident counts pages whole that a worker shares with the process that made it; the proportional
size divides them among those who share, so that only these add up to what a machine gives away.
"""

import json
import statistics
import sys
from collections.abc import Iterator
from itertools import count

from tests.bench.costs import OURS, Served, served
from tests.bench.questions import QUESTIONS, Question, twenty_parts
from tests.serving import processes
from tests.serving.adversaries import boards, panels

STARTS = 5
MOST_SECONDS = 1.5
MOST_MEGABYTES = 90.0
PLANS = 10
NUMBERS = count(1)


def starts() -> float:
    """Print how long starts take; the median of seconds until the first answer."""
    walls, times = [], []
    for _ in range(STARTS):
        with served(*OURS) as (server, wall):
            walls.append(wall)
            first = server.process.pid
            times.append(processes.own_seconds(first) + processes.processor_seconds(first))
    wall, cpu = statistics.median(walls), statistics.median(times)
    print(f"start to first answer, median of {STARTS}: {wall:.2f} s, of which processor time of "
          f"all its processes {cpu:.2f} s; goal {MOST_SECONDS} s")  # fmt: skip
    return wall


def ask(server: Served, question: Question) -> None:
    """One request of its kind, never quite the same."""
    n = next(NUMBERS)
    body = question.fresh(n) if question.fresh else question.body
    headers = {} if body is None else {"Content-Type": "application/json"}
    sent = None if body is None else json.dumps(body).encode()
    server.ask("GET" if sent is None else "POST", question.asked(n), sent, headers)


def stages(server: Served) -> Iterator[str]:
    """What is asked, stage by stage; each is named when it is done."""
    yield "start"
    for question in QUESTIONS:
        for _ in range(3):
            ask(server, question)
    yield f"{len(QUESTIONS)} questions, thrice each"
    plans = "/v1/cut-plan?deadline_s=10"
    for _ in range(PLANS):
        ask(server, Question("plan", plans, None, fresh=twenty_parts))
    yield f"{PLANS} cut plans"
    ask(server, Question("large plan", plans, None, boards(200, 9, 10)))
    yield "a cut plan of 1,800 pieces"
    ask(server, Question("sheets", plans, None, panels(60, 5)))
    yield "sheets for 300 panels"
    for form in ("pdf", "html", "md", "csv"):
        for _ in range(3):
            ask(server, Question(form, f"/v1/handout?format={form}", None, fresh=twenty_parts))
    yield "handouts, PDF and others"


def memory() -> float:
    """Print the memory of one worker and of what belongs to it; the most that it was resident."""
    most = 0.0
    print(f"{'MB after':<32}{'resident':>10}{'proportional':>14}{'planners':>10}{'in all':>8}")
    with served(*OURS) as (server, _):
        first = server.process.pid
        for stage in stages(server):
            resident, own = server.resident, processes.proportional(server.worker)
            planners = sum(processes.proportional(pid) for pid in processes.planners(first))
            whole = own + planners + processes.proportional(first)
            print(f"{stage:<32}{resident:>10.1f}{own:>14.1f}{planners:>10.1f}{whole:>8.1f}",
                  flush=True)  # fmt: skip
            most = max(most, resident)
    print(f"a worker at most {most:.1f} MB resident; goal {MOST_MEGABYTES:.0f} MB")
    return most


def main() -> int:
    """Print both; 1 when a goal is missed."""
    wall, most = starts(), memory()
    return 1 if wall > MOST_SECONDS or most > MOST_MEGABYTES else 0


if __name__ == "__main__":
    sys.exit(main())
