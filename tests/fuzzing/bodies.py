"""Bodies spoiled at random, byte by byte and value by value, sent to every POST.

Whatever comes, the answer is 200 or a refusal as problem details; a refusal takes the service less
than a quarter of a second. Reproducible: the same seed gives the same bodies.
"""

import json
import sys
import time
from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from io import BytesIO
from pathlib import Path
from random import Random
from typing import Any

from flask import Flask

PROJECT = Path(__file__).resolve().parents[2]
WHOLE = PROJECT / "tests" / "builds" / "whole"
SLOW = 0.250  # seconds of the service's own time for a refusal
REFUSALS = frozenset({400, 413, 415, 422})
QUERIES = {"/v1/cut-plan": "deadline_s=0.1", "/v1/estimate": "bought=none"}

PIECES = (
    b'"', b"{", b"}", b"[", b"]", b",", b":", b"\\", b"\\u0000", b"\\ud800", b"\x00", b"\xff",
    b"\xef\xbb\xbf", b"NaN", b"-", b"1e999", b"9" * 400, b"0.", b"null", b"true", b"{}", b"[]",
    b'"":', b"//", b"\xe2\x80\xae", b" " * 1000, b"[" * 600, b'{"a":' * 300,
    b'"' + b"x" * 90 + b'"',     b"1/0", b"=1+1", b"<script>", b"%s", b"../", b"'; --",
)  # fmt: skip
VALUES: tuple[Any, ...] = (
    None, True, False, 0, -1, 1, 2**63, -(2**63), 10**40, 0.1, -0.0, 1e-300, 1e308, "", " ", "a",
    "\x00", "\u202e", "\u0661", "½", "1/0", "9" * 70, "-3", "1e9", "12'", "20 3/4", "0 mm",
    "304800 mm", "12001", "NaN", [], {}, [[]], [{}], {"": ""}, ["x"] * 50, {"thickness": "3/4"},
    {"diameter": "1"}, {"part": "a"}, "a" * 5000, "1x6", "plywood 3/4", "spf", "wall", "face",
    "screw", "finish", 89, 90, "12", "1 1/2", "300 mm", 3, 12, 24.5, "red oak", "1x4",
    "2x4", "mdf 1/2",
)  # fmt: skip


def seeds_for(path: str) -> list[bytes]:
    """Whole documents of the kind that a path takes."""
    files = [*WHOLE.glob("*.json"), PROJECT / "tests" / "api" / "tote.json"]
    builds = [json.loads(file.read_text()) for file in sorted(files)]
    builds = [build for build in builds if isinstance(build, dict) and "parts" in build]
    if path == "/v1/resize":
        return [
            json.dumps({"build": build, "to": {run["id"]: "30"}}).encode()
            for build in builds for run in build.get("runs", ())[:1]
        ]  # fmt: skip
    plain = [json.dumps(build).encode() for build in builds]
    if path == "/v1/handout":
        plain += [json.dumps({"build": build, "units": "both"}).encode() for build in builds]
    return plain


def spoiled(body: bytes, others: list[bytes], random: Random) -> bytes:
    """The body with one to four things done to it."""
    for _ in range(random.choice((1, 1, 1, 2, 3, 4))):
        way = random.choice((_bytes, _value, _value, _value, _value, _value, _names, _splice))
        body = way(body, others, random)
    return body


def _bytes(body: bytes, _others: list[bytes], random: Random) -> bytes:
    """A few bytes changed, dropped, doubled, or something odd put in."""
    at = random.randrange(len(body) + 1)
    kind = random.randrange(6)
    if kind == 0:
        return body[:at] + bytes([random.randrange(256)]) + body[at + 1 :]
    if kind == 1:
        return body[:at] + body[at + random.randrange(1, 9) :]
    if kind == 2:
        return body[:at] + body[max(0, at - random.randrange(1, 200)) : at] + body[at:]
    if kind == 3:
        return body[:at]
    if kind == 4:
        return body[:at] + random.randbytes(random.randrange(1, 30)) + body[at:]
    return body[:at] + random.choice(PIECES) + body[at + random.randrange(3) :]


def _splice(body: bytes, others: list[bytes], random: Random) -> bytes:
    """The beginning of one body and the end of another."""
    other = random.choice(others)
    return body[: random.randrange(len(body) + 1)] + other[random.randrange(len(other)) :]


def _value(body: bytes, others: list[bytes], random: Random) -> bytes:
    """One value exchanged for another kind of value, or for one from elsewhere."""

    def change(holder: Any, key: Any) -> None:
        kind = random.randrange(10)
        if kind == 0:
            del holder[key]
        elif kind == 1:
            holder[key] = [holder[key]] * random.randrange(1, 40)
        elif kind < 7:
            holder[key] = _elsewhere(key, random.choice(others), random)
        else:
            holder[key] = random.choice(VALUES)

    return _changed(body, others, random, change)


def _elsewhere(key: Any, other: bytes, random: Random) -> Any:
    """A value of the same name in another document, if there is one."""
    places = list(_places(json.loads(other)))
    alike = [place for place in places if place[1] == key and isinstance(key, str)]
    holder, at = random.choice(alike or places)
    return holder[at]


def _names(body: bytes, others: list[bytes], random: Random) -> bytes:
    """One name misspelled, moved or added."""

    def change(holder: Any, key: Any) -> None:
        if isinstance(holder, list):
            holder.insert(key, random.choice(VALUES))
            return
        name = random.choice((str(key).upper(), f"{key}s", "", "id", "part", "\x00", "a" * 300))
        holder[name] = holder.pop(key) if random.random() < 0.5 else random.choice(VALUES)

    return _changed(body, others, random, change)


def _changed(
    body: bytes, others: list[bytes], random: Random, change: Callable[[Any, Any], None]
) -> bytes:
    try:
        value = json.loads(body)
        places = list(_places(value))
    except (ValueError, RecursionError):
        return _bytes(body, others, random)
    if not places:
        return body
    change(*random.choice(places))
    return json.dumps(value).encode("utf-8", "replace")


def _places(value: Any) -> Iterator[tuple[Any, Any]]:
    """Every place of a document that holds a value."""
    keys = range(len(value)) if isinstance(value, list) else list(value)
    for key in keys if isinstance(value, list | dict) else ():
        yield value, key
        if isinstance(value[key], list | dict):
            yield from _places(value[key])


@dataclass
class Seen:
    """What came back."""

    sent: int = 0
    statuses: Counter[tuple[str, int]] = field(default_factory=Counter)
    wrong: list[str] = field(default_factory=list)
    slowest_refusal: float = 0.0
    slowest_answer: float = 0.0


def ask(app: Flask, path: str, body: bytes) -> tuple[int, str, bytes, float]:
    """Status, media type, content, and seconds of processor time of one request."""
    told: list[Any] = []
    environ = {
        "REQUEST_METHOD": "POST", "PATH_INFO": path, "QUERY_STRING": QUERIES.get(path, ""),
        "SERVER_NAME": "dryfit.test", "SERVER_PORT": "80", "SERVER_PROTOCOL": "HTTP/1.1",
        "CONTENT_TYPE": "application/json", "CONTENT_LENGTH": str(len(body)),
        "wsgi.input": BytesIO(body), "wsgi.errors": sys.stderr, "wsgi.url_scheme": "http",
        "wsgi.version": (1, 0), "wsgi.multithread": True, "wsgi.multiprocess": True,
        "wsgi.run_once": False, "REMOTE_ADDR": "127.0.0.1",
    }  # fmt: skip
    started = time.thread_time()
    content = b"".join(app.wsgi_app(environ, lambda *head: told.append(head)))
    spent = time.thread_time() - started
    status, headers = told[0][:2]
    return int(status[:3]), dict(headers).get("Content-Type", ""), content, spent


def judge(seen: Seen, path: str, body: bytes, answer: tuple[int, str, bytes, float]) -> None:
    """Note what is wrong with an answer."""
    status, kind, content, spent = answer
    seen.sent += 1
    seen.statuses[path, status] += 1
    if status == 200:
        seen.slowest_answer = max(seen.slowest_answer, spent)
        return
    seen.slowest_refusal = max(seen.slowest_refusal, spent)
    problem = json.loads(content) if kind == "application/problem+json" else {}
    if status not in REFUSALS or problem.get("status") != status:
        seen.wrong.append(f"{path} answers {status} {kind} to {body[:2000]!r}")
    if spent > SLOW:
        seen.wrong.append(f"{path} takes {spent * 1000:.0f} ms to refuse {body[:300]!r}")


def posts(app: Flask) -> list[str]:
    """Every address that takes a body."""
    rules = (rule for rule in app.url_map.iter_rules() if "POST" in (rule.methods or ()))
    return sorted(rule.rule for rule in rules)


def fuzz(app: Flask, count: int, seed: int, say: Callable[[str], None] = lambda _: None) -> Seen:
    """So many spoiled bodies, in turn to every POST."""
    random, seen = Random(seed), Seen()
    seeds = {path: seeds_for(path) for path in posts(app)}
    for path, bodies in seeds.items():
        ask(app, path, bodies[0])  # what is worked out once a process is not this request's time
    paths = list(seeds)
    for n in range(count):
        path = paths[n % len(paths)]
        body = spoiled(random.choice(seeds[path]), seeds[path], random)
        judge(seen, path, body, ask(app, path, body))
        if (n + 1) % 10_000 == 0:
            say(f"{n + 1} bodies, {len(seen.wrong)} wrong")
    return seen


def main(asked: list[str]) -> int:
    """Print what came back; 1 when anything is wrong."""
    from service.app import create_app  # noqa: PLC0415  # settings are read there

    count = int(asked[0]) if asked else 100_000
    seed = int(asked[1]) if len(asked) > 1 else 1
    seen = fuzz(create_app(), count, seed, lambda line: print(line, flush=True))
    for (path, status), times in sorted(seen.statuses.items()):
        print(f"{path:20} {status} {times:8}")
    slowest = f"{seen.slowest_refusal * 1000:.0f} ms, answer {seen.slowest_answer * 1000:.0f} ms"
    print(f"{seen.sent} bodies; slowest refusal {slowest}; {len(seen.wrong)} wrong")
    for line in seen.wrong[:20]:
        print(line)
    return 1 if seen.wrong else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
