"""The manual: complete, linked, without script and without any other host."""

import json
from urllib.parse import urldefrag, urljoin

import pytest
from flask.testing import FlaskClient

from service.api.documents.build import BuildForm
from service.api.documents.measures import MEASURES
from service.api.documents.shapes import form_of
from service.api.problems import known_problems
from service.domain.rules import RULES
from service.manual.kinds import WORDS
from service.manual.twins import riser, twins_by_code
from tests.api.test_told_fields import EVERY
from tests.house.test_words import BANNED
from tests.manual.reading import Page, read

CODES = [rule.code for rule in RULES]


@pytest.fixture(scope="module")
def pages(app: object) -> dict[str, Page]:
    """Every page that can be reached from the first."""
    client: FlaskClient = app.test_client()  # type: ignore[attr-defined]  # a Flask
    found: dict[str, Page] = {}
    waiting = ["/docs"]
    while waiting:
        path = waiting.pop()
        found[path] = page = read(client, path)
        inside = (urldefrag(urljoin(path, link)).url for link in page.links)
        pages = {one for one in inside if one.startswith("/docs") and not one.endswith(".json")}
        waiting += pages - {*found, *waiting}
    return found


def test_every_room_is_reached(pages: dict[str, Page]) -> None:
    assert {f"/docs/findings/{code}" for code in CODES} <= set(pages)
    rooms = {"/docs/example", "/docs/questions", "/docs/build", "/docs/tables", "/docs/sources"}
    assert rooms <= set(pages)


def test_every_link_leads_somewhere(client: FlaskClient, pages: dict[str, Page]) -> None:
    checked: set[str] = set()
    for path, page in pages.items():
        for link in page.links:
            to, anchor = urldefrag(urljoin(path, link))
            if to in pages:
                assert not anchor or anchor in pages[to].anchors, (path, link)
            elif to not in checked:
                assert client.get(to).status_code == 200, (path, link)
                checked.add(to)


def test_no_page_needs_another_host_or_a_script(pages: dict[str, Page]) -> None:
    for path, page in pages.items():
        assert all(link.startswith(("/", "#")) and link[:2] != "//" for link in page.links), path
        assert not page.tags & {"script", "iframe", "img", "link", "form"}, path


def test_every_page_is_well_formed_under_one_heading(pages: dict[str, Page]) -> None:
    for path, page in pages.items():
        assert page.unclosed == [], path
        assert page.headings[0] == 1 and page.headings.count(1) == 1, path
        assert all(b - a <= 1 for a, b in zip(page.headings, page.headings[1:], strict=False)), path


def test_no_page_says_a_banned_word(pages: dict[str, Page]) -> None:
    for path, page in pages.items():
        assert BANNED.findall(page.words) == [], path


def test_every_field_of_the_build_is_told(pages: dict[str, Page]) -> None:
    for name, field in EVERY.items():
        form, _, key = name.partition(".")
        resizes = form in ("ResizeForm", "RealSizeForm")
        words = pages["/docs/questions/resizeBuild" if resizes else "/docs/build"].words
        told = field.metadata["description"].replace("`", "")
        assert key in words and told in words, name
        if left_out := field.metadata.get("left_out"):
            assert f"Left out: {left_out}." in words, name
        for example in field.metadata.get("examples", ()):
            written = example if isinstance(example, str) else json.dumps(example)
            assert written in words, name


def test_every_kind_of_value_is_said_in_words(pages: dict[str, Page]) -> None:
    words = pages["/docs/build"].words
    used = [said for said in WORDS.values() if said in words]
    assert len(used) >= 12
    assert len(MEASURES) == sum(f"A shape: {shape}." in words for shape in MEASURES)


@pytest.mark.parametrize("code", CODES)
def test_a_finding_has_its_why_its_twins_and_its_mend(
    client: FlaskClient, pages: dict[str, Page], code: str
) -> None:
    page, twins = pages[f"/docs/findings/{code}"], twins_by_code()[code]
    why = client.get(f"/v1/why/{code}").json
    assert " ".join(why["why"].replace("`", "").split()) in page.words
    assert why["title"] in page.words
    for value, has in ((twins.sound, False), (twins.spoiled, True)):
        answer = client.post("/v1/check", json=twins.with_value(value)).json
        own = [finding for finding in answer["findings"] if finding["code"] == code]
        assert bool(own) is has, value
        for finding in own:
            assert " ".join(finding["detail"].split()) in page.words
            if finding["mend"]:
                assert f"mend: {' '.join(finding['mend']['words'].split())}" in page.words


def test_twins_differ_in_one_value_of_one_place() -> None:
    for code, twins in twins_by_code().items():
        assert twins.sound != twins.spoiled, code
        assert twins.with_value(twins.sound) != twins.with_value(twins.spoiled), code
    assert set(twins_by_code()) == set(CODES)


def test_every_table_names_its_columns_and_every_source_of_its_rows(
    client: FlaskClient, pages: dict[str, Page]
) -> None:
    for table in client.get("/v1/tables").json["tables"]:
        page = pages[f"/docs/tables/{table['table']}"]
        for column in table["columns"]:
            assert column["name"] in page.words and column["meaning"] in page.words
        if table["rows"] > 500:
            continue  # one answer has 500 rows at most
        answer = client.get(f"/v1/tables/{table['table']}").json
        for source in answer["sources"]:
            assert source["title"] in page.words, table["table"]


def test_every_source_is_listed(client: FlaskClient, pages: dict[str, Page]) -> None:
    rows = client.get("/v1/tables/sources").json["rows"]
    assert len(rows) > 100
    page = pages["/docs/sources"]
    for row in rows:
        assert row["id"] in page.anchors and row["title"] in page.words


def test_every_question_is_told_with_its_parameters(
    client: FlaskClient, pages: dict[str, Page]
) -> None:
    description = client.get("/openapi.json").json
    for path, methods in description["paths"].items():
        for operation in methods.values():
            page = pages[f"/docs/questions/{operation['operationId']}"]
            assert operation["summary"] in page.words and path in page.words
            for one in operation.get("parameters", ()):
                if one["in"] != "header":
                    assert one["name"] in page.words
                    assert one["description"].replace("`", "") in page.words


def test_every_refusal_is_listed(pages: dict[str, Page]) -> None:
    for slug, (_, title) in known_problems().items():
        assert slug in pages["/docs"].words and title in pages["/docs"].words


def test_the_example_shows_both_twins_and_what_is_said(
    client: FlaskClient, pages: dict[str, Page]
) -> None:
    words, twins = pages["/docs/example"].words, riser()
    for value, verdict in ((twins.sound, "nothing-found"), (twins.spoiled, "mend-first: 1 fault")):
        text = client.post("/v1/check?format=text", json=twins.with_value(value)).text
        assert text.startswith(verdict)
        assert " ".join(text.split()) in words
    assert "size.nominal-for-actual" in words


def test_the_builds_of_the_manual_can_be_fetched(client: FlaskClient) -> None:
    twins = riser()
    for name, value in (("counter-riser", twins.sound), ("counter-riser.spoiled", twins.spoiled)):
        assert client.get(f"/docs/builds/{name}.json").json == twins.with_value(value)
    assert client.get("/docs/builds/no-such.json").status_code == 404


def test_a_page_may_be_kept_and_carries_the_policy_of_pages(client: FlaskClient) -> None:
    first = client.get("/docs/build")
    assert "default-src 'none'" in first.headers["Content-Security-Policy"]
    assert "script-src" not in first.headers["Content-Security-Policy"]
    again = client.get("/docs/build", headers={"If-None-Match": first.headers["ETag"]})
    assert again.status_code == 304


@pytest.mark.parametrize(
    "path", ["/docs/findings/no.such", "/docs/questions/nobody", "/docs/tables/none", "/docs/x"]
)
def test_a_page_that_is_not_there_is_refused(client: FlaskClient, path: str) -> None:
    response = client.get(path)
    assert (response.status_code, response.mimetype) == (404, "application/problem+json")


def test_a_hostile_host_name_can_not_write_into_a_page(client: FlaskClient) -> None:
    headers = {"Host": 'x"><script>alert(1)</script>'}
    for path in ("/docs/example", "/docs/questions/sagOfPlank", "/docs/tables/glues"):
        assert "<script" not in client.get(path, headers=headers).text


def test_fields_of_the_form_are_those_of_the_description(client: FlaskClient) -> None:
    named = client.get("/openapi.json").json["components"]["schemas"]
    form = BuildForm()
    assert {field.data_key or key for key, field in form.fields.items()} == set(
        named["Build"]["properties"]
    )
    assert set(form_of("ends").fields) == set(named["EndsShape"]["properties"])
