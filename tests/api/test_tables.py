"""The reference tables over HTTP: whole and in part, as JSON and CSV, kept by ETag."""

import csv
import io
import json
import re

import pytest
from flask.testing import FlaskClient

TABLE = "/v1/tables/lumber_sizes"


def test_the_list_of_tables_says_what_each_column_holds(client: FlaskClient) -> None:
    tables = {table["table"]: table for table in client.get("/v1/tables").json["tables"]}
    columns = {column["name"] for column in tables["lumber_sizes"]["columns"]}
    assert {"key", "stock", "thickness", "source", "locator", "confidence", "basis"} <= columns


def test_a_row_has_its_own_address(client: FlaskClient) -> None:
    answer = client.get(f"{TABLE}/us.1x6.dry").json
    assert answer["row"]["stock"] == "1x6"
    assert [source["id"] for source in answer["sources"]] == ["ps-20"]


def test_columns_filter_the_rows(client: FlaskClient) -> None:
    rows = client.get(f"{TABLE}?stock=1x6&region=us").json["rows"]
    assert {row["condition"] for row in rows} == {"dry", "green"}


def test_rows_are_sorted_by_a_column_either_way(client: FlaskClient) -> None:
    up = [row["stock"] for row in client.get(f"{TABLE}?class=board&sort=stock").json["rows"]]
    down = [row["stock"] for row in client.get(f"{TABLE}?class=board&sort=-stock").json["rows"]]
    named = [stock for stock in up if stock]
    assert named == sorted(named)
    assert [stock for stock in down if stock] == named[::-1]


def test_following_the_links_reads_every_row_once(client: FlaskClient) -> None:
    whole = [row["key"] for row in client.get(TABLE).json["rows"]]
    read, address = [], f"{TABLE}?limit=50"
    while address:
        response = client.get(address)
        read += [row["key"] for row in response.json["rows"]]
        link = re.fullmatch('<(.+)>; rel="next"', response.headers.get("Link", ""))
        assert bool(link) == (response.json["next"] is not None)
        address = link[1] if link else ""
    assert read == whole


def test_csv_is_as_printed_with_the_header_first(client: FlaskClient) -> None:
    response = client.get(f"{TABLE}?stock=1x6&condition=dry&format=csv")
    assert response.mimetype == "text/csv"
    (row,) = csv.DictReader(io.StringIO(response.text))
    assert (row["thickness"], row["width"], row["source"]) == ("3/4 in", "5 1/2 in", "ps-20")


def test_accept_chooses_csv_and_format_wins_over_it(client: FlaskClient) -> None:
    wants_csv = {"Accept": "text/csv, application/json;q=0.5"}
    assert client.get(TABLE, headers=wants_csv).mimetype == "text/csv"
    assert client.get(f"{TABLE}?format=json", headers=wants_csv).mimetype == "application/json"


ADDRESSES = [
    TABLE,
    f"{TABLE}?format=csv",
    f"{TABLE}?stock=1x6",
    f"{TABLE}?stock=1x6&format=csv",
    f"{TABLE}/us.1x6.dry",
    "/v1/tables",
]


@pytest.mark.parametrize("address", ADDRESSES)
def test_an_unchanged_table_is_not_sent_again(client: FlaskClient, address: str) -> None:
    first = client.get(address)
    tag = first.headers["ETag"]
    assert re.fullmatch('"[^"]+"', tag), "a strong tag"
    again = client.get(address, headers={"If-None-Match": tag})
    assert (again.status_code, again.data) == (304, b"")
    for name in ("ETag", "Cache-Control", "Vary"):
        assert again.headers[name] == first.headers[name]
    assert "Accept" in first.headers["Vary"]


@pytest.mark.parametrize("address", ADDRESSES)
def test_a_tag_weakened_by_a_proxy_still_matches(client: FlaskClient, address: str) -> None:
    tag = client.get(address).headers["ETag"]
    headers = {"If-None-Match": f'"other", W/{tag}'}
    assert client.get(address, headers=headers).status_code == 304


def test_a_star_matches_any_tag(client: FlaskClient) -> None:
    assert client.get(TABLE, headers={"If-None-Match": "*"}).status_code == 304


def test_another_tag_gets_the_table(client: FlaskClient) -> None:
    response = client.get(TABLE, headers={"If-None-Match": '"other"'})
    assert response.status_code == 200 and response.json["rows"]


def test_each_answer_has_a_tag_of_its_own(client: FlaskClient) -> None:
    tags = [client.get(address).headers["ETag"] for address in ADDRESSES]
    assert len(set(tags)) == len(tags)


@pytest.mark.parametrize("address", ADDRESSES)
def test_head_answers_with_the_headers_of_get_and_no_body(
    client: FlaskClient, address: str
) -> None:
    get, head = client.get(address), client.head(address)
    assert (head.status_code, head.data) == (200, b"")
    for name in ("ETag", "Content-Type", "Content-Length", "Vary"):
        assert head.headers[name] == get.headers[name]


def test_a_whole_table_names_the_sources_of_its_rows(client: FlaskClient) -> None:
    answer = json.loads(client.get(TABLE).data)
    known = {source["id"] for source in answer["sources"]}
    assert {row["source"] for row in answer["rows"]} == known


def test_a_page_asked_again_is_the_same_to_its_tag_and_its_next_page(client: FlaskClient) -> None:
    address = f"{TABLE}?class=board&limit=3"
    first, other, again = (client.get(path) for path in (address, f"{TABLE}?limit=3", address))
    assert (again.data, again.headers["ETag"]) == (first.data, first.headers["ETag"])
    assert again.headers["Link"] == first.headers["Link"] != other.headers["Link"]
    assert client.get(address, headers={"If-None-Match": first.headers["ETag"]}).status_code == 304
