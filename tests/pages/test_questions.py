"""Every question asked with the examples in its own fields, by inches and by millimeters."""

import re

import pytest
from playwright.sync_api import Locator, Page, expect

from tests.pages.conftest import keep, quiet
from tests.pages.test_every_view import asked

# What is chosen where a field is left open; the rest of the fields keep what they begin with.
CHOSEN = {"Through": "", "Into": "", "Stock": "", "Shelf": "", "Wood": "red oak", "Finish": ""}
BESIDE = {"Youngest child near it": "3", "Load": "40 lb", "Area": "20 ft2"}
BOARDS = {"in": "1x6", "mm": "47x100"}


def fill_in(form: Locator, board: str) -> None:
    """Each field that is shown takes its example, each list what a shop has."""
    for field in form.locator("input:not([type=checkbox])").all():
        label = field.evaluate("one => one.labels[0].textContent")
        like = BESIDE.get(label) or field.get_attribute("placeholder")
        like = board if label == "Name at the store" else like
        if field.is_visible() and like and not field.input_value():
            field.fill(like)
    for field in form.locator("select").all():
        label = field.evaluate("one => one.labels[0].textContent")
        if field.is_visible() and not field.input_value() and label in CHOSEN:
            words = field.locator("option", has_text=CHOSEN[label])
            field.select_option(words.nth(2 if not CHOSEN[label] else 0).get_attribute("value"))


@pytest.mark.parametrize("units", ["in", "mm"])
def test_every_question_answers_its_own_examples(page: Page, address: str, units: str) -> None:
    """No example is refused, and with a tape in millimeters no answer begins with inches."""
    names = asked(page, address)
    page.locator("#prefer-units").select_option(units)
    if units == "mm":
        page.locator("#prefer-region").select_option("uk")
    for name in names:
        page.goto(f"{address}#/ask/{name}")
        quiet(page)
        fill_in(page.locator("#main form"), BOARDS[units])
        page.locator("#ledge button.main").click()
        big = page.get_by_role("region", name="Answer").locator(".big")
        expect(big, name).to_be_visible()
        keep(page, f"answer-{name}-{units}")
        if units == "mm":
            assert not re.search(r'"|\bin\b|\bft\b|\blb\b', big.inner_text()), name
        words = page.locator(".answer").inner_text()
        assert not re.search(r"\b1 (joints|coats|studs|proposals|clamps)\b", words), name
        assert words.count("Not judged") <= 1, name


def test_humidity_is_asked_in_place_of_a_place(page: Page, address: str) -> None:
    """Wood kept at 45 % settles near 8 1/2 %, whatever place the form began with."""
    page.goto(f"{address}#/ask/moisture")
    quiet(page)
    page.get_by_label("Or humidity", exact=True).fill("45")
    page.locator("#ledge button.main").click()
    expect(page.get_by_role("region", name="Answer").locator(".big")).to_have_text("8.5 %")


def test_an_answer_about_clothing_says_whether_the_rule_speaks_of_it(
    page: Page, address: str
) -> None:
    """A dresser of 20 lb is under the least weight that the rule names (30 lb): it is silent."""
    page.goto(f"{address}#/ask/tip-over")
    quiet(page)
    for label, value in {"Height": "40", "Depth": "12", "Weight": "20 lb"}.items():
        page.get_by_label(label, exact=True).fill(value)
    page.get_by_label("What it is").select_option("dresser")
    page.locator("#ledge button.main").click()
    expect(page.locator(".answer")).to_contain_text("does not speak of it")
