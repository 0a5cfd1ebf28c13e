"""The page by keyboard alone: no pointer, no key but Tab, Enter, Space and what is typed."""

import json
from pathlib import Path

from playwright.sync_api import Page, expect

from tests.pages.conftest import settled

MOST = 80  # presses of Tab from one place to another
HERE = """() => {
    const here = document.activeElement;
    const label = here.getAttribute('aria-label') ?? here.labels?.[0]?.textContent;
    const name = label ?? here.textContent;
    return `${here.tagName.toLowerCase()} ${name.trim()}`;
}"""


def reach(page: Page, tag: str, name: str) -> None:
    """Press Tab until it stands on this."""
    for _ in range(MOST):
        page.keyboard.press("Tab")
        if page.evaluate(HERE) == f"{tag} {name}":
            seen = page.evaluate(
                "() => getComputedStyle(document.activeElement).outlineStyle !== 'none'"
            )
            assert seen, f"nothing shows that {name} has the focus"
            return
    raise AssertionError(f"Tab does not lead to {tag} {name}")


def write(page: Page, label: str, text: str) -> None:
    """Type into a field, in place of what is there."""
    reach(page, "input", label)
    page.keyboard.press("Control+a")
    page.keyboard.type(text)


def choose(page: Page, label: str, text: str) -> None:
    """Choose by the first letters, as every list of a browser takes them."""
    reach(page, "select", label)
    page.keyboard.type(text)


def press(page: Page, tag: str, name: str, title: str) -> None:
    """Go to a button or link and press it; the view that comes."""
    reach(page, tag, name)
    page.keyboard.press("Enter")
    settled(page, title)


def add_part(page: Page, name: str, length: str, count: str) -> None:
    press(page, "a", "Add part", "New part")
    write(page, "Name", name)
    choose(page, "Cut from", "1x6")
    write(page, "Length", length)
    write(page, "How many", count)
    press(page, "button", "Keep", "Parts")


def test_a_question_by_keyboard_alone(page: Page, address: str) -> None:
    page.goto(address)
    settled(page, "Which screw?")
    page.keyboard.press("Tab")
    reached = []
    for _ in range(60):
        here = page.evaluate("document.activeElement.id || document.activeElement.textContent")
        reached.append(here)
        name = page.evaluate("document.activeElement.labels?.[0]?.textContent ?? ''")
        if name in ("Through", "Into"):
            page.keyboard.type("1x4")
        if page.evaluate("document.activeElement.matches('#ledge button.main')"):
            page.keyboard.press("Enter")
            break
        page.keyboard.press("Tab")
    answer = page.get_by_role("region", name="Answer")
    expect(answer.locator(".big")).to_be_visible()
    assert page.evaluate("document.activeElement.getAttribute('aria-label')") == "Answer"
    assert page.locator("#said").inner_text(), "the answer is said aloud"


def test_a_whole_build_by_keyboard_alone(page: Page, address: str) -> None:
    """Two ends of 3/4 in and a shelf of 24 in come to 25 1/2 in, not to 26 in: found, mended,
    planned, ticked off, handed on."""
    page.goto(f"{address}#/builds")
    settled(page, "Builds")
    press(page, "button", "New, empty", "The piece")
    write(page, "Name", "Key ledge")
    press(page, "button", "Keep", "Parts")
    add_part(page, "shelf", "24", "1")
    add_part(page, "end", "5 1/2", "2")
    press(page, "a", "Stick: all of this build", "Key ledge")
    reach(page, "a", "Runsnone yet")
    page.keyboard.press("Enter")
    settled(page, "Runs")
    press(page, "a", "Add run", "New run")
    choose(page, "Piece", "end")
    choose(page, "Its", "thickness")
    write(page, "How many", "2")
    choose(page, "Piece", "shelf")
    choose(page, "Together they", "come to")
    write(page, "Size", "26")
    press(page, "button", "Keep", "Runs")
    press(page, "a", "Stick: all of this build", "Key ledge")
    press(page, "a", "Findings", "Findings")
    expect(page.locator(".verdict .stamp")).to_have_text("Mend first")
    reach(page, "button", "Apply this mend")
    page.keyboard.press("Enter")
    expect(page.locator(".verdict .stamp")).to_have_text("Nothing found")
    press(page, "a", "Stick: all of this build", "Key ledge")
    press(page, "a", "What to buy and how to cut it", "What to buy")
    reach(page, "input", page.locator(".tick").first.inner_text().replace("\n", ""))
    page.keyboard.press("Space")
    expect(page.locator("#cut-count")).to_have_text("1 of 3 cut")
    press(page, "a", "At the saw", "At the saw")
    reach(page, "button", "Cut")
    page.keyboard.press("Enter")
    expect(page.locator("#main")).to_contain_text("Piece 3 of 3")
    assert page.evaluate(HERE) == "button Cut", "the next press is for the next piece"
    press(page, "a", "Plan", "What to buy")
    press(page, "a", "Stick: all of this build", "Key ledge")
    reach(page, "button", "Export as a file")
    with page.expect_download() as kept:
        page.keyboard.press("Enter")
    build = json.loads(Path(kept.value.path()).read_text(encoding="utf-8"))
    assert [part["id"] for part in build["parts"]] == ["shelf", "end"]
    reach(page, "a", "Handoutto print or to publish")
    page.keyboard.press("Enter")
    settled(page, "Handout")
    reach(page, "button", "Get the page")
    with page.expect_download() as kept:
        page.keyboard.press("Enter")
    assert "Key ledge" in Path(kept.value.path()).read_text(encoding="utf-8")
