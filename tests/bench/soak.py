"""Whether the service grows: many requests of a mix against one worker, and what it holds then.

scripts/bench soak [requests]   (100,000)

Half of what is asked is never alike, so that everything that is remembered fills up and
is thrown out again. The callers are a process of their own with four threads, each on a connection
that is kept, and always wait for the service. The first fifth is the warm-up.
"""

import http.client
import json
import subprocess
import sys
import time
from collections.abc import Callable
from itertools import count
from random import Random
from threading import Lock, Thread
from typing import Any

from tests.bench.costs import OURS, PROJECT, Served, served
from tests.bench.questions import (
    FRESH,
    QUESTIONS,
    Question,
    other_joints,
    other_totes,
    twenty_parts,
)
from tests.checking.sound import sound_build
from tests.serving import processes

REQUESTS = 100_000
THREADS = 4
STEPS = 10  # lines that are printed
WARM_UP = 2  # of them
MOST_GROWN = 5.0  # megabytes after the warm-up

READ = tuple(question for question in QUESTIONS if question.body is None and not question.fresh)
NEW = tuple(question for question in FRESH if question.fresh is None)


def checked(n: int) -> Any:
    """One of endless sound builds."""
    return sound_build(n)


def asked_from(questions: tuple[Question, ...]) -> Callable[[int, Random], tuple[str, Any]]:
    """One of these, by its path."""

    def asked(n: int, random: Random) -> tuple[str, Any]:
        return random.choice(questions).asked(random.randrange(10_000)), None

    return asked


def posted(path: str, make: Callable[[int], Any]) -> Callable[[int, Random], tuple[str, Any]]:
    """A body of a number that has not been."""
    return lambda n, _: (path, make(n))


MIX: tuple[tuple[float, Callable[[int, Random], tuple[str, Any]]], ...] = (
    (50.0, asked_from(READ)),
    (25.0, asked_from(NEW)),  # angles, fasteners and other one-line questions, sizes never alike
    (20.0, posted("/v1/check", checked)),
    (2.0, posted("/v1/check", other_totes)),
    (0.5, posted("/v1/fasteners", other_joints)),
    (1.0, posted("/v1/estimate?bought=none", twenty_parts)),
    (1.0, posted("/v1/cut-plan?deadline_s=5", twenty_parts)),
    (0.3, posted("/v1/handout?format=html", twenty_parts)),
    (0.2, posted("/v1/handout?format=pdf", twenty_parts)),
)


class Callers:
    """Threads that share a number of requests among them."""

    def __init__(self, port: int, first: int, requests: int) -> None:
        self._port, self._numbers, self._end = port, count(first), first + requests
        self._lock, self.failures = Lock(), list[str]()

    def run(self) -> None:
        """Ask all of it."""
        threads = [Thread(target=self._call) for _ in range(THREADS)]
        for thread in threads:
            thread.start()
        for thread in threads:
            thread.join()

    def _call(self) -> None:
        line = http.client.HTTPConnection("127.0.0.1", self._port, timeout=120)
        weights = [weight for weight, _ in MIX]
        while True:
            with self._lock:
                n = next(self._numbers)
            if n >= self._end:
                line.close()
                return
            random = Random(n)
            path, body = random.choices(MIX, weights)[0][1](n, random)
            try:
                self._ask(line, path, body)
            except (OSError, http.client.HTTPException) as failure:
                self.failures.append(f"{path}: {failure!r}")
                line.close()

    def _ask(self, line: http.client.HTTPConnection, path: str, body: Any) -> None:
        if body is None:
            line.request("GET", path)
        else:
            sent = json.dumps(body).encode()
            line.request("POST", path, sent, {"Content-Type": "application/json"})
        answer = line.getresponse()
        content = answer.read()
        if answer.status != 200:
            self.failures.append(f"{path}: {answer.status} {content[:200]!r}")


def call(port: int, first: int, requests: int) -> None:
    """So many requests by a process of callers. Ends the program when one was not answered."""
    told = [sys.executable, "-m", "tests.bench.soak", "--call", str(port), str(first)]
    done = subprocess.run([*told, str(requests)], cwd=PROJECT, check=False)
    if done.returncode:
        sys.exit("not every request was answered with 200")


def held(server: Served) -> str:
    """The memory of the worker, as the table shows it."""
    return f"{server.resident:>13.1f}{processes.proportional(server.worker):>17.1f}"


def soak(requests: int) -> float:
    """Print what the worker holds on the way; megabytes that it has grown after the warm-up."""
    step, warm = requests // STEPS, 0.0
    with served(*OURS) as (server, _):
        first = server.process.pid
        print(f"{'requests':>9}{'MB resident':>13}{'MB proportional':>17}{'a second':>10}")
        print(f"{0:>9}{held(server)}", flush=True)
        for done in range(STEPS):
            begun = time.monotonic()
            call(server.port, done * step, step)
            pace = step / (time.monotonic() - begun)
            print(f"{(done + 1) * step:>9}{held(server)}{pace:>10.0f}", flush=True)
            now = server.resident
            if done + 1 == WARM_UP:
                warm = now
        print(f"processor time {processes.processor_seconds(first):.0f} s; "
              f"grown after the first {WARM_UP * step}: {now - warm:.1f} MB; "
              f"goal under {MOST_GROWN:.0f} MB")  # fmt: skip
    return now - warm


def main(asked: list[str]) -> int:
    """1 when it has grown, or when a request was not answered with 200."""
    if asked[:1] == ["--call"]:
        callers = Callers(*map(int, asked[1:]))
        callers.run()
        print(*callers.failures[:10], sep="\n", end="", file=sys.stderr)
        return 1 if callers.failures else 0
    return 1 if soak(int(asked[0]) if asked else REQUESTS) >= MOST_GROWN else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
