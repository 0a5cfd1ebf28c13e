"""No text does harm in any form, whatever it holds and wherever on the page it stands."""

import json
import re
import unicodedata
from datetime import date
from typing import Any

import pytest
from flask.testing import FlaskClient
from hypothesis import given
from hypothesis import strategies as st

from service.handouts.html import as_html
from service.handouts.markdown import as_markdown
from service.handouts.page import Column, Handout, Item, Items, Section, Table, Words
from service.handouts.spreadsheet import as_csv
from tests.handouts.conftest import scene
from tests.handouts.reading import cells, read_csv, read_html, squeezed, unescaped

NASTY = (
    "<script>alert(1)</script>", "</title><img src=x onerror=alert(1)>", "=1+1", "+1", "-1",
    "@SUM(A1)", "\t=1+1", "\r=1+1", " =1+1", "a|b", "`code`", "[x](javascript:alert(1))",
    "# no heading", "1. no list", "- no list", "![x](http://dryfit.test/x)", "**bold**", "~~gone~~",
    "{{ 7*7 }}", "{% raw %}", "&lt;b&gt;", "&#60;", "\u202egnirts", "a\u200bb", "a\x00b", "a\x1bb",
    "line\nbreak", "line\u2028break", '"quoted"', "'quoted'", "x" * 300, "a\\", "\\|", "<!-- -->",
    "a;=1+1", "a; @b",
    "]]>", "\uff1d1+1", "http://dryfit.test", "$x$", "> quote", "===", "---", "***",
)  # fmt: skip
TEXT = st.one_of(
    st.sampled_from(NASTY),
    st.text(st.characters(exclude_categories=["Cs"]), max_size=40),
    st.lists(st.sampled_from(NASTY), min_size=2, max_size=3).map("".join),
)
SAFE_TAGS = {
    "html", "head", "meta", "title", "style", "body", "header", "h1", "nav", "ul", "li", "a",
    "main", "section", "h2", "p", "strong", "ol", "table", "caption", "thead", "tr", "th", "tbody",
    "td",
}  # fmt: skip


def page_of(text: str) -> Handout:
    """A page that holds one text in every place that takes any."""
    table = Table(
        "parts", text, (Column("a", text), Column("b", text, figures=True)),
        ((text, text), ("plain", text)),
    )  # fmt: skip
    blocks = (
        Words(text), Words(text, strong=True), table,
        Items((Item(text, text, (text,)), Item(text)), numbered=True), Items((Item(text),)),
    )  # fmt: skip
    return Handout(text, text, (Section("all", text, blocks),), "edition", date(2026, 11, 25))


def seen(text: str) -> str:
    """What is left of a text when everything unseen is a blank: by the Unicode tables alone."""
    hidden = {"Cc", "Cf", "Co", "Cn", "Zl", "Zp"}
    return squeezed("".join(" " if unicodedata.category(c) in hidden else c for c in text))


@given(TEXT)
def test_a_page_shows_the_text_and_nothing_of_it_becomes_markup(text: str) -> None:
    found = read_html(as_html(page_of(text)))
    assert {element.tag for element in found} <= SAFE_TAGS
    names = {name for element in found for name in element.attributes}
    assert not [name for name in names if name.startswith("on") or name in ("style", "src")]
    assert squeezed(next(e for e in found if e.tag == "h1").text) == seen(text)
    assert squeezed([e for e in found if e.tag == "td"][-1].text) == seen(text)
    assert squeezed(next(e for e in found if e.tag == "caption").text) == seen(text)


@given(TEXT)
def test_a_spreadsheet_takes_no_cell_for_a_formula(text: str) -> None:
    rows = read_csv(as_csv(page_of(text).tables["parts"]))
    assert [len(row) for row in rows] == [2, 2, 2]
    for cell in (*rows[0], *rows[1], rows[2][1]):
        for part in cell.split(";"):  # where lists are parted by semicolons, each is a cell
            assert not part.lstrip().startswith(("=", "+", "-", "@", "\uff1d"))
        assert cell.replace("'", "") == seen(text).replace("'", "")


@given(TEXT)
def test_markdown_keeps_its_lines_and_its_cells(text: str) -> None:
    written = as_markdown(page_of(text))
    lines = written.split("\n")
    assert not [c for c in written if unicodedata.category(c) in {"Cc", "Cf"} and c != "\n"]
    assert lines[0] == "# " + lines[0][2:] and unescaped(lines[0][2:]) == seen(text)
    assert sum(line.startswith("#") for line in lines) == 2
    rows = [line for line in lines if line.startswith("|")]
    assert len(rows) == 4 and all(len(cells(row)) == 2 for row in rows)
    bare = re.sub(r"\\.", "", written)
    assert "<" not in bare and ">" not in bare and "](" not in bare and "`" not in bare
    shown = [line for line in lines if line and unescaped(line) == seen(text)]
    assert not [line for line in shown if re.match(r"([-+*=>]|\d+[.)])(\s|$)", line)]


@pytest.mark.parametrize("text", ["<script>x</script>", "=1+1", "[x](javascript:y)", "a|b"])
@pytest.mark.parametrize("form", ["html", "md", "json", "csv"])
def test_names_that_a_build_may_have_do_no_harm(client: FlaskClient, text: str, form: str) -> None:
    build: Any = scene("letter-tray")
    build["name"] = text
    build["runs"][0]["pieces"].append({"size": "1", "name": text})
    build["parts"].append({"id": "odd", "stock": text, "length": "9"})
    answer = client.post(f"/v1/handout?format={form}", json=build)
    page = answer.get_data(as_text=True)
    assert answer.status_code == 200
    if form == "html":
        assert "script" not in {element.tag for element in read_html(page)}
    elif form == "csv":
        assert [row for row in read_csv(page) if row[3].removeprefix("'") == text]
        assert not [c for row in read_csv(page) for c in row if c.startswith(("=", "+", "-", "@"))]
    elif form == "json":
        assert json.loads(page)["title"] == text
    else:
        assert unescaped(page.split("\n")[0]) == f"# {text}"
        assert "<script" not in page and "](" not in re.sub(r"\\.", "", page)
