"""How long the one-line questions about standing take, against a bare Flask answer."""

import os
import statistics
import sys
import time
from collections.abc import Callable
from pathlib import Path

from flask import Flask

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from service.app import create_app
from service.settings import read_settings

AT_MOST = 4
QUESTIONS = (
    "/v1/sag?stock=1x8&span={n}.5&load=8lb&wood=spf&stays=yes",
    "/v1/sag?stock=1x8&span={n}.5&load=400lb&wood=spf&stays=yes",
    "/v1/sag?stock=1x10&load=18lb/ft&wood=red+oak&limit=shelf&lip=1x2&region=us",
    "/v1/sag?stock=1x12&span=40&points={n}.25in:90lb,22in:60lb&wood=spf",
    "/v1/movement?wood=spf&width={n}&humidity=30,60",
    "/v1/moisture?humidity={n},60&temperature=70F",
    "/v1/tip-over?height={n}&depth=12&weight=60lb&kind=dresser&encloses=6ft3",
    "/v1/hanging?rail={n}&studs=16&through=3/4&screw=3&load=40lb&depth=12&arm=10",
    "/v1/weight?stock=2x4&length=8ft&wood=spf&count={n}",
)


def bare() -> Flask:
    """The least that Flask answers with."""
    app = Flask("bare")
    app.add_url_rule("/", "bare", lambda: {"answer": 42})
    return app


def seconds(ask: Callable[[int], object], times: int = 200) -> float:
    """Median time of one answer, each to a question a little different from the last."""
    for n in range(20, 30):
        ask(n)
    taken = []
    for i in range(times):
        start = time.perf_counter()
        ask(20 + i % 17)
        taken.append(time.perf_counter() - start)
    return statistics.median(taken)


def main() -> int:
    """Print the table; answers 1 where a question is slower than it may be."""
    plain = bare().test_client()
    client = create_app(read_settings(os.environ)).test_client()
    base = seconds(lambda n: plain.get("/"))
    print(f"bare Flask answer: {base * 1e6:.0f} us")
    slow = 0
    for question in QUESTIONS:
        answer = client.get(question.format(n=20))
        assert answer.status_code == 200, answer.text
        each = seconds(lambda n, q=question: client.get(q.format(n=n)))  # type: ignore[misc]
        slow += each > AT_MOST * base
        print(f"{each / base:5.1f} x  {question}")
    return 1 if slow else 0


if __name__ == "__main__":
    sys.exit(main())
