"""The PDF opened by another library: nothing leaves the page, nothing is set over anything."""

from collections import Counter
from datetime import date
from itertools import pairwise
from typing import Any

import pypdfium2
import pytest
from flask.testing import FlaskClient

from service.handouts.page import Handout, Item, Items, Section, Words
from service.handouts.pdf import as_pdf
from tests.handouts.conftest import handout, scene
from tests.house.test_words import BANNED

MARGIN = 47.0
FOOT = 40.0
LETTER, A4 = (612.0, 792.0), (595.28, 841.89)
LONG = "upper cross rail of the left hand drawer frame behind it"


def parts_list(count: int, name: str, title: str = "") -> Any:
    """A build with so many kinds of parts."""
    parts = [
        {"id": f"{name} {n}", "stock": "1x4" if n % 3 else "plywood 3/4", "length": f"{10 + n}",
         **({} if n % 3 else {"width": "12"}), "quantity": 1 + n % 4}
        for n in range(1, count + 1)
    ]  # fmt: skip
    return {"name": title or f"A build of {count}", "wood": "spf", "parts": parts}


def opened(content: bytes) -> Any:
    return pypdfium2.PdfDocument(content)


def text_of(pdf: Any) -> str:
    return "\n".join(page.get_textpage().get_text_bounded() for page in pdf)


@pytest.mark.parametrize("paper", ["letter", "a4"])
@pytest.mark.parametrize("count", [1, 2, 7, 19, 40])
def test_nothing_leaves_the_page(client: FlaskClient, count: int, paper: str) -> None:
    pdf = opened(handout(client, parts_list(count, LONG), "pdf", paper=paper))
    wide, high = LETTER if paper == "letter" else A4
    for page in pdf:
        assert page.get_size() == pytest.approx((wide, high), abs=0.1)
        text = page.get_textpage()
        frames = [text.get_rect(n) for n in range(text.count_rects())]
        for left, low, right, top in frames:
            assert left >= MARGIN and right <= wide - MARGIN, (left, right)
            assert low >= 20 and top <= high - 40
            assert low >= FOOT or top < FOOT, "a line runs into the foot of the page"
        for n, a in enumerate(frames):
            for b in frames[n + 1 :]:
                aside = min(a[2], b[2]) - max(a[0], b[0])
                over = min(a[3], b[3]) - max(a[1], b[1])
                assert aside < 1 or over < 1, "words are set over words"
    pdf.close()


# 2,020 words are a page and one line over.
@pytest.mark.parametrize("count", [2020, 3000])
def test_a_text_longer_than_a_page_goes_on_over_pages(count: int) -> None:
    words = " ".join(f"w{n}" for n in range(count))
    blocks = (Items((Item("x", "name", (words,)), Item(words, "name"))), Words(words))
    told = Handout("Long", "", (Section("about", "About", blocks),), "edition", date(2026, 1, 1))
    pdf = opened(as_pdf(told))
    found = Counter(text_of(pdf).split())
    assert all(found[f"w{n}"] == 3 for n in range(count))
    pdf.close()


@pytest.mark.parametrize("name", ["letter-tray", "potting-bench"])
def test_it_says_what_the_page_says(client: FlaskClient, name: str) -> None:
    """Every heading, and every word of every paragraph, comes out of the file again."""
    build = scene(name)
    page = handout(client, build, "json")
    pdf = opened(handout(client, build, "pdf"))
    found = "".join(text_of(pdf).split())
    pdf.close()
    for section in page["sections"]:
        assert "".join(section["heading"].split()) in found
        for block in section["blocks"]:
            if block["kind"] == "words":
                missing = [w for w in block["text"].split() if w not in found]
                assert missing == []
    for line in page["not_judged"]:
        assert all(word in found for word in line.split())
    assert BANNED.findall(text_of(opened(handout(client, build, "pdf")))) == []


def test_it_is_the_same_for_the_same_page(client: FlaskClient, easy: Any) -> None:
    assert handout(client, easy, "pdf") == handout(client, easy, "pdf")


def test_it_has_a_title_a_language_and_bookmarks(client: FlaskClient, easy: Any) -> None:
    content = handout(client, easy, "pdf")
    pdf = opened(content)
    assert pdf.get_metadata_dict()["Title"] == easy["name"]
    assert b"/Lang (en-US)" in content
    marks = [mark.get_title() for mark in pdf.get_toc()]
    headings = [section["heading"] for section in handout(client, easy, "json")["sections"]]
    assert marks == headings
    pdf.close()


def test_a_sign_without_a_letter_is_a_question_mark_and_said(client: FlaskClient) -> None:
    build = parts_list(2, "rail", "\u68da\u677f 1")  # signs that the face has no letters for
    pdf = opened(handout(client, build, "pdf"))
    text = text_of(pdf)
    pdf.close()
    assert "?? 1" in text
    assert "question mark stands for each" in " ".join(text.split())


def test_letters_of_western_europe_are_set(client: FlaskClient) -> None:
    pdf = opened(handout(client, parts_list(1, "rail", "Böden für Åsa"), "pdf"))
    text = text_of(pdf)
    pdf.close()
    assert "Böden" in text and "question mark" not in text


def test_names_that_can_not_be_broken_stay_in_their_column(client: FlaskClient) -> None:
    pdf = opened(handout(client, parts_list(6, "x" * 57), "pdf"))
    for page in pdf:
        text = page.get_textpage()
        rights = [text.get_rect(n)[2] for n in range(text.count_rects())]
        assert max(rights) <= LETTER[0] - MARGIN
    pdf.close()


@pytest.mark.parametrize("title", ["W" * 80, "i" * 80, "\u00c5" * 80])
def test_a_title_of_any_width_stays_clear_of_the_date(client: FlaskClient, title: str) -> None:
    pdf = opened(handout(client, parts_list(1, "rail", title), "pdf"))
    text = pdf[0].get_textpage()
    foot = text.get_text_bounded(bottom=0, top=FOOT)
    assert foot.startswith(title[:20]) and "made 2026-03-04" in foot
    frames = sorted(
        frame for n in range(text.count_rects()) if (frame := text.get_rect(n))[3] < FOOT
    )
    assert all(a[2] < b[0] for a, b in pairwise(frames)) and frames[-1][2] <= LETTER[0] - MARGIN
    pdf.close()
