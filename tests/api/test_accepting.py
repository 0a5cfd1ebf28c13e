"""In which form an answer comes: what Accept may say (RFC 9110, section 12.5.1)."""

import pytest
from flask.testing import FlaskClient

PATH = "/v1/sizes/1x8"


@pytest.mark.parametrize(
    ("accept", "media_type"),
    [
        ("application/json; charset=utf-8", "application/json"),
        ("text/plain; charset=utf-8", "text/plain"),
        ("text/plain;format=flowed;q=0.5, application/json;q=0.9", "application/json"),
        ("text/plain;charset=utf-8;q=0.9, application/json;q=0.5", "text/plain"),
        ("application/json;q=0, */*", "text/plain"),
        ("*/*;q=0.1, text/plain", "text/plain"),
        ("text/*", "text/plain"),
        ("text/html, */*;q=0.8", "application/json"),
        ("", "application/json"),
        (" ", "application/json"),
    ],
)
def test_accept_is_read_with_its_weights_and_parameters(
    client: FlaskClient, accept: str, media_type: str
) -> None:
    response = client.get(PATH, headers={"Accept": accept})
    assert (response.status_code, response.mimetype) == (200, media_type)


@pytest.mark.parametrize("accept", ["image/png", "application/json;q=0", "nonsense", "a/b;q=1"])
def test_what_is_not_offered_is_refused(client: FlaskClient, accept: str) -> None:
    assert client.get(PATH, headers={"Accept": accept}).status_code == 406


def test_the_parameter_wins_over_accept(client: FlaskClient) -> None:
    response = client.get(f"{PATH}?format=text", headers={"Accept": "application/json"})
    assert response.mimetype == "text/plain"
