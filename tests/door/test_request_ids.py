"""Every answer says the name of its request; a caller's own name is taken only if it is plain."""

import re

import pytest
from flask.testing import FlaskClient

from tests.door.conftest import Asking

OWN = re.compile("[0-9a-f]{16}")


@pytest.fixture
def client(asking: Asking) -> FlaskClient:
    return asking()


@pytest.mark.parametrize("given", ["a", "7f3c-22.b_1", "A" * 64, "0" * 32])
def test_a_plain_id_is_echoed(client: FlaskClient, given: str) -> None:
    answer = client.get("/healthz", headers={"X-Request-Id": given})
    assert answer.headers.getlist("X-Request-Id") == [given]


@pytest.mark.parametrize(
    "given", ["", "A" * 65, "two words", "-first", "é", "a;b", '{"a":1}', "a,b", "\x7f", "\u0661"]
)
def test_any_other_id_is_replaced(client: FlaskClient, given: str) -> None:
    answer = client.get("/healthz", headers={"X-Request-Id": given.encode().decode("latin-1")})
    assert OWN.fullmatch(answer.headers["X-Request-Id"])


def test_no_two_requests_are_given_the_same_id(client: FlaskClient) -> None:
    assert len({client.get("/healthz").headers["X-Request-Id"] for _ in range(50)}) == 50


@pytest.mark.parametrize("path", ["/nowhere", "/v1/sizes/1x99", "/v1/measure"])
def test_a_problem_names_its_request(client: FlaskClient, path: str) -> None:
    answer = client.get(path, headers={"X-Request-Id": "one-of-mine"})
    assert answer.get_json()["instance"] == f"{path}#one-of-mine"


def test_requests_in_one_connection_do_not_share_an_id(client: FlaskClient) -> None:
    first = client.get("/nowhere", headers={"X-Request-Id": "first"})
    second = client.get("/nowhere")
    assert first.get_json()["instance"].endswith("#first")
    assert OWN.fullmatch(second.get_json()["instance"].rpartition("#")[2])
