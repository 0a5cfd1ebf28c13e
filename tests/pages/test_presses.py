"""What goes wrong on a phone: two presses for one, no room left, a build that is gone."""

import json
import re
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from tests.pages.conftest import keep, quiet, settled, start_example
from tests.pages.test_walk import bring_in

FULL = """() => {
    const put = IDBObjectStore.prototype.put;
    IDBObjectStore.prototype.put = function (...all) {
        if (window.roomAgain) return put.apply(this, all);
        throw new DOMException('no room', 'QuotaExceededError');
    };
}"""


def document_of(page: Page, address: str, base: str) -> Any:
    page.goto(f"{address}{base}/document")
    settled(page, "The document")
    return json.loads(page.locator("#text").input_value())


def parts(*names: str) -> list[dict[str, Any]]:
    return [{"id": name, "stock": "1x4", "length": "20"} for name in names]


def test_two_presses_of_undo_take_one_change_back(page: Page, address: str, tmp_path: Path) -> None:
    """There is one change: the second press, before the button is drawn anew, does nothing."""
    base = bring_in(page, address, {"name": "Case", "parts": parts("a", "b")}, tmp_path / "a.json")
    page.goto(f"{address}{base}/parts/0")
    page.get_by_label("How many", exact=True).fill("4")
    page.get_by_role("button", name="Keep").click()
    settled(page, "Parts")
    page.get_by_role("button", name="Undo").evaluate("one => { one.click(); one.click(); }")
    expect(page.get_by_role("button", name="Undo")).to_be_disabled()
    assert "quantity" not in document_of(page, address, base)["parts"][0]


def test_two_presses_of_remove_take_one_part_away(page: Page, address: str, tmp_path: Path) -> None:
    build = {"name": "Case", "parts": parts("a", "b", "c")}
    base = bring_in(page, address, build, tmp_path / "a.json")
    page.goto(f"{address}{base}/parts/0")
    button = page.get_by_role("button", name="Remove this part")
    button.evaluate("one => { one.click(); one.click(); }")
    settled(page, "Parts")
    assert [part["id"] for part in document_of(page, address, base)["parts"]] == ["b", "c"]


def test_two_presses_at_the_saw_cut_one_piece(page: Page, address: str) -> None:
    """The second press of two lands on the button of the next piece, which nobody has cut."""
    base = start_example(page, address, "Herb trough")
    page.goto(f"{address}{base}/tape")
    settled(page, "At the saw")
    box = page.locator("#ledge").get_by_role("button", name="Cut", exact=True).bounding_box()
    assert box is not None
    page.mouse.move(box["x"] + box["width"] / 2, box["y"] + box["height"] / 2)
    for number in (1, 2):
        page.mouse.down(click_count=number)
        page.mouse.up(click_count=number)
        expect(page.locator("#main")).to_contain_text("Piece 2 of 5")
    page.goto(f"{address}{base}/cuts")
    expect(page.locator("#cut-count")).to_have_text("1 of 5 cut")


def test_a_change_that_finds_no_room_is_made_and_said(
    page: Page, address: str, tmp_path: Path
) -> None:
    """The page goes on with it, says that it is not kept, and stops saying so when it is."""
    base = bring_in(page, address, {"name": "Case", "parts": parts("a")}, tmp_path / "a.json")
    page.goto(f"{address}{base}/parts/0")
    page.get_by_label("How many", exact=True).wait_for()
    page.evaluate(FULL)
    page.get_by_label("How many", exact=True).fill("4")
    page.get_by_role("button", name="Keep").click()
    settled(page, "Parts")
    expect(page.locator(".card")).to_contain_text("4 of 1x4")
    expect(page.locator("#warning")).to_contain_text("no room")
    keep(page, "no-room")
    page.get_by_role("link", name="Stick").click()
    expect(page.locator(".verdict .stamp")).to_have_text("Nothing found")
    with page.expect_download() as kept:
        page.get_by_role("button", name="Export as a file").click()
    assert json.loads(Path(kept.value.path()).read_text())["parts"][0]["quantity"] == 4
    page.evaluate("window.roomAgain = true")
    page.get_by_role("button", name="Undo").click()
    expect(page.locator("#warning")).to_be_hidden()


def test_a_build_that_finds_no_room_is_not_begun(page: Page, address: str) -> None:
    page.goto(f"{address}#/builds")
    settled(page, "Builds")
    page.evaluate(FULL)
    for name in ("New, empty", "Mug shelf"):
        page.get_by_role("button", name=name).click()
        expect(page.get_by_role("alert").filter(has_text="no room")).to_be_visible()
        assert page.evaluate("location.hash") == "#/builds"


@pytest.mark.parametrize("view", ["#/", "#/builds", "#/ask/size"])
def test_a_browser_that_keeps_nothing_still_answers(page: Page, address: str, view: str) -> None:
    page.add_init_script("IDBFactory.prototype.open = () => { throw new DOMException('off'); }")
    page.goto(address + view)
    page.locator("#main > h1").wait_for()
    quiet(page)
    assert "wrong" not in page.locator("#main > h1").inner_text()


def test_a_question_is_answered_when_nothing_more_can_be_kept(page: Page, address: str) -> None:
    """The worker keeps answers for later; that it can't keep one more is no reason to hide it."""
    page.goto(address)
    settled(page, "Which screw?")
    page.evaluate("navigator.serviceWorker.ready.then(() => true)")
    page.evaluate(
        """() => navigator.serviceWorker.controller ? true : new Promise((taken) =>
            navigator.serviceWorker.addEventListener('controllerchange', () => taken(true)))"""
    )
    (worker,) = page.context.service_workers
    full = "() => { Cache.prototype.put = () => Promise.reject(new DOMException('full')); }"
    worker.evaluate(full)
    page.goto(f"{address}#/ask/size")
    page.get_by_label("Name at the store").fill("1x8")
    page.locator("#ledge button.main").click()
    expect(page.locator(".answer .big")).to_have_text('3/4" x 7 1/4"')


def test_a_build_that_was_taken_off_is_gone(page: Page, address: str) -> None:
    base = start_example(page, address, "Herb trough")
    page.on("dialog", lambda dialog: dialog.accept())
    page.get_by_role("button", name="Take off this device").click()
    settled(page, "Builds")
    page.goto(f"{address}{base}")
    settled(page, "No such build")


def test_steps_follow_a_joint_to_its_new_name(page: Page, address: str, tmp_path: Path) -> None:
    joint = {"id": "corner", "through": "a", "into": "b", "method": "glue", "glue": "pva-interior"}
    build = {"name": "Case", "parts": parts("a", "b"), "joints": [joint],
             "steps": [{"do": "glue", "joints": ["corner"]}]}  # fmt: skip
    base = bring_in(page, address, build, tmp_path / "a.json")
    page.goto(f"{address}{base}/joints/0")
    page.get_by_label("Name", exact=True).fill("lap corner")
    page.get_by_role("button", name="Keep").click()
    settled(page, "Joints")
    assert document_of(page, address, base)["steps"] == [{"do": "glue", "joints": ["lap corner"]}]


def test_a_form_mends_what_it_can_not_read(page: Page, address: str, tmp_path: Path) -> None:
    """A fastener written as text is no fastener of a joint; the form is filled in and kept."""
    joint = {"id": "j", "through": "a", "into": "b", "method": "screw", "fastener": "8x1-1/4in"}
    build = {"name": "Case", "parts": parts("a", "b"), "joints": [joint]}
    path = tmp_path / "a.json"
    path.write_text(json.dumps(build), encoding="utf-8")
    page.goto(f"{address}#/builds")
    settled(page, "Builds")
    page.locator("#bring").set_input_files(path)
    settled(page, "Case")
    page.goto(f"{page.url}/joints/0")
    length = page.get_by_label("Fastener length", exact=True)
    expect(length).to_have_value("")
    length.fill("1 1/4")
    page.get_by_role("button", name="Keep").click()
    settled(page, "Joints")
    expect(page.locator(".card .tape")).to_have_text('1 1/4"')


def test_an_empty_build_has_no_findings(page: Page, address: str) -> None:
    page.goto(f"{address}#/builds")
    settled(page, "Builds")
    page.get_by_role("button", name="New, empty").click()
    settled(page, "The piece")
    page.goto(re.sub("/piece$", "/check", page.url))
    settled(page, "Findings")
    expect(page.locator("#main")).to_contain_text("Add a part")
    expect(page.locator(".finding")).to_have_count(0)


def test_an_address_that_can_not_be_read_is_said(page: Page, address: str) -> None:
    page.goto(f"{address}#/ask/%")
    settled(page, "This went wrong")


def test_two_tables_do_not_come_under_one_name(page: Page, address: str) -> None:
    base = start_example(page, address, "Herb trough")
    page.goto(f"{address}{base}/handout")
    settled(page, "Handout")
    names = []
    for name in ("Parts as CSV", "Purchases as CSV"):
        with page.expect_download() as kept:
            page.get_by_role("button", name=name).click()
        names.append(kept.value.suggested_filename)
    assert names == [
        f"herb-trough-for-a-window-sill.{table}.csv" for table in ("parts", "purchases")
    ]
