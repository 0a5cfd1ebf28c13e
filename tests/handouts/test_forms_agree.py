"""Every form says the same: each text of the model stands in the page, the Markdown, the CSV."""

import json
from datetime import date
from typing import Any

import pytest
from flask.testing import FlaskClient

from service.api.documents.build import BuildForm
from service.api.handed import as_model
from service.domain.catalog import Catalog
from service.handouts.answers import Answers, ask
from service.handouts.html import as_html
from service.handouts.markdown import as_markdown
from service.handouts.page import Handout
from service.handouts.spreadsheet import as_csv
from service.handouts.telling import tell
from tests.handouts.conftest import scene
from tests.handouts.reading import (
    SCENES,
    cells,
    every_build,
    read_csv,
    read_html,
    squeezed,
    unescaped,
)
from tests.house.test_words import BANNED

TEXTS = ("html", "md", "json")
PATHS = every_build()


def asked(client: FlaskClient, build: Any, query: str) -> str:
    answer = client.post(f"/v1/handout?{query}&date=2026-11-25", json=build)
    assert answer.status_code == 200, answer.get_data(as_text=True)[:400]
    return answer.get_data(as_text=True)


def texts_of(model: dict[str, Any]) -> set[str]:
    """Everything that the model says."""
    said = {model["title"]}
    for section in model["sections"]:
        said.add(section["heading"])
        for block in section["blocks"]:
            said |= {block.get("text", ""), block.get("caption", ""), *block.get("marks", ())}
            for item in block.get("items", ()):
                said |= {item["name"] or "", item["text"], *item["under"]}
            said |= {column["heading"] for column in block.get("columns", ())}
            said |= {cell for row in block.get("rows", ()) for cell in row.values()}
    return {squeezed(text) for text in said if text}


@pytest.fixture(scope="module", params=SCENES)
def told(catalog: Catalog, request: pytest.FixtureRequest) -> tuple[Handout, Answers]:
    """A scene's page and the answers behind it, worked out once: every form is made from it."""
    build = BuildForm().load(scene(request.param))
    answers = ask(build, catalog, both=False, seconds=3.0)
    return tell(answers, date(2026, 11, 25)), answers


def test_the_page_and_the_markdown_say_all_that_the_model_says(
    told: tuple[Handout, Answers],
) -> None:
    page, answers = told
    said = texts_of(as_model(page, answers))
    assert len(said) > 80
    shown = squeezed(next(e for e in read_html(as_html(page)) if e.tag == "html").text)
    markdown = squeezed(unescaped(as_markdown(page)))
    assert [text for text in said if text not in shown] == []
    assert [text for text in said if text not in markdown] == []


@pytest.mark.parametrize("table", ["parts", "purchases"])
def test_tables_are_the_same_in_every_form(told: tuple[Handout, Answers], table: str) -> None:
    page, _ = told
    wanted = page.tables[table]
    rows = [list(row) for row in wanted.rows]
    sheet = read_csv(as_csv(wanted))
    assert sheet[0] == [column.heading for column in wanted.columns]
    assert sheet[1:] == rows
    assert unescaped_rows(as_markdown(page), wanted.caption) == [sheet[0], *rows]


def unescaped_rows(markdown: str, caption: str) -> list[list[str]]:
    """The rows of the table under a caption, without the line of dashes."""
    lines = markdown.split("\n")
    start = lines.index(f"**{caption}**") + 2
    end = next(n for n in range(start, len(lines)) if not lines[n].startswith("|"))
    rows = [[unescaped(cell) for cell in cells(line)] for line in lines[start:end]]
    return [rows[0], *rows[2:]]


@pytest.mark.parametrize("path", PATHS, ids=lambda path: path.stem)
@pytest.mark.parametrize("form", TEXTS)
def test_no_form_hides_a_finding_or_what_was_not_judged_or_says_a_banned_word(
    client: FlaskClient, path: Any, form: str
) -> None:
    build = json.loads(path.read_text(encoding="utf-8"))
    checked = client.post("/v1/check", json=build).get_json()
    page = asked(client, build, f"format={form}")
    assert BANNED.findall(page) == []
    shown = {
        "html": lambda: next(e for e in read_html(page) if e.tag == "html").text,
        "md": lambda: unescaped(page),
        "json": lambda: "\n".join(texts_of(json.loads(page))),
    }[form]()
    plain = squeezed(shown)
    for finding in checked["findings"]:
        assert squeezed(finding["detail"]) in plain
        assert named(build, finding["at"]) in plain
        assert finding["title"] in plain
    assert checked["not_judged"]
    for text in checked["not_judged"]:
        assert squeezed(text) in plain


def named(build: Any, pointer: str) -> str:
    """What the page calls a place: an entry by its id, where it has one."""
    first, *rest = [step.replace("_", " ") for step in pointer.split("/")[1:] or [""]]
    entry = build[first][int(rest[0])] if rest and isinstance(build.get(first), list) else {}
    return f"{first[:-1]} {entry['id']}" if "id" in entry else first


@pytest.mark.parametrize("name", SCENES)
def test_the_page_is_sound_html_without_script(client: FlaskClient, name: str) -> None:
    answer = client.post("/v1/handout?format=html", json=scene(name))
    policy = answer.headers["Content-Security-Policy"]
    assert "default-src 'none'" in policy and "script" not in policy
    found = read_html(answer.get_data(as_text=True))
    tags = {element.tag for element in found}
    assert not tags & {"script", "iframe", "object", "link", "img", "form"}
    ids = [element.attributes["id"] for element in found if "id" in element.attributes]
    assert len(ids) == len(set(ids))
    links = [e.attributes["href"] for e in found if e.tag == "a"]
    assert links and all(link.removeprefix("#") in ids for link in links)
    headings = [element.tag for element in found if element.tag in ("h1", "h2", "h3")]
    assert headings[0] == "h1" and headings.count("h1") == 1
    assert all("scope" in element.attributes for element in found if element.tag == "th")
    assert not [name for element in found for name in element.attributes if name.startswith("on")]
