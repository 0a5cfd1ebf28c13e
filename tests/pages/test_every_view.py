"""Every view at two widths: nothing runs off the side, nothing that a reader needs is missing."""

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page

from tests.house.test_words import BANNED
from tests.pages.conftest import PHONE, TABLET, keep, quiet, settled, start_example

GENERAL = {"start": "#/", "ask": "#/ask", "builds": "#/builds"}
OF_A_BUILD = (
    "", "check", "piece", "parts", "parts/0", "joints", "joints/0", "runs", "runs/0", "loads",
    "steps", "shop", "buying", "cuts", "tape", "drawings", "handout", "document",
)  # fmt: skip
SCENES = {"easy": "Herb trough", "hard": "Cabinet for small parts"}


def look(page: Page, name: str, width: int) -> None:
    """What holds of every view."""
    page.locator("#main > h1").wait_for()
    quiet(page)
    keep(page, f"{name}-{width}")
    over = page.evaluate("document.documentElement.scrollWidth - window.innerWidth")
    assert over <= 0, f"{name} is {over} px wider than the screen"
    small = page.evaluate(
        """() => [...document.querySelectorAll('a.button, button, select, input')]
            .filter((one) => one.offsetParent && !one.closest('.aloud') && one.type !== 'checkbox')
            .filter((one) => !one.classList.contains('aloud'))
            .filter((one) => one.getBoundingClientRect().height < 44)
            .map((one) => one.outerHTML.slice(0, 80))"""
    )
    assert small == [], f"{name}: too small for a thumb"
    assert BANNED.findall(page.inner_text("body")) == []


def judge(page: Page, name: str) -> None:
    """No serious finding of the accessibility checker."""
    found = Axe().run(page).response["violations"]
    bad = [
        (one["id"], [node["html"][:120] for node in one["nodes"]][:3])
        for one in found
        if one["impact"] in ("serious", "critical")
    ]
    assert bad == [], name


@pytest.mark.parametrize("size", [PHONE, TABLET], ids=lambda size: str(size["width"]))
def test_general_views(page: Page, address: str, size: dict[str, int]) -> None:
    page.set_viewport_size(size)  # type: ignore[arg-type]  # a viewport
    page.goto(address)
    ways = {f"ask-{name}": f"#/ask/{name}" for name in asked(page, address)}
    for name, way in {**GENERAL, **ways}.items():
        page.goto(address + way)
        look(page, name, size["width"])
        if size == PHONE:
            judge(page, name)


def asked(page: Page, address: str) -> list[str]:
    """The questions that the page knows, by their addresses."""
    page.goto(f"{address}#/ask")
    settled(page, "Ask")
    links = page.locator("a.mark").evaluate_all("all => all.map((one) => one.hash)")
    names = [link.removeprefix("#/ask/") for link in links]
    assert len(names) >= 12
    return names


@pytest.mark.parametrize("scene", SCENES)
@pytest.mark.parametrize("size", [PHONE, TABLET], ids=lambda size: str(size["width"]))
def test_views_of_a_build(page: Page, address: str, scene: str, size: dict[str, int]) -> None:
    page.set_viewport_size(size)  # type: ignore[arg-type]  # a viewport
    base = start_example(page, address, SCENES[scene])
    for view in OF_A_BUILD:
        page.goto(f"{address}{base}/{view}".rstrip("/"))
        look(page, f"{scene}-{view.replace('/', '-') or 'stick'}", size["width"])
        if size == PHONE and scene == "hard":
            judge(page, view)


def test_a_view_that_was_gone_to_has_the_focus_on_its_heading(page: Page, address: str) -> None:
    page.goto(address)
    settled(page, "Which screw?")
    page.get_by_role("link", name="Builds", exact=True).click()
    settled(page, "Builds")
    assert page.evaluate("document.activeElement.tagName") == "H1"
    assert page.title() == "Builds · Dryfit"
