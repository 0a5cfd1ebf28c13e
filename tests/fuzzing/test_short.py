"""The short forms of `scripts/fuzz`, and that the fuzzers would notice."""

import pytest
from flask import Flask

from service.app import create_app
from service.settings import read_settings
from tests.fuzzing.bodies import REFUSALS, Seen, fuzz, judge, posts
from tests.fuzzing.schema import tried

BODIES = 1200


@pytest.fixture(scope="module")
def app(reference_url: str) -> Flask:
    return create_app(read_settings({"DRYFIT_REFERENCE_URL": reference_url}))


def test_spoiled_bodies_are_answered_or_refused(app: Flask) -> None:
    seen = fuzz(app, BODIES, seed=5)
    assert seen.wrong == []
    assert seen.sent == BODIES
    for path in posts(app):  # spoiled enough to be refused, not so much that nothing is read
        assert seen.statuses[path, 200] and seen.statuses[path, 422], path


def test_what_is_wrong_with_an_answer_is_noticed() -> None:
    problem = "application/problem+json"
    for answer in (
        (500, problem, b'{"status": 500}', 0.0),
        (422, "text/html", b"<p>", 0.0),
        (422, problem, b'{"status": 400}', 0.0),
        (422, problem, b'{"status": 422}', 0.3),
    ):
        seen = Seen()
        judge(seen, "/v1/check", b"{}", answer)
        assert len(seen.wrong) == 1, answer
    seen = Seen()
    judge(seen, "/v1/check", b"{}", (422, problem, b'{"status": 422}', 0.1))
    assert seen.wrong == [] and 422 in REFUSALS


def test_nothing_is_answered_that_the_description_does_not_know() -> None:
    found = tried(1, 2, "examples,fuzzing")
    assert found.exit_status == 0, found.printed[-4000:]
    assert found.cases > 100
    assert not [status for status in found.statuses if status.startswith("5")]
