"""CORS: an exact list, off by default. The fields are those of the Fetch standard."""

import pytest
from flask.testing import FlaskClient

from tests.door.conftest import Asking

SECURE = "https:"
SHOP = f"{SECURE}//dryfit.test"
OTHERS = [
    f"{SHOP}.evil.test",
    f"{SECURE}//evil.test/{SHOP}",
    f"{SECURE}//evil.test",
    f"{SECURE}//dryfitXtest",
    f"{SECURE}//shop.dryfit.test",
    "http://dryfit.test",
    f"{SHOP}:444",
    f"{SECURE}//DRYFIT.test",
    f"{SHOP}/",
    "null",
    "*",
    "",
]
PREFLIGHT = {"Access-Control-Request-Method": "POST"}


@pytest.fixture
def client(asking: Asking) -> FlaskClient:
    return asking(DRYFIT_ORIGINS=f"{SHOP},http://127.0.0.1:5000")


def cors(headers: object) -> dict[str, str]:
    pairs = getattr(headers, "items", dict)()
    return {k: v for k, v in pairs if k.startswith("Access-Control-")}


@pytest.mark.parametrize("path", ["/v1/sizes/1x8", "/nowhere", "/v1/tables/lumber_sizes"])
@pytest.mark.parametrize("origin", [SHOP, "http://127.0.0.1:5000"])
def test_a_page_on_the_list_may_read_answers_and_refusals(
    client: FlaskClient, path: str, origin: str
) -> None:
    answer = client.get(path, headers={"Origin": origin})
    assert answer.headers["Access-Control-Allow-Origin"] == origin
    readable = answer.headers["Access-Control-Expose-Headers"].split(", ")
    assert {"ETag", "Link", "Retry-After", "RateLimit", "X-Request-Id"} <= set(readable)
    assert "Access-Control-Allow-Credentials" not in answer.headers
    assert "Origin" in answer.vary


@pytest.mark.parametrize("origin", OTHERS)
def test_a_page_of_another_origin_may_not(client: FlaskClient, origin: str) -> None:
    answer = client.get("/v1/sizes/1x8", headers={"Origin": origin})
    assert answer.status_code == 200
    assert cors(answer.headers) == {}
    assert "Origin" in answer.vary
    preflight = client.options("/v1/check", headers={"Origin": origin, **PREFLIGHT})
    assert cors(preflight.headers) == {}


def test_a_browser_is_told_before_it_sends(client: FlaskClient) -> None:
    answer = client.options("/v1/check", headers={"Origin": SHOP, **PREFLIGHT})
    assert (answer.status_code, answer.data) == (204, b"")
    assert answer.headers["Access-Control-Allow-Origin"] == SHOP
    assert "POST" in answer.headers["Access-Control-Allow-Methods"].split(", ")
    assert "Content-Type" in answer.headers["Access-Control-Allow-Headers"].split(", ")
    assert answer.headers["Access-Control-Max-Age"] == "600"
    assert "Origin" in answer.vary


def test_options_without_a_preflight_are_the_framework_s_own(client: FlaskClient) -> None:
    answer = client.options("/v1/check", headers={"Origin": SHOP})
    assert answer.status_code == 200
    assert set(answer.headers["Allow"].split(", ")) == {"OPTIONS", "POST"}


def test_without_a_list_nothing_is_said_of_origins(asking: Asking) -> None:
    client = asking()
    answer = client.get("/v1/sizes/1x8", headers={"Origin": SHOP})
    assert cors(answer.headers) == {}
    assert "Origin" not in answer.vary
    preflight = client.options("/v1/check", headers={"Origin": SHOP, **PREFLIGHT})
    assert cors(preflight.headers) == {}
