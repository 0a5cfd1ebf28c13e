"""Large and awkward builds against the clock of a live service: each to every question.

An answer comes by the deadline as a whole or a partial plan, or as a refusal as problem details.
What is held against the service is the processor time that it still spends after the deadline, so
that a busy machine is no breach.
"""

import http.client
import json
import select
import sys
import time
from collections.abc import Iterator
from dataclasses import dataclass
from random import Random
from typing import Any

from tests.serving import processes
from tests.serving.adversaries import (
    METHODS,
    STOCKS,
    SURFACES,
    Adversary,
    adversaries,
    boards,
    build,
    panels,
)
from tests.serving.live import Live

OWN = 1.0  # seconds of its own time that the service may take when the deadline has passed
PATIENCE = 120.0
REFUSALS = frozenset({400, 413, 422})

# What a build is asked; a cut plan asks for more time than there is.
ASKED = (
    "/v1/check",
    "/v1/check?mended=true&format=text",
    "/v1/fasteners",
    "/v1/estimate",
    "/v1/cut-plan?deadline_s=30",
    "/v1/cut-plan?deadline_s=30&compare=true",
    "/v1/handout?format=html",
    "/v1/handout?format=pdf",
)


@dataclass(frozen=True)
class Answered:
    """What came: the status, seconds until it came, and the service's own time past the deadline.

    `wrong` says what is amiss; empty when nothing is.
    """

    name: str
    path: str
    status: int
    seconds: float
    own: float
    wrong: str


def hard_boards(kinds: int, seed: int) -> dict[str, Any]:
    """Pieces of a quarter to three quarters of a board, all unlike, which hardly fill any."""
    random = Random(seed)
    whole = boards(1, 1, 1)
    whole["parts"] = [
        {"id": f"p{n}", "stock": "1x3", "length": f"{random.randint(1500, 6900)}/100",
         "quantity": random.randint(1, 3)}
        for n in range(kinds)
    ]  # fmt: skip
    whole["buying"]["price_list"]["prices"] = [
        {"stock": "1x3", "length": "96", "price": "5.10"},
        {"stock": "1x3", "length": "120", "price": "6.37"},
    ]
    return whole


def hard_panels(kinds: int) -> dict[str, Any]:
    """Panels that leave a little over wherever they lie, grain any, in numbers."""
    whole = panels(kinds, 3)
    for n, part in enumerate(whole["parts"]):
        part |= {"stock": "plywood 3/4", "length": f"{2311 + 97 * n}/100"}
        part["width"] = f"{1177 + 61 * n}/100"
    return whole


def at_one_place(joints: int) -> dict[str, Any]:
    """Two boards, and all joints at the same place of both."""
    both = [{"id": id, "stock": "2x4", "length": "48"} for id in ("a", "b")]
    every = [
        {"id": f"j{n}", "through": "a", "into": "b", "touches": SURFACES[n % 3], "count": 9,
         "enters": SURFACES[n // 3 % 3], "method": METHODS[n % 4], "at": "24", "crosses": "1"}
        for n in range(joints)
    ]  # fmt: skip
    for one in every:
        if one["method"] in ("screw", "nail"):
            one["fastener"] = {"gauge": 8, "length": "2"}
    return {"name": "One place", "wood": "spf", "parts": both, "joints": every}


def alike(parts: int) -> dict[str, Any]:
    """As many lines as there may be, of every stock, each a thousand pieces."""
    every = [
        {"id": f"p{n}", "stock": STOCKS[n % len(STOCKS)], "length": f"{7 + n % 89}",
         "quantity": 999}
        for n in range(parts)
    ]  # fmt: skip
    return {"name": "Many alike", "wood": "spf", "parts": every}


def folded(depth: int) -> dict[str, Any]:
    """Values in values, as deep as that."""
    value: Any = "1x4"
    for _ in range(depth):
        value = {"stock": [value]}
    return {"name": "Deep", "parts": [{"id": "a", "stock": value, "length": "24"}]}


def awkward(scale: float) -> Iterator[tuple[str, Any]]:
    """Builds by name: those of `adversaries`, and such as are hard to plan, or all in one place."""

    def n(count: int) -> int:
        return max(1, int(count * scale))

    known: list[Any] = []
    for one in adversaries(scale):
        if one.path != "/v1/resize" and one.body not in known:
            known.append(one.body)
            yield one.name, one.body
    yield "hard boards", hard_boards(n(120), 7)
    yield "hard panels", hard_panels(n(60))
    yield "joints at one place", at_one_place(n(500))
    yield "half a million pieces", alike(n(500))
    yield "one run of everything", build(n(500), 0, 1, n(500))
    yield "deep", folded(n(200))


def requests(scale: float = 1.0) -> Iterator[Adversary]:
    """Every build to every question, and what is resized."""
    for name, body in awkward(scale):
        for path in ASKED:
            yield Adversary(name, path, body)
    yield from (one for one in adversaries(scale) if one.path == "/v1/resize")


def asked(live: Live, one: Adversary, deadline: float) -> Answered:
    """One request, timed; what the service has spent is read when the deadline has passed."""
    first = live.process.pid
    body = json.dumps(one.body).encode()
    line = http.client.HTTPConnection("127.0.0.1", live.port, timeout=PATIENCE)
    try:
        begun = time.monotonic()
        line.request("POST", one.path, body, {"Content-Type": "application/json"})
        before = None
        if not select.select([line.sock], [], [], begun + deadline - time.monotonic())[0]:
            before = processes.processor_seconds(first)
        answer = line.getresponse()
        content = answer.read()
        seconds = time.monotonic() - begun
    except (OSError, http.client.HTTPException) as failure:
        return Answered(one.name, one.path, 0, time.monotonic() - begun, 0.0, repr(failure))
    finally:
        line.close()
    own = 0.0 if before is None else processes.processor_seconds(first) - before
    wrong = amiss(answer, content)
    if own > OWN:
        wrong = f"{own:.1f} s of its own time after the deadline; {wrong}"
    return Answered(one.name, one.path, answer.status, seconds, own, wrong)


def amiss(answer: http.client.HTTPResponse, content: bytes) -> str:
    """What is wrong with an answer as such."""
    if answer.status == 200:
        return ""
    if answer.headers.get_content_type() != "application/problem+json":
        return f"{answer.status} is not told as a problem"
    problem = json.loads(content)
    if answer.status == 503:
        known = problem["type"] == "/problems/out-of-time" and "Retry-After" in answer.headers
        return "" if known else f"503 is {problem}"
    return "" if answer.status in REFUSALS else f"{answer.status} is {problem}"


def against_the_clock(
    deadline: int, scale: float = 1.0, only: frozenset[str] = frozenset()
) -> Iterator[Answered]:
    """Ask everything one after the other; `only` these builds, if any are named."""
    settings = {"DRYFIT_DEADLINE": str(deadline), "DRYFIT_RATE": "off", "DRYFIT_WORKERS": "1"}
    with Live(MALLOC_ARENA_MAX="1", **settings) as live:
        for one in requests(scale):
            if not only or one.name in only:
                yield asked(live, one, deadline)


def main(asked_for: list[str]) -> int:
    """Print a line a request; 1 when an answer came late or was none."""
    deadline = int(asked_for[0]) if asked_for else 3
    print(f"{'build':<24}{'question':<42}{'status':>6}{'seconds':>9}{'own after':>11}")
    breaches = []
    most = 0.0
    for one in against_the_clock(deadline, only=frozenset(asked_for[1:])):
        print(f"{one.name:<24}{one.path:<42}{one.status:>6}{one.seconds:>9.2f}{one.own:>11.2f}"
              f"{'  ' + one.wrong if one.wrong else ''}", flush=True)  # fmt: skip
        most = max(most, one.own)
        breaches += [one] if one.wrong else []
    print(f"deadline {deadline} s: at most {most:.2f} s of own time after it, "
          f"{OWN:.0f} s allowed; {len(breaches)} breaches")  # fmt: skip
    return 1 if breaches else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
