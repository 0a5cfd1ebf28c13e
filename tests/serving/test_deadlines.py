"""Large and awkward builds: the clock is looked at all the way, and when it is out that is said.

How long they take on a real clock is measured by `scripts/fuzz deadlines`.
"""

from itertools import count

import pytest
from flask.testing import FlaskClient

from service.domain import deadline
from tests.door.conftest import Asking
from tests.serving.adversaries import Adversary, adversaries

SMALL = adversaries(0.04)
SEARCHES = {"boards", "slanted boards", "compared", "panels", "offcuts", "estimate"}
SECONDS = 30.0


def ask(client: FlaskClient, adversary: Adversary, monkeypatch: pytest.MonkeyPatch, at: int) -> int:
    """Ask on a clock that stands still and jumps past the deadline at the look `at`; the looks."""
    looks = count()
    monkeypatch.setattr(
        deadline, "monotonic", lambda: SECONDS * 2 if next(looks) >= at else 0.0
    )  # fmt: skip
    answer = client.post(adversary.path, json=adversary.body)
    looked = next(looks)
    if looked > at:
        assert answer.status_code in (200, 503) if adversary.name in SEARCHES else 503
    if answer.status_code == 503:
        assert answer.mimetype == "application/problem+json"
        assert answer.get_json()["type"] == "/problems/out-of-time"
        assert int(answer.headers["Retry-After"]) > 0
    else:
        assert answer.status_code in (200, 422)
    return looked


@pytest.mark.parametrize("adversary", SMALL, ids=lambda one: one.name)
def test_out_of_time_is_a_refusal_wherever_it_happens(
    asking: Asking, adversary: Adversary, monkeypatch: pytest.MonkeyPatch
) -> None:
    client = asking(DRYFIT_DEADLINE=str(int(SECONDS)))
    looked = ask(client, adversary, monkeypatch, at=10**9)
    body = adversary.body.get("build", adversary.body)
    things = sum(len(body.get(name, ())) for name in ("parts", "runs", "loads"))
    assert looked >= things
    for at in (1, looked // 3, looked // 2, looked - 2):
        ask(client, adversary, monkeypatch, at)


def test_the_deadline_of_one_request_is_not_the_next_one_s(
    asking: Asking, monkeypatch: pytest.MonkeyPatch
) -> None:
    client = asking(DRYFIT_DEADLINE=str(int(SECONDS)))
    now = [0.0]
    monkeypatch.setattr(deadline, "monotonic", lambda: now[0])
    for _ in range(3):
        assert client.get("/v1/why/run.tight").status_code == 200
        now[0] += SECONDS * 2
        deadline.keep_time()
