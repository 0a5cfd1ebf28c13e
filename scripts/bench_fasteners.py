"""How long advice takes, against a bare Flask answer timed in the same run, in CPU time.

Usage: PYTHONPATH=. python scripts/bench_fasteners.py <address of the reference database>

Limits: one joint at most 4 times a bare answer, a build of 40 joints at most 60 times. Joints that
are alike share their answer, so each is also timed when nothing like it was asked before.
"""

import json
import sys
from collections.abc import Callable
from time import process_time
from typing import Any

from flask import Flask, jsonify
from flask.testing import FlaskClient

from service.api.house import NAME
from service.app import create_app
from service.settings import read_settings

LIMITS = {"one joint": 4.0, "forty joints": 60.0}
ROUNDS, TIMES = 5, 40
STOCKS = ("1x2", "1x3", "1x4", "1x6", "1x8", "2x2", "2x4")
ONE = "/v1/fasteners?through=1x4&into=1x4&enters=edge&fastener=8x1-5/8in&tools=drill,clamps"


def bare_client() -> FlaskClient:
    """An application that answers and does nothing else."""
    bare = Flask("bare")

    @bare.get("/")
    def answer_at_once() -> Any:
        return jsonify(answer=True)

    return bare.test_client()


def forty_joints() -> dict[str, Any]:
    """Twenty parts of seven stocks and forty joints of four kinds."""
    kinds = (
        {"touches": "face", "enters": "edge", "method": "screw", "count": 2, "pilot": True,
         "fastener": {"gauge": 8, "length": "1 5/8"}, "glue": "pva-interior"},
        {"touches": "end", "enters": "face", "method": "pocket-screw", "count": 2,
         "fastener": {"length": "1 1/4", "thread": "coarse"}, "glue": "pva-interior"},
        {"touches": "face", "enters": "face", "method": "screw", "pilot": True,
         "fastener": {"gauge": 8, "length": "1 1/4"}},
        {"touches": "face", "enters": "face"},
    )  # fmt: skip
    parts = [
        {"id": f"part {n}", "stock": STOCKS[n % len(STOCKS)], "length": str(12 + n)}
        for n in range(20)
    ]
    joints = [
        {"id": f"joint {n}", "through": f"part {n % 20}", "into": f"part {(n * 7 + 3) % 20}",
         **kinds[n % len(kinds)]}
        for n in range(40)
    ]  # fmt: skip
    return {
        "name": "Forty joints", "wood": "spf", "parts": parts, "joints": joints,
        "shop": {"tools": ["drill", "pocket-jig", "clamps"]},
    }  # fmt: skip


def seconds(ask: Callable[[], Any], times: int) -> float:
    """CPU seconds a time, the best of a few rounds."""
    ask()
    rounds = []
    for _ in range(ROUNDS):
        started = process_time()
        for _ in range(times):
            ask()
        rounds.append((process_time() - started) / times)
    return min(rounds)


def first_time(client: FlaskClient, ask: Callable[[], Any]) -> float:
    """CPU seconds where no joint like these was asked about before."""
    kept = client.application.extensions[NAME].catalog.worked_out
    rounds = []
    for _ in range(ROUNDS):
        for kind in ("joint", "shown", "question", "length", "other", "hold"):
            kept.pop(kind, None)
        started = process_time()
        ask()
        rounds.append(process_time() - started)
    return min(rounds)


def main(address: str) -> int:
    """Print the ratios; 1 where one is over its limit."""
    client = create_app(read_settings({"DRYFIT_REFERENCE_URL": address})).test_client()
    bare = bare_client()
    body, kind = json.dumps(forty_joints()), "application/json"
    asks: dict[str, Callable[[], Any]] = {
        "one joint": lambda: client.get(ONE),
        "forty joints": lambda: client.post("/v1/fasteners", data=body, content_type=kind),
    }
    unit = seconds(lambda: bare.get("/"), 10 * TIMES)
    print(f"bare answer: {unit * 1e6:.0f} us")
    over = False
    for name, ask in asks.items():
        again, first = seconds(ask, TIMES) / unit, first_time(client, ask) / unit
        over |= again > LIMITS[name]
        print(f"{name}: {again:.1f} times, limit {LIMITS[name]:.0f}; first time {first:.0f} times")
    return int(over)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1]))
