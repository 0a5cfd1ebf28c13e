"""What the handout says is what the other questions answer, in every form, and never less."""

import csv
import io
from decimal import Decimal
from html.parser import HTMLParser
from typing import Any

import pytest
from flask.testing import FlaskClient

from tests.handouts.conftest import DATE, WHOLE, handout, scene
from tests.house.test_words import BANNED

SOUND = sorted(
    path for path in WHOLE.glob("*.json") if "." not in path.stem and path.stem != "expected"
)
TEXTS = ("html", "md")


class Reader(HTMLParser):
    """The words of a page, and its tags."""

    def __init__(self) -> None:
        super().__init__()
        self.words: list[str] = []
        self.tags: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append(tag)
        for name, _ in attrs:
            assert not name.startswith("on"), "a handler in the page"

    def handle_data(self, data: str) -> None:
        self.words.append(data)


def read(page: str) -> str:
    reader = Reader()
    reader.feed(page)
    return " ".join(" ".join(reader.words).split())


def said(form: str, page: str) -> str:
    """The words of a page without what its form needs to escape them."""
    if form == "html":
        return read(page)
    for sign in "\\*":
        page = page.replace(sign, "")
    for entity, sign in (("&lt;", "<"), ("&gt;", ">"), ("&amp;", "&")):
        page = page.replace(entity, sign)
    return " ".join(page.split())


def rows(client: FlaskClient, build: Any, table: str) -> list[dict[str, str]]:
    text = handout(client, build, "csv", table=table)
    assert text.endswith("\r\n")
    return list(csv.DictReader(io.StringIO(text)))


def section(page: Any, key: str) -> Any:
    return next(one for one in page["sections"] if one["key"] == key)


@pytest.mark.parametrize("form", TEXTS)
@pytest.mark.parametrize("path", SOUND, ids=lambda path: path.stem)
def test_nothing_found_or_not_judged_is_left_out(client: FlaskClient, path: Any, form: str) -> None:
    import json  # noqa: PLC0415

    build = json.loads(path.read_text(encoding="utf-8"))
    for one in (build, {**build, "parts": [*build["parts"], {"id": "odd", "stock": "9x9"}]}):
        checked = client.post("/v1/check", json=one).get_json()
        text = said(form, handout(client, one, form))
        for finding in checked["findings"]:
            assert finding["title"] in text and finding["detail"] in text
        for line in checked["not_judged"]:
            assert line in text
        assert BANNED.findall(text) == []


@pytest.mark.parametrize("name", ["letter-tray", "potting-bench"])
def test_money_weight_and_boards_are_those_of_the_estimate_and_the_plan(
    client: FlaskClient, name: str
) -> None:
    build = scene(name)
    estimate = client.post("/v1/estimate", json=build).get_json()
    plan = client.post("/v1/cut-plan", json=build).get_json()
    bought = rows(client, build, "purchases")
    text = said("md", handout(client, build, "md"))
    assert f"{estimate['cost']['total']} {estimate['cost']['currency']}" in text
    wood = [row for row in bought if row["Kind"] == "wood" and row["Note"] != "on hand"]
    counted = sorted(int(row["How many"]) for row in wood)
    assert counted == sorted(line["count"] for line in plan["buy"])
    priced = [
        Decimal(row["Together"].split()[0]) for row in bought if row["Together"][:1].isdigit()
    ]
    assert sum(priced) + Decimal(estimate["cost"]["tax"] or 0) == Decimal(estimate["cost"]["total"])


@pytest.mark.parametrize("name", ["letter-tray", "potting-bench"])
def test_every_part_is_in_the_list_with_its_count_and_letter(
    client: FlaskClient, name: str
) -> None:
    build = scene(name)
    plan = client.post("/v1/cut-plan", json=build).get_json()
    cuts = [cut for board in plan["boards"] for cut in board["cuts"]]
    cuts += [panel for sheet in plan["sheets"] for panel in sheet["pieces"]]
    listed = rows(client, build, "parts")
    assert [row["Part"] for row in listed] == [part["id"] for part in build["parts"]]
    assert [int(row["How many"]) for row in listed] == [
        part.get("quantity", 1) for part in build["parts"]
    ]
    letters = {row["Part"]: row["Letter"] for row in listed}
    assert len(set(letters.values())) == len(letters)
    assert all(letters[cut["part"]] == cut["letter"] for cut in cuts) and cuts


def test_corner_to_corner_is_the_root_of_the_sum_of_squares(client: FlaskClient, easy: Any) -> None:
    text = said("md", handout(client, easy, "md"))
    # 14 by 8 3/4: the root of 272.5625 is 16.509; a tape's nearest sixteenth is 16 1/2.
    assert '16 1/2" (16.509")' in text


@pytest.mark.parametrize("form", TEXTS)
def test_millimeters_inches_or_both(client: FlaskClient, easy: Any, form: str) -> None:
    assert '14"' in said(form, handout(client, easy, form, units="in"))
    both = said(form, handout(client, easy, form, units="both"))
    assert '14" (355.6 mm)' in both
    metric = said(form, handout(client, easy, form, units="mm", round="none"))
    assert "355.6 mm" in metric and '14"' not in metric


def test_another_region_comes_with_what_it_changes(client: FlaskClient, easy: Any) -> None:
    page = handout(client, {"build": easy, "region": "uk"}, "json")
    told = str(section(page, "changes"))
    resized = client.post("/v1/resize?round=tape", json={"build": easy, "region": "uk"}).get_json()
    assert resized["changed"]
    lists = [b for b in section(page, "changes")["blocks"] if b["kind"] == "items"]
    assert sum(len(block["items"]) for block in lists) >= len(resized["changed"])
    assert "1x8" in told


def test_what_changed_since_an_earlier_version(client: FlaskClient, easy: Any) -> None:
    earlier = {**easy, "parts": [{**part} for part in easy["parts"]]}
    earlier["parts"][0] = {**earlier["parts"][0], "length": "15"}
    page = handout(client, {"build": easy, "earlier": earlier}, "json")
    told = str(section(page, "changes"))
    assert "bottom" in told and '15"' in told and '14"' in told
    same = handout(client, {"build": easy, "earlier": easy}, "json")
    assert "bottom" not in str(section(same, "changes"))


def test_a_build_on_a_page_of_its_own_needs_no_envelope(client: FlaskClient, easy: Any) -> None:
    assert handout(client, easy, "md") == handout(client, {"build": easy}, "md")


def test_it_carries_the_edition_and_the_date(client: FlaskClient, easy: Any) -> None:
    page = handout(client, easy, "json")
    for form in TEXTS:
        text = said(form, handout(client, easy, form))
        assert page["edition"] in text and DATE in text


def test_the_page_is_one_file_without_scripts_or_addresses(client: FlaskClient, hard: Any) -> None:
    answer = client.post("/v1/handout?format=html", json=hard)
    page = answer.get_data(as_text=True)
    reader = Reader()
    reader.feed(page)
    assert not {"script", "img", "link", "iframe", "object", "form"} & set(reader.tags)
    assert "http" not in page.replace('xmlns="http://www.w3.org/2000/svg"', "")
    assert "script-src" not in answer.headers["Content-Security-Policy"]
    assert "default-src 'none'" in answer.headers["Content-Security-Policy"]


@pytest.mark.parametrize(
    ("query", "parameter"),
    [
        ("format=paper", "format"),
        ("format=md&table=parts", "table"),
        ("format=svg", "drawing"),
        ("format=svg&drawing=board-99", "drawing"),
        ("format=html&paper=a4", "paper"),
        ("date=2026-02-30", "date"),
        ("date=tomorrow", "date"),
        ("units=cubits", "units"),
    ],
)
def test_what_is_asked_wrongly_is_refused_by_name(
    client: FlaskClient, easy: Any, query: str, parameter: str
) -> None:
    answer = client.post(f"/v1/handout?{query}", json=easy)
    assert answer.status_code == 422
    assert answer.mimetype == "application/problem+json"
    assert [error["parameter"] for error in answer.get_json()["errors"]] == [parameter]


def test_the_form_follows_accept(client: FlaskClient, easy: Any) -> None:
    for kind in ("text/html", "text/markdown", "application/pdf", "application/json", "text/csv"):
        answer = client.post("/v1/handout", json=easy, headers={"Accept": kind})
        assert answer.status_code == 200 and answer.mimetype == kind
        assert "Accept" in answer.headers["Vary"]
    assert client.post("/v1/handout", json=easy, headers={"Accept": "image/png"}).status_code == 406


def test_a_faulty_earlier_version_is_refused_at_its_place(client: FlaskClient, easy: Any) -> None:
    answer = client.post("/v1/handout", json={"build": easy, "earlier": {"name": "x", "parts": 3}})
    assert answer.status_code == 422
    assert answer.get_json()["errors"][0]["pointer"].startswith("#/earlier/parts")
