"""How long an estimate of 40 parts takes without a cut plan, against a bare Flask answer: CPU."""

import json
import os
import statistics
import sys
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

from flask import Flask

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from service.app import create_app
from service.settings import read_settings

AT_MOST, PARTS = 60, 40


def document(n: int) -> dict[str, Any]:
    """A build of 40 parts, 39 joints and steps, a little different each time."""
    parts = [
        {"id": f"p{i}", "stock": ("1x4", "1x6", "1x8", "2x4")[i % 4], "length": f"{12 + n % 7 + i}"}
        for i in range(PARTS)
    ]
    joints = [
        {"id": f"j{i}", "through": f"p{i}", "into": f"p{i + 1}", "method": "screw", "count": 2,
         "touches": "face", "enters": "edge", "glue": "pva-interior",
         "fastener": {"gauge": 8, "length": "1 1/4"}}
        for i in range(PARTS - 1)
    ]  # fmt: skip
    prices = [{"stock": stock, "length": "96", "price": "7.20"} for stock in ("1x4", "1x6", "1x8")]
    return {
        "name": "Bench", "wood": "spf", "parts": parts, "joints": joints,
        "buying": {"price_list": {"currency": "USD", "prices": prices}},
    }  # fmt: skip


def seconds(ask: Callable[[int], Any], times: int) -> float:
    """Median CPU time of one answer."""
    taken = []
    for n in range(times):
        start = time.process_time()
        assert ask(n).status_code == 200
        taken.append(time.process_time() - start)
    return statistics.median(taken)


def main() -> int:
    """Print both and the ratio; answers 1 where it is over what is allowed."""
    bare = Flask("bare")
    bare.add_url_rule("/", "bare", lambda: {"answer": 42})
    plain, client = bare.test_client(), create_app(read_settings(os.environ)).test_client()
    bodies = [json.dumps(document(n)) for n in range(60)]
    base = seconds(lambda n: plain.get("/"), 400)
    ours = seconds(
        lambda n: client.post(
            "/v1/estimate?finish=water-polyurethane",
            data=bodies[n],
            content_type="application/json",
        ),
        len(bodies),
    )
    print(f"bare {base * 1e6:.0f} us, estimate {ours * 1e6:.0f} us: {ours / base:.1f} x")
    return 1 if ours > AT_MOST * base else 0


if __name__ == "__main__":
    sys.exit(main())
