"""What Prometheus is told, and who is told anything."""

import pytest
from flask.testing import FlaskClient
from prometheus_client.parser import text_string_to_metric_families

from tests.door.conftest import Asking

LOCAL = {"REMOTE_ADDR": "127.0.0.1"}


def samples(client: FlaskClient) -> dict[tuple[str, frozenset[tuple[str, str]]], float]:
    page = client.get("/metrics", environ_base=LOCAL)
    assert page.status_code == 200
    return {
        (sample.name, frozenset(sample.labels.items())): sample.value
        for family in text_string_to_metric_families(page.text)
        for sample in family.samples
    }


def requests_of(method: str, route: str, status: str) -> tuple[str, frozenset[tuple[str, str]]]:
    labels = {"method": method, "route": route, "status": status}
    return "dryfit_requests_total", frozenset(labels.items())


def test_requests_are_counted_by_route_and_status(asking: Asking) -> None:
    client = asking(DRYFIT_METRICS="loopback")
    for stock in ("1x4", "1x6", "1x99"):
        client.get(f"/v1/sizes/{stock}")
    client.get("/nowhere/1")
    client.open("/nowhere/2", method="BREW")
    counted = samples(client)
    assert counted[requests_of("GET", "/v1/sizes/<path:stock>", "200")] == 2
    assert counted[requests_of("GET", "/v1/sizes/<path:stock>", "422")] == 1
    assert counted[requests_of("GET", "unknown", "404")] == 1
    assert counted[requests_of("other", "unknown", "404")] == 1
    sizes = frozenset({"route": "/v1/sizes/<path:stock>"}.items())
    assert counted["dryfit_request_seconds_count", sizes] == 3
    assert 0 < counted["dryfit_request_seconds_sum", sizes] < 60
    assert counted["dryfit_requests_in_progress", frozenset()] == 1  # the one that asks


def test_callers_can_not_make_new_series(asking: Asking) -> None:
    client = asking(DRYFIT_METRICS="loopback")
    client.get("/nowhere")
    client.open("/nowhere", method="M0")
    samples(client)
    before = set(samples(client))
    for n in range(50):
        client.get(f"/nowhere/{n}")
        client.open(f"/nowhere/{n}", method=f"M{n}")
    assert set(samples(client)) == before


@pytest.mark.parametrize(
    ("setting", "address", "headers", "status"),
    [
        ("off", "127.0.0.1", {}, 404),
        ("loopback", "127.0.0.1", {}, 200),
        ("loopback", "::1", {}, 200),
        ("loopback", "192.0.2.1", {}, 404),
        ("loopback", "", {}, 404),
        ("loopback", "127.0.0.1", {"X-Forwarded-For": "192.0.2.1"}, 404),
        ("loopback", "127.0.0.1", {"X-Forwarded-For": "127.0.0.1"}, 404),
        ("loopback", "127.0.0.1", {"Forwarded": "for=192.0.2.1"}, 404),
        ("all", "192.0.2.1", {}, 200),
    ],
)
def test_only_those_who_may_read_metrics_find_them(
    asking: Asking, setting: str, address: str, headers: dict[str, str], status: int
) -> None:
    client = asking(DRYFIT_METRICS=setting)
    page = client.get("/metrics", headers=headers, environ_base={"REMOTE_ADDR": address})
    assert page.status_code == status
    if status == 404:
        assert page.get_json()["type"] == "/problems/unknown-route"
