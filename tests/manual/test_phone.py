"""The manual on a phone and a small tablet: nothing scrolls sideways, all can be read aloud."""

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

PAGES = [
    "/docs", "/docs/example", "/docs/questions", "/docs/questions/fastenJoint",
    "/docs/questions/resizeBuild", "/docs/build", "/docs/findings",
    "/docs/findings/size.nominal-for-actual", "/docs/tables", "/docs/tables/names",
    "/docs/tables/lumber_sizes", "/docs/sources",
]  # fmt: skip
CHROMIUM = Path("/usr/bin/chromium")
QUIET = (
    "--no-sandbox", "--disable-background-networking", "--disable-component-update",
    "--disable-sync", "--disable-quic", "--no-first-run",
)  # fmt: skip


@pytest.fixture(scope="module")
def browser() -> Iterator[Any]:
    """A browser without a window."""
    if not CHROMIUM.exists():
        pytest.skip("no chromium on this machine")
    api = pytest.importorskip("playwright.sync_api", reason="playwright is not installed")
    with api.sync_playwright() as running:
        started = running.chromium.launch(executable_path=str(CHROMIUM), args=list(QUIET))
        yield started
        started.close()


@pytest.mark.parametrize("width", [320, 360, 768])
def test_no_page_scrolls_sideways(browser: Any, address: str, width: int) -> None:
    page = browser.new_page(viewport={"width": width, "height": 740})
    for path in PAGES:
        page.goto(f"{address}{path}")
        assert page.evaluate("document.documentElement.scrollWidth") <= width, path
    page.close()


def test_every_link_of_the_bar_is_a_thumb_high(browser: Any, address: str) -> None:
    page = browser.new_page(viewport={"width": 360, "height": 740})
    page.goto(f"{address}/docs/")
    heights = page.evaluate(
        "[...document.querySelectorAll('header a, .contents a')]"
        ".map(a => a.getBoundingClientRect().height)"
    )
    assert len(heights) > 10 and min(heights) >= 44
    page.close()


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_pages_can_be_read_by_everybody(browser: Any, address: str, scheme: str) -> None:
    axe = pytest.importorskip("axe_playwright_python.sync_playwright", reason="no axe here").Axe()
    page = browser.new_page(viewport={"width": 360, "height": 740}, color_scheme=scheme)
    for path in PAGES[:8]:
        page.goto(f"{address}{path}")
        found = axe.run(page).response["violations"]
        assert [(one["id"], one["nodes"][0]["html"][:120]) for one in found] == [], path
    page.close()
