"""A Python client, made of the published description, does the whole job."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

from service.api.description import FILE

JOB = Path(__file__).with_name("job.py")
PACKAGE = "dryfit_client"


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder that the client is made in; it must come out whole, without a warning."""
    pytest.importorskip("openapi_python_client", reason="openapi-python-client is not installed")
    folder = tmp_path_factory.mktemp("python")
    settings = folder / "settings.yml"
    settings.write_text("post_hooks: []\n", encoding="utf-8")
    generate = [
        sys.executable, "-m", "openapi_python_client", "generate", "--path", str(FILE),
        "--output-path", str(folder / PACKAGE), "--meta", "none", "--config", str(settings),
        "--fail-on-warning",
    ]  # fmt: skip
    run = subprocess.run(generate, capture_output=True, text=True, check=False)
    assert run.returncode == 0, run.stdout + run.stderr
    return folder


def test_it_does_the_whole_job(made: Path, address: str, draft: Path, expected: list[str]) -> None:
    run = subprocess.run(
        [sys.executable, str(JOB), address, str(draft)],
        env={**os.environ, "PYTHONPATH": str(made)}, capture_output=True, text=True, check=False,
    )  # fmt: skip
    assert run.returncode == 0, run.stderr
    told = run.stdout.replace("True", "true").replace("False", "false").splitlines()
    assert [line[: len(want)] for line, want in zip(told, expected, strict=True)] == expected


def test_what_is_written_with_it_is_typed(made: Path) -> None:
    run = subprocess.run(
        [sys.executable, "-m", "mypy", "--strict", "--follow-imports=silent",
         "--config-file=", f"--cache-dir={made / 'cache'}", str(JOB)],
        env={**os.environ, "MYPYPATH": str(made)}, capture_output=True, text=True, check=False,
    )  # fmt: skip
    assert run.returncode == 0, run.stdout + run.stderr
