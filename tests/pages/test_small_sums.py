"""What the page works out by itself: the text of a length, mends on a document, files."""

import json
from pathlib import Path
from typing import Any

import jsonpatch
import pytest
from playwright.sync_api import Page

from tests.pages.conftest import settled, start_example

# A document, and patches in the forms that mends take; the standard's own library is the judge.
DOCUMENT: dict[str, Any] = {
    "parts": [{"id": "a/b", "length": "20"}, {"id": "c", "length": "4"}],
    "stocks": {"1x4~x": {"wood": "spf"}},
}
PATCHES: list[list[dict[str, Any]]] = [
    [{"op": "replace", "path": "/parts/0/length", "value": "19 1/2 in"}],
    [{"op": "add", "path": "/parts/1/width", "value": "3"}],
    [{"op": "add", "path": "/parts/1", "value": {"id": "d"}}],
    [{"op": "add", "path": "/parts/-", "value": {"id": "e"}}],
    [{"op": "remove", "path": "/parts/0"}],
    [{"op": "remove", "path": "/parts/1/length"}],
    [{"op": "replace", "path": "/stocks/1x4~0x/wood", "value": "oak"}],
    [
        {"op": "replace", "path": "/parts/0/length", "value": "1"},
        {"op": "replace", "path": "/parts/1/length", "value": "2"},
    ],
]

# Presses of the tape keys, and the text that a builder would write.
PRESSES = [
    (["2", "4", "1/2"], False, "24 1/2"),
    (["2", "4", "1/2", "3/4"], False, "24 3/4"),
    (["2", "4", "1/2", "Erase"], False, "24"),
    (["2", "4", "Erase"], False, "2"),
    (["1", "ft", "8", "3/4"], False, "1 ft 8 3/4"),
    (["5", "2", "7", "mm"], False, "527 mm"),
    (["5", "2", "7", "mm", "in"], False, "527 in"),
    (["5", "2", "7", "mm", "Erase"], False, "527"),
    (["7/8"], False, "7/8"),
    (["2", "0", "3/4"], True, "20 3/4 in"),
    (["2", "0", ".", "5"], False, "20.5"),
]

PRESS = """async ([presses, metric]) => {
    const keys = await import('/page/forms/fractions.js');
    const units = ['ft', 'in', 'mm'];
    return presses.reduce((text, press) => {
        if (press === 'Erase') return keys.without(text);
        if (units.includes(press)) return keys.withUnit(text, press);
        if (press.includes('/')) return keys.withFraction(text, press, metric);
        return keys.withDigit(text, press);
    }, '');
}"""
APPLY = """async ([document, patch]) => {
    const { applyPatch } = await import('/page/builds/patching.js');
    applyPatch(document, patch);
    return document;
}"""


@pytest.fixture
def loaded(page: Page, address: str) -> Page:
    """A tab on the page, whose modules can be asked."""
    page.goto(address)
    settled(page, "Which screw?")
    return page


def test_mends_are_applied_as_the_standard_says(loaded: Page) -> None:
    for patch in PATCHES:
        expected = jsonpatch.apply_patch(DOCUMENT, patch)
        assert loaded.evaluate(APPLY, [DOCUMENT, patch]) == expected, patch


def test_the_tape_keys_write_what_a_builder_would(loaded: Page) -> None:
    for presses, metric, text in PRESSES:
        assert loaded.evaluate(PRESS, [presses, metric]) == text


def test_a_build_goes_out_and_comes_back_the_same(page: Page, address: str, tmp_path: Path) -> None:
    start_example(page, address, "Side stand")
    with page.expect_download() as kept:
        page.get_by_role("button", name="Export as a file").click()
    assert kept.value.suggested_filename == "side-stand-on-splayed-legs.json"
    out = tmp_path / "out.json"
    kept.value.save_as(out)
    page.goto(f"{address}#/builds")
    settled(page, "Builds")
    page.locator("#bring").set_input_files(out)
    settled(page, "Side stand on splayed legs")
    page.goto(page.url + "/document")
    settled(page, "The document")
    example = Path(__file__).parents[2] / "service" / "pages" / "examples" / "side-stand.json"
    back = json.loads(page.locator("#text").input_value())
    assert back == json.loads(example.read_text(encoding="utf-8")) == json.loads(out.read_text())


@pytest.mark.parametrize(
    "text", ["{", "[]", '{"name": "x"}', '{"parts": [1]}', '{"parts": [], "shop": []}']
)
def test_what_is_no_build_is_not_brought_in(
    page: Page, address: str, tmp_path: Path, text: str
) -> None:
    bad = tmp_path / "bad.json"
    bad.write_text(text, encoding="utf-8")
    page.goto(f"{address}#/builds")
    settled(page, "Builds")
    page.locator("#bring").set_input_files(bad)
    page.get_by_role("alert").filter(has_text=" ").wait_for()
    assert page.evaluate("location.hash") == "#/builds"
