"""The page's files: no outside address, nothing written into the page as markup, no handlers."""

import re
from pathlib import Path

import pytest
from flask import Flask

PAGES = Path(__file__).resolve().parents[2] / "service" / "pages"
FILES = sorted(p for p in PAGES.rglob("*") if p.is_file())
SCRIPTS = [path for path in FILES if path.suffix == ".js"]
OUTSIDE = re.compile(r"(?:https?:)?[/]{2}[a-z0-9-]+\.[a-z]", re.IGNORECASE)
MARKUP = re.compile(r"innerHTML|outerHTML|insertAdjacentHTML|document\.write|eval\(|new Function")
INLINE = re.compile(r"<script(?![^>]*\bsrc=)|\son[a-z]+\s*=|\sstyle\s*=|javascript:", re.IGNORECASE)
NAMESPACE = "//".join(("http:", "www.w3.org/2000/svg"))


def short(path: Path) -> str:
    return path.relative_to(PAGES).as_posix()


@pytest.mark.parametrize("path", FILES, ids=short)
def test_no_file_asks_an_outside_host(path: Path) -> None:
    assert OUTSIDE.findall(path.read_text(encoding="utf-8").replace(NAMESPACE, "")) == []


@pytest.mark.parametrize("path", SCRIPTS, ids=short)
def test_words_are_never_written_as_markup(path: Path) -> None:
    assert MARKUP.findall(path.read_text(encoding="utf-8")) == []


@pytest.mark.parametrize("path", SCRIPTS, ids=short)
def test_a_module_says_what_it_is_and_stays_short(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    assert text.startswith("/**"), "no comment that says what lives here"
    assert len(text.splitlines()) <= 200


def test_the_document_carries_no_script_or_style_of_its_own() -> None:
    assert INLINE.findall((PAGES / "index.html").read_text(encoding="utf-8")) == []


def test_every_file_is_served_with_its_type_and_kept_by_its_tag(app: Flask) -> None:
    client = app.test_client()
    types = {".js": "text/javascript", ".css": "text/css", ".svg": "image/svg+xml",
             ".json": "application/json", ".html": "text/html",
             ".webmanifest": "application/manifest+json"}  # fmt: skip
    for path in FILES:
        answer = client.get(f"/page/{short(path)}")
        assert answer.status_code == 200, short(path)
        assert answer.mimetype == types[path.suffix]
        assert answer.headers["X-Content-Type-Options"] == "nosniff"
        tag = answer.headers["ETag"]
        again = client.get(f"/page/{short(path)}", headers={"If-None-Match": tag})
        assert again.status_code == 304


def test_a_browser_gets_the_page_and_curl_gets_lines(app: Flask) -> None:
    client = app.test_client()
    page = client.get("/", headers={"Accept": "text/html,application/xhtml+xml,*/*;q=0.8"})
    assert page.mimetype == "text/html"
    policy = page.headers["Content-Security-Policy"]
    assert "default-src 'none'" in policy and "unsafe" not in policy
    assert client.get("/").mimetype == "text/plain"
    assert client.get("/", headers={"Accept": "*/*"}).mimetype == "text/plain"


@pytest.mark.parametrize("path", sorted((PAGES / "examples").glob("*.json")), ids=short)
def test_an_example_is_sound_unless_it_says_otherwise(app: Flask, path: Path) -> None:
    answer = app.test_client().post(
        "/v1/check", data=path.read_bytes(), content_type="application/json"
    )
    verdict = answer.get_json()["verdict"]
    assert verdict == ("mend-first" if "mistakes" in path.stem else "nothing-found")
