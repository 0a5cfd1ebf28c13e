"""The deployment of the README: gunicorn behind nginx, and callers who send half a request."""

import http.client
import json
import os
import shutil
import signal
import socket
import time
from collections.abc import Iterator
from contextlib import suppress
from statistics import median

import pytest

from service.api.problems import known_problems
from service.door.headers import FIXED
from tests.serving.live import PROJECT, Live
from tests.serving.proxied import Proxied

pytestmark = pytest.mark.skipif(shutil.which("nginx") is None, reason="nginx is not installed")

SOCKETS, ASKS = 500, 50
MOST_SECONDS = 0.05  # what the health check may take, whatever it took before
MOST_TIMES = 3  # as long as before, where the machine itself takes longer than that
ROUNDS = 4  # on a busy machine one ask in fifty may wait for somebody else
LET_GO_AFTER = 5.0  # seconds; client_header_timeout and client_body_timeout

HALF = {
    "half a header": b"GET /healthz HTTP/1.1\r\nHost: dryfit.test\r\nX-Slow: ",
    "half a body": b"POST /v1/check HTTP/1.1\r\nHost: dryfit.test\r\n"
    b"Content-Type: application/json\r\nContent-Length: 5000\r\n\r\n"
    b'{"name": ',
    "silent": b"",
}


@pytest.fixture(scope="module")
def proxied() -> Iterator[Proxied]:
    with Live(DRYFIT_PROXIES="1") as live, Proxied(live.port) as proxy:
        yield proxy


class HalfOpen:
    """So many sockets that have sent half a request of every kind and wait."""

    def __init__(self, port: int) -> None:
        self.port, self.sockets = port, list[socket.socket]()
        self.fill()

    def fill(self) -> None:
        """Open again what the proxy has let go of."""
        self.sockets = self.still_open()
        kinds = list(HALF.values())
        for n in range(len(self.sockets), SOCKETS):
            one = socket.create_connection(("127.0.0.1", self.port), timeout=10)
            one.sendall(kinds[n % len(kinds)])
            one.setblocking(False)
            self.sockets.append(one)

    def still_open(self) -> list[socket.socket]:
        """Those on which nothing has come back; the others are closed here too."""
        waiting = []
        for one in self.sockets:
            try:
                one.recv(4096)
            except BlockingIOError:
                waiting.append(one)
                continue
            except ConnectionError:
                pass
            one.close()
        return waiting

    def close(self) -> None:
        """All of them."""
        for one in self.sockets:
            one.close()


def ask(
    port: int, path: str, body: bytes | None = None, *, who: str = "127.0.0.1", **headers: str
) -> tuple[int, dict[str, str], bytes]:
    """Status, headers and content, on a connection of its own from the address `who`."""
    connection = http.client.HTTPConnection("127.0.0.1", port, 60, source_address=(who, 0))
    kind = {"Content-Type": "application/json"} if body is not None else {}
    try:
        connection.request("GET" if body is None else "POST", path, body, {**kind, **headers})
        answer = connection.getresponse()
        return answer.status, dict(answer.getheaders()), answer.read()
    finally:
        connection.close()


def asks(port: int) -> list[float]:
    """Seconds that each health check took; every one is answered with 200."""
    taken = []
    for _ in range(ASKS):
        begun = time.perf_counter()
        assert ask(port, "/healthz")[0] == 200
        taken.append(time.perf_counter() - begun)
    return taken


def told(name: str, taken: list[float]) -> str:
    return f"{name}: median {median(taken) * 1000:.1f} ms, worst {max(taken) * 1000:.1f} ms"


def test_half_open_sockets_leave_the_health_check_quick(proxied: Proxied) -> None:
    before = asks(proxied.port)
    half_open = HalfOpen(proxied.port)
    try:
        rounds = []
        for _ in range(ROUNDS):
            half_open.fill()
            rounds.append(asks(proxied.port))
            waiting = len(half_open.still_open())
            print(told("before", before), told(f"{waiting} half open", rounds[-1]), sep="\n")
            assert waiting > SOCKETS * 0.9, "too few were left to say anything"
            if max(rounds[-1]) <= max(MOST_SECONDS, MOST_TIMES * max(before)):
                break
        else:
            pytest.fail(f"every round was slow: {[max(taken) for taken in rounds]}")
    finally:
        half_open.close()


@pytest.mark.parametrize("kind", HALF)
def test_who_sends_half_a_request_is_let_go(proxied: Proxied, kind: str) -> None:
    with socket.create_connection(("127.0.0.1", proxied.port), timeout=60) as one:
        begun = time.monotonic()
        one.sendall(HALF[kind])
        with suppress(ConnectionResetError):
            assert one.recv(4096) == b""
        assert time.monotonic() - begun >= LET_GO_AFTER - 1


def test_an_id_goes_through_and_comes_back(proxied: Proxied) -> None:
    sent = "0123456789abcdef0123456789abcdef"
    answered = ask(proxied.port, "/v1/sizes/1x8", **{"X-Request-Id": sent})
    assert (answered[0], answered[1]["X-Request-Id"]) == (200, sent)
    assert len(ask(proxied.port, "/v1/sizes/1x8")[1]["X-Request-Id"]) > 8


def test_requests_are_counted_for_who_sends_them_whatever_he_says() -> None:
    settings = {"DRYFIT_PROXIES": "1", "DRYFIT_WORKERS": "1", "DRYFIT_RATE": "3/day"}
    with Live(**settings) as live, Proxied(live.port) as proxy:
        found = [
            ask(proxy.port, "/v1/sizes/1x8", who=who, **{"X-Forwarded-For": said})[0]
            for who, said in (
                ("127.0.0.2", "192.0.2.1"), ("127.0.0.2", "192.0.2.2"), ("127.0.0.2", "192.0.2.3"),
                ("127.0.0.2", "192.0.2.4"), ("127.0.0.3", "192.0.2.4"),
            )
        ]  # fmt: skip
    assert found == [200, 200, 200, 429, 200]


def test_a_body_is_let_through_up_to_the_limit_of_the_service(proxied: Proxied) -> None:
    build = json.dumps({"name": "Slat", "parts": [{"id": "a", "stock": "1x4", "length": "24"}]})
    most = 1_048_576
    assert ask(proxied.port, "/v1/check", build.ljust(most).encode())[0] == 200
    status, headers, content = ask(proxied.port, "/v1/check", build.ljust(most + 1).encode())
    assert status == 413
    assert headers["Content-Type"] == "application/problem+json"
    problem = json.loads(content)
    assert problem["type"] == "/problems/body-too-large"
    assert ask(proxied.port, problem["type"])[0] == 200


def test_a_long_answer_comes_whole(proxied: Proxied) -> None:
    released = PROJECT / "openapi" / "openapi.json"
    assert json.loads(ask(proxied.port, "/openapi.json")[2]) == json.loads(released.read_bytes())


LONG = b"x" * 20_000
BY_THE_PROXY = {
    "nonsense": (b"nonsense\r\n\r\n", 400, "bad-request"),
    "no host": (b"GET / HTTP/1.1\r\n\r\n", 400, "bad-request"),
    "a long header": (
        b"GET / HTTP/1.1\r\nHost: a\r\nX-Long: " + LONG + b"\r\n\r\n", 400, "bad-request",
    ),
    "a coding that nobody knows": (
        b"POST /v1/check HTTP/1.1\r\nHost: a\r\nTransfer-Encoding: x\r\n\r\n",
        400, "bad-request",
    ),
    "another protocol": (b"GET / HTTP/3.0\r\nHost: a\r\n\r\n", 400, "bad-request"),
    "a trace": (b"TRACE / HTTP/1.1\r\nHost: a\r\n\r\n", 405, "wrong-method"),
    "a place of its own": (
        b"GET /.proxy/too-long HTTP/1.1\r\nHost: a\r\n\r\n", 404, "unknown-route",
    ),
    "a long address": (b"GET /" + LONG + b" HTTP/1.1\r\nHost: a\r\n\r\n", 414, "address-too-long"),
}  # fmt: skip


def answer_to(port: int, sent: bytes) -> tuple[int, http.client.HTTPMessage, bytes]:
    """The answer to these bytes, on a connection of its own."""
    with socket.create_connection(("127.0.0.1", port), timeout=60) as one:
        one.sendall(sent)
        with http.client.HTTPResponse(one) as answer:
            answer.begin()
            return answer.status, answer.headers, answer.read()


def assert_told_as_by_the_service(
    answered: tuple[int, http.client.HTTPMessage, bytes], status: int, slug: str
) -> None:
    found, headers, content = answered
    title = known_problems()[slug][1]
    assert found == status
    assert headers.get_all("Content-Type") == ["application/problem+json"]
    assert json.loads(content) == {"type": f"/problems/{slug}", "title": title, "status": status}
    fixed = FIXED | {"Cache-Control": "no-store"}
    assert {name: headers.get_all(name) for name in fixed} == {
        name: [value] for name, value in fixed.items()
    }


@pytest.mark.parametrize("name", BY_THE_PROXY)
def test_what_the_proxy_refuses_is_told_as_by_the_service(proxied: Proxied, name: str) -> None:
    sent, status, slug = BY_THE_PROXY[name]
    answered = answer_to(proxied.port, sent)
    assert_told_as_by_the_service(answered, status, slug)
    assert "Retry-After" not in answered[1]


def test_headers_of_the_service_come_once(proxied: Proxied) -> None:
    headers = answer_to(proxied.port, b"GET /v1/sizes/1x8 HTTP/1.1\r\nHost: a\r\n\r\n")[1]
    assert {name: headers.get_all(name) for name in FIXED} == {
        name: [value] for name, value in FIXED.items()
    }


def test_a_service_that_is_gone_or_stuck_is_told_as_such() -> None:
    asked = b"GET /v1/sizes/1x8 HTTP/1.1\r\nHost: a\r\n\r\n"
    with Live(DRYFIT_PROXIES="1") as live, Proxied(live.port, proxy_read_timeout="1s") as proxy:
        first, *_ = everybody = [live.process.pid, *live.workers]
        for pid in everybody:
            os.kill(pid, signal.SIGSTOP)
        try:
            stuck = answer_to(proxy.port, asked)
        finally:
            for pid in everybody:
                os.kill(pid, signal.SIGCONT)
        assert_told_as_by_the_service(stuck, 503, "out-of-time")
        assert stuck[1]["Retry-After"] == "30"
        os.kill(first, signal.SIGTERM)
        live.process.wait(timeout=60)
        gone = answer_to(proxy.port, asked)
        assert_told_as_by_the_service(gone, 503, "not-ready")
        assert gone[1]["Retry-After"] == "5"
