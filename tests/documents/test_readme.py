"""The README, run as pasted: both commands, every curl line, every setting."""

import os
import re
import signal
import socket
import subprocess
import time
import urllib.request
from collections.abc import Iterator
from pathlib import Path

import pytest

from service.settings import PROJECT, TABLE

README = (PROJECT / "README.md").read_text(encoding="utf-8")
PASTED = re.findall(r"```sh\n(.*?)\n```\n\n```text\n(.*?)\n```", README, flags=re.DOTALL)
ADDRESS = "http://127.0.0.1:8000"


def free_port() -> int:
    with socket.socket() as listener:
        listener.bind(("127.0.0.1", 0))
        port: int = listener.getsockname()[1]
        return port


@pytest.fixture(scope="module")
def served(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """The address of a service started by `scripts/serve`, as a newcomer would."""
    port = free_port()
    log = tmp_path_factory.mktemp("serve") / "log"
    with log.open("w") as output:
        process = subprocess.Popen(
            [str(PROJECT / "scripts" / "serve")],
            env={**os.environ, "PORT": str(port)},
            stdout=output, stderr=subprocess.STDOUT, start_new_session=True,
        )  # fmt: skip
    try:
        wait_for(f"http://127.0.0.1:{port}/healthz", log)
        yield f"http://127.0.0.1:{port}"
    finally:
        os.killpg(process.pid, signal.SIGTERM)
        process.wait(timeout=30)


def wait_for(address: str, log: Path) -> None:
    for _ in range(600):
        try:
            with urllib.request.urlopen(address, timeout=5):
                return
        except OSError:
            time.sleep(0.1)
    pytest.fail(f"no answer: {log.read_text()}")


def test_there_are_five_lines_to_paste() -> None:
    assert len(PASTED) == README.count("```sh") == 5
    assert "/v1/check" in PASTED[0][0]


@pytest.mark.parametrize(("line", "answer"), PASTED, ids=range(len(PASTED)))
def test_a_line_of_the_readme_answers_as_printed(served: str, line: str, answer: str) -> None:
    found = subprocess.run(
        ["bash", "-c", line.replace(ADDRESS, served)], capture_output=True, text=True, check=True
    ).stdout
    assert re.sub(r"edition: [0-9a-f]{12}", "edition: ...", found).rstrip("\n") == answer


def test_what_serve_prints_can_be_pasted(served: str, tmp_path: Path) -> None:
    with urllib.request.urlopen(f"{served}/", timeout=5) as page:
        lines = [line for line in page.read().decode().splitlines() if line.startswith("curl")]
    assert len(lines) >= 5
    for line in lines:
        status = subprocess.run(
            ["bash", "-c", f"{line} --fail --output {tmp_path / 'answer'}"], check=False
        )
        assert status.returncode == 0, line


def test_the_table_of_settings_is_the_one_that_is_read() -> None:
    printed = re.findall(r"^\| `([A-Z_]+)` \| `(.*?)` \| (.*?) \|$", README, flags=re.MULTILINE)
    known = [(s.name, s.default.replace(f"{PROJECT}/", ""), s.meaning) for s in TABLE]
    assert printed == known
