"""Requests as bytes on a socket: what is ambiguous is refused and the connection closed.

A proxy and a server that see two ends of one request let strangers slip requests in between
(RFC 9112, sections 5.1, 6.1, 6.3, 11.2). So each of these is refused, or is one request for both.
"""

import http.client
import json
import socket
from collections.abc import Iterator

import pytest

from tests.serving.live import Live

HOST = b"Host: dryfit.test\r\n"
JSON = b"Content-Type: application/json\r\n"
SECOND = b"GET /slipped-in HTTP/1.1\r\n" + HOST + b"\r\n"


def post(*headers: bytes, body: bytes = b"") -> bytes:
    lines = b"".join(header + b"\r\n" for header in headers)
    return b"POST /v1/check HTTP/1.1\r\n" + HOST + JSON + lines + b"\r\n" + body


def get(line: bytes, *headers: bytes) -> bytes:
    lines = b"".join(header + b"\r\n" for header in headers)
    return line + b"\r\n" + HOST + lines + b"\r\n"


CHUNKS = b"2\r\n{}\r\n0\r\n\r\n"
AMBIGUOUS = {
    "length and chunks": post(
        b"Content-Length: 6", b"Transfer-Encoding: chunked", body=b"0\r\n\r\nX" + SECOND
    ),
    "chunks and length": post(
        b"Transfer-Encoding: chunked", b"Content-Length: 6", body=b"0\r\n\r\nX" + SECOND
    ),
    "two lengths": post(b"Content-Length: 2", b"Content-Length: 50", body=b"{}" + SECOND),
    "two lengths in one": post(b"Content-Length: 2, 50", body=b"{}" + SECOND),
    "length with a plus": post(b"Content-Length: +2", body=b"{}" + SECOND),
    "length below zero": post(b"Content-Length: -2", body=b"{}" + SECOND),
    "length in hexadecimal": post(b"Content-Length: 0x2", body=b"{}" + SECOND),
    "length with a point": post(b"Content-Length: 2.0", body=b"{}" + SECOND),
    "length with an underline": post(b"Content-Length: 1_0", body=b"{}" + SECOND),
    "length with a tail": post(b"Content-Length: 2 2", body=b"{}" + SECOND),
    "length in other digits": post(b"Content-Length: \xd9\xa2", body=b"{}" + SECOND),
    "length of nothing": post(b"Content-Length: ", body=b"{}" + SECOND),
    "length beyond all": post(b"Content-Length: " + b"9" * 400, body=b"{}"),
    "space before the colon": post(b"Content-Length : 2", body=b"{}" + SECOND),
    "tab before the colon": post(b"Transfer-Encoding\t: chunked", body=CHUNKS + SECOND),
    "folded length": post(b"Content-Length:\r\n 2", body=b"{}" + SECOND),
    "folded chunks": post(b"Transfer-Encoding:\r\n chunked", body=CHUNKS + SECOND),
    "coding unknown": post(b"Transfer-Encoding: xchunked", body=CHUNKS + SECOND),
    "coding of nothing": post(b"Transfer-Encoding: ", b"Content-Length: 2", body=b"{}" + SECOND),
    "coding twice": post(b"Transfer-Encoding: chunked, chunked", body=CHUNKS + SECOND),
    "coding chunked first": post(b"Transfer-Encoding: chunked, identity", body=CHUNKS + SECOND),
    "coding in two headers": post(
        b"Transfer-Encoding: chunked", b"Transfer-Encoding: identity", body=CHUNKS + SECOND
    ),
    "coding in quotes": post(b'Transfer-Encoding: "chunked"', body=CHUNKS + SECOND),
    "coding with a control": post(b"Transfer-Encoding: \x0bchunked", body=CHUNKS + SECOND),
    "coding with a NUL": post(b"Transfer-Encoding: chunked\x00", body=CHUNKS + SECOND),
    "chunk size with a plus": post(b"Transfer-Encoding: chunked", body=b"+2\r\n{}\r\n0\r\n\r\n"),
    "chunk size below zero": post(b"Transfer-Encoding: chunked", body=b"-2\r\n{}\r\n0\r\n\r\n"),
    "chunk size with 0x": post(b"Transfer-Encoding: chunked", body=b"0x2\r\n{}\r\n0\r\n\r\n"),
    "chunk size with an underline": post(
        b"Transfer-Encoding: chunked", body=b"0_2\r\n{}\r\n0\r\n\r\n"
    ),
    "chunk size of words": post(b"Transfer-Encoding: chunked", body=b"two\r\n{}\r\n0\r\n\r\n"),
    "chunk size of nothing": post(b"Transfer-Encoding: chunked", body=b"\r\n{}\r\n0\r\n\r\n"),
    "chunk too long": post(b"Transfer-Encoding: chunked", body=b"2\r\n{}XX0\r\n\r\n" + SECOND),
    "chunks in HTTP/1.0": b"POST /v1/check HTTP/1.0\r\n" + HOST + JSON
    + b"Transfer-Encoding: chunked\r\n\r\n" + CHUNKS + SECOND,
    "no host, two hosts": b"GET / HTTP/1.1\r\nHost: a\r\nHost: b\r\n\r\n",
    "header without a colon": get(b"GET / HTTP/1.1", b"nonsense"),
    "header without a name": get(b"GET / HTTP/1.1", b": nonsense"),
    "header name with a space": get(b"GET / HTTP/1.1", b"X Y: z"),
    "header name with a NUL": get(b"GET / HTTP/1.1", b"X\x00: z"),
    "header name in brackets": get(b"GET / HTTP/1.1", b"(X): z"),
    "header value with a NUL": get(b"GET / HTTP/1.1", b"X: a\x00b"),
    "header value with a bare CR": get(b"GET / HTTP/1.1", b"X: a\rContent-Length: 2"),
    "first header folded": b"GET / HTTP/1.1\r\n X: y\r\n" + HOST + b"\r\n",
    "many headers": get(b"GET / HTTP/1.1", *(b"X-%d: y" % n for n in range(500))),
    "long header": get(b"GET / HTTP/1.1", b"X: " + b"y" * 100_000),
    "long line": get(b"GET /" + b"y" * 100_000 + b" HTTP/1.1"),
    "method with a control": get(b"GE\x01T / HTTP/1.1"),
    "method in brackets": get(b"(GET) / HTTP/1.1"),
    "long method": get(b"G" * 5000 + b" / HTTP/1.1"),
    "no method": get(b" / HTTP/1.1"),
    "no version": get(b"GET /"),
    "version 0.9": get(b"GET / HTTP/0.9"),
    "version 3.0": get(b"GET / HTTP/3.0"),
    "version of words": get(b"GET / HTTP/one"),
    "version with a tail": get(b"GET / HTTP/1.1 HTTP/1.1"),
    "two spaces": get(b"GET  /  HTTP/1.1"),
    "a tab for a space": get(b"GET\t/\tHTTP/1.1"),
    "no words": b"\x16\x03\x01\x02\x00\x01\x00\x01\xfc\x03\x03\r\n\r\n",
    "HTTP/2 to start with": b"PRI * HTTP/2.0\r\n\r\nSM\r\n\r\n",
    "body for GET that is a request": get(b"GET /healthz HTTP/1.1", b"Content-Length: 7 ; x")
    + SECOND,
}  # fmt: skip

# One request for everybody, and the answer that it must have.
CLEAR = {
    "chunks": (post(b"Transfer-Encoding: chunked", body=CHUNKS), 422),
    "chunks, capital": (post(b"Transfer-Encoding: Chunked", body=CHUNKS), 422),
    "chunk with an extension": (
        post(b"Transfer-Encoding: chunked", body=b"2;a=b\r\n{}\r\n0\r\n\r\n"), 422,
    ),
    "chunks with a trailer": (
        post(b"Transfer-Encoding: chunked", body=b"2\r\n{}\r\n0\r\nX: y\r\n\r\n"), 422,
    ),
    "body for GET": (get(b"GET /healthz HTTP/1.1", b"Content-Length: 46") + b"x" * 46, 200),
    "TRACE": (get(b"TRACE / HTTP/1.1"), 405),
    "CONNECT": (get(b"CONNECT /healthz HTTP/1.1"), 405),
    "OPTIONS for all": (get(b"OPTIONS * HTTP/1.1"), 404),
    "gzip": (post(b"Content-Encoding: gzip", b"Content-Length: 2", body=b"{}"), 415),
    "gzip twice": (
        post(b"Content-Encoding: gzip, gzip", b"Content-Length: 2", body=b"{}"), 415,
    ),
    "100 continue": (
        post(b"Expect: 100-continue", b"Content-Length: 2", body=b"{}"), 422,
    ),
    "name with an underline": (
        post(b"Content_Length: 50", b"Content-Length: 2", body=b"{}"), 422,
    ),
    "script name": (get(b"GET /healthz HTTP/1.1", b"SCRIPT_NAME: /healthz"), 200),
    "prefix": (get(b"GET /healthz HTTP/1.1", b"X-Forwarded-Prefix: /a"), 200),
}  # fmt: skip


@pytest.fixture(scope="module")
def live(reference_url: str) -> Iterator[Live]:
    with Live(DRYFIT_REFERENCE_URL=reference_url, DRYFIT_WORKERS="1") as server:
        yield server


def answers(live: Live, request: bytes) -> bytes:
    """Everything that comes back until the server closes, or falls silent."""
    with socket.create_connection(("127.0.0.1", live.port), timeout=10) as connection:
        connection.sendall(request)
        connection.settimeout(1.0)
        received = b""
        try:
            while piece := connection.recv(65_536):
                received += piece
        except (TimeoutError, ConnectionResetError):
            pass
    return received


def statuses(received: bytes) -> list[int]:
    lines = [line for line in received.split(b"\r\n") if line.startswith(b"HTTP/1.")]
    return [int(line.split(b" ")[1]) for line in lines if line.split(b" ")[1] != b"100"]


@pytest.mark.parametrize("request_", AMBIGUOUS.values(), ids=AMBIGUOUS)
def test_what_is_ambiguous_is_refused_once(live: Live, request_: bytes) -> None:
    received = answers(live, request_)
    found = statuses(received)
    assert b"slipped-in" not in received
    assert len(found) <= 1
    assert all(400 <= status < 500 or status in (501, 505) for status in found)
    assert live.ask("/healthz")[0] == 200


@pytest.mark.parametrize("request_", AMBIGUOUS.values(), ids=AMBIGUOUS)
def test_what_is_refused_is_told_as_a_problem(live: Live, request_: bytes) -> None:
    head, _, content = answers(live, request_).partition(b"\r\n\r\n")
    if not head:  # the connection was closed, no more
        return
    told = json.loads(content)
    status = statuses(head)[0]
    fields = {line.lower() for line in head.decode().split("\r\n")[1:]}
    assert "content-type: application/problem+json" in fields
    assert f"content-length: {len(content)}" in fields
    assert f"x-request-id: {told['instance'].rpartition('#')[2]}" in fields
    assert told["status"] == status
    asked, known = live.ask(told["type"])[::2]
    assert asked == 200 and json.loads(known)["title"] == told["title"]


@pytest.mark.parametrize(("request_", "status"), CLEAR.values(), ids=CLEAR)
def test_what_is_clear_is_one_request(live: Live, request_: bytes, status: int) -> None:
    received = answers(live, request_)
    assert statuses(received) == [status]


def test_a_connection_goes_on_after_a_refusal(live: Live) -> None:
    connection = http.client.HTTPConnection("127.0.0.1", live.port, timeout=10)
    kept = []
    for path, status in (("/nowhere", 404), ("/healthz", 200)):
        connection.request("GET", path)
        answer = connection.getresponse()
        answer.read()
        kept.append(connection.sock)
        assert answer.status == status
    assert kept[0] is kept[1] is not None
    connection.close()


def test_there_are_enough_of_them() -> None:
    assert len(AMBIGUOUS) + len(CLEAR) >= 60
