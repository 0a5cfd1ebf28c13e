"""CPU a request, as a ratio to a bare Flask answer: five pairs, the median counts.

Both are served by gunicorn with one worker; what is measured is the processor time of that worker
and of its planners, from the kernel, so that a busy machine does not matter much.
"""

import http.client
import itertools
import json
import os
import signal
import socket
import statistics
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from tests.bench.questions import QUESTIONS, Question
from tests.serving import processes

PROJECT = Path(__file__).resolve().parents[2]
RECORDED = Path(__file__).with_name("recorded.json")
PAIRS = 5
MARGIN = 1.15
COUNTER = itertools.count(1)


class Served:
    """A gunicorn with one worker, and how much processor time that has used."""

    def __init__(self, app: str, *options: str) -> None:
        with socket.socket() as listener:
            listener.bind(("127.0.0.1", 0))
            self.port = listener.getsockname()[1]
        self.process = subprocess.Popen(
            [sys.executable, "-m", "gunicorn", "--no-control-socket", "--worker-class", "gthread",
             "--threads", "4", "--preload", "--log-level", "error", "--bind",
             f"127.0.0.1:{self.port}", "--keep-alive", "60", "--workers", "1", *options, app],
            cwd=PROJECT,
            env={"MALLOC_ARENA_MAX": "1", **os.environ},  # as scripts/serve
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,  # a line a request
        )  # fmt: skip
        self.connection = http.client.HTTPConnection("127.0.0.1", self.port, timeout=60)

    def wait(self, path: str) -> float:
        """Seconds until it answers."""
        started = time.monotonic()
        while True:
            try:
                self.ask("GET", path, None, {})
                return time.monotonic() - started
            except OSError:
                if self.process.poll() is not None:
                    sys.exit("the server does not start; gunicorn in its place says why")
                self.connection.close()
                time.sleep(0.02)

    def ask(self, method: str, path: str, body: bytes | None, headers: dict[str, str]) -> str:
        self.connection.request(method, path, body, headers)
        answer = self.connection.getresponse()
        answer.read()
        if answer.status >= 400:
            sys.exit(f"{method} {path} answers {answer.status}")
        return answer.getheader("ETag") or ""

    @property
    def worker(self) -> int:
        return processes.workers(self.process.pid)[0]

    @property
    def cpu(self) -> float:
        """Seconds of processor time so far of the worker and of who plans for it."""
        return processes.processor_seconds(self.process.pid)

    @property
    def resident(self) -> float:
        """Megabytes resident in the worker."""
        return processes.resident(self.worker)

    def stop(self) -> None:
        self.process.send_signal(signal.SIGTERM)
        self.process.wait(timeout=30)


OURS = ("service.app:create_app()", "/healthz", "--config", "service/serving.py")


@contextmanager
def served(app: str, path: str, *options: str) -> Iterator[tuple[Served, float]]:
    server = Served(app, *options)
    try:
        yield server, server.wait(path)
    finally:
        server.stop()


def cost(server: Served, question: Question, times: int) -> float:
    """Seconds of processor time for so many requests."""
    body = None if question.body is None else json.dumps(question.body).encode()
    method = "GET" if body is None else "POST"
    headers = {"Content-Type": "application/json"} if body else {}
    if question.revalidates:
        headers["If-None-Match"] = server.ask(method, question.path, body, headers)
    asked = [question.asked(next(COUNTER)) for _ in range(times)]
    before = server.cpu
    for path in asked:
        server.ask(method, path, body, headers)
    return server.cpu - before


def first(server: Served, question: Question, times: int) -> float:
    """Seconds of processor time for bodies of which each is sent for the first time."""
    make = question.fresh or (lambda n: question.body)
    bodies = [json.dumps(make(next(COUNTER))).encode() for _ in range(times)]
    headers = {"Content-Type": "application/json"}
    before = server.cpu
    for body in bodies:
        server.ask("POST", question.path, body, headers)
    return server.cpu - before


def ratio(ours: Served, bare: Served, question: Question) -> float:
    """The median ratio of pairs; half of the yardstick before, half after: machines change pace."""
    yardstick = Question("bare", "/bare", 1)
    spend = cost if question.fresh is None else first
    spend(ours, question, 20)
    found = []
    for _ in range(PAIRS):
        bare_costs = cost(bare, yardstick, 500)
        our_costs = spend(ours, question, question.times) / question.times
        bare_costs += cost(bare, yardstick, 500)
        found.append(our_costs / (bare_costs / 1000))
    return statistics.median(found)


def main(asked: list[str]) -> int:
    """Print the table; 1 when a ratio is over what is recorded."""
    record = "--record" in asked
    names = [name for name in asked if not name.startswith("--")]
    known = json.loads(RECORDED.read_text()) if RECORDED.exists() else {}
    worse = []
    with (
        served("tests.bench.bare:app", "/bare") as (bare, _),
        served(*OURS) as (ours, start),
    ):
        print(f"{'question':<36}{'ratio':>8}{'goal':>8}{'recorded':>10}")
        for question in QUESTIONS:
            if names and question.name not in names:
                continue
            found = round(ratio(ours, bare, question), 2)
            was = known.get(question.name)
            print(
                f"{question.name:<36}{found:>8}{question.goal or '-':>8}{was or '-':>10}",
                flush=True,
            )
            if was is not None and found > was * MARGIN:
                worse.append(question.name)
            known[question.name] = found if record else known.get(question.name, found)
        print(f"start to first answer {start:.2f} s; worker {ours.resident:.0f} MB resident")
    if record:
        RECORDED.write_text(json.dumps(known, indent=1) + "\n")
    if worse:
        print(f"dearer than recorded: {', '.join(worse)}")
    return 1 if worse else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
