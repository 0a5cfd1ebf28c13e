"""The front page: lines to paste that work, for curl, for programs and for browsers."""

import shlex
from html.parser import HTMLParser
from urllib.parse import urlsplit

from flask.testing import FlaskClient

BROWSER = "text/html,application/xhtml+xml,application/xml;q=0.9,*/*;q=0.8"


def lines_of(client: FlaskClient) -> list[str]:
    text = client.get("/", headers={"Accept": "*/*"}).text
    return [line for line in text.splitlines() if line.startswith("curl ")]


def test_curl_gets_plain_lines(client: FlaskClient) -> None:
    response = client.get("/", headers={"Accept": "*/*"})
    assert response.mimetype == "text/plain"
    assert len(lines_of(client)) >= 6


def test_every_line_to_paste_answers(client: FlaskClient) -> None:
    for line in lines_of(client):
        words = shlex.split(line)
        (address,) = (word for word in words if word.startswith("http"))
        parts = urlsplit(address)
        target = f"{parts.path}?{parts.query}"
        if "-d" in words:
            body = words[words.index("-d") + 1]
            response = client.post(target, data=body, content_type="application/json")
        else:
            response = client.get(target)
        assert response.status_code == 200, line


def test_a_program_gets_json(client: FlaskClient) -> None:
    answer = client.get("/", headers={"Accept": "application/json"}).json
    assert [question["line"] for question in answer["questions"]] == lines_of(client)


class Sources(HTMLParser):
    """What a page loads, and what stands inside its scripts."""

    def __init__(self) -> None:
        super().__init__()
        self.loaded: list[str] = []
        self.inside = ""
        self.written: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.inside = tag
        said = dict(attrs)
        named = said.get("src") if tag == "script" else said.get("href") if tag == "link" else None
        if named:
            self.loaded.append(named)

    def handle_data(self, data: str) -> None:
        if self.inside == "script" and data.strip():
            self.written.append(data)


def test_a_browser_gets_the_phone_page_and_all_that_it_loads(client: FlaskClient) -> None:
    response = client.get("/", headers={"Accept": BROWSER})
    assert response.mimetype == "text/html"
    page = Sources()
    page.feed(response.text)
    assert page.written == [], "the page's own policy lets no script stand in it"
    assert any(address.endswith(".js") for address in page.loaded)
    for address in page.loaded:
        assert client.get(address).status_code == 200, address


def test_a_hostile_host_name_can_not_write_into_the_page(client: FlaskClient) -> None:
    headers = {"Accept": BROWSER, "Host": 'x"><script>alert(1)</script>'}
    assert "alert(1)" not in client.get("/", headers=headers).text


def test_every_answer_carries_the_fixed_headers(client: FlaskClient) -> None:
    for path in ("/", "/v1/tables", "/v1/measure?value=3", "/nowhere"):
        headers = client.get(path, headers={"Accept": "*/*"}).headers
        assert headers["X-Content-Type-Options"] == "nosniff"
        assert "default-src 'none'" in headers["Content-Security-Policy"]
        assert headers["Referrer-Policy"] == "no-referrer"
        assert "Cache-Control" in headers
