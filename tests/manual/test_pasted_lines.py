"""Every line of the manual, pasted into a shell against a service over a socket."""

import shutil
import subprocess
from pathlib import Path

import pytest
from flask import Flask

from service.domain.rules import RULES
from tests.manual.reading import read

pytestmark = pytest.mark.skipif(not shutil.which("curl"), reason="no curl on this machine")

HOST = "http://localhost/"  # the address that pages of the test client are made for
FAILING = 'curl() { command curl --fail --max-time 60 "$@"; }\nset -o pipefail\n'


def pasted(app: Flask, paths: list[str]) -> list[str]:
    client = app.test_client()
    return [line for path in paths for line in read(client, path).pasted]


def run(lines: list[str], address: str, folder: Path) -> list[str]:
    """Each line by the shell, one after the other; those that fail or say nothing."""
    script = [FAILING]
    for number, line in enumerate(lines):
        asked = line.replace(HOST, f"{address}/")
        script.append(f"({asked}) > {folder}/{number} || echo {number}")
    shell = subprocess.run(
        ["bash"], input="\n".join(script), capture_output=True, text=True, check=False
    )
    failed = [lines[int(number)] for number in shell.stdout.split()]
    return failed + [line for n, line in enumerate(lines) if not (folder / str(n)).read_bytes()]


def test_every_line_about_a_question_answers(app: Flask, address: str, tmp_path: Path) -> None:
    description = app.test_client().get("/openapi.json").json
    asked = [one for methods in description["paths"].values() for one in methods.values()]
    ids = [one["operationId"] for one in asked]
    lines = pasted(app, [f"/docs/questions/{name}" for name in ids])
    assert len(lines) >= len(ids)
    assert run(lines, address, tmp_path) == []


def test_every_line_about_a_finding_answers(app: Flask, address: str, tmp_path: Path) -> None:
    lines = pasted(app, [f"/docs/findings/{rule.code}" for rule in RULES])
    assert len(lines) == len(RULES)
    assert run(lines, address, tmp_path) == []
    for number, rule in enumerate(RULES):
        assert f"/v1/why/{rule.code}" in (tmp_path / str(number)).read_text(), rule.code


def test_every_line_about_a_table_answers(app: Flask, address: str, tmp_path: Path) -> None:
    tables = [table["table"] for table in app.test_client().get("/v1/tables").json["tables"]]
    lines = pasted(app, [f"/docs/tables/{name}" for name in tables])
    assert len(lines) == 2 * len(tables)
    assert run(lines, address, tmp_path) == []


def test_the_lines_of_the_example_do_the_whole_job(
    app: Flask, address: str, tmp_path: Path
) -> None:
    lines = pasted(app, ["/docs/example"])
    assert run(lines, address, tmp_path) == []
    sound, spoiled, mended = (next(tmp_path.glob(str(n))).read_text() for n in range(3))
    assert sound.startswith("nothing-found")
    assert spoiled.startswith("mend-first")
    assert '"verdict": "mend-first"' in mended and '"24 in"' in mended
