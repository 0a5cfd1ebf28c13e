"""How many requests an address may send: counted, said in the fields of the draft, refused."""

import re
from time import time

import pytest
from flask.testing import FlaskClient

from service.door.quotas import counted_as, only_here, quotas_of
from service.door.tallies import Tally
from service.settings import read_settings
from tests.door.conftest import Asking

PATH = "/v1/why/run.tight"
JSON = {"Content-Type": "application/json"}


def limited(asking: Asking, **more: str) -> FlaskClient:
    """Windows of a day: the test does not run over the end of one, but at midnight."""
    return asking(**{"DRYFIT_RATE": "3/day", "DRYFIT_RATE_POST": "off", **more})


def test_requests_are_counted_down_and_then_refused(asking: Asking) -> None:
    client = limited(asking)
    for left in (2, 1, 0):
        answer = client.get(PATH)
        assert answer.status_code == 200
        assert answer.headers["RateLimit-Policy"] == '"all";q=3;w=86400'
        said = re.fullmatch(r'"all";r=(\d+);t=(\d+)', answer.headers["RateLimit"])
        assert said and int(said[1]) == left
        assert abs(int(said[2]) - (86_400 - time() % 86_400)) <= 2
        assert "Retry-After" not in answer.headers
    refused = client.get(PATH)
    assert (refused.status_code, refused.mimetype) == (429, "application/problem+json")
    problem = refused.get_json()
    assert problem["type"] == "/problems/quota-exceeded"
    assert problem["violated-policies"] == ["all"]
    assert refused.headers["RateLimit"].startswith('"all";r=0;t=')
    assert abs(int(refused.headers["Retry-After"]) - (86_400 - time() % 86_400)) <= 2


def test_each_address_has_its_own_quota(asking: Asking) -> None:
    client = limited(asking)
    for _ in range(4):
        last = client.get(PATH, environ_base={"REMOTE_ADDR": "192.0.2.1"})
    assert last.status_code == 429
    assert client.get(PATH, environ_base={"REMOTE_ADDR": "192.0.2.2"}).status_code == 200


def test_what_watches_the_service_is_never_refused(asking: Asking) -> None:
    client = limited(asking)
    for _ in range(10):
        for path in ("/healthz", "/readyz"):
            answer = client.get(path)
            assert answer.status_code == 200 and "RateLimit" not in answer.headers
    assert client.get(PATH).status_code == 200


def test_refusals_and_unknown_addresses_count_too(asking: Asking) -> None:
    client = limited(asking)
    assert [client.get("/nowhere").status_code for _ in range(4)] == [404, 404, 404, 429]


def test_post_has_a_quota_of_its_own(asking: Asking) -> None:
    client = asking(DRYFIT_RATE="100/day", DRYFIT_RATE_POST="1/day")
    first = client.post("/v1/check", data=b"{}", headers=JSON)
    assert first.status_code == 422
    assert first.headers["RateLimit-Policy"] == '"all";q=100;w=86400, "post";q=1;w=86400'
    second = client.post("/v1/check", data=b"{}", headers=JSON)
    assert second.status_code == 429
    assert second.get_json()["violated-policies"] == ["post"]
    assert client.get(PATH).status_code == 200


@pytest.mark.parametrize(
    ("environment", "off"),
    [
        ({}, True),
        ({"DRYFIT_BIND": "127.0.0.5"}, True),
        ({"DRYFIT_BIND": "localhost"}, True),
        ({"DRYFIT_BIND": "[::1]"}, True),
        ({"DRYFIT_PROXIES": "1"}, False),
        ({"DRYFIT_BIND": "0.0.0.0"}, False),
        ({"DRYFIT_BIND": "192.0.2.7"}, False),
    ],
)
def test_quotas_are_off_where_only_this_machine_can_connect(
    environment: dict[str, str], off: bool
) -> None:
    settings = read_settings(environment)
    assert only_here(settings) is off
    assert (quotas_of(settings).policies == ()) is off


def test_a_rate_that_is_set_holds_on_this_machine_too() -> None:
    (policy,) = quotas_of(read_settings({"DRYFIT_RATE": "7/second"})).policies
    assert (policy.most, policy.seconds) == (7, 1)


@pytest.mark.parametrize(
    ("address", "counted"),
    [
        ("192.0.2.1", "192.0.2.1"),
        ("2001:db8:1:2:3:4:5:6", "2001:db8:1:2::/64"),
        ("2001:db8:1:2:ffff::1", "2001:db8:1:2::/64"),
        ("2001:db8:1:3::1", "2001:db8:1:3::/64"),
        ("::ffff:192.0.2.1", "192.0.2.1"),
        ("not an address", "unknown"),
        ("", "unknown"),
    ],
)
def test_an_address_is_counted_by_its_network(address: str, counted: str) -> None:
    assert counted_as(address) == counted


FORWARDED = {"X-Forwarded-For": "198.51.100.1"}


def test_a_forwarded_address_is_believed_only_behind_a_proxy(asking: Asking) -> None:
    direct = limited(asking)
    sent = [f"198.51.100.{n}" for n in range(4)]
    answers = [direct.get(PATH, headers={"X-Forwarded-For": one}) for one in sent]
    assert [answer.status_code for answer in answers] == [200, 200, 200, 429]
    behind = limited(asking, DRYFIT_PROXIES="1")
    for _ in range(3):
        assert behind.get(PATH, headers=FORWARDED).status_code == 200
    # What the caller made up stands before what the proxy has added, and changes nothing.
    made_up = {"X-Forwarded-For": "203.0.113.9, 198.51.100.1"}
    assert behind.get(PATH, headers=made_up).status_code == 429
    assert behind.get(PATH, headers={"X-Forwarded-For": "198.51.100.2"}).status_code == 200


def test_a_tally_counts_and_forgets() -> None:
    tally = Tally()
    assert [tally.incr("a", 100), tally.incr("a", 100), tally.incr("b", 100)] == [1, 2, 1]
    assert [tally.incr("short", 0), tally.incr("short", 0)] == [1, 1]


def test_a_tally_stays_small_and_forgets_the_oldest() -> None:
    tally = Tally(most=100)
    for n in range(1000):
        tally.incr(f"key {n}", 100)
        assert len(tally._counts) <= 100
    assert tally.incr("key 999", 100) == 2 and tally.incr("key 0", 100) == 1
