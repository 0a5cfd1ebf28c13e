"""CPU time of each question about shapes against a bare Flask answer, in one run.

Two figures a question: asked again (the service keeps its last answers), which may take four times
as long at most, and asked for the first time, which is shown beside it. Answers 1 where the first
figure is over. Run from the top of the project, with it on PYTHONPATH.
"""

import os
import sys
import time
from statistics import median

from flask import Flask
from flask.testing import FlaskClient

from service.api import angles, spacing
from service.app import create_app
from service.settings import read_settings

MOST_TIMES, ROUNDS, ASKED = 4.0, 7, 150
STOCK = "&stock=1x3"
QUESTIONS = [
    "/v1/angles/leaning?height=16&lean=12" + STOCK,
    "/v1/angles/splayed-legs?height=18&lean_front=10&lean_side=8&top_outside=12x10in"
    "&rail_top_at=8" + STOCK,
    "/v1/angles/mitered-frame?contents=16x20in&rabbet=3/8&clearance=1/8" + STOCK,
    "/v1/angles/butted-frame?outside=24x36in" + STOCK,
    "/v1/angles/sloped-box?sides=4&height=2&slope=15&rim=14x10in" + STOCK,
    "/v1/angles/polygon?sides=6&across_flats=20" + STOCK,
    "/v1/angles/brace?run=10&rise=8" + STOCK,
    "/v1/angles/crossed-legs?width=20&height=18" + STOCK,
    "/v1/angles/prop?lean=25&up=9&foot=8" + STOCK,
    "/v1/angles/tapered-leg?length=28&top=1.5&foot=1" + STOCK,
    "/v1/angles/ends?length=20&miter=10,10" + STOCK,
    "/v1/spacing?within=36&pieces=5&piece=1.5",
]


def bare() -> FlaskClient:
    """An app that answers a few bytes and does nothing else."""
    app = Flask("bare")
    app.add_url_rule("/", "bare", lambda: "ok\n")
    return app.test_client()


def cpu(client: FlaskClient, address: str, *, fresh: bool = False) -> float:
    """Seconds of CPU that one answer takes; `fresh` makes every answer anew."""
    start = time.process_time()
    for _ in range(ASKED):
        if fresh:
            angles.forget()
            spacing.forget()
        client.get(address).close()
    return (time.process_time() - start) / ASKED


def main() -> int:
    """Print each ratio; 1 where one is over the limit."""
    ours = create_app(read_settings(os.environ)).test_client()
    plain, over = bare(), 0
    for address in QUESTIONS:
        assert ours.get(address).status_code == 200, address
        pairs = [(cpu(ours, address), cpu(plain, "/")) for _ in range(ROUNDS)]
        ratio = median(one / other for one, other in pairs)
        first = median(cpu(ours, address, fresh=True) / cpu(plain, "/") for _ in range(ROUNDS // 2))
        over += ratio > MOST_TIMES
        print(f"{ratio:5.2f} times again, {first:5.2f} the first time  {address}")
    return int(over > 0)


if __name__ == "__main__":
    sys.exit(main())
