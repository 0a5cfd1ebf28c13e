"""Names that mean harm: they come out as they were written, and do nothing, in every form."""

import csv
import io
import re
from typing import Any
from xml.etree import ElementTree

import pypdfium2
import pytest
from flask.testing import FlaskClient
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.handouts.conftest import handout
from tests.handouts.test_page import Reader

LINK = re.compile(r"(?<!\\)\]\(")
NAMES = [
    "<script>alert(1)</script>",
    "=1+1",
    "@SUM(A1)",
    "+cmd|' /C calc'!A0",
    "-2+3",
    "\t=1+1",
    "\r\n=1+1",
    '"><svg onload=alert(1)>',
    "</title><script>x</script>",
    "]]><x>",
    "[press](javascript:alert(1))",
    "`x` | y | # z",
    "# heading",
    "![x](y)",
    "&lt;b&gt;",
    "\u202egnp.exe",
    "a\u0007b",
    "{{ 7 * 7 }}{% raw %}",
    "x" * 200,
    "<para><b>bold</b>",
]


def named(name: str) -> Any:
    """A build that carries a name wherever free words are taken."""
    return {
        "name": name,
        "parts": [{"id": "rail", "stock": "1x4", "length": "20"}],
        "runs": [{"id": "across", "pieces": [{"size": "3", "name": name, "count": 1},
                                             {"part": "rail", "along": "length"}], "equals": "23"}],
        "buying": {"price_list": {"currency": "USD",
                                  "prices": [{"stock": name, "length": "96", "price": "3"}]}},
    }  # fmt: skip


def accepted(client: FlaskClient, name: str) -> Any | None:
    """The build where the document takes the name, else None: it was refused."""
    build = named(name)
    answer = client.post("/v1/handout?format=json", json=build)
    assert answer.status_code in (200, 422)
    return build if answer.status_code == 200 else None


@pytest.mark.parametrize("name", NAMES)
def test_no_form_is_harmed(client: FlaskClient, name: str) -> None:
    build = accepted(client, name)
    if build is None:
        return
    reader = Reader()
    reader.feed(handout(client, build, "html"))
    assert "script" not in reader.tags
    assert reader.tags.count("title") >= 1
    for table in ("parts", "purchases"):
        for row in csv.reader(io.StringIO(handout(client, build, "csv", table=table))):
            assert not any(cell.startswith(("=", "+", "-", "@", "\t", "\r")) for cell in row)
    markdown = handout(client, build, "md")
    assert "<script" not in markdown and not LINK.search(markdown)
    assert "\u202e" not in markdown
    lines = markdown.split("\n")
    assert [line for line in lines if line.startswith("# ")] == lines[:1]
    ElementTree.fromstring(handout(client, build, "svg", drawing="board-1"))
    pdf = pypdfium2.PdfDocument(handout(client, build, "pdf"))
    assert len(pdf) >= 1
    pdf.close()


def test_most_of_these_names_are_taken(client: FlaskClient) -> None:
    """Else the test above would test nothing."""
    taken = [name for name in NAMES if accepted(client, name) is not None]
    assert len(taken) > len(NAMES) / 2


@settings(max_examples=60)
@given(st.text(max_size=60))
def test_any_name_makes_a_whole_page(app: Any, name: str) -> None:
    client = app.test_client()
    build = {"name": name, "parts": [{"id": "rail", "stock": "1x4", "length": "20"}]}
    answer = client.post("/v1/handout?format=html", json=build)
    if answer.status_code == 422:
        return
    reader = Reader()
    reader.feed(answer.get_data(as_text=True))
    assert "script" not in reader.tags
    assert reader.tags.count("section") > 10
    markdown = handout(client, build, "md")
    headings = [line for line in markdown.split("\n") if line.startswith("## ")]
    assert len(headings) == reader.tags.count("section")
    assert handout(client, build, "pdf").startswith(b"%PDF")
