"""Headers of every answer, and the text that says whom to tell of a hole."""

import re
from datetime import UTC, datetime, timedelta

import pytest

from tests.door.conftest import Asking

PATHS = ["/", "/v1/sizes/1x8", "/nowhere", "/healthz", "/v1/tables/lumber_sizes"]


@pytest.mark.parametrize("path", PATHS)
def test_no_answer_can_be_framed_sniffed_or_run(asking: Asking, path: str) -> None:
    headers = asking().get(path).headers
    assert headers["X-Content-Type-Options"] == "nosniff"
    policy = dict(part.strip().split(" ", 1) for part in
                  headers["Content-Security-Policy"].split(";"))  # fmt: skip
    assert policy["default-src"] == "'none'"
    assert policy["frame-ancestors"] == "'none'"
    assert headers["Referrer-Policy"] == "no-referrer"
    assert headers["Cross-Origin-Resource-Policy"] == "same-origin"
    assert headers["Cross-Origin-Opener-Policy"] == "same-origin"
    assert headers["Cache-Control"]
    assert "Set-Cookie" not in headers


def test_transport_security_is_asked_for_only_where_there_is_some(asking: Asking) -> None:
    client = asking(DRYFIT_PROXIES="1")
    plain = client.get("/healthz")
    secure = client.get("/healthz", headers={"X-Forwarded-Proto": "https"})
    unasked = asking().get("/healthz", headers={"X-Forwarded-Proto": "https"})
    assert "Strict-Transport-Security" not in plain.headers
    assert "Strict-Transport-Security" not in unasked.headers
    assert re.fullmatch(r"max-age=\d{7,}", secure.headers["Strict-Transport-Security"])


def test_whom_to_tell_of_a_hole(asking: Asking) -> None:
    answer = asking(DRYFIT_SECURITY_CONTACT="mailto:holes@dryfit.test").get(
        "/.well-known/security.txt"
    )
    assert (answer.status_code, answer.mimetype) == (200, "text/plain")
    fields = dict(line.split(": ", 1) for line in answer.text.splitlines())
    assert fields["Contact"] == "mailto:holes@dryfit.test"
    until = datetime.strptime(fields["Expires"], "%Y-%m-%dT%H:%M:%SZ").replace(tzinfo=UTC)
    assert timedelta(days=30) < until - datetime.now(UTC) < timedelta(days=366)  # RFC 9116, 2.5.5


def test_without_a_contact_there_is_no_such_text(asking: Asking) -> None:
    assert asking().get("/.well-known/security.txt").status_code == 404
