"""The demo, run as a newcomer runs it: the whole job, in 80 columns, and a page in a file."""

import os
import subprocess
from html.parser import HTMLParser
from pathlib import Path

import pytest

from service.settings import PROJECT

DEMO = str(PROJECT / "scripts" / "demo")


@pytest.fixture(scope="module")
def page(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Where the demo writes its page."""
    return tmp_path_factory.mktemp("demo") / "riser.html"


@pytest.fixture(scope="module")
def told(page: Path) -> str:
    """What the demo shows in a terminal, by either way out."""
    run = subprocess.run(
        [DEMO, str(page)],
        stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True, check=False, timeout=120,
    )  # fmt: skip
    assert run.returncode == 0, run.stdout
    return run.stdout


def test_it_can_be_read_in_80_columns(told: str) -> None:
    assert [line for line in told.splitlines() if len(line) > 80] == []


def test_the_lines_that_the_service_logs_are_not_among_it(told: str) -> None:
    assert [line for line in told.splitlines() if '"level"' in line] == []


def test_it_asks_every_question_of_the_job_in_order(told: str) -> None:
    asked = [line for line in told.splitlines() if line.startswith(("GET ", "POST "))]
    assert asked == [
        "GET /v1/sizes/1x6", "POST /v1/check", "POST /v1/check", "POST /v1/fasteners",
        "POST /v1/cut-plan", "POST /v1/estimate", "POST /v1/resize",
    ]  # fmt: skip


def test_the_slip_is_found_and_mended(told: str) -> None:
    # by hand: two ends of 3/4 in leave 25 1/2 - 1 1/2 = 24
    draft, mended = told.split("One change mends it")
    assert "fault: A board's printed size was taken for its real size" in draft
    assert 'Cut shelf 24" long instead of 23 1/2".' in draft
    assert '"length": "23 1/2"' in mended and '"length": "24 in"' in mended
    assert "fault:" not in mended and "warn:" not in mended


def test_the_open_joint_is_fastened_before_the_plan(told: str) -> None:
    taken = told.split("goes into the build")[1].split("---", maxsplit=1)[0]
    assert '"method": "screw"' in taken and '"count"' in taken
    assert "the fastening of rail-shelf" not in told.split("--- 5 of")[1]


def test_the_wood_and_its_price_are_right(told: str) -> None:
    # 2 x 14 + 2 x 24 and three kerfs of 1/8 are 76 3/8 of 96; the rail comes out of 72
    plan = told.split("POST /v1/cut-plan")[1]
    assert plan.startswith("\n12.00 USD in all")
    assert "budget 25.00 USD: 13.00 left of it" in plan
    assert '52 3/8" to 76 3/8"' in plan


def test_another_size_gives_in_shelf_and_rail(told: str) -> None:
    resized = told.split("POST /v1/resize")[1]
    assert resized.count('24", now 30"') == 3  # the shelf, the rail, the span of the load


class Headings(HTMLParser):
    """The text of the first heading."""

    def __init__(self) -> None:
        super().__init__()
        self.inside, self.text = False, ""

    def handle_starttag(self, tag: str, attrs: object) -> None:
        self.inside = tag == "h1" and not self.text

    def handle_data(self, data: str) -> None:
        if self.inside:
            self.text += data

    def handle_endtag(self, tag: str) -> None:
        self.inside = False


def test_the_page_is_written_to_the_file_named(told: str, page: Path) -> None:
    assert str(page) in told
    read = Headings()
    read.feed(page.read_text(encoding="utf-8"))
    assert "Counter riser" in read.text


def test_a_service_that_is_not_there_is_said_plainly() -> None:
    env = {**os.environ, "DRYFIT_URL": "http://127.0.0.1:9"}
    run = subprocess.run([DEMO], capture_output=True, text=True, check=False, env=env, timeout=60)
    assert run.returncode == 1
    assert "nobody answers at http://127.0.0.1:9" in run.stderr
    assert "Traceback" not in run.stderr
