"""A browser and a service for it; every view that a test looks at leaves a screenshot behind."""

import logging
import os
import re
import shutil
import threading
from collections.abc import Iterator
from pathlib import Path

import pytest
from flask import Flask
from playwright.sync_api import Browser, BrowserContext, Page, expect, sync_playwright
from werkzeug.serving import make_server

from service.app import create_app
from service.settings import read_settings

PROJECT = Path(__file__).resolve().parents[2]
SCREENS = Path(os.environ.get("DRYFIT_SCREENS", str(PROJECT / ".dryfit" / "screens")))
QUIET = [
    "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
    "--disable-background-networking", "--disable-component-update", "--disable-sync",
]  # fmt: skip
WAITING = re.compile("Being (checked|planned|written)")
PHONE, TABLET = {"width": 360, "height": 740}, {"width": 768, "height": 1024}


def chromium() -> str:
    """Where the browser is; skips the test where there is none."""
    names = ("chromium", "chromium-browser", "google-chrome")
    found = os.environ.get("DRYFIT_CHROMIUM") or next(filter(None, map(shutil.which, names)), None)
    if found is None:
        pytest.skip("no Chromium on this machine: install it or set DRYFIT_CHROMIUM to its path")
    return found


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """Headless, once a run."""
    path = chromium()
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=path, args=QUIET)
        yield browser
        browser.close()


@pytest.fixture(scope="session")
def app(reference_url: str) -> Flask:
    """The service, once a run."""
    return create_app(read_settings({"DRYFIT_REFERENCE_URL": reference_url}))


@pytest.fixture(scope="session")
def address(app: Flask) -> Iterator[str]:
    """The service on a free port of this machine."""
    logging.getLogger("werkzeug").setLevel(logging.ERROR)  # a failing test tells enough
    server = make_server("127.0.0.1", 0, app, threaded=True)
    thread = threading.Thread(target=server.serve_forever, daemon=True)
    thread.start()
    yield f"http://127.0.0.1:{server.server_port}/"
    server.shutdown()
    thread.join()


@pytest.fixture
def context(browser: Browser) -> Iterator[BrowserContext]:
    """A phone with nothing on it yet."""
    context = browser.new_context(viewport=PHONE, accept_downloads=True, has_touch=True)
    context.set_default_timeout(15_000)
    yield context
    context.close()


@pytest.fixture
def page(context: BrowserContext) -> Iterator[Page]:
    """A tab; what goes wrong in the page fails the test."""
    page = context.new_page()
    wrong: list[str] = []
    page.on("pageerror", lambda error: wrong.append(str(error)))
    yield page
    assert wrong == []


def keep(page: Page, name: str) -> None:
    """A screenshot of the whole view, for the eye."""
    SCREENS.mkdir(parents=True, exist_ok=True)
    page.screenshot(path=SCREENS / f"{name}.png", full_page=True)


def settled(page: Page, title: str) -> None:
    """Wait until a view is there: its heading says so."""
    page.locator("#main > h1", has_text=title).wait_for()
    quiet(page)


def quiet(page: Page) -> None:
    """Wait until the view of this address is there, and has all of its answers.

    By locators only: waiting for a function would have the page evaluate text, which its policy
    refuses.
    """
    address = page.evaluate("location.hash || '#/'")
    page.locator(f'#main[data-at="{address}"]').wait_for()
    expect(page.locator("#main")).not_to_contain_text(WAITING, timeout=15_000)


def start_example(page: Page, address: str, name: str) -> str:
    """Open an example; the address of its build."""
    page.goto(f"{address}#/builds")
    settled(page, "Builds")
    page.get_by_role("button", name=name).click()
    page.locator("#main > h1", has_not_text="Builds").wait_for()
    page.locator(".verdict").wait_for()
    return page.evaluate("location.hash")
