"""Every refusal is a problem (RFC 9457) with the right status, and says where it is."""

import json
import re
from dataclasses import replace
from io import BytesIO
from typing import Any

import pytest
from flask import Flask
from flask.testing import FlaskClient
from werkzeug.exceptions import default_exceptions
from werkzeug.test import TestResponse

from service.api.house import NAME
from service.api.problems import FRAMEWORK, STATUS, known_problems
from service.api.refusals import Refusal
from service.app import open_house
from service.domain.errors import DryfitError

JSON = {"Content-Type": "application/json"}
PART = '{"id": "a", "stock": "1x6", "length": "20"}'
SMALL = '{"name": "a", "parts": [' + PART + "]}"


def assert_problem(response: TestResponse, status: int, slug: str) -> Any:
    """The answer is a problem of that kind, and keeps what went wrong inside to itself."""
    assert (response.status_code, response.mimetype) == (status, "application/problem+json")
    body = json.loads(response.data)
    assert body["type"] == f"/problems/{slug}"
    assert body["status"] == status
    assert body["title"].endswith(".")
    assert body["instance"].startswith("/")
    assert response.headers["X-Content-Type-Options"] == "nosniff"
    assert response.headers["Cache-Control"] == "no-store"
    assert "Traceback" not in response.text and ".py" not in response.text
    return body


def post(client: FlaskClient, body: str | bytes, **headers: str) -> TestResponse:
    named = {name.replace("_", "-"): value for name, value in headers.items()}
    return client.post("/v1/check", data=body, headers={**JSON, **named})


BAD_BODIES = {
    "empty": b"",
    "blank": b" \n",
    "text": b"hello",
    "cut short": SMALL[:-1].encode(),
    "two values": b"{} {}",
    "NaN": SMALL.replace('"20"', "NaN").encode(),
    "Infinity": SMALL.replace('"20"', "-Infinity").encode(),
    "number beyond a double": SMALL.replace('"20"', "1e999").encode(),
    "5,000 digits": SMALL.replace('"20"', "9" * 5000).encode(),
    "100,000 brackets": b"[" * 100_000,
    "100,000 brackets, closed": b"[" * 100_000 + b"]" * 100_000,
    "1,020 brackets, closed": b"[" * 1020 + b"]" * 1020,
    "half a surrogate pair": SMALL.replace('"a"', '"\\ud800"').encode(),
    "byte order mark": b"\xef\xbb\xbf" + SMALL.encode(),
    "not UTF-8": SMALL.replace('"a"', '"\xe9"').encode("latin-1"),
    "UTF-16": SMALL.encode("utf-16-le"),
    "single quotes": SMALL.replace('"', "'").encode(),
    "trailing comma": SMALL[:-1].encode() + b",}",
}


@pytest.mark.parametrize("body", BAD_BODIES.values(), ids=BAD_BODIES)
def test_what_is_not_json_is_refused_with_400(client: FlaskClient, body: bytes) -> None:
    assert_problem(post(client, body), 400, "not-json")


def test_a_name_that_stands_twice_is_refused_with_400(client: FlaskClient) -> None:
    body = SMALL.replace('"length"', '"length": "21", "length"')
    problem = assert_problem(post(client, body), 400, "repeated-name")
    assert "length" in problem["detail"]


DEEP = "[" * 300 + "]" * 300
HIDDEN = {
    "among times": '{"a": "10:30", "b": 1, "b": "11:45"}',
    "behind an escaped colon": r'{"a": 1, "a": "\u003a"}',
    "as an escape": r'{"a": 1, "\u0061": 2}',
    "deep inside": f'{{"a": {DEEP}, "b": [{{"c": 1, "c": {{"d": ":"}}}}]}}',
    "holding what is lost": '{"a": {"b": ":", "c": 1}, "a": 1}',
    "empty": '{"": 1, "": 2}',
}


@pytest.mark.parametrize("body", HIDDEN.values(), ids=HIDDEN)
def test_no_repeated_name_is_overlooked(client: FlaskClient, body: str) -> None:
    assert_problem(post(client, body), 400, "repeated-name")


@pytest.mark.parametrize("body", ['{"a": ":"}', r'{"a\u003a": {"b": 1}}', f'{{"a": {DEEP}}}'])
def test_no_name_is_taken_for_a_repeated_one(client: FlaskClient, body: str) -> None:
    assert_problem(post(client, body), 422, "invalid-document")


@pytest.mark.parametrize(
    "content_type",
    ["", "text/plain", "application/x-www-form-urlencoded", "application/json; charset=latin-1"],
)
def test_another_media_type_is_refused_with_415(client: FlaskClient, content_type: str) -> None:
    response = client.post("/v1/check", data=SMALL, headers={"Content-Type": content_type})
    assert_problem(response, 415, "unreadable-media-type")
    assert response.headers["Accept"] == "application/json"


def test_a_missing_media_type_is_refused_with_415(client: FlaskClient) -> None:
    assert_problem(client.post("/v1/check", data=SMALL), 415, "unreadable-media-type")


def test_a_compressed_body_is_refused_with_415(client: FlaskClient) -> None:
    response = post(client, SMALL, Content_Encoding="gzip")
    assert_problem(response, 415, "unreadable-media-type")
    assert response.headers["Accept-Encoding"] == "identity"


def test_a_body_of_one_mebibyte_is_read_and_one_byte_more_is_refused(client: FlaskClient) -> None:
    filled = SMALL + " " * (1_048_576 - len(SMALL))
    assert post(client, filled).status_code == 200
    assert_problem(post(client, filled + " "), 413, "body-too-large")


def test_a_body_in_chunks_is_never_cut_off(client: FlaskClient) -> None:
    def in_chunks(body: str) -> TestResponse:
        terminated = {"wsgi.input_terminated": True}
        stream = BytesIO(body.encode())
        return client.post("/v1/check", input_stream=stream, headers=JSON, environ_base=terminated)

    filled = SMALL + " " * (1_048_576 - len(SMALL))
    assert in_chunks(filled).status_code == 200
    assert_problem(in_chunks(filled + " "), 413, "body-too-large")
    assert_problem(in_chunks(filled * 2), 413, "body-too-large")


def test_a_body_with_too_many_values_is_refused_before_it_is_read(client: FlaskClient) -> None:
    body = SMALL[:-1] + ', "uses": [' + ", ".join(['"a"'] * 40_000) + "]}"
    assert_problem(post(client, body), 413, "too-many-values")


def test_500_parts_are_read_and_501_are_refused(client: FlaskClient) -> None:
    def build(count: int) -> str:
        parts = [{"id": f"p{n}", "stock": "1x6", "length": "20"} for n in range(count)]
        return json.dumps({"name": "a", "parts": parts})

    assert post(client, build(500)).status_code == 200
    problem = assert_problem(post(client, build(501)), 422, "invalid-document")
    assert [error["pointer"] for error in problem["errors"]] == ["#/parts"]


@pytest.mark.parametrize("body", ["[]", "null", '"text"', "12", "true"])
def test_json_that_is_no_object_is_refused_with_422(client: FlaskClient, body: str) -> None:
    problem = assert_problem(post(client, body), 422, "invalid-document")
    assert [error["pointer"] for error in problem["errors"]] == ["#"]


@pytest.mark.parametrize(
    ("field", "pointer"),
    [
        ('"name": "a"', "#/name"),
        ('"id": "a"', "#/parts/0/id"),
        ('"stock": "1x6"', "#/parts/0/stock"),
    ],
)
def test_nul_in_a_text_is_refused_at_its_place(
    client: FlaskClient, field: str, pointer: str
) -> None:
    body = SMALL.replace(field, field[:-1] + '\\u0000"')
    problem = assert_problem(post(client, body), 422, "invalid-document")
    assert [error["pointer"] for error in problem["errors"]] == [pointer]


def test_at_most_50_errors_are_listed_and_the_rest_counted(client: FlaskClient) -> None:
    parts = [{"id": f"p{n}", "stock": "1x6", "length": 0} for n in range(60)]
    problem = assert_problem(
        post(client, json.dumps({"name": "a", "parts": parts})), 422, "invalid-document"
    )
    assert len(problem["errors"]) == 50
    assert problem["errors_left_out"] == 10


def test_a_name_outside_the_tables_is_refused_at_its_place(client: FlaskClient, tote: Any) -> None:
    tote["wood"] = "unobtainium"
    problem = assert_problem(post(client, json.dumps(tote)), 422, "unknown-name")
    assert [error["pointer"] for error in problem["errors"]] == ["#/wood"]


@pytest.mark.parametrize(
    "path", ["/v2/check", "/v1", "/v1/check/", "//v1/check", "/v1/../etc", "/%00"]
)
def test_an_unknown_route_is_refused_with_404(client: FlaskClient, path: str) -> None:
    assert_problem(client.get(path), 404, "unknown-route")


@pytest.mark.parametrize(
    ("path", "slug"),
    [
        ("/v1/tables/nothing", "unknown-table"),
        ("/v1/tables/lumber_sizes/nothing", "unknown-key"),
        ("/v1/why/size.nothing", "unknown-code"),
    ],
)
def test_a_thing_that_is_not_there_is_refused_with_404(
    client: FlaskClient, path: str, slug: str
) -> None:
    assert_problem(client.get(path), 404, slug)


@pytest.mark.parametrize(
    ("method", "path", "allowed"),
    [
        ("GET", "/v1/check", {"POST", "OPTIONS"}),
        ("POST", "/v1/tables", {"GET", "HEAD", "OPTIONS"}),
        ("DELETE", "/", {"GET", "HEAD", "OPTIONS"}),
        ("TRACE", "/healthz", {"GET", "HEAD", "OPTIONS"}),
    ],
)
def test_a_wrong_method_is_refused_with_405_and_the_right_ones(
    client: FlaskClient, method: str, path: str, allowed: set[str]
) -> None:
    response = client.open(path, method=method)
    assert_problem(response, 405, "wrong-method")
    assert set(re.split(", ?", response.headers["Allow"])) == allowed


@pytest.mark.parametrize("path", ["/", "/v1/measure?value=3", "/v1/tables", "/v1/tables/sources"])
def test_a_form_that_is_not_offered_is_refused_with_406(client: FlaskClient, path: str) -> None:
    response = client.get(path, headers={"Accept": "image/png"})
    assert_problem(response, 406, "nothing-acceptable")


def parameters_refused(response: TestResponse) -> list[str]:
    problem = assert_problem(response, 422, "invalid-parameter")
    return [error["parameter"] for error in problem["errors"]]


@pytest.mark.parametrize(
    ("path", "parameter"),
    [
        ("/v1/measure?value=3&form=text", "form"),
        ("/v1/measure?value=3&value=4", "value"),
        ("/v1/measure?value=3&format=xml", "format"),
        ("/v1/measure?value=3&round=sideways", "round"),
        ("/v1/measure?value=3&to=0", "to"),
        ("/v1/measure?value=-3", "value"),
        ("/v1/measure", "value"),
        ("/v1/sizes/1x6?lenght=3", "lenght"),
        ("/v1/board-feet?stock=1x6&length=8ft&count=1.5", "count"),
        ("/v1/board-feet?stock=1x6&length=8ft&price=1,50", "price"),
        ("/v1/board-feet?thickness=1&length=8ft", "width"),
        ("/v1/tables/lumber_sizes?stok=1x6", "stok"),
        ("/v1/tables/lumber_sizes?limit=0", "limit"),
        ("/v1/tables/lumber_sizes?limit=ten", "limit"),
        ("/v1/tables/lumber_sizes?region=us&region=uk", "region"),
        ("/v1/tables?stock=1x6", "stock"),
    ],
)
def test_a_wrong_parameter_is_refused_by_name(
    client: FlaskClient, path: str, parameter: str
) -> None:
    assert parameters_refused(client.get(path)) == [parameter]


def test_an_unknown_parameter_is_answered_with_the_nearest_one(client: FlaskClient) -> None:
    problem = json.loads(client.get("/v1/measure?valeu=3").data)
    assert 'did you mean "value"?' in problem["errors"][0]["detail"]


def test_an_unknown_column_to_sort_by_is_refused(client: FlaskClient) -> None:
    response = client.get("/v1/tables/lumber_sizes?sort=stok")
    problem = assert_problem(response, 422, "unknown-column")
    assert [error["parameter"] for error in problem["errors"]] == ["sort"]


@pytest.mark.parametrize(
    ("path", "parameter"),
    [
        ("/v1/sizes/1x99", "stock"),
        ("/v1/sizes/1x6?region=mars", "region"),
        ("/v1/board-feet?stock=1x99&length=8ft", "stock"),
    ],
)
def test_a_name_outside_the_tables_is_refused_by_parameter(
    client: FlaskClient, path: str, parameter: str
) -> None:
    problem = assert_problem(client.get(path), 422, "unknown-name")
    assert [error["parameter"] for error in problem["errors"]] == [parameter]


@pytest.mark.parametrize("code", sorted(set(default_exceptions) - {304}))
def test_every_error_of_the_framework_becomes_a_problem(app: Flask, code: int) -> None:
    with app.test_request_context("/somewhere"):
        response = app.make_response(app.handle_user_exception(default_exceptions[code]()))
    body = json.loads(response.data)
    assert (response.status_code, body["status"]) == (code, code)
    assert response.mimetype == "application/problem+json"


def test_an_unforeseen_error_is_a_500_that_tells_nothing(
    app: Flask, caplog: pytest.LogCaptureFixture
) -> None:
    with app.test_request_context("/somewhere"):
        response = app.make_response(app.handle_user_exception(RuntimeError("inner secret")))
    problem = json.loads(response.data)
    assert re.fullmatch("/somewhere#[0-9a-f]{16}", problem.pop("instance"))
    assert problem == {
        "type": "/problems/internal-error",
        "title": "Something went wrong on our side.",
        "status": 500,
    }
    assert "inner secret" in caplog.text


def test_a_service_without_its_database_is_not_ready(app: Flask) -> None:
    house = replace(app.extensions[NAME], is_ready=lambda: False)
    client = open_house(house).test_client()
    response = client.get("/readyz")
    assert_problem(response, 503, "not-ready")
    assert int(response.headers["Retry-After"]) > 0
    assert client.get("/healthz").status_code == 200


def kinds_of(root: type[Exception]) -> set[type[Exception]]:
    below = root.__subclasses__()
    return set(below).union(*(kinds_of(kind) for kind in below))


def test_every_kind_of_refusal_has_its_status() -> None:
    assert kinds_of(Refusal) | kinds_of(DryfitError) <= set(STATUS)
    assert all(kind.__doc__ for kind in STATUS)


def test_no_two_kinds_of_problem_share_a_name() -> None:
    assert len(known_problems()) == len(STATUS) + len(FRAMEWORK)


@pytest.mark.parametrize("slug", sorted(known_problems()))
def test_the_address_of_a_problem_type_explains_it(client: FlaskClient, slug: str) -> None:
    status, title = known_problems()[slug]
    assert client.get(f"/problems/{slug}").json == {
        "type": f"/problems/{slug}",
        "title": title,
        "status": status,
    }
